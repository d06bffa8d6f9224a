package scene

import (
	"testing"

	"heartside/app/render"
	"heartside/app/render/rendertest"
	"heartside/layout/face"
	"heartside/layout/geom"
)

func recorded(in Input) string {
	var r render.Recorder
	Build(in).Draw(&r)
	return r.String()
}

// The drawings as calls, looked at before they were kept.
func TestGoldenScenes(t *testing.T) {
	for _, c := range []struct {
		name string
		in   func() Input
	}{
		{"nothing", func() Input { return Input{Size: geom.Pt(600, 400), Look: Look{Faces: typefaces(t)}} }},
		{"places", func() Input { // a panel proposed, nothing laid yet
			in := table(t)
			p := *in.Panel.Panel
			p.Strips = append([]face.Strip{}, p.Strips...)
			for i := range p.Strips {
				p.Strips[i] = face.Strip{ID: p.Strips[i].ID, L: 930, W: p.Strips[i].W, Up: 1}
			}
			in.Panel.Panel, in.Panel.Reading, in.Lit, in.Boards.Laid = &p, nil, nil, nil
			in.Look.Hatch = false
			return in
		}},
		{"rolled-and-turned", func() Input { in := one(t, 2, true); in.Look.Hatch = false; return in }},
		{"table", func() Input { in := table(t); in.Look.Hatch = false; return in }},
		{"before", func() Input {
			in := table(t)
			in.Look.Hatch, in.Before = false, in.Panel.Panel
			moveStrip(&in, 0, func(s *face.Strip) { s.Turned = true })
			return in
		}},
		{"back", func() Input { in := table(t); in.Look.Hatch, in.Back = false, true; return in }},
		{"zones", func() Input {
			in := one(t, 1, false)
			in.Pick = Pick{Board: "A", Face: 1, Zone: 0}
			in.Sketch = Sketch{Board: "A", Face: 2, Ring: geom.Polygon{{X: 100, Y: 20}, {X: 300, Y: 40}, {X: 250, Y: 90}}, Kind: face.Flaw,
				Guides: []Guide{{A: geom.Pt(0, 103), B: geom.Pt(2400, 103), Why: "sap line"}}}
			in.Look.Outlines, in.Look.Hatch = true, false
			return in
		}},
	} {
		t.Run(c.name, func(t *testing.T) { rendertest.Golden(t, "scene/"+c.name+".txt", recorded(c.in())) })
	}
}

func TestGoldenPixels(t *testing.T) {
	in := table(t)
	in.Size = geom.Pt(400, 300)
	rendertest.Image(t, "scene/flat.png", paint(Build(in), in.Look.Faces), 0.06, 40)
	in.Look.Theme = Charcoal()
	in.Look.Textures = NewTextures(nil, nil)
	rendertest.Image(t, "scene/wood-dark.png", paint(Build(in), in.Look.Faces), 0.08, 400)
}

func TestDrawnTwiceIsTheSame(t *testing.T) {
	if a, b := recorded(table(t)), recorded(table(t)); a != b {
		t.Error("two drawings of one scene differ")
	}
}
