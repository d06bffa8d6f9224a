package together

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"heartside/layout/face"
	"heartside/layout/geom"
)

// Way is how panels stand to each other.
type Way uint8

// Ways.
const (
	Across Way = iota // one behind another across the grain, as doors
	Along             // end to end along the grain, as drawer fronts in a row
)

// Gap is the id of the empty places between panels.
const Gap = "gap"

// Layout says how panels are laid to one face.
type Layout struct {
	Way     Way
	Gap     float64 // between neighbours, mm
	KeepIDs bool    // strips keep their ids; else "panel/strip"
}

// Face is several panels as one. Panel is its own: Lay changes it. A Face is
// for one goroutine at a time.
type Face struct {
	Panel *face.Panel
	// Of tells for each strip of Panel which of the panels it belongs to, -1
	// for an empty place that is of none, and At which of its strips it is.
	Of, At []int
	Places []geom.Rect // where each panel lies

	layout Layout
	panels []*face.Panel
	laid   []laidPanel
	cuts   map[cutKey]*face.PlanedFace
	names  []map[string]string // of the strips of each panel, on the face
	gaps   []string
}

// laidPanel is what one panel puts on the face.
type laidPanel struct {
	strips []face.Strip
	at     []int // which strip of the panel, -1 an empty place
}

// Beside lays panels one behind another across the grain, with gaps of gap mm
// between. See Lay.
func Beside(panels []*face.Panel, gap float64) (*Face, error) {
	return Of(panels, Layout{Gap: gap})
}

// Of lays panels to one face, each strip trimmed to its panel's finished size.
// The first panel's wanted wood and limits hold for all, which must want the
// same. Smaller panels lie in the middle; nobody sees wood beside them.
func Of(panels []*face.Panel, l Layout) (*Face, error) {
	if len(panels) < 2 {
		return nil, fmt.Errorf("%d panel: a face seen together needs two", len(panels))
	}
	if !(l.Gap >= 0) || math.IsInf(l.Gap, 1) {
		return nil, fmt.Errorf("a gap of %g mm between panels cannot be: give 0 or more", l.Gap)
	}
	first := panels[0]
	f := &Face{layout: l, cuts: map[cutKey]*face.PlanedFace{}, Panel: &face.Panel{
		ID: "together", Thickness: first.Thickness, BothShow: first.BothShow,
		ToPlane: 1, // each strip is laid as planed as its own panel is
		Wanted:  first.Wanted, Limit: [2]float64{1, 1}, Limits: first.Limits,
	}}
	for _, p := range panels {
		if !(p.Length > 0) || !(p.Width > 0) || math.IsInf(p.Length, 0) || math.IsInf(p.Width, 0) {
			return nil, fmt.Errorf("panel %s: no length or no width; give its finished size first", p.ID)
		}
		if p.Wanted != first.Wanted {
			return nil, fmt.Errorf("panels %s and %s want other wood: what is seen together must want the same", first.ID, p.ID)
		}
		own := *p
		f.panels = append(f.panels, &own)
		f.names = append(f.names, map[string]string{})
		f.gaps = append(f.gaps, fmt.Sprintf("%s %d", Gap, len(f.gaps)))
	}
	f.place()
	f.finish()
	f.laid = make([]laidPanel, len(panels))
	for k, p := range panels {
		f.cut(k, p.Strips)
	}
	f.gather()
	return f, nil
}

// Fork returns a face of its own that lies as f does.
func (f *Face) Fork() *Face {
	out := *f
	p := *f.Panel
	out.Panel = &p
	p.Strips = slices.Clone(p.Strips)
	out.Of, out.At = slices.Clone(f.Of), slices.Clone(f.At)
	out.laid = make([]laidPanel, len(f.laid))
	out.panels = nil
	for k := range f.laid {
		out.laid[k] = laidPanel{slices.Clone(f.laid[k].strips), slices.Clone(f.laid[k].at)}
		own := *f.panels[k]
		out.panels = append(out.panels, &own)
	}
	out.cuts = maps.Clone(f.cuts)
	out.names = nil
	for _, m := range f.names {
		out.names = append(out.names, maps.Clone(m))
	}
	return &out
}

// Len is how many panels there are.
func (f *Face) Len() int { return len(f.panels) }

