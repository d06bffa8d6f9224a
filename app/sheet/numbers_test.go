package sheet

import (
	"fmt"
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
//
// Finished it is 20 of the 24 thick, 2 off face 1, a twelfth of the way to face
// 2, where the sap is 13.3, 17.95 and 23.367 wide there. Across, the chord goes a
// twelfth of the way from face to face: 7.86, 13.93 and 22.18 of it stay. The arc
// of 90 mm lies outside by chord chord 1/12 11/12 / 180 square to it, the chord
// going over by some 10.6, 12 and 14.3: by 0.32, 0.34 and 0.39 across.
func TestWidthsOfTurnedStrip(t *testing.T) {
	in := load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t))
	r := readSap(&in.Panels[0].Panel.Strips[0])
	front, rear := r.front, r.rear
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
		"22 / 14 / 8", // of the finished face, to the mm a rule reads
		"saw 980 long, joint to 930, finished 900", // blank: 930 + 2 x 25 long
		"221", "212", "200", // 212 + 2 x (1.5 + 3) wide
		"bark side up", "right", // the bark side is face 1; the marked end lies right
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the panel's page does not say %q", want)
		}
	}
	width := func(s string) written { // the legend's samples are bold
		i := slices.IndexFunc(v.texts, func(w written) bool { return w.s == s && !w.st.Bold })
		if i < 0 {
			t.Fatalf("no width %s", s)
		}
		return v.texts[i]
	}
	left, middle, right := width("22"), width("14"), width("8")
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
		// Squared off at 60, where both begin, which makes their marked ends.
		{"square off past the checks, measure from here", "", geom.Pt(60, 0), geom.Pt(60, 0)},
		// At the end of both, 1090, which makes their ends.
		{"cross-cut the board", "A1, A2", geom.Pt(1090, 0), geom.Pt(1090, 0)},
		{"rip", "A1", geom.Pt(60, 5.5), geom.Pt(1090, 5.5)},
		{"rip", "A1, A2", geom.Pt(60, 106.5), geom.Pt(1090, 106.5)},
		{"rip", "A2", geom.Pt(60, 200.5), geom.Pt(1090, 200.5)},
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

// One kerf parts two lengths that lie a kerf apart: blanks x 5..505 and
// 508..1008 on a board 1010 long. The cross-cut at 505 makes the end of the
// first and, 3 further, that of the second; beyond 1008 there are only 2, less
// than a kerf. Squaring off takes the 5 at the marked end, where the first begins.
func TestOneKerfIsOneCut(t *testing.T) {
	a := model.Allowances{Kerf: 3, Ends: 25}
	b := &face.Board{ID: "A", Length: 1010, Width: 200, Thickness: 26}
	at := func(n string, x, y, l, w float64) place {
		return place{number: n, label: n, strip: &face.Strip{ID: n, Board: b, X: x, Y: y, L: l, W: w, Up: 1}}
	}
	var got []string
	// The first reaches from 10 to 197, 3 from the far edge; the second from 0.
	for _, c := range cutList(a, b, []place{at("A1", 30, 10, 450, 187), at("A2", 533, 0, 450, 180)}) {
		got = append(got, fmt.Sprint(c.n, " ", c.what, " ", c.whom, " ", c.p.X, ",", c.p.Y))
	}
	want := []string{
		"1 square off past the checks, measure from here  5,0", "2 cross-cut the board A1 505,0",
		"3 rip A1 5,10", "4 rip A1 5,197",
		"0 the board's edge, no cut A2 508,0", "5 rip A2 508,180", "0 the board's end, no cut A2 1008,0",
	}
	if !slices.Equal(got, want) {
		t.Errorf("cuts\n%q\nwant\n%q", got, want)
	}
}

