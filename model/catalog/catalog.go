package catalog

import (
	"cmp"
	"slices"
	"strings"
	"sync"

	"heartside/assets"
)

// loaded parses the tables once. They are built in and tested, so a fault in
// them is one of the program.
var loaded = sync.OnceValue(func() *table {
	var data [3][]byte
	for i, name := range []string{"species.csv", "sources.yaml", "swatches.yaml"} {
		b, err := assets.Tables.ReadFile("tables/" + name)
		if err != nil {
			panic("catalog: " + err.Error())
		}
		data[i] = b
	}
	t, err := parse(data[0], data[1], data[2])
	if err != nil {
		panic("catalog: " + err.Error())
	}
	return t
})

// Find returns the species with the id. For one that is not in the table the
// result holds the id alone and Known reports false.
func Find(id string) Species {
	t := loaded()
	if i, ok := t.byID[id]; ok {
		return t.species[i]
	}
	return Species{ID: id}
}

// All returns every species of the table, by name.
func All() []Species {
	out := slices.Clone(loaded().species)
	slices.SortFunc(out, func(a, b Species) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), cmp.Compare(a.ID, b.ID))
	})
	return out
}

// Sources returns the publications and computations the values come from.
func Sources() []Source { return slices.Clone(loaded().sources) }

// SourceOf returns the source with the id, the zero Source for none.
func SourceOf(id string) Source {
	for _, s := range loaded().sources {
		if s.ID == id {
			return s
		}
	}
	return Source{}
}

// Nearest returns the id of the species whose name is most like id, in any
// order of words: "black-walnut" gives "walnut-black". It is "" where nothing
// is like it.
func Nearest(id string) string {
	want := words(ID(id))
	best, at := "", 1<<30
	for _, s := range All() {
		d := apart(want, words(s.ID))
		if d < at {
			best, at = s.ID, d
		}
	}
	if n := len(strings.Join(want, "")); n == 0 || at > 2+n*10/3 {
		return ""
	}
	return best
}

func words(id string) []string {
	w := strings.Split(id, "-")
	slices.Sort(w)
	return w
}

// apart counts, in tenths, the letters by which the words asked for differ
// from the nearest words of a name; words of the name that are not asked for
// count a tenth of their letters.
func apart(asked, name []string) int {
	left := slices.Clone(name)
	sum := 0
	for _, a := range asked {
		best, at := 10*len(a), -1
		for i, w := range left {
			if d := 10 * Distance(a, w); d < best {
				best, at = d, i
			}
		}
		sum += best
		if at >= 0 {
			left = slices.Delete(left, at, at+1)
		}
	}
	for _, w := range left {
		sum += len(w)
	}
	return sum
}

// Distance returns how many letters must be put in, taken out or changed to
// make b of a.
func Distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	prev := make([]int, len(y)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := range x {
		diag := prev[0]
		prev[0] = i + 1
		for j := range y {
			up := prev[j+1]
			cost := 1
			if x[i] == y[j] {
				cost = 0
			}
			prev[j+1] = min(diag+cost, up+1, prev[j]+1)
			diag = up
		}
	}
	return prev[len(y)]
}