// Way is how they stand.
func (f *Face) Way() Way { return f.layout.Way }

// Part returns panel k as it lies. It is not to be changed.
func (f *Face) Part(k int) *face.Panel { return f.panels[k] }

// Lay lays other strips in panel k, front to back; all else stays as it is.
func (f *Face) Lay(k int, strips []face.Strip) {
	f.cut(k, strips)
	f.gather()
}

// LayAll lays other strips in every panel.
func (f *Face) LayAll(strips [][]face.Strip) {
	for k := range strips {
		f.cut(k, strips[k])
	}
	f.gather()
}

// place finds where each panel lies.
func (f *Face) place() {
	out := f.Panel
	for _, p := range f.panels {
		out.Length, out.Width = math.Max(out.Length, p.Length), math.Max(out.Width, p.Width)
	}
	at := 0.0
	for _, p := range f.panels {
		x, y := (out.Length-p.Length)/2, at
		if f.layout.Way == Along {
			x, y = at, (out.Width-p.Width)/2
			at += p.Length + f.layout.Gap
		} else {
			at += p.Width + f.layout.Gap
		}
		f.Places = append(f.Places, geom.R(x, y, x+p.Length, y+p.Width))
	}
	if f.layout.Way == Along {
		out.Length = at - f.layout.Gap
	} else {
		out.Width = at - f.layout.Gap
	}
}

// nothing is a width that no rule can show, mm.
const nothing = 1e-9

// cut trims strips laid in panel k.
func (f *Face) cut(k int, strips []face.Strip) {
	p, at, lp := f.panels[k], f.Places[k], &f.laid[k]
	p.Strips = strips
	lp.strips, lp.at = lp.strips[:0], lp.at[:0]
	// The middle of the panel, off that of the face.
	off := at.Min.X + p.Length/2 - f.Panel.Length/2
	covered := 0.0
	open := func(to float64) {
		if to > covered+nothing {
			lp.strips = append(lp.strips, face.Strip{ID: fmt.Sprintf("open %d", len(lp.at)), L: p.Length, W: to - covered, Up: 1, Shift: off, Pinned: true})
			lp.at = append(lp.at, -1)
			covered = to
		}
	}
	y := p.Y0()
	for i := range strips {
		from, to := math.Max(y, 0), math.Min(y+strips[i].W, p.Width)
		s, ok := f.trimmed(p, i, y)
		y += strips[i].W
		if !ok {
			continue
		}
		open(from) // what the strips leave uncovered in front stays open
		s.ID, s.Board = f.nameOf(k, s.ID), s.Wood(p)
		s.Shift += off
		lp.strips, lp.at = append(lp.strips, s), append(lp.at, i)
		covered = to
	}
	open(p.Width)
}

// nameOf is what a strip of panel k is called on the face.
func (f *Face) nameOf(k int, id string) string {
	if f.layout.KeepIDs {
		return id
	}
	name, ok := f.names[k][id]
	if !ok {
		name = f.panels[k].ID + "/" + id
		f.names[k][id] = name
	}
	return name
}

// gather puts what the panels put on the face one behind another.
func (f *Face) gather() {
	out := f.Panel
	out.Strips, f.Of, f.At = out.Strips[:0], f.Of[:0], f.At[:0]
	empty := func(id string, w float64) {
		out.Strips = append(out.Strips, face.Strip{ID: id, L: out.Length, W: w, Up: 1, Pinned: true})
		f.Of, f.At = append(f.Of, -1), append(f.At, 0)
	}
	at := 0.0
	for k := range f.laid {
		// The way to where the panel begins: over the gap, or back to the front.
		if to := f.Places[k].Min.Y; k > 0 || math.Abs(to-at) > nothing {
			if math.Abs(to-at) > nothing || f.layout.Way == Along {
				empty(f.gaps[k], to-at)
			}
			at = to
		}
		for i, s := range f.laid[k].strips {
			out.Strips = append(out.Strips, s)
			of, which := k, f.laid[k].at[i]
			if which < 0 {
				of, which = -1, k
			}
			f.Of, f.At = append(f.Of, of), append(f.At, which)
			at += s.W
		}
	}
	if d := out.Width - at; math.Abs(d) > nothing {
		empty("open end", d)
	}
}
