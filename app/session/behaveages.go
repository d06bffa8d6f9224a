package session

import (
	"fmt"
	"slices"
	"strings"

	"heartside/layout/colour"
	"heartside/layout/colour/ageing"
	"heartside/layout/face"
	"heartside/layout/wood/moisture"
	"heartside/model/catalog"
	"heartside/model/say"
)

// ageYears are the ages a panel is looked at.
var ageYears = [3]float64{0, 1, 10}

// toned are the colours of one wood of a panel over the years.
type toned struct {
	species    string
	heart, sap *ageing.Curve
}

// curvesOf are the colours of a board's wood over the years, from what is known
// of its face f, 1 or 2.
func (b *behaving) curvesOf(fb *face.Board, f int) (toned, error) {
	out := toned{species: fb.Species}
	sp := catalog.AgeingOf(fb.Species)
	own := &fb.Faces[f-1]
	points := func(heart bool) (list []ageing.Point) {
		for _, c := range b.p.Colours {
			lab := c.Heart
			if !heart {
				lab = c.Sap
			}
			if c.Species == fb.Species && lab != nil {
				list = append(list, ageing.Point{Years: c.Years, Lab: *lab})
			}
		}
		return list
	}
	today := func(seen *colour.Lab, drawn colour.Lab) ageing.Today {
		if seen != nil {
			return ageing.Today{Lab: *seen}
		}
		return ageing.Today{Lab: drawn, Spread: ageing.DrawnSpread}
	}
	var err error
	if out.heart, err = ageing.New(today(own.Heart, fb.AssumedHeart), sp.Heart, points(true)); err != nil {
		return out, err
	}
	out.sap, err = ageing.New(today(own.Sap, fb.AssumedSap), sp.Sap, points(false))
	return out, err
}

// tones are the woods of the panel's show face, each by the mean of its strips.
func (b *behaving) tones() ([]toned, error) {
	type sum struct {
		board      face.Board
		heart, sap colour.Mean
	}
	var order []string
	sums := map[string]*sum{}
	for i := range b.fp.Strips {
		st := &b.fp.Strips[i]
		if st.Board == nil {
			continue
		}
		s := sums[st.Board.Species]
		if s == nil {
			s = &sum{board: face.Board{Species: st.Board.Species, AssumedHeart: st.Board.AssumedHeart, AssumedSap: st.Board.AssumedSap}}
			sums[st.Board.Species] = s
			order = append(order, st.Board.Species)
		}
		f := &st.Board.Faces[st.UpFace()-1]
		if f.Heart != nil {
			s.heart.Add(*f.Heart, st.W)
		}
		if f.Sap != nil {
			s.sap.Add(*f.Sap, st.W)
		}
	}
	var out []toned
	for _, id := range order {
		s := sums[id]
		if c, ok := s.heart.Lab(); ok {
			s.board.Faces[0].Heart = &c
		}
		if c, ok := s.sap.Lab(); ok {
			s.board.Faces[0].Sap = &c
		}
		t, err := b.curvesOf(&s.board, 1)
		if err != nil {
			return nil, err
		}
		out = append(out, t)
	}
	return out, nil
}

// agedPanel is the panel with its woods as they are after some years, by the
// mean colours of their zones.
func (b *behaving) agedPanel(years float64) (*face.Panel, error) {
	out := *b.fp
	out.Strips = slices.Clone(b.fp.Strips)
	made := map[*face.Board]*face.Board{}
	for i := range out.Strips {
		st := &out.Strips[i]
		if st.Board == nil {
			continue
		}
		wood := st.Wood(b.fp)
		if made[wood] == nil {
			c := *wood
			c.Deep, c.Ageing = nil, nil
			for f := range c.Faces {
				t, err := b.curvesOf(wood, f+1)
				if err != nil {
					return nil, err
				}
				heart, sap := t.heart.At(years).Lab, t.sap.At(years).Lab
				c.Faces[f].Heart, c.Faces[f].Sap, c.Faces[f].Field = &heart, &sap, nil
			}
			made[wood] = &c
		}
		st.Board = made[wood]
	}
	return &out, nil
}

