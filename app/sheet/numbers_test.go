package sheet

import (
	"slices"
	"strings"
	"testing"

	"heartside/app/render"
	"heartside/layout/cutting"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/unit"
)

// Sap widths of a strip turned end for end, worked by hand. Board 1200 x 240
// with sap 22, 30, 41 along its marked edge; the strip lies at x 130, y 15,
// 930 x 212. At board x 130 the sap is 22+8*130/600 = 23.733 wide, at 595
// 22+8*595/600 = 29.933, at 1060 30+11*460/600 = 38.433; 15 of it stays on the
// board: 8.733, 14.933, 23.433. Turned with face 1 up the marked edge lies at the
// back and the marked end at the right.
func TestWidthsOfTurnedStrip(t *testing.T) {
	in := load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t))
	front, rear := ownWidths(&in.Panels[0].Panel.Strips[0])
	for i, want := range [3]float64{23.433, 14.933, 8.733} {
		if d := rear[i] - want; d > 0.001 || d < -0.001 || front[i] != 0 {
			t.Errorf("width %d: back edge %g, want %g; front edge %g, want 0", i, rear[i], want, front[i])
		}
	}
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	v := look(t, d, 0, in.Faces)
	text := v.all()
	for _, want := range []string{
		"23 / 15 / 9", // to the mm a rule reads
		"980 × 221",   // blank: 930 + 2 x 25 long, 212 + 2 x (1.5 + 3) wide
		"930 × 212", "900 × 200",
		"bark side up", "right", // the bark side is face 1; the marked end lies right
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the panel's page does not say %q", want)
		}
	}
	left, middle, right := v.one("23", 0), v.one("15", 0), v.one("9", 0)
	if !(left.at.X < middle.at.X && middle.at.X < right.at.X) {
		t.Error("widths along the back edge do not stand left, middle, right")
	}
	number := v.one("A1", bigNumber)
	if !(left.at.Y < number.at.Y) {
		t.Error("the back edge's widths do not stand behind the number")
	}
	if high := in.Faces.CapHeight(number.st); high < 8 {
		t.Errorf("the number is %g mm high, want 8", high)
	}
}

func TestSideUp(t *testing.T) {
	for _, c := range []struct {
		bark, up int
		want     string
	}{{1, 1, "bark side up"}, {1, 2, "heart side up"}, {2, 1, "heart side up"}, {2, 2, "bark side up"}, {0, 1, "face 1 up"}, {0, 2, "face 2 up"}} {
		if got := sideUp(&face.Strip{Board: &face.Board{BarkFace: c.bark}, Up: c.up}); got != c.want {
			t.Errorf("bark face %d, face %d up: %q, want %q", c.bark, c.up, got, c.want)
		}
	}
}

