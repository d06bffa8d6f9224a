package session

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"heartside/app/intake"
	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/layout/grain"
	"heartside/layout/photo/light"
	"heartside/model"
	"heartside/model/file"
)

// A drawn face on a plain ground, with a grey card of L 50 beside it.
const (
	drawnLong, drawnWide = 900.0, 150.0
	drawnSap             = 40.0 // mm of sapwood along the lower edge
	drawnX, drawnY       = 60, 80
)

var (
	drawnCorners = [4]geom.Point{{X: 60, Y: 230}, {X: 960, Y: 230}, {X: 960, Y: 80}, {X: 60, Y: 80}}
	drawnCard    = geom.Polygon{{X: 104, Y: 304}, {X: 196, Y: 304}, {X: 196, Y: 256}, {X: 104, Y: 256}}
	ground       = colour.Lab{L: 60, A: 0, B: 3}
)

func drawnZones() []model.Zone {
	return []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: drawnLong, Y: 0}, {X: drawnLong, Y: drawnSap}, {X: 0, Y: drawnSap}}}}
}

// unlit is the drawing of the face that all the photographs show.
var unlit = sync.OnceValue(func() *image.RGBA {
	return grain.Draw(grain.Spec{
		Seed: 4, Length: drawnLong, Width: drawnWide, Thickness: 26, PxPerMM: 1, Face: 1, Base: grain.Heart,
		Zones: []geom.Layer{{Label: grain.Sap, Polygon: drawnZones()[0].Polygon}},
		Heart: color.RGBA{112, 78, 54, 255}, Sap: color.RGBA{196, 168, 128, 255}, Wood: grain.WoodOf("walnut-black"),
		Pith: grain.PithOf(4, drawnWide, 26, 1),
	})
})

// truth is the mean colour of heart and sap of the drawing, pixel by pixel,
// 8 mm and more from their border and the edges.
func truth() (heart, sap colour.Lab) {
	img := unlit()
	var m [2]colour.Mean
	for j := 8; j < int(drawnWide)-8; j++ {
		y := drawnWide - float64(j) - 0.5
		if math.Abs(y-drawnSap) < 8 {
			continue
		}
		k := 0
		if y < drawnSap {
			k = 1
		}
		for i := 8; i < int(drawnLong)-8; i++ {
			p := img.RGBAAt(i, j)
			m[k].Add(colour.FromSRGB(p.R, p.G, p.B).Lab(), 1)
		}
	}
	heart, _ = m[0].Lab()
	sap, _ = m[1].Lab()
	return heart, sap
}

// photograph writes a picture of the face under a light whose factors at a
// place of the picture are given, on a ground.
func photograph(t testing.TB, path string, lamp func(x, y float64) colour.Linear, on colour.Lab) {
	t.Helper()
	face := unlit()
	img := image.NewRGBA(image.Rect(0, 0, 1020, 330))
	for y := range 330 {
		for x := range 1020 {
			c := on.Linear()
			switch in := (image.Point{X: x - drawnX, Y: y - drawnY}); {
			case in.In(face.Rect):
				p := face.RGBAAt(in.X, in.Y)
				c = colour.FromSRGB(p.R, p.G, p.B)
			case x >= 100 && x < 200 && y >= 250 && y < 310:
				c = colour.Lab{L: 50}.Linear()
			}
			k := lamp(float64(x), float64(y))
			r, g, b := colour.Linear{R: c.R * k.R, G: c.G * k.G, B: c.B * k.B}.SRGB()
			img.SetRGBA(x, y, color.RGBA{r, g, b, 255})
		}
	}
	f, err := os.Create(path)
	if err == nil {
		err = (&png.Encoder{CompressionLevel: png.NoCompression}).Encode(f, img)
	}
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
}

func lampOf(r, g, b float64) func(x, y float64) colour.Linear {
	return func(_, _ float64) colour.Linear { return colour.Linear{R: r, G: g, B: b} }
}

// drawnBoard has the picture NAME.png on face 1, split.
func drawnBoard(id string) *model.Board {
	b := model.NewBoard(id, "walnut-black", drawnLong, drawnWide, 26)
	c := drawnCorners
	b.Faces[0] = model.Face{Photo: id + ".png", Corners: &c, Known: true, Base: model.Heart, Zones: drawnZones(),
		Split: &model.Split{By: model.SplitChecked, Sure: 1}}
	return b
}