// Two strips side by side, the second shorter: A1 x 0..900, y 0..100 and A2 x
// 100..600, y 103..203. The rip between them is one pass, on A1's line and as
// long as A1.
func TestRipBetweenStripsOfDifferentLength(t *testing.T) {
	b := &face.Board{ID: "A", Length: 1000, Width: 300, Thickness: 26}
	at := func(n string, x, y, l, w float64) place {
		return place{number: n, label: n, strip: &face.Strip{ID: n, Board: b, X: x, Y: y, L: l, W: w, Up: 1}}
	}
	var rips []cut
	for _, c := range cutList(model.Allowances{Kerf: 3}, b, []place{at("A1", 20, 20, 880, 80), at("A2", 100, 103, 500, 100)}) {
		if c.rip && c.whom == "A1, A2" {
			rips = append(rips, c)
		}
	}
	if len(rips) != 1 || rips[0].p.Dist(geom.Pt(20, 100)) > 1e-9 || rips[0].q.Dist(geom.Pt(900, 100)) > 1e-9 {
		t.Errorf("rips for both: %+v", rips)
	}
}

// What is left over does not run across a cross-cut: a board 1000 x 200 cut
// across at 400 with a kerf of 3, free above y 100, leaves 0..400 and 403..1000.
func TestSparesStopAtCrossCuts(t *testing.T) {
	got := apart([]geom.Rect{geom.R(0, 100, 1000, 200)}, []float64{400}, 3)
	want := []geom.Rect{geom.R(403, 100, 1000, 200), geom.R(0, 100, 400, 200)}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// Inch widths add up as printed: five strips of 90.4 mm are 56.9 sixteenths,
// printed 57 each, together 285: 17 13/16. Trimmed to 17 1/2 inch, 280
// sixteenths, of which the inner three have 3 * 57 = 171, the outer two keep 109
// between them.
func TestPrintedWidthsAddUp(t *testing.T) {
	const sixteenth = 25.4 / 16
	p := &face.Panel{Length: 900, Width: 280 * sixteenth}
	for range 5 {
		p.Strips = append(p.Strips, face.Strip{L: 930, W: 90.4})
	}
	say := words{sys: unit.Inch}
	if _, w := gluedSize(p, say); say.bare(w) != `17 13/16"` {
		t.Errorf("glued up %s wide", say.bare(w))
	}
	w := finishedWidths(p, say)
	for _, i := range [...]int{1, 2, 3} {
		if say.bare(w[i]) != `3 9/16"` {
			t.Errorf("strip %d finished %s", i, say.bare(w[i]))
		}
	}
	if d := (w[0]+w[4])/sixteenth - 109; d > 1e-6 || d < -1e-6 {
		t.Errorf("the outer two are %g and %g sixteenths", w[0]/sixteenth, w[4]/sixteenth)
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
	got := spares(b, []place{{strip: &face.Strip{ID: "1", Board: b, X: 30, Y: 10, L: 400, W: 80, Up: 1}}}, nil, a)
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
// nearer the marked edge change over; left and right stay. On face 1 the first,
// 70 wide and drawn 6.4 mm high, has its number beside the face.
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
	// On face 1 the numbers stand beside the face, A2 over A1.
	if near[1].at.X != far[1].at.X || near[0].at.X != far[0].at.X || near[0].at.X < near[1].at.X {
		t.Error("numbers do not stand as they should")
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
// 1180 long; so blanks at y 4.5..83.5 and 122.5..229.5, x 135..1365. That is far
// from the marked end: squared off at 25, what checks take, they lie 110..1340
// from there.
func TestCutTableOfDemoBoard(t *testing.T) {
	f := faces(t)
	d, err := Build(load(t, demo(t), A4, f))
	if err != nil {
		t.Fatal(err)
	}
	v := boardPage(t, d, "Board A", f)
	say := words{sys: unit.MM}
	for _, y := range []float64{4.5, 83.5, 122.5} {
		row := []string{"110", say.bare(y), "1340", say.bare(y)}
		if !slices.ContainsFunc(v.texts, func(w written) bool {
			return w.s == "rip" && len(after(v.row(w), "rip")) >= 5 && slices.Equal(after(v.row(w), "rip")[1:5], row)
		}) {
			t.Errorf("no rip from 110 to 1340 at %g", y)
		}
	}
	// The last would lie 0.5 from the edge of a board 230 wide, where the kerf
	// is 3.
	if row := v.row(v.one("the board's edge, no cut", 0)); !slices.Contains(row, "A2") {
		t.Errorf("at the board's edge: %v", row)
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
