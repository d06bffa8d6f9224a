package face

import (
	"heartside/layout/colour"
	"heartside/layout/geom"
)

// kinds is how many kinds of wood there are, Blank apart.
const kinds = int(Unseen) + 1

// stripData is what is read of one strip by itself, in place coordinates: u
// along and v across as seen on the show face, from its left front corner.
type stripData struct {
	key      stripKey
	version  uint64 // another for every reading of a strip
	faces    [2]faceData
	narrow   [4]narrowPart // Front, Rear, Left, Right
	profiles [4]surfacePart
	widths   [4]Widths    // Front, Rear on the show face, then on the back
	ends     interval     // u of the finished ends
	joint    [2][]float32 // light width every 10 mm along the front and the back edge, show face
	brought  brought
	guessed  [2]bool // show, back
	asSawn   bool
	counted  bool // its colours are in the count of the reader
}

// faceData is what is read of one face of a strip.
type faceData struct {
	woods  woods
	pieces []geom.Trapezoid // in the order of X0; Label is a Kind
	level  []uint8          // of each piece: 0 on the flat face, else one more than its level under a profile; empty where none
	owner  []int32          // the fragment of each piece, -1 where none
	area   [kinds]float64
	moment float64 // integral of v over the unwanted wood
	seen   [2]tint // colour of the heartwood and the sapwood
	fragments
	cells   cells
	runs    [2][]kindRun // along the front and the back edge
	flaws   []flaw
	assumed [2]bool // the colour of the kind is not from a photograph
}

// wooded returns the area of wood of any kind.
func (f *faceData) wooded() float64 {
	return f.area[Heart] + f.area[Sap] + f.area[Flaw] + f.area[Unseen]
}

// work holds the buffers that reading a strip needs and that nothing keeps.
type work struct {
	cutter geom.Decomposer
	region geom.Polygon
	layers layers
	column column
	before layers // of the sawn face, where it is held against the planed one
	sawn   column // likewise
	fresh  []float64
	more   []float64
	joined joins
	flawed joins
	nodes  []int32
	count  []int32
	sums   []cellSum
	notes  map[noteKey]*note
	used   uint64 // counts readings
}

// read fills st for strip i of p. st.key is set; its buffers are used again.
func (st *stripData) read(w *work, f *finished, s *Strip, left, at float64) {
	st.narrow = [4]narrowPart{}
	st.brought = brought{}
	st.profiles = [4]surfacePart{}
	st.widths = [4]Widths{}
	st.guessed = [2]bool{}
	st.asSawn = false
	st.ends = interval{}
	st.joint[0], st.joint[1] = st.joint[0][:0], st.joint[1][:0]
	sound := st.key.sound()
	sawn, planedTo := s, *s
	planedTo.Board = st.key.board
	s = &planedTo
	unwanted, judged := st.key.wanted.Unwanted()
	for side := range st.faces {
		fd := &st.faces[side]
		fd.reset()
		if !sound {
			continue
		}
		b := s.Board
		up := st.key.up
		if side == int(Back) {
			up = 3 - up
		}
		planed := side == int(Show) && s.Planed != nil
		st.guessed[side] = b.Faces[up-1].Guessed && !planed
		fd.woods = w.noteOf(b, up).woods
		w.lay(s, Side(side), st.key.up)
		w.layers.finish(f, left, at, side == int(Show))
		if st.key.clip.Empty() {
			continue
		}
		var deeper [profileLevels]*colour.Field
		if side == int(Show) && st.key.levels > 0 {
			deeper = st.cutWorked(w, f, sawn, s, left, at)
		} else {
			w.region = append(w.region[:0], st.key.clip.Polygon()...)
			fd.pieces = dropBlank(w.cutter.Decompose(fd.pieces, w.region, int(Blank), w.layers.list))
		}
		fd.tally(unwanted, judged)
		fd.findFlaws(w)
		if judged {
			fd.findFragments(w, unwanted)
		} else {
			fd.noFragments()
		}
		fd.measure(&st.key, f)
		field := b.Faces[up-1].Field
		if planed {
			field = nil
		}
		fd.colour(w, s, field, &deeper, up, st.key.wanted)
		fd.findRuns(s.W)
	}
	if !sound {
		return
	}
	st.asSawn = s.Planed == nil && s.Board.Thickness > st.key.thickness && st.key.thickness > 0
	st.ends = interval{st.key.clip.Min.X, st.key.clip.Max.X}
	if f.shaped {
		if x0, x1, ok := f.extent(at, at+s.W); ok {
			st.ends = interval{max(0, x0-left), min(s.L, x1-left)}
		}
	}
	st.readWidths(w, s)
	st.readNarrow(w, f, s, left, at)
	st.readBrought(w, f, sawn, s, left, at)
}

func (f *faceData) reset() {
	f.pieces, f.level, f.flaws = f.pieces[:0], f.level[:0], f.flaws[:0]
	f.runs[0], f.runs[1] = f.runs[0][:0], f.runs[1][:0]
	f.area, f.moment, f.seen = [kinds]float64{}, 0, [2]tint{}
	f.woods, f.assumed = woods{}, [2]bool{}
	f.cells.reset()
	f.fragments.reset()
	f.owner = f.owner[:0]
}

// tally sums the areas, and the moment of the unwanted wood.
func (f *faceData) tally(unwanted Kind, judged bool) {
	for i := range f.pieces {
		t := &f.pieces[i]
		f.area[t.Label] += t.Area()
		if judged && Kind(t.Label) == unwanted {
			f.moment += momentOf(t)
		}
	}
}

// dropBlank takes away what is no wood.
func dropBlank(pieces []geom.Trapezoid) []geom.Trapezoid {
	keep := pieces[:0]
	for _, t := range pieces {
		if t.Label >= 0 && t.Label < kinds {
			keep = append(keep, t)
		}
	}
	return keep
}
