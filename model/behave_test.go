package model

import "testing"

// What cannot be of a panel's fitting, its edges and the wood is refused, and
// what just can is not.
func TestBehaviourRules(t *testing.T) {
	panel := func(f *Fitting, ps Profiles) *Project {
		p := NewProject()
		n := NewPanel("top", RoleTop, 900, 450, 20)
		n.Fitting, n.Profiles = f, ps
		p.Panels = []*Panel{n}
		return p
	}
	wood := func(b Behaviour, now Air) *Project {
		p := NewProject()
		p.Behaviour, p.Climate.Now = b, now
		return p
	}
	room := Air{RH: 45, Temp: 20}
	for _, c := range []struct {
		name string
		p    *Project
		rule Rule // "" is fine
	}{
		{"nothing said", panel(nil, Profiles{}), ""},
		{"slots", panel(&Fitting{Held: HeldSlots, Line: LineFront, Rows: []float64{0, 450}}, Profiles{}), ""},
		{"a row beside the panel", panel(&Fitting{Rows: []float64{451}}, Profiles{}), RuleFitting},
		{"a groove deeper than any", panel(&Fitting{Groove: 51}, Profiles{}), RuleFitting},
		{"an unknown way", panel(&Fitting{Held: "nailed"}, Profiles{}), RuleWord},
		{"a bevel", panel(nil, Profiles{{ProfileBevel, 224, 19.5}}), ""},
		{"a bevel past the middle", panel(nil, Profiles{{ProfileBevel, 225, 8}}), RuleProfile},
		{"a bevel through", panel(nil, Profiles{{}, {ProfileBevel, 20, 20}}), RuleProfile},
		{"an end may be worked wider", panel(nil, Profiles{2: {ProfileRound, 300, 8}}), ""},
		{"a round without a size", panel(nil, Profiles{{Kind: ProfileRound}}), RuleProfile},
		{"a size without a kind", panel(nil, Profiles{{Across: 3, Down: 3}}), RuleProfile},
		{"sapwood that moves more", wood(Behaviour{SapFactor: 1.5}, room), ""},
		{"sapwood that moves twice", wood(Behaviour{SapFactor: 2}, room), RuleBehaviour},
		{"faces far apart", wood(Behaviour{FaceDifference: 11}, room), RuleBehaviour},
		{"a reading of dry wood", wood(Behaviour{}, Air{RH: 45, Temp: 20, MC: 8}), ""},
		{"a reading of green wood", wood(Behaviour{}, Air{RH: 45, Temp: 20, MC: 60}), RuleClimate},
	} {
		err := Validate(c.p)
		if c.rule == "" {
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		wantRule(t, err, c.rule)
		if c.rule != RuleWord && c.rule.Hint() == "" {
			t.Errorf("%s: nothing is said about what to do", c.name)
		}
	}
}

// A copied panel shares nothing that an edit could write to.
func TestFittingIsCopied(t *testing.T) {
	n := NewPanel("top", RoleTop, 900, 450, 20)
	n.Fitting = &Fitting{Rows: []float64{50, 400}}
	c := clonePanel(n)
	c.Fitting.Rows[0] = 60
	if n.Fitting.Rows[0] != 50 {
		t.Error("a copy shares its rows")
	}
}

// Edges are known by the words of their panel's role, as the file may write
// them.
func TestSidesByWord(t *testing.T) {
	for _, c := range []struct {
		role Role
		word string
		want int // -1: none
	}{
		{RoleTop, "left", 2}, {RoleTop, "Back", 1}, {RoleSide, "top", 2}, {RoleSide, "bottom end", 3}, {RoleSide, "bottom", 3},
		{RoleSide, "back", 1}, {RoleDoor, "hinge", 0}, {RoleDoor, "closing edge", 1}, {RoleDrawerFront, "top", 1},
		{RoleDrawerFront, "bottom", 0}, {RoleDrawerFront, "right end", 3}, {RoleDoor, "front", 0}, {RoleOther, "hinge", -1}, {RoleTop, "", -1},
	} {
		got, ok := c.role.Side(c.word)
		if ok != (c.want >= 0) || ok && got != c.want {
			t.Errorf("%s, %q: %d %v, want %d", c.role, c.word, got, ok, c.want)
		}
	}
}
