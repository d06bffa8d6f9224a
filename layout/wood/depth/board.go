package depth

import (
	"fmt"
	"math"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Pith is where the pith passes at one place along a board: across from the
// marked edge, depth below face 1; it may lie outside the board.
type Pith struct{ X, Across, Depth float64 }

// Face is a sawn face in its own coordinates, as face.BoardFace has it.
type Face struct {
	Base    face.Kind
	Outline geom.Polygon // nil: the whole rectangle
	Zones   []face.Zone  // later ones on top
	Known   bool         // somebody has looked at it
}

// Board is a board as sawn.
type Board struct {
	Length, Width, Thickness float64 // mm
	Faces                    [2]Face // face 1 and face 2
	Pith                     []Pith  // nil: not known; one: all along; more: in any order of x, straight between
	Heart                    float64 // mean radius of the heartwood, mm; 0 not known
}

// How says where a line below the surface comes from.
type How string

// Ways to know.
const (
	Exact   How = "exact"    // the sawn face itself
	About   How = "pith"     // between two faces, about a pith that was told
	Between How = "between"  // between two faces, by the distances to their lines
	OneFace How = "one-face" // from one face and the pith
	Assumed How = "assumed"  // one face known: taken to be the same below
	Circle  How = "circle"   // pith and heart radius alone
)

// Note tells how a face below the surface was found.
type Note struct {
	How How
	// Uncertain is about how far the sap line may lie off, mm across the board,
	// a mean along the line. 0 for the sawn face and where no sap line is. An
	// estimate from how unround heartwood is; on modelled boards it says more
	// than the true mean more often than less.
	Uncertain float64
}

// Solid is a board below its faces. It does not change and may be asked by
// several goroutines.
type Solid struct {
	b       Board
	how     How
	x       []float64    // of the sections
	pith    []geom.Point // about which sections are read; nil: about none
	faces   [2][]column
	gap     [2][2][]float64 // by face and branch: mm along to the nearest section with a line there
	radius  [2][]float64    // by branch: radius of the line near a section, 0 none
	mean    float64         // radius of heartwood, 0 unknown
	shift   [2][]float64    // by branch: how far the line goes over from face 1 to face 2 near a section, NaN unknown
	still   bool            // near its faces it is as they are
	outline bool
}

// New reads a board. It fails for sizes that are none, places that are not
// finite, and where neither a face is known nor both pith and heart radius.
func New(b Board) (*Solid, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	s := &Solid{b: b}
	s.b.Pith = sorted(b.Pith)
	n := int(math.Min(math.Max(math.Ceil(b.Length/step), 8), most))
	s.x = make([]float64, n+1)
	for i := range s.x {
		s.x[i] = b.Length * float64(i) / float64(n)
	}
	for k := range b.Faces {
		s.faces[k] = s.columns(k)
		s.outline = s.outline || (b.Faces[k].Known && b.Faces[k].Outline != nil)
	}
	s.findPith()
	s.look()
	s.shifts()
	s.still = s.stands()
	if s.how == Between {
		s.beyond()
	}
	return s, nil
}

const (
	step = 1.0  // mm between sections
	most = 4000 // sections at most
)

func (b *Board) check() error {
	for _, v := range []struct {
		name string
		v    float64
	}{{"length", b.Length}, {"width", b.Width}, {"thickness", b.Thickness}} {
		if !(v.v > 0) || v.v > 1e6 {
			return fmt.Errorf("planing a board: its %s is %g mm, want more than 0", v.name, v.v)
		}
	}
	if !(b.Heart >= 0) || b.Heart > 1e5 {
		return fmt.Errorf("planing a board: heartwood of %g mm radius: want 0 for not known, or more", b.Heart)
	}
	for i, p := range b.Pith {
		if !finite(p.X) || !finite(p.Across) || !finite(p.Depth) {
			return fmt.Errorf("planing a board: place %d of the pith is not a number", i+1)
		}
	}
	for k, f := range b.Faces {
		if !f.Known {
			continue
		}
		rings := []geom.Polygon{f.Outline}
		for _, z := range f.Zones {
			rings = append(rings, z.Polygon)
		}
		for i, r := range rings {
			for _, p := range r {
				if !finite(p.X) || !finite(p.Y) {
					what := "the outline"
					if i > 0 {
						what = fmt.Sprintf("zone %d", i)
					}
					return fmt.Errorf("planing a board: face %d: %s has a point that is not a number", k+1, what)
				}
			}
		}
	}
	if !b.Faces[0].Known && !b.Faces[1].Known && (len(b.Pith) == 0 || b.Heart == 0) {
		return fmt.Errorf("planing a board: no face is known: draw one, or give the pith and the radius of the heartwood")
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) && math.Abs(v) < 1e7 }
