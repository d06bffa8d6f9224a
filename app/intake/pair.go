package intake

import (
	"cmp"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Picture is a photograph to be taken in.
type Picture struct {
	Path  string
	Taken time.Time // zero where the camera did not say
}

// How says how a picture came to its place.
type How int

// Ways of knowing, surest first.
const (
	ByName  How = iota // the name holds the board's letter and the part
	ByGroup            // names that differ in their last sign go together; which board was counted off
	ByOrder            // only the order of the pictures spoke for it
	Unknown            // nothing did
)

// Pairing is a picture and the place thought to be its own.
type Pairing struct {
	Picture Picture
	Place   Place
	How     How
}

// Sure reports whether the pairing needs no question.
func (p Pairing) Sure() bool { return p.How == ByName }

// Pair finds a place for each picture, in the order in which they were taken
// or, where that is not known, of their names. wanted are the boards that wait
// for pictures, in the order of the stack; taken tells which places have one
// already. Names are read first; what they leave open is counted off in pairs,
// face 1 before face 2.
func Pair(pictures []Picture, wanted []string, taken func(Place) bool) []Pairing {
	out := make([]Pairing, len(pictures))
	stems := make([]stem, len(pictures))
	for i, p := range pictures {
		out[i] = Pairing{Picture: p, How: Unknown}
		stems[i] = stemOf(p.Path)
	}
	pr := pairer{out: out, stems: stems, wanted: wanted, used: map[Place]bool{}, taken: taken}
	pr.order()
	pr.byName()
	pr.byGroup()
	pr.byOrder()
	return out
}

type pairer struct {
	out    []Pairing
	stems  []stem
	wanted []string
	used   map[Place]bool
	taken  func(Place) bool
}

func (p *pairer) free(at Place) bool {
	return !p.used[at] && (p.taken == nil || !p.taken(at))
}

func (p *pairer) put(i int, at Place, how How) {
	p.out[i].Place, p.out[i].How = at, how
	p.used[at] = true
}

// order sorts the pictures as they were taken.
func (p *pairer) order() {
	dated := !slices.ContainsFunc(p.out, func(q Pairing) bool { return q.Picture.Taken.IsZero() })
	index := make([]int, len(p.out))
	for i := range index {
		index[i] = i
	}
	slices.SortStableFunc(index, func(a, b int) int {
		if dated {
			if c := p.out[a].Picture.Taken.Compare(p.out[b].Picture.Taken); c != 0 {
				return c
			}
		}
		return natural(p.stems[a].whole, p.stems[b].whole)
	})
	out, stems := slices.Clone(p.out), slices.Clone(p.stems)
	for to, from := range index {
		p.out[to], p.stems[to] = out[from], stems[from]
	}
}

// byName takes names that hold the letter of a board and a part.
func (p *pairer) byName() {
	for i, s := range p.stems {
		for _, id := range p.wanted {
			at := Place{id, s.part}
			if s.part != NoPart && s.names(id) && p.free(at) {
				p.put(i, at, ByName)
			}
		}
	}
}

// byGroup takes names alike but for the part: they are of one board, the
// next that waits.
func (p *pairer) byGroup() {
	groups := map[string][]int{}
	var heads []string
	for i, s := range p.stems {
		if p.out[i].How != Unknown {
			continue
		}
		if _, ok := groups[s.head]; !ok {
			heads = append(heads, s.head)
		}
		groups[s.head] = append(groups[s.head], i)
	}
	for _, h := range heads {
		members := groups[h]
		seen := map[Part]bool{}
		for _, i := range members {
			seen[p.stems[i].part] = true
		}
		if len(members) < 2 || len(seen) != len(members) || seen[NoPart] || p.running(h) {
			continue
		}
		id, ok := p.next(func(id string) bool {
			return !slices.ContainsFunc(members, func(i int) bool { return !p.free(Place{id, p.stems[i].part}) })
		})
		if !ok {
			continue
		}
		for _, i := range members {
			p.put(i, Place{id, p.stems[i].part}, ByGroup)
		}
	}
}

// running reports whether names of this head carry a running number: it has
// other signs than those of the parts.
func (p *pairer) running(head string) bool {
	return slices.ContainsFunc(p.stems, func(s stem) bool { return s.part == NoPart && s.series == head })
}

// next returns the first board that waits and fits.
func (p *pairer) next(fits func(id string) bool) (string, bool) {
	for _, id := range p.wanted {
		if fits(id) {
			return id, true
		}
	}
	return "", false
}

// byOrder counts off what is left: two pictures a board.
func (p *pairer) byOrder() {
	for i := range p.out {
		// The name of an end whose board is not known is no face of another.
		if part := p.stems[i].part; p.out[i].How != Unknown || part == EndA || part == EndB {
			continue
		}
		for _, id := range p.wanted {
			at := Place{id, Face1}
			if !p.free(at) {
				at.Part = Face2
			}
			if p.free(at) {
				p.put(i, at, ByOrder)
				break
			}
		}
	}
}

// stem is what the name of a picture says.
type stem struct {
	whole string // without folder and ending, lower case
	head  string // before the sign of the part
	part  Part
	// series is what stands before the last word where there is one.
	series string
}

// partSigns are the last words of a name that tell the part.
var partSigns = map[string]Part{
	"1": Face1, "2": Face2, "face1": Face1, "face2": Face2, "f1": Face1, "f2": Face2,
	"a": EndA, "b": EndB, "enda": EndA, "endb": EndB, "markedend": EndA, "otherend": EndB,
}

// stemOf reads a name such as "A1", "board-C face 2", "oak_3-b".
func stemOf(path string) stem {
	name := filepath.Base(filepath.ToSlash(path))
	s := stem{whole: strings.ToLower(strings.TrimSuffix(name, filepath.Ext(name)))}
	words := wordsOf(s.whole)
	if n := len(words); n > 1 {
		s.series = strings.Join(words[:n-1], " ")
	}
	for n := min(2, len(words)-1); n >= 1; n-- {
		tail := strings.Join(words[len(words)-n:], "")
		if part, ok := partSigns[tail]; ok {
			s.part, s.head = part, strings.Join(words[:len(words)-n], " ")
			return s
		}
	}
	s.head = strings.Join(words, " ")
	return s
}

// names reports whether the head of the name is the letter of a board, perhaps
// after the word board.
func (s stem) names(id string) bool {
	want := strings.Join(wordsOf(strings.ToLower(id)), " ")
	return want != "" && (s.head == want || s.head == "board "+want)
}

// wordsOf cuts a name where letters, figures and other signs meet.
func wordsOf(s string) []string {
	kind := func(r rune) int {
		switch {
		case unicode.IsLetter(r):
			return 1
		case unicode.IsDigit(r):
			return 2
		}
		return 0
	}
	var out []string
	last := 0
	for _, r := range s {
		k := kind(r)
		switch {
		case k == 0:
		case k == last:
			out[len(out)-1] += string(r)
		default:
			out = append(out, string(r))
		}
		last = k
	}
	return out
}

// natural orders names with the numbers in them as numbers.
func natural(a, b string) int {
	x, y := wordsOf(a), wordsOf(b)
	for i := 0; i < len(x) && i < len(y); i++ {
		n, errN := strconv.ParseUint(x[i], 10, 64)
		m, errM := strconv.ParseUint(y[i], 10, 64)
		c := strings.Compare(x[i], y[i])
		if errN == nil && errM == nil {
			c = cmp.Compare(n, m)
		}
		if c != 0 {
			return c
		}
	}
	if c := cmp.Compare(len(x), len(y)); c != 0 {
		return c
	}
	return strings.Compare(a, b)
}
