package sheet

import (
	"sort"
	"strings"

	"heartside/app/session"
	"heartside/layout/wood/moisture"
	"heartside/model/say"
)

// sourceLine is one line of where numbers come from.
type sourceLine struct {
	source string
	flag   moisture.Flag
	what   []string // formulas, or the sections that use it
	rank   int
}

// shortFormula is how long a formula may be to stand among the sources; longer
// ones are shown on screen.
const shortFormula = 60

// sourceLines gathers the sources of sections, each once. What is from memory
// comes first, then what nobody published.
func sourceLines(list []session.Section) []sourceLine {
	var out []sourceLine
	at := map[string]int{}
	for _, s := range list {
		for _, step := range s.How {
			step.Formula, step.Source = say.Of(step.Formula), say.Of(step.Source)
			rank := sourceRank(step.Flag)
			what := formulaOf(step.Formula)
			switch {
			case step.Source == "" && rank == 2:
				continue // arithmetic
			case step.Source != "" && (len(what) > shortFormula || rank == 2):
				what = say.Lower(s.Title)
			}
			key := step.Source + "\x00" + string(step.Flag)
			i, ok := at[key]
			if !ok {
				i = len(out)
				at[key] = i
				out = append(out, sourceLine{source: step.Source, flag: step.Flag, rank: rank})
			}
			out[i].add(what)
		}
	}
	sort.SliceStable(out, func(i, k int) bool { return out[i].rank < out[k].rank })
	return out
}

func (l *sourceLine) add(what string) {
	for _, w := range l.what {
		if w == what {
			return
		}
	}
	l.what = append(l.what, what)
}

// sourceRank puts what is least sure first.
func sourceRank(f moisture.Flag) int {
	switch f {
	case moisture.Memory:
		return 0
	case moisture.Choice, moisture.Practice, moisture.NoFlag:
		return 1
	}
	return 2
}

// formulaOf leaves out for which strip and season a step was worked out.
func formulaOf(s string) string {
	if strip, _, _ := strings.Cut(say.T("Strip %s: %s"), "%"); strings.HasPrefix(s, strip) {
		if _, rest, ok := strings.Cut(s, ": "); ok {
			s = rest
		}
	}
	return strings.TrimSuffix(s, ".")
}

// text is the line as printed.
func (l *sourceLine) text() string {
	what := strings.TrimSuffix(strings.Join(l.what, "; "), "?")
	if l.source == "" {
		return what + ": " + say.Of(l.flag.Text()) + "."
	}
	source := say.Upper(strings.TrimSuffix(l.source, "."))
	if strings.HasSuffix(source, say.Of("no source")) {
		return source + ": " + what + "."
	}
	return source + " (" + say.Of(l.flag.Text()) + "): " + what + "."
}

// sourceText is the block of sources.
func sourceText(list []session.Section) []paragraph {
	lines := sourceLines(list)
	if len(lines) == 0 {
		return nil
	}
	out := []paragraph{{text: say.T("Where the numbers come from"), bold: true, before: 1.6}}
	for i := range lines {
		mark := "–"
		if lines[i].rank == 0 {
			mark = "!"
		}
		out = append(out, paragraph{text: lines[i].text(), bullet: mark})
	}
	return out
}