// agedReadings are the readings of the panel at each age.
func (b *behaving) agedReadings() (out [3]*face.Reading, err error) {
	for i, years := range ageYears {
		p, err := b.agedPanel(years)
		if err != nil {
			return out, err
		}
		out[i] = face.ReadFull(p)
	}
	return out, nil
}

func (b *behaving) agesSection() (Section, bool) {
	if b.read.Placed == 0 {
		return Section{}, false
	}
	list, err := b.tones()
	if err != nil {
		return Section{}, false
	}
	reads, err := b.agedReadings()
	if err != nil {
		return Section{}, false
	}
	out := Section{ID: "ageing", Title: say.T("Colour in one year and in ten")}
	known := false
	out.Rows = []Row{{Values: []string{say.T("now"), say.T("1 year"), say.T("10 years")}, Head: true}}
	for _, t := range list {
		o := ageing.OutlookOf(t.heart, t.sap)
		name := woodOf(t.species, 1).Name
		sp := catalog.AgeingOf(t.species)
		contrast := Row{Name: say.F("%s, contrast", name)}
		bounds := Row{Name: say.T("may be"), Quiet: true}
		for _, c := range []ageing.Contrast{o.Now, o.One, o.Ten} {
			contrast.Values = append(contrast.Values, say.Print("%.0f", c.DE))
			bounds.Values = append(bounds.Values, say.F("%.0f to %.0f", c.Low, c.High))
		}
		out.Rows = append(out.Rows, contrast, bounds)
		for _, w := range []struct {
			name  string
			curve *ageing.Curve
			c     *ageing.Course
		}{{say.T("heartwood"), t.heart, &sp.Heart}, {say.T("sapwood"), t.sap, &sp.Sap}} {
			tone := Tones{Name: name + ", " + w.name, Basis: say.Of(w.curve.Basis().String()), Sap: w.c == &sp.Sap}
			for i, y := range ageYears {
				tone.At[i] = w.curve.At(y).Lab
			}
			out.Tones = append(out.Tones, tone)
			if w.curve.Basis() != ageing.None {
				known = true
			}
			what := say.Of(w.c.Claim.Text)
			switch {
			case w.curve.Basis() == ageing.Measured:
				what = say.T("as you measured it")
			case what == "":
				what = say.Of(ageing.NoData)
			}
			out.Notes = append(out.Notes, fmt.Sprintf("%s, %s: %s.", name, w.name, what))
			for _, c := range w.curve.Explain() {
				out.How = append(out.How, claimStep(name+", "+w.name+": "+say.Of(c.Text), c))
			}
		}
		for _, c := range sp.Notes {
			out.Notes = append(out.Notes, say.Upper(say.Of(c.Text))+".")
		}
	}
	streaks := Row{Name: say.T("Lone streaks")}
	for _, r := range reads {
		streaks.Values = append(streaks.Values, fmt.Sprint(r.Show.Lone()))
	}
	out.Rows = append(out.Rows, streaks)
	out.Lead = b.agesLead(reads, known)
	if reads[1].Show.Lone() > reads[0].Show.Lone() || reads[2].Show.Lone() > reads[0].Show.Lone() {
		out.Strong = true
	}
	out.Notes = append(out.Notes, say.T("Sizes of change are illustrations in the direction that is known, unless you enter measured colours. Test on an offcut of the same board, heart and sap, with the whole finish."))
	out.How = append(out.How, moisture.Step{Formula: say.T("contrast: CIEDE2000 between the mean colours of heartwood and sapwood; lone streaks: read with those colours in place of today's"),
		Source: say.T("Sharma, Wu, Dalal, Color Research and Application 30(1), 2005"), Flag: moisture.Read})
	return out, true
}

