package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// drawing is a panel drawn from above, zones in panel coordinates.
type drawing struct {
	length, width float64
	wanted        string
	base          string
	colours       string
	zones         []drawnZone
	back          []drawnZone
}

type drawnZone struct {
	kind string
	poly geom.Polygon
}

func bar(kind string, x0, y0, x1, y1 float64) drawnZone {
	return drawnZone{kind, geom.R(x0, y0, x1, y1).Polygon()}
}

func poly(kind string, xy ...float64) drawnZone {
	var p geom.Polygon
	for i := 0; i+1 < len(xy); i += 2 {
		p = append(p, geom.Pt(xy[i], xy[i+1]))
	}
	return drawnZone{kind, p}
}

// state is how the strips of a drawing lie.
type state struct {
	name   string
	up     func(i int) int
	turned func(i int) bool
}

var states = []state{
	{"as sawn", func(int) int { return 1 }, func(int) bool { return false }},
	{"turned", func(int) int { return 1 }, func(int) bool { return true }},
	{"rolled over", func(int) int { return 2 }, func(int) bool { return false }},
	{"both", func(int) int { return 2 }, func(int) bool { return true }},
	{"mixed", func(i int) int { return 1 + i%2 }, func(i int) bool { return i%3 == 1 }},
}

// yaml writes the drawing as a project: each strip from a board of its own,
// sawn at (50, 20) out of a board 100 longer and 40 wider.
func (d drawing) yaml(widths []float64, st state) string {
	p := face.Panel{Length: d.length, Width: d.width}
	for i, w := range widths {
		p.Strips = append(p.Strips, face.Strip{
			Board: &face.Board{Length: d.length + 130, Width: w + 40},
			X:     50, Y: 20, L: d.length + 30, W: w, Up: st.up(i), Turned: st.turned(i),
		})
	}
	var b strings.Builder
	fmt.Fprintf(&b, "heartside: 1\nname: drawn\nunits: mm\n")
	fmt.Fprintf(&b, "allowances: {kerf: 3, rest: 3, joint: 1.5, ends: 25, panel-edge: 5, after-glue: 1.5, snipe: 60}\n")
	if d.colours != "" {
		fmt.Fprintf(&b, "colours: %s\n", d.colours)
	}
	b.WriteString("boards:\n")
	for i := range p.Strips {
		s := &p.Strips[i]
		fmt.Fprintf(&b, "  - {id: B%d, species: walnut-black, length: %g, width: %g, thickness: 20, wanted: %s, faces: {", i, s.Board.Length, s.Board.Width, orHeart(d.wanted))
		for f := 1; f <= 2; f++ {
			side, zones := face.Show, d.zones
			if f != s.Up {
				side, zones = face.Back, d.back
			}
			fmt.Fprintf(&b, "%d: {base: %s, zones: [", f, orHeart(d.base))
			m := p.PanelToFace(i, side)
			n := 0
			strip := geom.R(0, p.StripY(i), d.length, p.StripY(i)+s.W)
			for _, z := range zones {
				if z.poly.Bounds().Intersect(strip).Empty() {
					continue
				}
				if n++; n > 1 {
					b.WriteString(", ")
				}
				fmt.Fprintf(&b, "{kind: %s, polygon: [", z.kind)
				for k, q := range m.ApplyTo(z.poly) {
					if k > 0 {
						b.WriteString(", ")
					}
					fmt.Fprintf(&b, "[%g, %g]", q.X, q.Y)
				}
				b.WriteString("]}")
			}
			b.WriteString("]}")
			if f == 1 {
				b.WriteString(", ")
			}
		}
		b.WriteString("}}\n")
	}
	fmt.Fprintf(&b, "panels:\n  - id: top\n    role: top\n    length: %g\n    width: %g\n    thickness: 20\n    look: as-laid\n    wanted: %s\n    strips:\n", d.length, d.width, orHeart(d.wanted))
	for i := range p.Strips {
		s := &p.Strips[i]
		fmt.Fprintf(&b, "      - {id: S%d, board: B%d, x: 50, y: 20, length: %g, width: %g, angle: 0, up: %d, turned: %v}\n", i, i, s.L, s.W, s.Up, s.Turned)
	}
	return b.String()
}

func orHeart(s string) string {
	if s == "" {
		return "heart"
	}
	return s
}

