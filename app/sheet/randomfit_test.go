package sheet

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/layout/wood/cup"
	"heartside/layout/wood/moisture"
)

// anyFit gives a panel a behaviour and ends such as no wood has: long words,
// ragged rows, many sections.
func anyFit(r *rand.Rand, in *Input, p *Panel) {
	if r.IntN(6) == 0 {
		return // nothing is known
	}
	words := func(most int) string {
		return strings.TrimSpace(strings.Repeat([]string{"wood ", "through the driest season ", "Unbrokenword", "1/32\" to −5/64\" "}[r.IntN(4)], r.IntN(most)))
	}
	section := func(id string) session.Section {
		s := session.Section{ID: id, Title: "Matter " + id + " " + words(4), Lead: words(9), Strong: r.IntN(4) == 0}
		for range r.IntN(14) {
			row := session.Row{Name: words(4), Head: r.IntN(4) == 0}
			for range r.IntN(5) {
				row.Values = append(row.Values, words(3))
			}
			s.Rows = append(s.Rows, row)
		}
		for range r.IntN(5) {
			s.Notes = append(s.Notes, words(40))
		}
		for i := range r.IntN(9) {
			s.How = append(s.How, moisture.Step{Formula: words(7), Source: words(5), Flag: []moisture.Flag{moisture.Read, moisture.Memory, moisture.Choice, moisture.NoFlag, moisture.Derived}[i%5]})
		}
		return s
	}
	b := &session.Behaviour{Air: section("air")}
	for _, id := range []string{"width", "fit", "joined", "cup", "ageing", "dye", stackID, "flatten"}[r.IntN(8):] {
		b.Sections = append(b.Sections, section(id))
	}
	p.Behaviour = b
	var strips []cup.Strip
	for i := range p.Panel.Strips {
		if s := &p.Panel.Strips[i]; s.Board != nil {
			strips = append(strips, cup.Strip{
				ID: in.number(p.Panel.ID, s.ID), Bark: cup.BarkUp, PithKnown: r.IntN(2) == 0,
				Section: cup.Section{Width: s.W, Thickness: p.Panel.Thickness, Pith: geom.Pt(s.W*(2*r.Float64()-0.5), -150*r.Float64()-1)},
				Strains: cup.Strains{R: -0.01, T: -0.02},
			})
		}
	}
	laid, err := cup.Of(strips)
	if err != nil {
		return
	}
	if v, err := laid.End(&laid.Smooth, 1e-9); err == nil && r.IntN(3) > 0 {
		p.Flat = &session.EndView{View: v}
	}
	for _, season := range []string{"Driest season", "Dampest season"}[r.IntN(2):] {
		v, err := laid.End(&laid.Smooth, 0)
		if err != nil {
			continue
		}
		e := &session.EndView{View: v, Bow: laid.Smooth.Sagitta}
		for _, s := range v.Strips {
			o := s.Outline.Bounds()
			e.Woods = append(e.Woods, session.EndWood{Sapwood: []geom.Polygon{geom.R(o.Min.X, o.Min.Y, o.Min.X+o.W()*r.Float64()+0.1, o.Max.Y).Polygon()}})
		}
		p.Ends = append(p.Ends, End{Season: season, View: e})
	}
}

// Every random panel with strips has its page, and most of them an end.
func TestRandomPanelsHaveFitPages(t *testing.T) {
	f := faces(t)
	pages, ends := 0, 0
	for seed := range uint64(20) {
		in := anyInput(rand.New(rand.NewPCG(seed, 1)), f)
		d, err := Build(in)
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]bool{}
		for i := range in.Panels {
			if p := &in.Panels[i]; len(p.Panel.Strips) > 0 {
				want[fmt.Sprintf("Glue-up and fit: %s", p.Panel.ID)] = true
				ends += len(p.Ends)
			}
		}
		for _, p := range d.Pages {
			if want[p.Title] {
				pages++
				delete(want, p.Title)
			}
		}
		if len(want) > 0 {
			t.Errorf("seed %d: no page %v", seed, want)
		}
	}
	if pages < 15 || ends < 15 {
		t.Errorf("%d pages with %d ends: the random projects do not cover them", pages, ends)
	}
}