// The cuts of a board with two strips side by side and one beyond, worked by
// hand: kerf 3, blanks 4.5 wider on each edge and 25 longer at each end.
func TestCutsInOrder(t *testing.T) {
	a := model.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	b := &face.Board{ID: "A", Length: 2400, Width: 210, Thickness: 26}
	at := func(n string, x, y, l, w, angle float64) place {
		return place{number: n, label: n, strip: &face.Strip{ID: n, Board: b, X: x, Y: y, L: l, W: w, Angle: angle, Up: 1}}
	}
	// Blanks: A1 x 60..1090, y 5.5..106.5; A2 the same x, y 109.5..200.5, one
	// kerf from A1; A3 x 1200..1930, y 15.5..104.5.
	cuts := cutList(a, b, []place{at("A3", 1225, 20, 680, 80, 0), at("A1", 85, 10, 980, 92, 0), at("A2", 85, 114, 980, 82, 0)})
	type row struct {
		what, whom string
		p, q       geom.Point
	}
	want := []row{
		// Midway between 1090 and 1200 less the kerf, 1143.5.
		{"cross-cut the board", "A1, A2", geom.Pt(1143.5, 0), geom.Pt(1143.5, 0)},
		{"rip", "A1", geom.Pt(60, 5.5), geom.Pt(1090, 5.5)},
		{"rip", "A1, A2", geom.Pt(60, 106.5), geom.Pt(1090, 106.5)},
		{"rip", "A2", geom.Pt(60, 200.5), geom.Pt(1090, 200.5)},
		{"cut end", "A1", geom.Pt(60, 5.5), geom.Pt(60, 106.5)},
		{"cut end", "A1", geom.Pt(1090, 5.5), geom.Pt(1090, 106.5)},
		{"cut end", "A2", geom.Pt(60, 109.5), geom.Pt(60, 200.5)},
		{"cut end", "A2", geom.Pt(1090, 109.5), geom.Pt(1090, 200.5)},
		{"rip", "A3", geom.Pt(1200, 15.5), geom.Pt(1930, 15.5)},
		{"rip", "A3", geom.Pt(1200, 104.5), geom.Pt(1930, 104.5)},
		{"cut end", "A3", geom.Pt(1200, 15.5), geom.Pt(1200, 104.5)},
		{"cut end", "A3", geom.Pt(1930, 15.5), geom.Pt(1930, 104.5)},
	}
	if len(cuts) != len(want) {
		t.Fatalf("%d cuts, want %d: %+v", len(cuts), len(want), cuts)
	}
	for i, w := range want {
		c := cuts[i]
		if c.what != w.what || c.whom != w.whom || c.p.Dist(w.p) > 1e-9 || c.q.Dist(w.q) > 1e-9 {
			t.Errorf("cut %d: %s %s %v %v, want %+v", i+1, c.what, c.whom, c.p, c.q, w)
		}
	}
}

// A blank at 90 degrees: the strip at (100, 50) runs up the board, its width to
// the left. With 10 at the ends and 2 + 3 on the edges it covers x 100-40-5 to
// 105, y 40 to 50+60+10.
func TestBlankAtRightAngle(t *testing.T) {
	a := model.Allowances{Rest: 3, Joint: 2, Ends: 10}
	got := blankOf(a, &face.Strip{X: 100, Y: 50, L: 60, W: 40, Angle: 90}).Bounds()
	if want := geom.R(55, 40, 105, 120); got.Min.Dist(want.Min) > 1e-9 || got.Max.Dist(want.Max) > 1e-9 {
		t.Errorf("blank %v, want %v", got, want)
	}
}

// A waney board is measured from a line on wood, never from its edge. The
// wood of the marked half begins at 18 at the marked end, 0 and 24 between and
// 30 at the other end: the line at 30 is the innermost; it lies 12 in from the
// edge at the marked end and on it at the other.
func TestSnappedLineOfWaneyBoard(t *testing.T) {
	in := load(t, project(t, "desk-inch-waney.yaml"), A4, faces(t))
	l := snapLine(in.Boards[0])
	if l.straight || l.y != 30 {
		t.Fatalf("line %+v, want one at 30", l)
	}
	for i, want := range [2]float64{12, 0} {
		if d := l.near[i] - want; d > 0.1 || d < -0.1 {
			t.Errorf("end %d: %g in from the edge, want %g", i, l.near[i], want)
		}
	}
	if got := l.offset(words{sys: unit.MM}, geom.Pt(0, 16)); got != "−14" {
		t.Errorf("a point 14 nearer the marked edge: %q", got)
	}
	if l := snapLine(in.Boards[1]); !l.straight || l.y != 0 {
		t.Errorf("a square-edged board is measured from its marked edge, not from %+v", l)
	}
}

