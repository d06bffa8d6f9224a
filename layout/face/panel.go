package face

import "heartside/layout/geom"

// Strip is a rectangle cut from a board, in face-1 coordinates: corner (X, Y),
// L along and W across, turned by Angle degrees anticlockwise about the
// corner, more than -90 and at most 90. L and W are as glued.
type Strip struct {
	ID     string
	Board  *Board // nil: an empty place, not cut from any board yet
	X, Y   float64
	L, W   float64
	Angle  float64
	Up     int  // the board face that shows, 1 or 2
	Turned bool // end for end: the marked end lies at the right
	Shift  float64
	Pinned bool
	Stage  Stage
	Off    Off
	Planed *PlanedFace // measured on the planed wood; nil: the board's zones hold
	Row    *Row        // nil: it is cut by itself
}

// PlanedFace is what the face of a strip that shows was found to be after
// planing, in the strip's own (s, t). It is known by its pointer.
type PlanedFace struct {
	Base  Kind
	Zones []Zone
}

// Stage is how far the making of a strip has come; a fix may not ask for what
// the stage forbids.
type Stage uint8

// Stages in their order.
const (
	Planned Stage = iota
	Sawn
	Planed
	Jointed
	Glued
)

// Panel is a panel as the readings see it: X along the grain from the left, Y
// from the front edge, seen from above on the show face. Strips lie front to
// back from Y0, centred on Length/2 plus their Shift.
type Panel struct {
	ID                       string
	Length, Width, Thickness float64
	Shape                    geom.Polygon   // nil: the rectangle; an ellipse comes as a fine polygon
	Hidden                   []geom.Polygon // on the show face, seen by nobody
	Profiles                 [4]Profile     // worked off the show face: at the front, back, left and right
	BothShow                 bool           // the back is seen too
	Wanted                   Wanted
	Limit                    [2]float64 // most unwanted share on show face and back, 1 = any
	PanelEdge                float64    // least excess wanted at each long edge, mm
	Limits                   Limits
	ToPlane                  float64 // of the stock to be planed off, 0 finished, 1 as sawn
	Strips                   []Strip
}

// Limits are the thresholds of the rules. All are engineering choices with no
// published source; each is a setting of the project.
type Limits struct {
	Streak   float64    // other unwanted wood under which a streak stands alone, share 0 to 1
	Mix      [2]float64 // even-mix range, shares 0 to 1
	Contrast float64    // least CIEDE2000 for a streak to count

	// Unwanted wood that planing brings to the show face, mm of its width along
	// 60 mm; 0 is the default. Fresh is told where the sawn face has none there:
	// less is no more than a sliver. More is told where it makes wider what the
	// sawn face shows, which is seen coming: a flat-sawn board gains some 5 mm for
	// 3 mm planed off its heart side.
	Fresh, More float64

	// Turns is how many times the direction of planing changes from front to back
	// before strips are told of that may look like stripes; 0 is the default.
	Turns int
}

// DefaultLimits are used where the project says nothing.
var DefaultLimits = Limits{Streak: 0.12, Mix: [2]float64{0.25, 0.60}, Contrast: 6, Fresh: 3, More: 10, Turns: 2}

// StripsWidth returns the sum of the strips' widths in mm.
func (p *Panel) StripsWidth() float64 {
	var w float64
	for i := range p.Strips {
		w += p.Strips[i].W
	}
	return w
}

// Y0 returns where the first strip begins: negative where the strips stand
// over the front edge.
func (p *Panel) Y0() float64 { return (p.Width - p.StripsWidth()) / 2 }

// Outline returns the finished shape as a polygon.
func (p *Panel) Outline() geom.Polygon {
	if p.Shape != nil {
		return p.Shape
	}
	return geom.R(0, 0, p.Length, p.Width).Polygon()
}
