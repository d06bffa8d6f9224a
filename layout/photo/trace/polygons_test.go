package trace

import (
	"math"
	"math/rand/v2"
	"testing"

	"heartside/layout/geom"
	"heartside/layout/photo"
)

// drawn makes a mask of 1 mm cells from rows of letters, the top row first:
// h heart, s sap, f flaw, u unseen, anything else outside.
func drawn(rows ...string) *photo.Mask {
	m := photo.NewMask(float64(len(rows[0])), float64(len(rows)), 1)
	for j, r := range rows {
		for i, c := range r {
			switch c {
			case 'h':
				m.Pix[j*m.W+i] = photo.Heart
			case 's':
				m.Pix[j*m.W+i] = photo.Sap
			case 'f':
				m.Pix[j*m.W+i] = photo.Flaw
			case 'u':
				m.Pix[j*m.W+i] = photo.Unseen
			}
		}
	}
	return m
}

// painted makes a mask by asking what lies at each cell's middle.
func painted(length, width, perMM float64, at func(x, y float64) photo.Label) *photo.Mask {
	m := photo.NewMask(length, width, perMM)
	dx, dy := length/float64(m.W), width/float64(m.H)
	for k := range m.Pix {
		m.Pix[k] = at((float64(k%m.W)+0.5)*dx, width-(float64(k/m.W)+0.5)*dy)
	}
	return m
}

// blobs is a face of wandering sap edges, islands and knots.
func blobs(seed uint64, length, width, perMM float64) *photo.Mask {
	r := rand.New(rand.NewPCG(seed, 7))
	type wave struct{ kx, ky, p, a float64 }
	waves := make([]wave, 8)
	for i := range waves {
		waves[i] = wave{(0.5 + 3*r.Float64()) * 2 * math.Pi / length, (r.Float64() - 0.5) * 4 * math.Pi / width, 7 * r.Float64(), r.Float64()}
	}
	edge := width * (0.2 + 0.5*r.Float64())
	return painted(length, width, perMM, func(x, y float64) photo.Label {
		v := 0.0
		for i, w := range waves {
			s := w.a * math.Sin(w.kx*x+w.ky*y+w.p)
			v += s
			if i == 3 && v > 1.6 {
				return photo.Flaw
			}
		}
		switch d := (y-edge)/width*5 + v; {
		case d < 0:
			return photo.Sap
		case d > 4.2:
			return photo.Unseen
		}
		return photo.Heart
	})
}

// noise is the worst there is: every cell by itself.
func noise(seed uint64, w, h int, kinds int) *photo.Mask {
	r := rand.New(rand.NewPCG(seed, 3))
	m := photo.NewMask(float64(w), float64(h), 1)
	for k := range m.Pix {
		m.Pix[k] = photo.Heart + photo.Label(r.IntN(kinds))
	}
	return m
}

// borderSides lists the cell sides between different kinds, slowly.
func borderSides(m *photo.Mask) (sides [][2]geom.Point) {
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	at := func(i, j int) geom.Point { return geom.Pt(float64(i)*dx, m.Width-float64(j)*dy) }
	for j := range m.H {
		for i := range m.W {
			if i+1 < m.W && m.At(i, j) != m.At(i+1, j) {
				sides = append(sides, [2]geom.Point{at(i+1, j), at(i+1, j+1)})
			}
			if j+1 < m.H && m.At(i, j) != m.At(i, j+1) {
				sides = append(sides, [2]geom.Point{at(i, j+1), at(i+1, j+1)})
			}
		}
	}
	return sides
}

