package tool

import (
	"heartside/layout/geom"
	"heartside/model"
)

// Part says what a place on the surface belongs to.
type Part uint8

// Parts of the surface.
const (
	Nothing      Part = iota
	PanelGround       // the panel's part of the surface, beside every strip
	PanelStrip        // a strip of the panel that lies on a board
	PanelPlace        // an empty place of the panel
	BoardGround       // a face of a board, beside every strip
	BoardStrip        // a strip as it lies on its board
	RotateHandle      // the handle that turns a strip on its board
	BoardEdge         // the marked edge between the two faces
	Lane              // another board, folded up
	ZoneVertex        // a corner of the zone in hand
	ZoneEdge          // an edge of the zone in hand
)

// onFace reports whether the part is a place on a face of the board in hand.
func (p Part) onFace() bool {
	switch p {
	case BoardGround, BoardStrip, RotateHandle, ZoneVertex, ZoneEdge:
		return true
	}
	return false
}

// onBoard reports whether a strip can be dropped there.
func (p Part) onBoard() bool { return p.onFace() || p == BoardEdge || p == Lane }

// inPanel reports whether the part belongs to the panel.
func (p Part) inPanel() bool { return p == PanelGround || p == PanelStrip || p == PanelPlace }

// Hit is what lies at a place on the surface.
type Hit struct {
	Part   Part
	Panel  string
	Strip  string // of BoardGround, the strip in hand
	Board  string
	Face   int        // 1 or 2 where a face is hit
	Zone   int        // index of the topmost zone there, -1 none
	Vertex int        // of ZoneVertex, or the vertex before the edge of ZoneEdge
	At     geom.Point // panel mm, or mm in the face's own coordinates
}

// Guide is a line that tells what an edge snapped to, in face-1 coordinates.
type Guide struct {
	A, B geom.Point
	Why  string
}

// Sketch is what a tool shows beside the project while it works.
type Sketch struct {
	Board   string
	Face    int
	Guides  []Guide      // on face 1 of Board
	Ring    geom.Polygon // a polygon being drawn, the face's own coordinates
	Kind    model.ZoneKind
	Radius  float64 // of the brush, mm; 0 none
	Centre  geom.Point
	Line    []geom.Point // along the grain, being drawn, the face's own coordinates
	Cursor  *geom.Point  // of the keys, on Face
	Carried string       // strip id under way
	Swap    string       // the strip that would change places with it
	Say     string       // what would happen, for the status line
	Fails   bool         // Say tells what speaks against it
}

// Host is what a tool may ask of the window.
type Host interface {
	// Project returns the project without any preview.
	Project() *model.Project
	Hit(at geom.Point) Hit
	// PanelAt maps a place on the surface to mm of the panel on screen, also
	// beyond its borders.
	PanelAt(at geom.Point) geom.Point
	// FaceAt maps a place on the surface to mm of a face in that face's own
	// coordinates, also beyond its borders.
	FaceAt(board string, face int, at geom.Point) geom.Point
	// Snap brings a strip to what lies near and tells the lines it met.
	Snap(panel string, s model.Strip) (model.Strip, []Guide)
	Preview(model.Edit) error
	Commit(model.Edit) error
	Cancel()
	Select(Hit)
	Show(Sketch)
	Hovering(Hit)
	Pan(at geom.Point, by geom.Point) // drag of the view, surface units
	Menu(h Hit, at geom.Point)
	Open(Hit) // a double click
}

// State is where a tool stands.
type State interface {
	// Handle answers an event with the next state.
	Handle(h Host, e Event) State
	// Busy reports whether a gesture is under way.
	Busy() bool
}

// toFace1 maps a point of a face's own coordinates to face 1.
func toFace1(b *model.Board, face int, p geom.Point) geom.Point {
	if face == 2 {
		p.Y = b.Width - p.Y
	}
	return p
}
