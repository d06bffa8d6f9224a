package scene

import "heartside/layout/geom"

// Part says what a place on the surface belongs to.
type Part uint8

// Parts.
const (
	Nothing      Part = iota
	PanelGround       // the panel's part of the surface, beside every strip
	PanelStrip        // a strip that lies on a board
	PanelPlace        // an empty place
	Joint             // the glue line between strips Index and Index+1
	BoardGround       // the board's part of the surface, beside the board
	BoardFace         // a face of the board in hand
	BoardEdge         // the marked edge between the two faces
	BoardStrip        // a strip as it lies on the board in hand
	RotateHandle      // turns the strip in hand on its board
	ZoneVertex        // a corner of the zone in hand
	ZoneEdge          // an edge of the zone in hand
	Lane              // another board
	LaneGround        // the lanes' part of the surface
	BeforeSide        // the panel as it was
	MarkWedge         // the corner mark of a strip: its marked end and marked edge
	PlaneArrow        // which way a strip planes
	JointMark         // what meets at the joint between strips Index and Index+1
)

// Hit is what lies under a place on the surface.
type Hit struct {
	Part   Part
	Panel  string
	Strip  string
	Solid  string // what the cutting of a solid part is called that is hit
	Board  string
	Face   int        // 1 or 2 where a face is hit
	Index  int        // of the strip or joint in the panel; of a zone's vertex, or the vertex before its edge
	Zone   int        // topmost zone there, -1 none
	Panels geom.Point // panel mm
	At     geom.Point // mm in the face's own coordinates
	At1    geom.Point // the same place in face-1 coordinates
}
