package model

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"heartside/model/say"
	"heartside/model/unit"
)

// currencyCode is the form of a code of ISO 4217. Which codes there are changes
// more often than this program.
var currencyCode = regexp.MustCompile("^[A-Z]{3}$")

// GoodCurrency reports whether a text has the form of a currency's code.
func GoodCurrency(code string) bool { return currencyCode.MatchString(code) }

const (
	minSize  = 0.001 // mm; the least length a project file holds
	maxSize  = 20000 // mm; longer than any board a workshop handles
	maxIDLen = 40    // characters; ids are chalked and printed
)

// Validate returns nil where p keeps every rule, else the broken ones as
// RuleErrors joined, boards first, then panels, spares and settings.
func Validate(p *Project) error { return validateChanged(nil, p) }

// validateChanged checks q, sparing the boards and panels that old holds by
// the same pointer: those have been checked.
func validateChanged(old, q *Project) error {
	if q == nil {
		return RuleError{Rule: RuleMissing, Detail: say.T("there is no project")}
	}
	c := &checker{boards: map[string]*Board{}}
	known := map[any]bool{}
	if old != nil {
		for _, b := range old.Boards {
			known[b] = true
		}
		for _, n := range old.Panels {
			known[n] = true
		}
	}
	sameBoards := old != nil && len(old.Boards) == len(q.Boards)
	for _, b := range q.Boards {
		if b == nil {
			c.fail(RuleError{Rule: RuleMissing, Detail: say.T("a board is nil")})
			continue
		}
		if c.boards[b.ID] != nil {
			c.fail(RuleError{Rule: RuleDuplicateID, Board: b.ID, Detail: say.T("two boards have this id")})
		}
		c.boards[b.ID] = b
		if !known[b] {
			c.board(b)
			sameBoards = false
		}
	}
	panels := map[string]bool{}
	for _, n := range q.Panels {
		if n == nil {
			c.fail(RuleError{Rule: RuleMissing, Detail: say.T("a panel is nil")})
			continue
		}
		if panels[n.ID] {
			c.fail(RuleError{Rule: RuleDuplicateID, Panel: n.ID, Detail: say.T("two panels have this id")})
		}
		panels[n.ID] = true
		if !known[n] || !sameBoards {
			c.panel(n)
		}
	}
	c.strips("", "spares", q.Spares)
	for i := range q.Spares {
		if q.Spares[i].Board == "" {
			c.fail(RuleError{Rule: RuleEmptyPlace, Strip: q.Spares[i].ID, Where: "spares", Detail: say.T("a spare has no board")})
		}
	}
	c.settings(q)
	c.clear(q.Clear)
	c.joined(q, panels)
	c.kept(q, panels)
	c.sets(q, panels)
	c.parts(q, panels)
	c.colours(q)
	c.printed(q)
	c.record(q.Record)
	if old == nil || old.Yard != q.Yard {
		c.yard(q.Yard)
	}
	return errors.Join(c.errs...)
}

// checker gathers broken rules.
type checker struct {
	boards map[string]*Board
	errs   []error
}

func (c *checker) fail(e RuleError) { c.errs = append(c.errs, e) }

func (c *checker) settings(p *Project) {
	switch p.Units {
	case "", unit.MM, unit.Inch:
	default:
		c.fail(RuleError{Rule: RuleWord, Where: "units", Detail: say.F("%q is not mm or inch", p.Units)})
	}
	if p.Currency != "" && !GoodCurrency(p.Currency) {
		c.fail(RuleError{Rule: RuleCurrency, Where: "currency", Detail: say.F("%s is no code of a currency", quote(p.Currency))})
	}
	for _, a := range []struct {
		name string
		air  Air
	}{{"now", p.Climate.Now}, {"dry", p.Climate.Dry}, {"wet", p.Climate.Wet}} {
		if !within(a.air.RH, 0, 100) || !within(a.air.Temp, -50, 80) {
			c.fail(RuleError{Rule: RuleClimate, Where: "climate, " + a.name,
				Detail: say.F("%g per cent at %g degrees C is no indoor air", a.air.RH, a.air.Temp)})
		}
		if a.air.MC != 0 && !within(a.air.MC, 2, 30) {
			c.fail(RuleError{Rule: RuleClimate, Where: "climate, " + a.name,
				Detail: say.F("a moisture content of %g per cent is no reading of dry wood", a.air.MC)})
		}
	}
	c.share(RuleError{Where: "limits, streak"}, p.Limits.Streak)
	c.share(RuleError{Where: "limits, mix"}, p.Limits.Mix[0])
	c.share(RuleError{Where: "limits, mix"}, p.Limits.Mix[1])
	for _, v := range []struct {
		name string
		mm   float64
	}{{say.T("limits, cup"), p.Limits.Cup}, {say.T("limits, apart"), p.Limits.Apart}, {say.T("limits, planed"), p.Limits.Planed}, {say.T("limits, turns"), float64(p.Limits.Turns)}} {
		if !within(v.mm, 0, 100) {
			c.fail(RuleError{Rule: RuleAllowance, Where: v.name, Detail: say.F("a limit of %g mm cannot be", v.mm)})
		}
	}
	if p.Limits.Mix[0] > p.Limits.Mix[1] {
		c.fail(RuleError{Rule: RuleMixOrder, Where: "limits, mix",
			Detail: say.F("%g comes before %g", p.Limits.Mix[0], p.Limits.Mix[1])})
	}
	if b := p.Behaviour; b.SapFactor != 0 && !within(b.SapFactor, 0.5, 1.5) || !within(b.FaceDifference, 0, 10) {
		c.fail(RuleError{Rule: RuleBehaviour, Where: "behaviour",
			Detail: say.F("a factor of %g for sapwood and %g points between the faces cannot be", b.SapFactor, b.FaceDifference)})
	}
	a, m := p.Allowances, p.Machines
	for _, v := range []struct {
		name string
		mm   float64
	}{
		{say.T("allowances, kerf"), a.Kerf}, {say.T("allowances, rest"), a.Rest}, {say.T("allowances, joint"), a.Joint},
		{say.T("allowances, ends"), a.Ends}, {say.T("allowances, panel-edge"), a.PanelEdge}, {say.T("allowances, after-glue"), a.AfterGlue},
		{say.T("allowances, snipe"), a.Snipe}, {say.T("allowances, flaw-margin"), a.FlawMargin},
		{say.T("machines, flatten"), m.Flatten}, {say.T("machines, thickness"), m.Thickness},
		{say.T("machines, shortest"), m.Shortest}, {say.T("machines, narrowest"), m.Narrowest},
	} {
		if !(v.mm >= 0 && v.mm < maxSize) {
			c.fail(RuleError{Rule: RuleAllowance, Where: v.name, Detail: say.F("%g mm cannot be", v.mm)})
		}
	}
}