// checkTraced holds polygons against their mask by the definition alone:
// sound rings, both ways of the Hausdorff distance, and the mask drawn again.
// The mask must have no specks.
func checkTraced(t *testing.T, m *photo.Mask, zones []Zone, base photo.Label, tol float64) {
	t.Helper()
	sides := borderSides(m)
	off := func(q geom.Point) float64 {
		d := math.Inf(1)
		for _, s := range sides {
			if math.Abs(s[0].X-q.X) < tol+3 && math.Abs(s[0].Y-q.Y) < tol+3 {
				d = math.Min(d, geom.SegmentDistance(q, s[0], s[1]))
			}
		}
		return d
	}
	onOutline := func(q geom.Point) bool { return q.X == 0 || q.Y == 0 || q.X == m.Length || q.Y == m.Width }
	for n, z := range zones {
		if err := z.Polygon.Validate(); err != nil {
			t.Errorf("zone %d of %d points: %v", n, len(z.Polygon), err)
		}
		if z.Polygon.SignedArea() <= 0 {
			t.Errorf("zone %d runs clockwise", n)
		}
		for k, a := range z.Polygon {
			b := z.Polygon[(k+1)%len(z.Polygon)]
			if a.X < 0 || a.Y < 0 || a.X > m.Length || a.Y > m.Width {
				t.Fatalf("zone %d: %v lies off the face", n, a)
			}
			if onOutline(a.Lerp(b, 0.5)) {
				continue
			}
			for steps, i := int(a.Dist(b)*2)+1, 0; i <= steps; i++ {
				q := a.Lerp(b, float64(i)/float64(steps))
				if d := off(q); d > tol+1e-6 {
					t.Fatalf("zone %d: %v lies %.3f mm off the mask's borders", n, q, d)
				}
			}
		}
	}
	for _, s := range sides {
		for _, q := range []geom.Point{s[0], s[0].Lerp(s[1], 0.5), s[1]} {
			d := math.Inf(1)
			for _, z := range zones {
				_, _, e := z.Polygon.Nearest(q)
				d = math.Min(d, e)
			}
			if d > tol+1e-6 {
				t.Fatalf("the mask's border at %v lies %.3f mm off the zones", q, d)
			}
		}
	}
	again, err := Rasterise(zones, base, m.Length, m.Width, float64(m.W)/m.Length)
	if err != nil {
		t.Fatal(err)
	}
	dx, dy := m.Length/float64(m.W), m.Width/float64(m.H)
	for k, l := range again.Pix {
		if q := geom.Pt((float64(k%m.W)+0.5)*dx, m.Width-(float64(k/m.W)+0.5)*dy); l != m.Pix[k] && off(q) > tol+1e-6 {
			t.Fatalf("the cell at %v is %d, was %d, %.2f mm from a border", q, l, m.Pix[k], off(q))
		}
	}
}

func TestPolygonsKeepToTheMask(t *testing.T) {
	cases := map[string]*photo.Mask{
		"one kind":       drawn("hhhh", "hhhh"),
		"one other kind": drawn("ssss", "ssss"),
		"island in sap":  drawn("ssssssss", "sshhhsss", "sshfhsss", "sshhhsss", "ssssssss"),
		"checkers":       drawn("hshs", "shsh", "hshs", "shsh"),
		"three by three": drawn("hsf", "sfh", "fhs"),
		"ring in a ring": drawn("hhhhhhhhh", "hsssssssh", "hshhhhhsh", "hshssshsh", "hshshshsh", "hshsssfsh", "hshhhhhsh", "hsssssssh", "hhhhhhhhh"),
		"touching tips":  drawn("hhhhhh", "hssshh", "hshhsh", "hsshsh", "hhsssh", "hhhhhh"),
		"one cell":       drawn("s"),
		"one row":        drawn("hshhssh"),
		"noise of two":   noise(1, 40, 25, 2),
		"noise of four":  noise(2, 37, 21, 4),
		"fine cells":     blobs(5, 60, 40, 2.13),
		"coarse cells":   blobs(6, 300, 200, 0.4),
	}
	for seed := range uint64(6) {
		cases["blobs "+string(rune('a'+seed))] = blobs(100+seed, 180, 90, 1)
	}
	for name, m := range cases {
		t.Run(name, func(t *testing.T) {
			for _, tol := range []float64{0, 0.3, 1, 2.5} {
				for _, sapBase := range []bool{false, true} {
					zones, base, err := Polygons(m, Options{Tolerance: tol, SapBase: sapBase})
					if err != nil {
						t.Fatal(err)
					}
					checkTraced(t, m, zones, base, tol)
				}
			}
		})
	}
}