func (b *behaving) agesLead(reads [3]*face.Reading, known bool) string {
	now := reads[0].Show.Lone()
	for i := 1; i < 3; i++ {
		if n := reads[i].Show.Lone(); n > now {
			return say.F("%s that does not stand out today may in %s.", countOf(n-now, say.T("A streak"), say.T("streaks")), []string{"", say.T("one year"), say.T("ten years")}[i])
		}
	}
	switch {
	case !known:
		return say.T("No measured data of these woods: the colours are shown as they are today.")
	case reads[2].Show.Lone() < now:
		return say.T("The contrast falls: a streak that stands out today may not in ten years.")
	}
	return say.T("No streak comes or goes with the years, as far as is known.")
}

// countOf is one thing in words, or a number of them.
func countOf(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func claimStep(text string, c ageing.Claim) moisture.Step {
	flag := moisture.NoFlag
	switch c.Flag {
	case ageing.Read:
		flag = moisture.Read
	case ageing.Secondary:
		flag = moisture.Secondary
	case ageing.Memory:
		flag = moisture.Memory
	case ageing.Practice:
		flag = moisture.Practice
	}
	src := say.Of(c.Cited)
	if c.Flag == ageing.Illustration {
		src = strings.TrimSpace(src + say.T(" An illustration, not a measurement."))
	}
	if c.Kin {
		src = strings.TrimSpace(src + say.T(" Found on a near relative."))
	}
	return moisture.Step{Formula: text, Source: src, Flag: flag}
}

func (b *behaving) dyeSection() (Section, bool) {
	if b.read.Placed == 0 || b.read.Show.Light.Value == 0 || b.fp.Wanted != face.WantHeart {
		return Section{}, false
	}
	list, err := b.tones()
	if err != nil || len(list) != 1 {
		return Section{}, false // woods of several kinds are each a matter of their own
	}
	t := list[0]
	area := b.read.Show.Light.Value * b.read.Show.Area
	if b.fp.BothShow {
		area += b.read.Back.Light.Value * b.read.Back.Area
	}
	plan, err := ageing.PlanDye(t.heart, t.sap, area/1e6, catalog.AgeingOf(t.species).Cautions)
	if err != nil {
		return Section{}, false
	}
	out := Section{ID: "dye", Title: say.T("Toning or dyeing the sapwood")}
	out.Lead = say.F("%s of sapwood would be coloured. Test pieces to reserve: %s.", b.s.Area(area), say.Of(plan.Pieces.String()))
	out.Rows = []Row{{Name: say.T("Dyed to"), Values: []string{say.T("off now"), say.T("1 year"), say.T("10 years")}, Head: true}}
	row := func(name string, o ageing.Outlook) {
		r := Row{Name: name}
		for _, c := range []ageing.Contrast{o.Now, o.One, o.Ten} {
			r.Values = append(r.Values, say.Print("%.0f", c.DE))
		}
		out.Rows = append(out.Rows, r)
	}
	row(say.T("left as it is"), plan.Undyed)
	for _, m := range plan.Matches {
		name := say.Of(m.Aim.String())
		if m.TooLight {
			name += say.T(" (lighter than the sapwood: dye only darkens)")
		}
		row(name, m.Outlook)
		out.Tones = append(out.Tones, Tones{Name: say.F("Dyed to %s", say.Of(m.Aim.String())), Basis: say.T("predicted"), Sap: true, At: [3]colour.Lab{m.Colour, m.Colour, m.Colour}})
	}
	if m, ok := plan.Steadiest(); ok {
		out.Notes = append(out.Notes, say.F("Steadiest over ten years: dyed to %s.", say.Of(m.Aim.String())))
	} else {
		out.Notes = append(out.Notes, say.F("How the heartwood changes is not known (%s), so no aim is better than another.", say.Of(ageing.NoData)))
	}
	out.Notes = append(out.Notes, say.T("The figures are colour differences from the heartwood; under 2 the eye calls it one colour. Dye stays put while the heartwood goes on changing."))
	for _, c := range plan.Cautions {
		out.Notes = append(out.Notes, say.Upper(say.Of(c.Text))+".")
		out.How = append(out.How, claimStep(say.Of(c.Text), c))
	}
	return out, true
}