func (c *checker) joined(p *Project, panels map[string]bool) {
	for i, j := range p.Joined {
		where := fmt.Sprintf("joined, entry %d", i+1)
		for _, id := range j.Panels {
			if !panels[id] {
				c.fail(RuleError{Rule: RuleUnknownPanel, Panel: id, Where: where, Detail: say.T("there is no such panel")})
			}
		}
		if j.Panels[0] == j.Panels[1] {
			c.fail(RuleError{Rule: RuleJoined, Panel: j.Panels[0], Where: where, Detail: say.T("a panel cannot be joined to itself")})
		}
		if j.How != "fixed" && j.How != "free" {
			c.fail(RuleError{Rule: RuleJoined, Where: where, Detail: say.F("%q is not fixed or free", j.How)})
		}
	}
}

func (c *checker) kept(p *Project, panels map[string]bool) {
	seen := map[[2]string]bool{}
	for _, k := range p.Kept {
		where := "kept arrangement " + quote(k.Name)
		if strings.TrimSpace(k.Name) == "" {
			c.fail(RuleError{Rule: RuleEmptyID, Panel: k.Panel, Where: "kept", Detail: say.T("an arrangement has no name")})
		}
		if !panels[k.Panel] {
			c.fail(RuleError{Rule: RuleUnknownPanel, Panel: k.Panel, Where: where, Detail: say.T("there is no such panel")})
		}
		if key := [2]string{k.Panel, k.Name}; seen[key] {
			c.fail(RuleError{Rule: RuleDuplicateID, Panel: k.Panel, Where: where, Detail: say.T("two arrangements have this name")})
		} else {
			seen[key] = true
		}
		c.strips(k.Panel, where, k.Strips)
	}
}

func (c *checker) colours(p *Project) {
	for i, k := range p.Colours {
		where := fmt.Sprintf("colours, entry %d", i+1)
		if strings.TrimSpace(k.Species) == "" {
			c.fail(RuleError{Rule: RuleSpecies, Where: where, Detail: say.T("the colours have no species")})
		}
		if !within(k.Years, 0, 500) {
			c.fail(RuleError{Rule: RuleColour, Where: where, Detail: say.F("%g years cannot be", k.Years)})
		}
		if k.Heart == nil && k.Sap == nil {
			c.fail(RuleError{Rule: RuleColour, Where: where, Detail: say.T("neither heartwood nor sapwood has a colour")})
		}
		if l := k.Heart; l != nil && !(within(l.L, 0, 100) && within(l.A, -128, 128) && within(l.B, -128, 128)) {
			c.fail(RuleError{Rule: RuleColour, Where: where + ", heart", Detail: say.T("this is no colour of wood")})
		}
		if l := k.Sap; l != nil && !(within(l.L, 0, 100) && within(l.A, -128, 128) && within(l.B, -128, 128)) {
			c.fail(RuleError{Rule: RuleColour, Where: where + ", sap", Detail: say.T("this is no colour of wood")})
		}
	}
}

// share checks that v lies between 0 and 1.
func (c *checker) share(at RuleError, v float64) {
	if !within(v, 0, 1) {
		at.Rule, at.Detail = RuleShare, say.F("%g is no share", v)
		c.fail(at)
	}
}

// size checks that v is a length of something.
func (c *checker) size(at RuleError, name string, v float64) {
	if !(v >= minSize && v < maxSize) {
		at.Rule, at.Where, at.Detail = RuleSize, joinWhere(at.Where, name), say.F("a %s of %s mm cannot be", name, say.Number(v))
		c.fail(at)
	}
}

// id checks the letters of an id.
func (c *checker) id(at RuleError, id string) {
	if strings.TrimSpace(id) == "" {
		at.Rule, at.Detail = RuleEmptyID, say.T("it has no id")
		c.fail(at)
		return
	}
	if !goodID(id) {
		at.Rule, at.Detail = RuleID, say.F("the id %s cannot be printed and chalked", quote(id))
		c.fail(at)
	}
}

func goodID(id string) bool {
	last, n := ' ', 0
	for _, r := range id {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
		case n == 0:
			return false
		case r == '-' || r == '_' || r == '.':
		case r == ' ' && last != ' ':
		default:
			return false
		}
		last = r
		n++
	}
	return n <= maxIDLen && last != ' '
}

// within reports whether v lies in [lo, hi]; never for NaN.
func within(v, lo, hi float64) bool { return v >= lo && v <= hi }