// An oblique straight border needs its two ends; a staircase of cells allows a
// bend or two.
func TestStraightBordersTakeFewPoints(t *testing.T) {
	for _, end := range []float64{38, 38.7, 44, 52, 90, 300} {
		m := painted(2400, 300, 1, func(x, y float64) photo.Label {
			if y < 38+(end-38)*x/2400 {
				return photo.Sap
			}
			return photo.Heart
		})
		zones, base, err := Polygons(m, Defaults())
		if err != nil || base != photo.Heart || len(zones) != 1 || zones[0].Kind != photo.Sap {
			t.Fatalf("%v: base %d, %v", zones, base, err)
		}
		if n := len(zones[0].Polygon); n > 8 {
			t.Errorf("a border from 38 to %g takes %d points", end, n)
		}
		if a, want := zones[0].Polygon.Area(), 1200*(38+end); math.Abs(a-want) > 0.3*2400 {
			t.Errorf("a border from 38 to %g: %.0f mm2, want %.0f within 0.3 mm of width", end, a, want)
		}
	}
}

// By hand: an island of heart in sap with a knot in it comes after the sap,
// the knot after both; specks become what is about them; the outline is met.
func TestLayersAndSpecks(t *testing.T) {
	m := painted(120, 60, 1, func(x, y float64) photo.Label {
		switch {
		case x > 90 && x < 93 && y > 30 && y < 33: // 9 mm2
			return photo.Flaw
		case x > 20 && x < 30 && y > 50: // a knot at the outline
			return photo.Flaw
		case x > 40 && x < 44 && y > 16 && y < 20:
			return photo.Flaw
		case x > 30 && x < 60 && y > 10 && y < 25:
			return photo.Heart
		case y < 35:
			return photo.Sap
		}
		return photo.Heart
	})
	zones, base, err := Polygons(m, Defaults())
	if err != nil {
		t.Fatal(err)
	}
	if base != photo.Heart || len(zones) != 4 {
		t.Fatalf("base %d, zones %v", base, zones)
	}
	kinds := [4]photo.Label{zones[0].Kind, zones[1].Kind, zones[2].Kind, zones[3].Kind}
	if kinds != [4]photo.Label{photo.Sap, photo.Heart, photo.Flaw, photo.Flaw} {
		t.Errorf("kinds %v", kinds)
	}
	if b := zones[0].Polygon.Bounds(); b != geom.R(0, 0, 120, 35) {
		t.Errorf("the sap lies in %v", b)
	}
	if b := zones[2].Polygon.Bounds(); b.Max.Y != 60 {
		t.Errorf("the knot at the outline ends at %v", b.Max.Y)
	}
	// With sap as the base the other heart is a zone.
	zones, base, err = Polygons(m, Options{Tolerance: 1, Least: 10, SapBase: true})
	if err != nil || base != photo.Sap || zones[0].Kind != photo.Heart || zones[0].Polygon.Area() < 2700 {
		t.Errorf("base %d, zones %v, %v", base, zones, err)
	}
	// Not allowed, or not more than half.
	if Base(m, false) != photo.Heart || Base(drawn("hs"), true) != photo.Heart || Base(drawn("hss"), true) != photo.Sap {
		t.Error("the base")
	}
}

// Cells outside the board are as what lies beside them; nothing else moves.
func TestOutsideTakesTheNearest(t *testing.T) {
	zones, _, err := Polygons(drawn("..hhhh", ".ssssh", "ssssss"), Options{Tolerance: 0})
	if err != nil || len(zones) != 1 {
		t.Fatal(zones, err)
	}
	if p := zones[0].Polygon; !p.Contains(geom.Pt(0.5, 1.5)) || p.Area() < 11 || p.Area() > 12 {
		t.Errorf("%v of %g mm2", p, p.Area())
	}
	if zones, _, err := Polygons(drawn("..", ".."), Defaults()); err != nil || zones != nil {
		t.Error(zones, err)
	}
}