// What stays of a board 1000 x 200 with one strip at its marked end, by hand:
// the blank covers x 5..455, y 5.5..94.5; a kerf of 3 round it. The largest
// clear piece lies beyond it, 458..1000 over the whole width; then above it,
// 97.5..200 wide up to a kerf before that, x 0..455.
func TestSpares(t *testing.T) {
	a := cutting.Allowances{Kerf: 3, Rest: 3, Joint: 1.5, Ends: 25}
	b := &face.Board{ID: "A", Length: 1000, Width: 200, Thickness: 26}
	got := spares(b, []place{{strip: &face.Strip{ID: "1", Board: b, X: 30, Y: 10, L: 400, W: 80, Up: 1}}}, a)
	want := []geom.Rect{geom.R(458, 0, 1000, 200), geom.R(0, 97.5, 455, 200)}
	if len(got) != len(want) {
		t.Fatalf("spares %v, want %v", got, want)
	}
	for i := range want {
		if got[i].Min.Dist(want[i].Min) > 0.02 || got[i].Max.Dist(want[i].Max) > 0.02 {
			t.Errorf("spare %d: %v, want %v", i, got[i], want[i])
		}
	}
}

// Face 2 is drawn as seen after rolling the board over: the marked end stays
// left, the marked edge comes to the top. Two strips of which the first lies
// nearer the marked edge change over; left and right stay.
func TestFace2IsMirrored(t *testing.T) {
	f := faces(t)
	in := load(t, demo(t), A4, f)
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	v := boardPage(t, d, "Board A", f)
	var near, far []written // of the strip at y 9 and the one at y 127
	for _, w := range v.texts {
		if w.st.Bold && w.st.Size > 4 && strings.HasPrefix(w.s, "A") {
			if strip(in, w.s).Y < 50 {
				near = append(near, w)
			} else {
				far = append(far, w)
			}
		}
	}
	if len(near) != 2 || len(far) != 2 {
		t.Fatalf("numbers: %v %v", near, far)
	}
	if !(near[0].at.Y > far[0].at.Y) || !(near[1].at.Y < far[1].at.Y) {
		t.Error("the strips do not change over between face 1 and face 2")
	}
	if near[0].at.X != near[1].at.X || far[0].at.X != far[1].at.X {
		t.Error("a strip moves along between face 1 and face 2")
	}
}

// boardPage looks at the page of that title.
func boardPage(t testing.TB, d *Document, title string, f *render.Faces) *probe {
	t.Helper()
	i := slices.IndexFunc(d.Pages, func(p *Page) bool { return p.Title == title })
	if i < 0 {
		t.Fatalf("no page %q", title)
	}
	return look(t, d, i, f)
}

// strip finds the strip of the demo's top with that number.
func strip(in Input, number string) *face.Strip {
	for i := range in.Panels {
		p := in.Panels[i].Panel
		for k := range p.Strips {
			if in.number(p.ID, p.Strips[k].ID) == number {
				return &p.Strips[k]
			}
		}
	}
	return &face.Strip{}
}

// Board A of the demo, by hand: strips at y 9 and 127, 70 and 98 wide, x 160,
// 1180 long; so blanks at y 4.5..83.5 and 122.5..229.5, x 135..1365.
func TestCutTableOfDemoBoard(t *testing.T) {
	f := faces(t)
	d, err := Build(load(t, demo(t), A4, f))
	if err != nil {
		t.Fatal(err)
	}
	v := boardPage(t, d, "Board A", f)
	say := words{sys: unit.MM}
	for _, y := range []float64{4.5, 83.5, 122.5, 229.5} {
		row := []string{"135", say.bare(y), "1365", say.bare(y)}
		if !slices.ContainsFunc(v.texts, func(w written) bool {
			return w.s == "rip" && len(after(v.row(w), "rip")) >= 5 && slices.Equal(after(v.row(w), "rip")[1:5], row)
		}) {
			t.Errorf("no rip from 135 to 1365 at %g", y)
		}
	}
}

// row returns the runs on the line of w.
func (v *probe) row(w written) []string {
	var out []string
	for _, o := range v.texts {
		if d := o.at.Y - w.at.Y; d < 0.01 && d > -0.01 {
			out = append(out, o.s)
		}
	}
	return out
}

func after(list []string, s string) []string {
	if i := slices.Index(list, s); i >= 0 {
		return list[i+1:]
	}
	return nil
}
