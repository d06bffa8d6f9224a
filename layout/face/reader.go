package face

import (
	"math"
)

// Reader reads panels and remembers what it read, so that the next reading of
// nearly the same panel costs little: a strip is read again only where its
// board (by pointer), its place on the board, its planed face (by pointer) or
// its cut by the panel's outline has changed, a joint only where one of its
// strips has. What it remembers never changes a result. The zero value is
// ready. A Reader is for one goroutine at a time.
type Reader struct {
	work      work
	fin       finished
	wanted    Wanted
	strips    []*stripData // of the last reading; nil where not placed
	older     []*stripData // buffer
	free      []*stripData
	kept      map[stripKey]*stripData // of earlier readings
	keep      int                     // how many of them at most
	joints    []*jointData
	lefts     []float64 // where each strip begins
	ys        []float64
	versions  uint64
	tones     [2]tones
	held      [2]standard
	holding   bool
	uncovered bool // contrast coverage is left out
	primed    bool // a reading was made, so states holds what was warned of
	states    []state
	found     []candidate
	groups    [2]grouping
	split     [2]bool
	store     store
	reading   Reading
}

// NewReader returns a Reader that has read nothing.
func NewReader() *Reader { return &Reader{} }

// ReadFull reads p from scratch.
func ReadFull(p *Panel) *Reading { return NewReader().Read(p) }

// Begin starts a drag: until End the colour that contrast coverage is taken
// against stays as it is, and a warning needs its thresholds to be passed by a
// tenth to come or go.
func (r *Reader) Begin() { r.Hold(true) }

// End ends a drag.
func (r *Reader) End() { r.Hold(false) }

// Hold is Begin for true and End for false.
func (r *Reader) Hold(on bool) { r.holding = on }

// Read returns everything read of p. The reading belongs to r and holds until
// r reads again; Clone keeps it. A panel without length or width, or none of
// whose strips is placed, gives a reading without warnings.
func (r *Reader) Read(p *Panel) *Reading {
	if r.reading.Panel != p.ID {
		r.primed, r.held = false, [2]standard{}
	}
	r.work.used++
	r.wanted = p.Wanted
	r.store.reset()
	r.begin(p)
	if !(p.Length > 0 && p.Width > 0) || math.IsInf(p.Length, 0) || math.IsInf(p.Width, 0) {
		r.drop()
		r.states, r.primed = r.states[:0], false
		return &r.reading
	}
	r.fin.take(p)
	r.readStrips(p)
	r.readJoints(p)
	for side := Show; side <= Back; side++ {
		r.readFace(p, side)
	}
	r.readNarrows()
	r.readProfiles()
	r.warn(p)
	for side := Show; side <= Back; side++ {
		r.publish(p, side)
	}
	r.primed = true
	r.work.forget()
	return &r.reading
}

// begin empties the reading, keeping its buffers.
func (r *Reader) begin(p *Panel) {
	old := r.reading
	r.reading = Reading{
		Panel: p.ID, Strips: old.Strips[:0], Joints: old.Joints[:0], Warnings: old.Warnings[:0],
		Show:  Face{Side: Show, Bands: old.Show.Bands[:0], Flaws: old.Show.Flaws[:0]},
		Back:  Face{Side: Back, Bands: old.Back.Bands[:0], Flaws: old.Back.Flaws[:0]},
		Edges: [2]Narrow{{Side: Front}, {Side: Rear}},
		Ends:  [2]Narrow{{Side: Left}, {Side: Right}},
	}
}

// drop forgets the strips.
func (r *Reader) drop() {
	for i, st := range r.strips {
		if st != nil {
			r.release(st)
		}
		r.strips[i] = nil
	}
	r.strips = r.strips[:0]
}

// release takes a strip out of the count of colours and keeps its buffers.
func (r *Reader) release(st *stripData) {
	r.count(st, false)
	if r.keep > 0 && r.kept[st.key] == nil {
		if len(r.kept) >= r.keep {
			r.forgetKept()
		}
		if r.kept == nil {
			r.kept = map[stripKey]*stripData{}
		}
		r.kept[st.key] = st
		return
	}
	for side := range st.faces {
		st.faces[side].cells.reset()
	}
	r.free = append(r.free, st)
	st.key = stripKey{}
}

// Remember keeps what was read of up to n strips that a later reading did not
// have, so that a search which lays the same strips again and again reads each
// way of lying once. 0, as at first, keeps only the strips of the last reading.
func (r *Reader) Remember(n int) {
	r.keep = max(n, 0)
	if len(r.kept) > r.keep {
		r.forgetKept()
	}
}

func (r *Reader) forgetKept() {
	for key, st := range r.kept {
		delete(r.kept, key)
		for side := range st.faces {
			st.faces[side].cells.reset()
		}
		st.key = stripKey{}
		r.free = append(r.free, st)
	}
}