// drawnProject writes a project of boards whose pictures lie in dir and
// returns its path.
func drawnProject(t testing.TB, dir string, boards ...*model.Board) string {
	t.Helper()
	p := Blank()
	for _, b := range boards {
		q, err := model.Apply(p, model.AddBoard{Board: b})
		if err != nil {
			t.Fatal(err)
		}
		p = q
	}
	path := filepath.Join(dir, "p.yaml")
	if err := file.Save(path, p); err != nil {
		t.Fatal(err)
	}
	return path
}

func openDrawn(t testing.TB, path string, opt Options) *Session {
	t.Helper()
	s := New(Blank(), opt)
	t.Cleanup(s.Close)
	if err := s.Open(path); err != nil {
		t.Fatal(err)
	}
	return s
}

func near(t *testing.T, what string, got *colour.Lab, want colour.Lab, most float64) {
	t.Helper()
	if got == nil {
		t.Errorf("%s: no colour", what)
	} else if d := colour.DeltaE(*got, want); d > most {
		t.Errorf("%s is %.1f, want %.1f: off by %.2f", what, *got, want, d)
	}
}

// A face under a lamp at one end reads as the drawing does that no light fell
// on, to a CIEDE2000 of 1.5. The light's mean over the face is 1.
func TestColourUnderAGradientReadsAsUnlit(t *testing.T) {
	dir := t.TempDir()
	fall := func(x, _ float64) colour.Linear {
		k := 0.65 + 0.7*(x-drawnX)/drawnLong
		return colour.Linear{R: k, G: k, B: k}
	}
	photograph(t, filepath.Join(dir, "A.png"), fall, ground)
	photograph(t, filepath.Join(dir, "B.png"), fall, ground)
	unsplit := drawnBoard("B")
	unsplit.Faces[0].Split = nil
	s := openDrawn(t, drawnProject(t, dir, drawnBoard("A"), unsplit), Options{})
	heart, sap := truth()
	f := s.Board("A").Faces[0]
	near(t, "heart", f.Heart, heart, 1.5)
	near(t, "sap", f.Sap, sap, 1.5)
	// Far ends are alike too: 0.7 to 1.3 of the light is 9 of L in heartwood.
	ends := func(id string) float64 {
		var m [2]colour.Mean
		field := s.Board(id).Faces[0].Field
		for y := 60.0; y < 140; y += 5 {
			for x := 20.0; x < 120; x += 5 {
				for k, at := range [2]float64{x, drawnLong - x} {
					c, _ := field.At(at, y)
					m[k].Add(c, 1)
				}
			}
		}
		a, _ := m[0].Lab()
		b, _ := m[1].Lab()
		return colour.DeltaE(a, b)
	}
	if d := ends("A"); d > 1.5 {
		t.Errorf("the ends differ by %.2f", d)
	}
	if d := ends("B"); d < 5 {
		t.Errorf("zones that were drawn evened the light: the ends differ by %.2f", d)
	}
	// What is shown is even, what is untouched is not.
	at := func(img *image.RGBA, x int) float64 {
		var m colour.Mean
		k := float64(img.Rect.Dx()) / drawnLong
		for y := 20.0; y < 90; y++ {
			for dx := 0.0; dx < 80; dx++ {
				p := img.RGBAAt(int((float64(x)+dx)*k), int(y*k))
				m.Add(colour.FromSRGB(p.R, p.G, p.B).Lab(), 1)
			}
		}
		c, _ := m.Lab()
		return c.L
	}
	for name, img := range map[string]*image.RGBA{"picture": s.Picture("A", 1).Pix, "small": s.Small("A", 1).Pix} {
		if d := at(img, 810) - at(img, 10); math.Abs(d) > 1.5 {
			t.Errorf("%s: the ends differ by %.2f", name, d)
		}
	}
	raw := s.Untouched("A", 1)
	if d := at(raw.Pix, 810) - at(raw.Pix, 10); d < 5 {
		t.Errorf("untouched: the ends differ by %.2f only", d)
	}
	if s.PictureAt("A", 1, 0.2) != s.Small("A", 1) || s.PictureAt("A", 1, 0.8) != s.Picture("A", 1) {
		t.Error("far out the small picture is drawn, near by the large one")
	}
	if got := s.ColourDoubts("A", 1); len(got) > 0 {
		t.Errorf("doubts: %q", got)
	}
}

func TestColourDoubtsOfWhatCannotBeEvened(t *testing.T) {
	dir := t.TempDir()
	// Blotches of 40 mm, far finer than what evening takes for light.
	photograph(t, filepath.Join(dir, "A.png"), func(x, y float64) colour.Linear {
		k := 0.7
		if (int(x)/40+int(y)/40)%2 == 0 {
			k = 0.2
		}
		return colour.Linear{R: k, G: k, B: k}
	}, ground)
	s := openDrawn(t, drawnProject(t, dir, drawnBoard("A")), Options{})
	if got := s.ColourDoubts("A", 1); len(got) != 1 || !strings.Contains(got[0], "shade") {
		t.Errorf("doubts: %q", got)
	}
	if s.Board("A").Faces[0].Heart == nil || s.Picture("A", 1) == nil {
		t.Error("it is not used")
	}
}