// Zones that touch have the same points along what they share: no gap shows
// between them at any scale. Counted: each inner border edge of a zone is
// found the other way round in another, where that is no base.
func TestNeighboursShareTheirBorder(t *testing.T) {
	m := painted(200, 80, 1, func(x, y float64) photo.Label {
		switch {
		case y < 25+8*math.Sin(x/17):
			return photo.Sap
		case y < 50+5*math.Sin(x/9):
			return photo.Flaw
		}
		return photo.Unseen
	})
	zones, _, err := Polygons(m, Defaults())
	if err != nil || len(zones) != 3 {
		t.Fatal(zones, err)
	}
	var sum float64
	edges := map[[2]geom.Point]bool{}
	for _, z := range zones {
		sum += z.Polygon.Area()
		for k, a := range z.Polygon {
			edges[[2]geom.Point{a, z.Polygon[(k+1)%len(z.Polygon)]}] = true
		}
	}
	if math.Abs(sum-200*80) > 1e-6 {
		t.Errorf("the zones cover %.9g mm2, want the face's 16000", sum)
	}
	for e := range edges {
		mid := e[0].Lerp(e[1], 0.5)
		if mid.X > 0 && mid.X < 200 && mid.Y > 0 && mid.Y < 80 && !edges[[2]geom.Point{e[1], e[0]}] {
			t.Errorf("the edge from %v to %v is no other zone's", e[0], e[1])
		}
	}
}

// With specks left out, what is drawn again differs from the mask only within
// the tolerance of its borders and in regions under the least area.
func TestSpecksAloneAreDropped(t *testing.T) {
	m := speckled(300, 120)
	o := Options{Tolerance: 1, Least: 10}
	zones, base, err := Polygons(m, o)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Rasterise(zones, base, m.Length, m.Width, 1)
	if err != nil {
		t.Fatal(err)
	}
	all, err := Components(m)
	if err != nil {
		t.Fatal(err)
	}
	// Which component a cell is of, found anew by walking from its first cell.
	of := make([]int, len(m.Pix))
	for n, c := range all {
		for todo := []int{c.Row*m.W + c.Column}; len(todo) > 0; {
			k := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if of[k] != 0 {
				continue
			}
			of[k] = n + 1
			for _, d := range [4]int{-1, 1, -m.W, m.W} {
				if q := k + d; q >= 0 && q < len(of) && of[q] == 0 && m.Pix[q] == c.Kind && (d != 1 || q%m.W > 0) && (d != -1 || k%m.W > 0) {
					todo = append(todo, q)
				}
			}
		}
	}
	specks := 0
	for k, l := range again.Pix {
		if all[of[k]-1].Area < o.Least {
			specks++
			continue
		}
		if l == m.Pix[k] {
			continue
		}
		near := false // a cell of another kind that is no speck, two cells away at most
		for dj := -2; dj <= 2; dj++ {
			for di := -2; di <= 2; di++ {
				i, j := k%m.W+di, k/m.W+dj
				near = near || i >= 0 && j >= 0 && i < m.W && j < m.H && m.At(i, j) != m.Pix[k] && all[of[j*m.W+i]-1].Area >= o.Least
			}
		}
		if !near {
			t.Fatalf("column %d, row %d is %d, was %d, away from borders", k%m.W, k/m.W, l, m.Pix[k])
		}
	}
	if specks < 100 {
		t.Errorf("%d cells of specks: the case tests nothing", specks)
	}
	for i, z := range zones {
		if z.Polygon.Area() < o.Least/2 {
			t.Errorf("zone %d covers %.1f mm2", i, z.Polygon.Area())
		}
	}
}