// readStrips finds the strips that are as they were and reads the others.
func (r *Reader) readStrips(p *Panel) {
	r.older, r.strips = r.strips, r.older[:0]
	r.lefts, r.ys = r.lefts[:0], r.ys[:0]
	if r.tones[0].counts[0] == nil {
		r.tones[Show].clear()
		r.tones[Back].clear()
	}
	y := p.Y0()
	for i := range p.Strips {
		r.lefts, r.ys = append(r.lefts, p.Left(i)), append(r.ys, y)
		y += p.Strips[i].W
		var st *stripData
		if i < len(r.older) && p.Strips[i].Board != nil && r.older[i] != nil {
			if key := r.fin.key(p, i, r.ys[i]); r.older[i].key == key {
				st, r.older[i] = r.older[i], nil
			}
		}
		r.strips = append(r.strips, st)
	}
	for i := range p.Strips {
		if r.strips[i] != nil || p.Strips[i].Board == nil {
			continue
		}
		key := r.fin.key(p, i, r.ys[i])
		for k, st := range r.older {
			if st != nil && st.key == key {
				r.strips[i], r.older[k] = st, nil
				break
			}
		}
	}
	for k, st := range r.older {
		if st != nil {
			r.release(st)
			r.older[k] = nil
		}
	}
	if len(r.kept) > 0 {
		for i := range p.Strips {
			if r.strips[i] != nil || p.Strips[i].Board == nil {
				continue
			}
			key := r.fin.key(p, i, r.ys[i])
			if st := r.kept[key]; st != nil {
				delete(r.kept, key)
				r.strips[i] = st
			}
		}
	}
	for i := range p.Strips {
		if r.strips[i] == nil && p.Strips[i].Board != nil {
			r.strips[i] = r.readStrip(p, i)
		}
		if r.strips[i] != nil && !r.uncovered {
			r.count(r.strips[i], true)
		}
		r.addStrip(p, i)
	}
}

func (r *Reader) readStrip(p *Panel, i int) *stripData {
	var st *stripData
	if n := len(r.free); n > 0 {
		st, r.free = r.free[n-1], r.free[:n-1]
	} else {
		st = &stripData{}
	}
	r.versions++
	st.version = r.versions
	st.key = r.fin.key(p, i, r.ys[i])
	st.read(&r.work, &r.fin, &p.Strips[i], r.lefts[i], r.ys[i])
	return st
}

// count takes the colours of a strip into the count that contrast coverage is
// found by, or out of it.
func (r *Reader) count(st *stripData, in bool) {
	if st.counted == in {
		return
	}
	st.counted = in
	by := int64(1)
	if !in {
		by = -1
	}
	for side := range st.faces {
		r.tones[side].add(&st.faces[side].cells, by)
	}
}

// addStrip adds the reading of strip i.
func (r *Reader) addStrip(p *Panel, i int) {
	st := r.strips[i]
	if st == nil {
		r.reading.Strips = append(r.reading.Strips, StripReading{Empty: true})
		return
	}
	r.reading.Placed++
	r.reading.SawnFaces = r.reading.SawnFaces || st.asSawn
	show, back := &st.faces[Show].area, &st.faces[Back].area
	r.reading.Strips = append(r.reading.Strips, StripReading{
		Light:     shareOf(show[Sap], show[Heart]+show[Flaw], show[Unseen]),
		BackLight: shareOf(back[Sap], back[Heart]+back[Flaw], back[Unseen]),
		Front:     st.widths[0], Rear: st.widths[1], BackFront: st.widths[2], BackRear: st.widths[3],
		Guessed: st.guessed[0] || st.guessed[1], AsSawn: st.asSawn,
	})
}

// readJoints reads the joints whose strips changed.
func (r *Reader) readJoints(p *Panel) {
	for len(r.joints) < len(p.Strips)-1 {
		r.joints = append(r.joints, &jointData{})
	}
	for i := 0; i+1 < len(p.Strips); i++ {
		a, b, j := r.strips[i], r.strips[i+1], r.joints[i]
		if a == nil || b == nil {
			j.a, j.b = 0, 0
			r.reading.Joints = append(r.reading.Joints, Joint{I: i, Kind: Unjudged})
			continue
		}
		shift := r.lefts[i] - r.lefts[i+1]
		if j.a != a.version || j.b != b.version || j.shift != shift {
			j.read(&r.work, &p.Strips[i], &p.Strips[i+1], a, b, shift)
		}
		out := j.reading
		out.I = i
		r.reading.Joints = append(r.reading.Joints, out)
	}
}

// shareOf returns the share that part has of the whole, with the range that
// the unseen leaves.
func shareOf(part, rest, unseen float64) Share {
	all := part + rest + unseen
	if all <= 0 {
		return Share{}
	}
	s := Share{Value: part / all, Lo: part / all, Hi: (part + unseen) / all}
	if unseen == 0 {
		s.Hi = s.Value
	}
	return s
}
