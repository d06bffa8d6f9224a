package ui

import (
	"testing"

	"fyne.io/fyne/v2/test"

	"heartside/app/render"
	"heartside/app/scene"
	"heartside/app/session"
	"heartside/assets"
	"heartside/layout/geom"
	"heartside/model/say"
)

// BenchmarkDragFrame is one frame of dragging a strip: the edit, the readings,
// the column, and the surface painted at 950 x 640.
func BenchmarkDragFrame(b *testing.B) {
	a := test.NewTempApp(b)
	faces, err := render.LoadFaces()
	if err != nil {
		b.Fatal(err)
	}
	look, err := loadTheme(Light, 100)
	if err != nil {
		b.Fatal(err)
	}
	data, err := assets.Demo.ReadFile("demo/project.yaml")
	if err != nil {
		b.Fatal(err)
	}
	ses := session.New(session.Blank(), session.Options{})
	if err := ses.OpenFrom(data, "demo", nil); err != nil {
		b.Fatal(err)
	}
	w := New(Parts{App: a, Session: ses, Look: look, Faces: faces, Post: func(f func()) {}})
	w.surf.textures = scene.NewTextures(nil, nil)
	s := stage{w, nil}
	w.win.Resize(windowSize())
	s.take("t2")
	from, _ := w.surf.laidPlace(mustStrip(b, w, "t2"))
	s.press(from)
	n := 0.0
	for b.Loop() {
		n++
		s.drag(from.Add(geom.Pt(10+float64(int(n)%30), 0)))
		w.surf.paint(950, 640)
	}
}

// BenchmarkOf looks for a text of the computations that has no translation, which
// takes longest.
func BenchmarkOf(b *testing.B) {
	b.Cleanup(func() { say.Use("", nil) })
	texts, err := translations(German)
	if err != nil {
		b.Fatal(err)
	}
	say.Use("de", texts)
	const citation = "Meints and others, European Journal of Wood and Wood Products, 2017, 10.1007/s00107-016-1108-0, abstract"
	say.Of(citation)
	for b.Loop() {
		if say.Of(citation) != citation {
			b.Fatal("it has a translation")
		}
	}
}