// A warm lamp, by hand: the card of L 50 becomes grey of L 50, the wood as
// drawn, and the tones with it, in one entry that can be taken back.
func TestColourByCard(t *testing.T) {
	dir := t.TempDir()
	photograph(t, filepath.Join(dir, "A.png"), lampOf(1.1, 0.9, 0.55), ground)
	photograph(t, filepath.Join(dir, "B.png"), lampOf(1.1, 0.9, 0.55), ground)
	s := openDrawn(t, drawnProject(t, dir, drawnBoard("A"), drawnBoard("B")), Options{})
	heart, sap := truth()
	if d := colour.DeltaE(*s.Board("A").Faces[0].Heart, heart); d < 3 {
		t.Fatalf("the lamp changed the heart by %.2f only", d)
	}
	ctx := context.Background()
	var out Balanced
	var err error
	keep := func(b Balanced, e error) { out, err = b, e }
	place := func(id string) intake.Place { return intake.Place{Board: id, Part: intake.Face1} }
	s.BalanceByCard(ctx, place("A"), drawnCard, 50, nil, keep)
	if err != nil || len(out.Done) != 1 || out.Reference != CardReference {
		t.Fatalf("%+v, %v", out, err)
	}
	f := s.Committed().Board("A").Faces[0]
	// The card in the photograph: light of L 50 times the lamp.
	card := colour.Lab{L: 50}.Linear()
	seen := light.Balance{R: f.White[0], G: f.White[1], B: f.White[2]}.Lab(colour.Linear{R: 1.1 * card.R, G: 0.9 * card.G, B: 0.55 * card.B}.Lab())
	if math.Abs(seen.L-50) > 0.5 || math.Hypot(seen.A, seen.B) > 0.5 {
		t.Errorf("the card is %.2f", seen)
	}
	fb := s.Board("A").Faces[0]
	near(t, "heart", fb.Heart, heart, 1.5)
	near(t, "sap", fb.Sap, sap, 1.5)
	if len(f.Tones) != 2 {
		t.Fatalf("tones: %+v", f.Tones)
	}
	for _, tone := range f.Tones {
		near(t, "tone of "+string(tone.Kind), &tone.Mean, map[model.ZoneKind]colour.Lab{model.Heart: heart, model.Sap: sap}[tone.Kind], 1.5)
	}
	if fb.Reference != CardReference || s.Board("B").Faces[0].Reference != "" {
		t.Error("the reference is that of A alone")
	}
	s.Undo()
	if f := s.Committed().Board("A").Faces[0]; f.White != nil || f.Reference != "" || f.Tones != nil {
		t.Errorf("taken back: %+v", f)
	}
	s.BalanceByCard(ctx, place("A"), geom.Polygon{{X: 2000, Y: 0}, {X: 2010, Y: 0}, {X: 2010, Y: 9}}, 50, nil, keep)
	if err == nil {
		t.Error("a card beside the picture")
	}
	s.BalanceByCard(ctx, intake.Place{Board: "A", Part: intake.Face2}, drawnCard, 50, nil, keep)
	if err == nil || !strings.Contains(err.Error(), "face 2") {
		t.Errorf("no photograph: %v", err)
	}
}

// One lamp, one card, two boards: both are mended by one change.
func TestColourByCardOfSeveralIsOneChange(t *testing.T) {
	dir := t.TempDir()
	for _, id := range []string{"A", "B"} {
		photograph(t, filepath.Join(dir, id+".png"), lampOf(1.1, 0.9, 0.55), ground)
	}
	s := openDrawn(t, drawnProject(t, dir, drawnBoard("A"), drawnBoard("B")), Options{})
	heart, sap := truth()
	at := func(id string) intake.Place { return intake.Place{Board: id, Part: intake.Face1} }
	var out Balanced
	var err error
	s.BalanceByCard(context.Background(), at("A"), drawnCard, 50, []intake.Place{at("B"), at("A")}, func(b Balanced, e error) { out, err = b, e })
	if err != nil || len(out.Done) != 2 {
		t.Fatalf("%+v, %v", out, err)
	}
	for _, id := range []string{"A", "B"} {
		fb := s.Board(id).Faces[0]
		near(t, "heart of "+id, fb.Heart, heart, 1.5)
		near(t, "sap of "+id, fb.Sap, sap, 1.5)
		if fb.Reference != CardReference {
			t.Errorf("%s is compared by %q", id, fb.Reference)
		}
	}
	if undo, _ := s.Depth(); undo != 1 {
		t.Errorf("%d entries, want 1", undo)
	}
	s.Undo()
	for _, b := range s.Committed().Boards {
		if b.Faces[0].White != nil || b.Faces[0].Reference != "" {
			t.Errorf("board %s is not taken back", b.ID)
		}
	}
}