// warned runs check --json on a drawing and counts the warnings by kind.
func warned(t *testing.T, yaml string) (map[string]int, reportJSON) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "drawn.yaml")
	if err := os.WriteFile(path, []byte(yaml), 0o666); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if code := Run([]string{"check", path, "--json"}, &out, &errs); code == Failed {
		t.Fatalf("check failed: %s\n%s", errs.String(), yaml)
	}
	var r reportJSON
	if err := json.Unmarshal(out.Bytes(), &r); err != nil {
		t.Fatal(err)
	}
	n := map[string]int{}
	for _, w := range r.Panels[0].Warnings {
		n[w.Kind]++
		if w.Kind == "lone-streak" && strings.Contains(w.Text, "will appear") {
			n["will appear"]++
		}
	}
	return n, r
}

// drawnRow is a row of the rule's table: what a case must and must not give.
type drawnRow struct {
	name   string
	draw   func(l, w float64, joints []float64) drawing
	streak int // lone streaks: the number, or -1 for at least one
	also   string
	sizes  [][2]float64
}

var drawnSizes = [][2]float64{{900, 450}, {1400, 640}, {2200, 1000}}

// rows are what the rule for lone streaks says of drawn cases, in this
// project's own contract. Lengths scale with the panel where the rule speaks
// of shares, and stay where it speaks of millimetres.
var rows = []drawnRow{
	{name: "no unwanted wood", draw: func(l, w float64, j []float64) drawing { return drawing{} }},
	{name: "25 mm band off centre", streak: 1, draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, j[0]+20, l+20, j[0]+45)}}
	}},
	{name: "band of 13 % off centre", streak: 1, draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, 0.22*w, l+20, 0.353*w)}}
	}},
	{name: "both outside edges", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, -9, l+20, 30), bar("sap", -20, w-22, l+20, w+9)}}
	}},
	{name: "both outside edges, one tapering out halfway", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, -9, l+20, 30), poly("sap", 0, w+6, 0, w-22, l/2, w, l/2, w+6)}}
	}},
	{name: "one outside edge", also: "one-sided-edge", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, -9, l+20, 30)}}
	}},
	{name: "wedges at both ends of one strip", streak: 1, draw: func(l, w float64, j []float64) drawing {
		y := (j[0] + j[1]) / 2
		return drawing{zones: []drawnZone{poly("sap", -20, y-20, 0.28*l, y, -20, y+20), poly("sap", l+20, y-20, l+20, y+20, 0.72*l, y)}}
	}},
	{name: "one streak cut in three by knots", streak: 1, draw: func(l, w float64, j []float64) drawing {
		y := (j[0] + j[1]) / 2
		return drawing{zones: []drawnZone{bar("sap", -20, y-12, l+20, y+13), bar("flaw", 0.3*l, y-16, 0.3*l+40, y+18), bar("flaw", 0.65*l, y-16, 0.65*l+35, y+18)}}
	}},
	{name: "streak crossing a glue line", streak: 1, draw: func(l, w float64, j []float64) drawing {
		y := j[0]
		return drawing{zones: []drawnZone{poly("sap", 0.1*l, y-50, 0.9*l, y+28, 0.9*l, y+50, 0.1*l, y-28)}}
	}},
	{name: "joint of 40 mm against 2 mm", streak: 1, draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, j[0]-40, l+20, j[0]+2)}}
	}},
	{name: "halves of 24 and 30 mm meeting at a joint", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, j[1]-24, l+20, j[1]+30)}}
	}},
	{name: "white line of 2.5 mm", also: "sliver", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, j[0]+20, l+20, j[0]+22.5)}}
	}},
	{name: "sliver of 3.2 x 45 mm", sizes: [][2]float64{{2400, 1000}, {2000, 900}, {1800, 1200}}, draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", 700, j[0]+20, 745, j[0]+23.2)}}
	}},
	{name: "pair mirrored about the centre line", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, 0.24*w, l+20, 0.24*w+25), bar("sap", -20, 0.76*w-22, l+20, 0.76*w)}}
	}},
	{name: "pair mirrored about a joint off centre", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, j[0]-42, l+20, j[0]-22), bar("sap", -20, j[0]+22, l+20, j[0]+42)}}
	}},
	{name: "three like bands spread over the width", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, 0.13*w, l+20, 0.13*w+24), bar("sap", -20, 0.42*w, l+20, 0.42*w+20), bar("sap", -20, 0.8*w, l+20, 0.8*w+26)}}
	}},
	{name: "three bands crowded in one third", streak: -1, draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, 0.05*w, l+20, 0.05*w+16), bar("sap", -20, 0.15*w, l+20, 0.15*w+16), bar("sap", -20, 0.25*w, l+20, 0.25*w+16)}}
	}},
	{name: "brown streak of 6 % in maple", streak: 1, draw: func(l, w float64, j []float64) drawing {
		return drawing{wanted: "sap", base: "sap", zones: []drawnZone{bar("heart", -20, 0.3*w, l+20, 0.36*w)}}
	}},
	{name: "on the back only", draw: func(l, w float64, j []float64) drawing {
		return drawing{back: []drawnZone{bar("sap", -20, j[0]+20, l+20, j[0]+45)}}
	}},
	{name: "inside the trimmed edge", draw: func(l, w float64, j []float64) drawing {
		return drawing{zones: []drawnZone{bar("sap", -20, -9, l+20, -0.2)}}
	}},
	{name: "contrast 4 and never more", draw: func(l, w float64, j []float64) drawing {
		return drawing{colours: "[{species: walnut-black, years: 0, heart: [50, 0, 0], sap: [54, 0, 0]}, {species: walnut-black, years: 10, heart: [50, 0, 0], sap: [54, 0, 0]}]",
			zones: []drawnZone{bar("sap", -20, j[0]+20, l+20, j[0]+45)}}
	}},
	{name: "contrast 4 today, 8 in ten years", streak: 1, also: "will appear", draw: func(l, w float64, j []float64) drawing {
		return drawing{colours: "[{species: walnut-black, years: 0, heart: [50, 0, 0], sap: [54, 0, 0]}, {species: walnut-black, years: 10, heart: [50, 0, 0], sap: [58.4, 0, 0]}]",
			zones: []drawnZone{bar("sap", -20, j[0]+20, l+20, j[0]+45)}}
	}},
}

