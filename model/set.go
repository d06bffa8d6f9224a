package model

import (
	"cmp"
	"slices"
	"strings"

	"heartside/model/say"
)

// Set is panels that are seen together and judged as one face: a pair of
// doors, a row of drawer fronts, a case front.
type Set struct {
	Name   string
	Panels []string // ids, two or more, in the order they stand
	Gap    float64  // between neighbours, mm
	Way    SetWay   // "" = beside
	Match  SetMatch // "" = none
}

// SetWay is how the panels of a set stand to each other.
type SetWay string

// Ways of a set.
const (
	// Beside: one behind another across the grain, so that the strips go on
	// front to back over the gap, as with two doors or drawer fronts one
	// above another.
	Beside SetWay = "beside"
	// Along: end to end along the grain, as with drawer fronts in a row.
	Along SetWay = "along"
)

// SetMatch is how the grain of a set's panels is to match.
type SetMatch string

// Matches of a set.
const (
	MatchNone     SetMatch = "none"
	MatchMirrored SetMatch = "mirrored" // each is the mirror image of the one before
	MatchSlipped  SetMatch = "slipped"  // each repeats the one before
	MatchInOrder  SetMatch = "in-order" // the wood runs on from one to the next
)

// DefaultGap is the gap of a set that does not say, mm; common practice
// between doors and drawer fronts, no source.
const DefaultGap = 3

// mostGap bounds the gap of a set, mm: panels further apart are not seen as
// one face. Engineering choice.
const mostGap = 100

// NewSet returns a set of panels beside each other with the usual gap.
func NewSet(name string, panels ...string) Set {
	return Set{Name: name, Panels: cloneSlice(panels), Gap: DefaultGap, Way: Beside, Match: MatchNone}
}

// Set returns the set with the name and whether there is one. Its list of
// panels is not to be changed.
func (p *Project) Set(name string) (Set, bool) {
	if i := p.setIndex(name); i >= 0 {
		return p.Sets[i], true
	}
	return Set{}, false
}

func (p *Project) setIndex(name string) int {
	return slices.IndexFunc(p.Sets, func(s Set) bool { return s.Name == name })
}

func cloneSet(s Set) Set {
	s.Panels = cloneSlice(s.Panels)
	s.Way, s.Match = cmp.Or(s.Way, Beside), cmp.Or(s.Match, MatchNone)
	return s
}

func cloneSets(list []Set) []Set {
	out := cloneSlice(list)
	for i := range out {
		out[i] = cloneSet(out[i])
	}
	return out
}

func (c *checker) sets(p *Project, panels map[string]bool) {
	names := map[string]bool{}
	for _, s := range p.Sets {
		at := RuleError{Set: s.Name}
		fail := func(r Rule, where, detail string) {
			e := at
			e.Rule, e.Where, e.Detail = r, where, detail
			c.fail(e)
		}
		if strings.TrimSpace(s.Name) == "" {
			fail(RuleEmptyID, "sets", say.T("a set has no name"))
			continue
		}
		if names[s.Name] {
			fail(RuleDuplicateID, "", say.T("two sets have this name"))
		}
		names[s.Name] = true
		if len(s.Panels) < 2 {
			fail(RuleSet, "panels", say.F("a set needs two panels or more, it has %d", len(s.Panels)))
		}
		seen := map[string]bool{}
		for _, id := range s.Panels {
			e := at
			e.Panel, e.Where = id, "panels"
			switch {
			case !panels[id]:
				e.Rule, e.Detail = RuleUnknownPanel, say.T("there is no such panel")
				c.fail(e)
			case seen[id]:
				e.Rule, e.Detail = RuleSet, say.T("it stands twice in the set")
				c.fail(e)
			}
			seen[id] = true
		}
		if !within(s.Gap, 0, mostGap) {
			fail(RuleGap, "gap", say.F("a gap of %g mm cannot be", s.Gap))
		}
		c.word(at, "way", string(s.Way), "", string(Beside), string(Along))
		c.word(at, "match", string(s.Match), "", string(MatchNone), string(MatchMirrored), string(MatchSlipped), string(MatchInOrder))
	}
}
