package main

import (
	"bytes"
	"image/jpeg"
	"io"
	"io/fs"
	"math"
	"path"
	"strings"
	"testing"

	"heartside/app/session"
	"heartside/assets"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/grain"
	"heartside/model"
	"heartside/model/file"
)

// demoText is the demo project as it is built into the program.
func demoText(t testing.TB) []byte {
	t.Helper()
	text, err := assets.Demo.ReadFile("demo/project.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func demoProject(t testing.TB) *model.Project {
	t.Helper()
	p, notices, err := file.Read(demoText(t), "project.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range notices {
		t.Errorf("notice: %s", n)
	}
	return p
}

// inside is the demo's folder as a source of pictures.
type inside struct{}

func (inside) Open(name string) (io.ReadCloser, error) {
	return assets.Demo.Open(path.Join("demo", name))
}

func openDemo(t testing.TB) *session.Session {
	t.Helper()
	s := session.New(session.Blank(), session.Options{})
	t.Cleanup(s.Close)
	if err := s.OpenFrom(demoText(t), "project.yaml", inside{}); err != nil {
		t.Fatal(err)
	}
	return s
}

// The demo holds one lone streak, on its top, and nothing else is said of any
// panel; a free fix ends it and makes nothing new.
func TestDemoHasOneStreakThatAFixMends(t *testing.T) {
	s := openDemo(t)
	if trouble := s.PhotoTrouble(); len(trouble) > 0 {
		t.Errorf("photographs: %v", trouble)
	}
	for _, m := range s.Project().Panels {
		notes := s.Notes(m.ID)
		if m.ID != "top" {
			for _, n := range notes {
				t.Errorf("panel %s: %s: %s", m.ID, n.Title, n.Text)
			}
			continue
		}
		if len(notes) != 1 || notes[0].Kind != face.LoneStreak {
			for _, n := range notes {
				t.Errorf("top: %s: %s", n.Kind, n.Title)
			}
			t.Fatalf("%d warnings of the top, want one lone streak", len(notes))
		}
	}
	n := s.Notes("top")[0]
	if len(n.Strips) == 0 || n.Strips[0] != "t2" {
		t.Errorf("the streak is of strips %v, want t2", n.Strips)
	}
	if len(n.Fixes) == 0 || n.Fixes[0].Cost != "free" {
		t.Fatalf("no free fix: %+v", n.Fixes)
	}
	if err := s.Apply(n.Fixes[0]); err != nil {
		t.Fatal(err)
	}
	for _, m := range s.Project().Panels {
		for _, n := range s.Notes(m.ID) {
			t.Errorf("after the fix, panel %s: %s", m.ID, n.Title)
		}
	}
	if !s.Undo() || len(s.Notes("top")) != 1 {
		t.Error("undo does not bring the streak back")
	}
}

// The top's light by hand. Its show face lies 3 mm under the sawn ones: 26 mm
// boards, a top of 20, the same off both faces. Strip t2 lies on board B at x 85, y
// 7; the panel shows x 100 to 1250. Strips t1 and t4 of board A show x 175 to
// 1325, t1 from y 15 and t4 up to y 219. The pith being told, a sap line at y of
// face 1 lies on the ring of that radius about it: r^2 = (y - across)^2 + depth^2,
// and 3 mm down at across -+ sqrt(r^2 - (depth - 3)^2). The lines of face 2 are of
// the same rings to 0.3 mm of radius, 0.0003 of the share.
func TestDemoLightShareByHand(t *testing.T) {
	s := openDemo(t)
	line := func(a, b, length, x float64) float64 { return a + (b-a)*x/length }
	ring := func(y, across, depth, side float64) float64 {
		return across + side*math.Sqrt((y-across)*(y-across)+depth*depth-(depth-3)*(depth-3))
	}
	sap := 0.0
	const n = 1150
	for i := range n {
		x := 175 + float64(i) + 0.5
		low, high, across := line(26, 30, 750, x), line(202, 200, 750, x), line(114, 115, 750, x)
		if x > 750 {
			low, high, across = line(30, 33, 750, x-750), line(200, 197, 750, x-750), 115
		}
		sap += ring(low, across, 90, -1) - 15
		sap += 219 - ring(high, across, 90, 1)
		x = 100 + float64(i) + 0.5
		sap += ring(line(25, 29, 1250, x), line(94, 95, 1250, x), 86, -1) - 7
	}
	want := sap / (n * 360)
	got := s.Reading("top").Show.Light.Value
	if d := got - want; d > 5e-4 || d < -5e-4 {
		t.Errorf("light share %.5f, by hand %.5f", got, want)
	}
}

// A newcomer finds places to fill, and a place costs no warning.
func TestDemoLeavesPlaces(t *testing.T) {
	s := openDemo(t)
	if id, ok := s.NextEmpty("right-side"); !ok || id != "r1" {
		t.Errorf("next empty place of the right side: %q, %v", id, ok)
	}
	for _, id := range []string{"top", "left-side"} {
		if place, ok := s.NextEmpty(id); ok {
			t.Errorf("panel %s has an empty place %s", id, place)
		}
	}
}

// Every face has a photograph that opens, whose corners run anticlockwise as
// seen and are where the camera put them; all of it is under 2 MB.
func TestDemoPhotographs(t *testing.T) {
	p := demoProject(t)
	total, n := 0, 0
	for i, b := range p.Boards {
		for f := 1; f <= 2; f++ {
			mf := b.Faces[f-1]
			data, err := assets.Demo.ReadFile(path.Join("demo", mf.Photo))
			if err != nil {
				t.Errorf("board %s, face %d: %v", b.ID, f, err)
				continue
			}
			c, err := jpeg.DecodeConfig(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			total, n = total+len(data), n+1
			if len(data) > mostBytes {
				t.Errorf("%s: %d bytes", mf.Photo, len(data))
			}
			if mf.Corners == nil || mf.Reference != "bench-card" || !mf.Known {
				t.Errorf("%s: corners %v, reference %q, known %v", mf.Photo, mf.Corners, mf.Reference, mf.Known)
				continue
			}
			q := geom.Polygon(mf.Corners[:])
			if q.SignedArea() >= 0 { // y runs down in a picture
				t.Errorf("%s: corners run clockwise", mf.Photo)
			}
			if !(q[0].X < q[1].X && q[0].Y > q[3].Y) || !geom.R(0, 0, float64(c.Width), float64(c.Height)).Contains(q[2]) {
				t.Errorf("%s: corners %v", mf.Photo, q)
			}
			// The corners do not depend on what is drawn: a coarse drawing of
			// the same board tells them.
			cam := cameraOf(b, f, i)
			if c.Width != cam.Width || c.Height != cam.Height {
				t.Errorf("%s is %d x %d, the camera makes %d x %d: run go run ./app/demophotos", mf.Photo, c.Width, c.Height, cam.Width, cam.Height)
			}
		}
	}
	if n != 12 || len(p.Boards) != 6 {
		t.Errorf("%d photographs of %d boards", n, len(p.Boards))
	}
	err := fs.WalkDir(assets.Demo, "demo", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && path.Ext(name) != ".jpg" && name != "demo/project.yaml" {
			t.Errorf("%s does not belong to the demo", name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if total > 2<<20 {
		t.Errorf("%d bytes of photographs", total)
	}
}

// The photographs in the tree are those the command makes.
func TestPhotographsAreUpToDate(t *testing.T) {
	if testing.Short() {
		t.Skip("draws a photograph")
	}
	p := demoProject(t)
	b := p.Boards[0]
	ph := grain.Photo(specOf(b, 1, 0), cameraOf(b, 1, 0))
	for i, c := range ph.Corners {
		if d := c.Dist(b.Faces[0].Corners[i]); d > 0.1 {
			t.Errorf("corner %d is %.2f pixels off: run go run ./app/demophotos", i+1, d)
		}
	}
	want, err := compress(ph.Img)
	if err != nil {
		t.Fatal(err)
	}
	have, err := assets.Demo.ReadFile(path.Join("demo", b.Faces[0].Photo))
	if err != nil {
		t.Fatal(err)
	}
	// Floating point differs in the last place between machines, so that bytes
	// may; the pictures may not.
	if near(t, want, have) > 2 {
		t.Error("the photograph of board A, face 1 is not what the command makes: run go run ./app/demophotos")
	}
}

// near returns the mean difference of two pictures, levels of 256.
func near(t *testing.T, a, b []byte) float64 {
	t.Helper()
	p, err := jpeg.Decode(bytes.NewReader(a))
	if err != nil {
		t.Fatal(err)
	}
	q, err := jpeg.Decode(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	if p.Bounds() != q.Bounds() {
		return 256
	}
	var sum float64
	n := 0
	for y := 0; y < p.Bounds().Dy(); y += 3 {
		for x := 0; x < p.Bounds().Dx(); x += 3 {
			r1, g1, b1, _ := p.At(x, y).RGBA()
			r2, g2, b2, _ := q.At(x, y).RGBA()
			for _, d := range [...]float64{float64(r1) - float64(r2), float64(g1) - float64(g2), float64(b1) - float64(b2)} {
				if d < 0 {
					d = -d
				}
				sum += d / 257
				n++
			}
		}
	}
	return sum / float64(n)
}

// Zones in the pictures are those of the project: at the middle of each sap
// zone the photograph is light, at places of heart it is dark.
func TestPhotographsShowTheZones(t *testing.T) {
	p := demoProject(t)
	b := p.Boards[1]
	data, err := assets.Demo.ReadFile(path.Join("demo", b.Faces[0].Photo))
	if err != nil {
		t.Fatal(err)
	}
	img, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	c := b.Faces[0].Corners
	grey := func(x, y float64) float64 {
		// Between the corners: near enough for a board seen almost straight.
		u, v := x/b.Length, y/b.Width
		q := c[0].Lerp(c[1], u).Lerp(c[3].Lerp(c[2], u), v)
		r, g, bl, _ := img.At(int(q.X), int(q.Y)).RGBA()
		return (0.2126*float64(r) + 0.7152*float64(g) + 0.0722*float64(bl)) / 257
	}
	for x := 100.0; x < b.Length; x += 200 {
		if sap, heart := grey(x, 10), grey(x, 120); sap < 130 || heart > 110 {
			t.Errorf("at %g from the marked end: sap %.0f, heart %.0f of 255", x, sap, heart)
		}
	}
}

func TestSetCorners(t *testing.T) {
	c := [4]geom.Point{{X: 1.04, Y: 2}, {X: 3, Y: 4.26}, {X: 5, Y: 6}, {X: 7, Y: 8}}
	const want = "    photo: photos/a1.jpg\n    corners: [[1, 2], [3, 4.3], [5, 6], [7, 8]]\n    base: heart # note\n"
	for _, before := range []string{
		"    photo: photos/a1.jpg\n    corners: [[9, 9]]\n    base: heart # note\n",
		"    photo: photos/a1.jpg\n    base: heart # note\n",
	} {
		got, err := setCorners([]byte(before), "photos/a1.jpg", c)
		if err != nil || string(got) != want {
			t.Errorf("%v:\n%s", err, got)
		}
	}
	if _, err := setCorners([]byte("photo: x.jpg"), "photos/a1.jpg", c); err == nil || !strings.Contains(err.Error(), "photos/a1.jpg") {
		t.Errorf("a photo that is not there: %v", err)
	}
}