// splits are ways to divide a width of 1 into strips.
var splits = [][]float64{
	{0.2, 0.2, 0.2, 0.2, 0.2},
	{0.24, 0.17, 0.23, 0.19, 0.17},
	{0.22, 0.3, 0.16, 0.32},
}

func TestDrawnCases(t *testing.T) {
	for _, row := range rows {
		sizes := row.sizes
		if sizes == nil {
			sizes = drawnSizes
		}
		for k, size := range sizes {
			if k > 0 && testing.Short() {
				break
			}
			for n, st := range states {
				// The strips as sawn and mixed at every size, the others at
				// one; mirrored in turn. The readings' own tests do them all.
				if n > 0 && n < len(states)-1 && n%len(sizes) != k {
					continue
				}
				for _, mirrored := range []bool{false, true} {
					if n > 0 && mirrored != ((n+k)%2 == 1) {
						continue
					}
					name := fmt.Sprintf("%s/%gx%g/%s/mirrored=%v", row.name, size[0], size[1], st.name, mirrored)
					t.Run(name, func(t *testing.T) {
						checkDrawn(t, row, size, splits[k], st, mirrored)
					})
				}
			}
		}
	}
}

func checkDrawn(t *testing.T, row drawnRow, size [2]float64, split []float64, st state, mirrored bool) {
	l, w := size[0], size[1]
	var widths, joints []float64
	y := -6.0
	for _, s := range split {
		widths = append(widths, s*(w+12))
		y += s * (w + 12)
		joints = append(joints, y)
	}
	d := row.draw(l, w, joints)
	d.length, d.width = l, w
	if mirrored {
		m := geom.Affine{A: 1, E: -1, F: w}
		for _, zs := range [][]drawnZone{d.zones, d.back} {
			for i := range zs {
				zs[i].poly = m.ApplyTo(zs[i].poly)
			}
		}
		for i, k := 0, len(widths)-1; i < k; i, k = i+1, k-1 {
			widths[i], widths[k] = widths[k], widths[i]
		}
	}
	n, r := warned(t, d.yaml(widths, st))
	got := n["lone-streak"]
	if row.streak == -1 && got == 0 || row.streak >= 0 && got != row.streak {
		t.Errorf("lone streaks: got %d, want %d; warnings %v, bands %+v", got, row.streak, n, excuses(r.Panels[0].Face.Bands))
	}
	if row.also != "" && n[row.also] == 0 {
		t.Errorf("no %s among %v", row.also, n)
	}
}

// excuses lists bands with their excuses, for failures.
func excuses(bands []bandJSON) string {
	var out []string
	for _, b := range bands {
		e := "none"
		if b.Excuse != nil {
			e = *b.Excuse
		}
		out = append(out, fmt.Sprintf("%s at %.0f,%.0f %.0f x %.1f excuse %s", b.ID, b.X, b.Y, b.Length, b.Width, e))
	}
	return strings.Join(out, "; ")
}
