package arrange

import (
	"slices"
	"strings"

	"heartside/layout/cutting"
	"heartside/layout/face"
)

// note is a warning with what tells it from others.
type note struct {
	face.Warning
	key string // kind, side and strips
	of  string // kind and side
}

// streak is a band as the judging of fixes needs it.
type streak struct {
	strips []string
	centre float64
	area   float64
	excuse face.Excuse
}

// outcome is what a panel reads like.
type outcome struct {
	notes []note
	bands [2][]streak // show face and back
	after After
}

// judge reads a panel and checks its blanks.
func judge(r *face.Reader, c *cutting.Checker, p *face.Panel) *outcome {
	read := r.Read(p)
	out := &outcome{}
	out.add(read.Warnings)
	if read.Placed > 0 {
		out.add(c.Panel(p))
	}
	for side, f := range [2]*face.Face{&read.Show, &read.Back} {
		for i := range f.Bands {
			b := &f.Bands[i]
			s := streak{centre: b.CentreY, area: b.Area, excuse: b.Excuse}
			for _, k := range b.Strips {
				s.strips = append(s.strips, p.Strips[k].ID)
			}
			out.bands[side] = append(out.bands[side], s)
		}
	}
	out.after = After{Light: read.Show.Light.Value, Unwanted: read.Show.Unwanted.Value}
	for i := range out.notes {
		if out.notes[i].Kind == face.LoneStreak {
			out.after.LoneStreaks++
		}
	}
	return out
}

// add takes in warnings with those under them.
func (o *outcome) add(list []face.Warning) {
	for i := range list {
		w := list[i]
		under := w.Under
		w.Strips, w.Boards, w.Under = slices.Clone(w.Strips), nil, nil
		o.notes = append(o.notes, noteOf(w))
		o.add(under)
	}
}

func noteOf(w face.Warning) note {
	ids := slices.Clone(w.Strips)
	slices.Sort(ids)
	of := string(w.Kind) + "/" + string(rune('0'+w.Side))
	return note{w, of + "/" + strings.Join(ids, ","), of}
}

// same counts the warnings of w's kind and side that concern one of its
// strips.
func (o *outcome) same(w *note) int {
	n := 0
	for i := range o.notes {
		if x := &o.notes[i]; x.of == w.of && meets(x.Strips, w.Strips) {
			n++
		}
	}
	return n
}

// exactly counts the warnings of w's kind, side and strips.
func (o *outcome) exactly(w *note) int {
	n := 0
	for i := range o.notes {
		if o.notes[i].key == w.key {
			n++
		}
	}
	return n
}

// meets reports whether two lists of strips have one in common, or name none.
func meets(a, b []string) bool {
	if len(a) == 0 || len(b) == 0 {
		return len(a) == len(b)
	}
	for _, s := range a {
		if slices.Contains(b, s) {
			return true
		}
	}
	return false
}

// What counts as a warning that got worse: by so much of its weight, or by so
// much of the face where it is about a share.
const (
	heavier  = 0.5
	moreWood = 0.005
)

// kindStep is less than the steps between the weights of kinds and no less
// than what is found adds to one.
const kindStep = 1.0

// ends reports whether a panel that read before reads without w afterwards and
// without another warning of the same or worse weight. It lists the kinds of
// which there are more than before.
func ends(w *note, before, after *outcome) (makes []face.WarningKind, ok bool) {
	if after.same(w) >= before.same(w) || after.exactly(w) >= before.exactly(w) {
		return nil, false
	}
	used := make([]bool, len(before.notes))
	for i := range after.notes {
		x := &after.notes[i]
		old := -1
		for k := range before.notes {
			if !used[k] && before.notes[k].key == x.key {
				old = k
				break
			}
		}
		if old >= 0 {
			used[old] = true
			b := &before.notes[old]
			worse := x.Weight > b.Weight+heavier || x.Kind == face.OverLimit && x.Measure > b.Measure+moreWood
			if !worse || x.key == w.key {
				continue
			}
		}
		if forbidden(x.Kind) || x.Kind == w.Kind || x.Weight >= w.Weight-kindStep {
			return nil, false
		}
		if !slices.Contains(makes, x.Kind) && (old >= 0 || after.count(x.of) > before.count(x.of)) {
			makes = append(makes, x.Kind)
		}
	}
	return makes, true
}

func (o *outcome) count(of string) int {
	n := 0
	for i := range o.notes {
		if o.notes[i].of == of {
			n++
		}
	}
	return n
}

// forbidden kinds no fix may make, however grave what it ends: the plan could
// not be carried out.
func forbidden(k face.WarningKind) bool {
	switch k {
	case face.OutsideBoard, face.PartsOverlap, face.PanelTooSmall, face.UnderMachineLimit:
		return true
	}
	return false
}