// Three photographs on one ground under lamps of CIE illuminants D65, D50 and
// between read alike; one taken on grass is refused by name.
func TestColourByBackground(t *testing.T) {
	dir := t.TempDir()
	// D50 over D65 in the primaries of sRGB: 1.176, 0.976, 0.722 (CIE 15).
	for id, lamp := range map[string][3]float64{"A": {1, 1, 1}, "B": {1.176, 0.976, 0.722}, "C": {1.088, 0.988, 0.861}} {
		photograph(t, filepath.Join(dir, id+".png"), lampOf(lamp[0], lamp[1], lamp[2]), ground)
	}
	photograph(t, filepath.Join(dir, "D.png"), lampOf(1, 1, 1), colour.Lab{L: 50, A: -35, B: 40})
	gone := drawnBoard("E")
	s := openDrawn(t, drawnProject(t, dir, drawnBoard("A"), drawnBoard("B"), drawnBoard("C"), drawnBoard("D"), gone), Options{})
	var out Balanced
	var err error
	keep := func(b Balanced, e error) { out, err = b, e }
	was := s.Committed()
	s.BalanceByBackground(context.Background(), nil, keep)
	if err == nil || !strings.Contains(err.Error(), "board D, face 1") || strings.Contains(err.Error(), "board A") || s.Committed() != was {
		t.Fatalf("grass: %v", err)
	}
	if len(out.Left) != 1 || !strings.Contains(out.Left[0], "board E") {
		t.Errorf("left out: %q", out.Left)
	}
	var places []intake.Place
	for _, id := range []string{"A", "B", "C"} {
		places = append(places, intake.Place{Board: id, Part: intake.Face1})
	}
	apart := colour.DeltaE(*s.Board("A").Faces[0].Sap, *s.Board("B").Faces[0].Sap)
	s.BalanceByBackground(context.Background(), places, keep)
	if err != nil || len(out.Done) != 3 {
		t.Fatalf("%+v, %v", out, err)
	}
	if undo, _ := s.Depth(); undo != 1 {
		t.Errorf("%d entries, want 1", undo)
	}
	a, b, d := s.Board("A").Faces[0], s.Board("B").Faces[0], s.Board("D").Faces[0]
	near(t, "sap of B", b.Sap, *a.Sap, 1.5)
	near(t, "heart of B", b.Heart, *a.Heart, 1.5)
	if apart < 4 {
		t.Errorf("they were %.2f apart only", apart)
	}
	if a.Reference != "ground-1" || b.Reference != a.Reference || d.Reference != "" {
		t.Errorf("references %q, %q, %q", a.Reference, b.Reference, d.Reference)
	}
	// Another set is another ground.
	s.BalanceByBackground(context.Background(), places[1:], keep)
	if got := fmt.Sprint(out.Reference, " ", err); got != "ground-2 <nil>" {
		t.Errorf("the second set: %s", got)
	}
	ended, stop := context.WithCancel(context.Background())
	stop()
	s.BalanceByBackground(ended, places, keep)
	if err != context.Canceled {
		t.Errorf("stopped: %v", err)
	}
}

// Another photograph on a balanced face is not taken to share its reference.
func TestColourOfANewPhotographIsNotBalanced(t *testing.T) {
	p := Blank()
	b := drawnBoard("A")
	b.Faces[0].White, b.Faces[0].Reference = &[3]float64{1, 1, 1.2}, CardReference
	p, err := model.Apply(p, model.AddBoard{Board: b})
	if err != nil {
		t.Fatal(err)
	}
	s := New(p, Options{Read: func(context.Context, intake.Job, func(intake.Step)) (*intake.Reading, error) {
		return nil, context.Canceled
	}})
	defer s.Close()
	if err := s.TakeIn([]Taking{{intake.Place{Board: "A", Part: intake.Face1}, "new.png"}}); err != nil {
		t.Fatal(err)
	}
	if f := s.Committed().Board("A").Faces[0]; f.Reference != "" || f.White != nil {
		t.Errorf("%q, %v", f.Reference, f.White)
	}
}
