package session

import (
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/wood/cup"
)

// EndLook says which end view of a panel is drawn.
type EndLook struct {
	Wet   bool          // the dampest season, else the driest
	Flat  bool          // as it is glued, before any season bends it
	Layup cup.LayupName // "": as laid
	Form  EndForm
}

// EndForm is how the strips of a panel are put together.
type EndForm int

// The forms of package cup: Smooth carries the slope on from strip to strip and
// mostly bows more; Glued is what elastic wood does; Most is the one of them that
// bows more, as the words on the cup say it.
const (
	FormSmooth EndForm = iota
	FormGlued
	FormMost
)

// EndView is the end of a panel drawn with its cup.
type EndView struct {
	*cup.View
	// Bow and Wave are those of the form drawn, mm; Bow is positive where the
	// show face is hollow.
	Bow, Wave float64
	Woods     []EndWood // of View.Strips
	Front     string    // names of the edges at the left and the right
	Back      string
	Guessed   bool // some rings are drawn about a pith nobody measured
}

// EndWood is the wood of a strip's section, in the coordinates of the view.
type EndWood struct {
	Heart, Sap colour.Lab
	Sapwood    []geom.Polygon
}

// EndLayups are the ways of laying a panel up that can be drawn, with their
// names, as laid first.
func (s *Session) EndLayups(panel string) (list []cup.LayupName, names []string) {
	b := s.behaving(panel)
	if b == nil {
		return nil, nil
	}
	c, err := b.cups()
	if err != nil {
		return nil, nil
	}
	for _, l := range c.Layups {
		list, names = append(list, l.Name), append(names, cupWays(l.Name))
	}
	return list, names
}

// EndView returns the end view of a panel, nil where there is nothing to draw.
func (s *Session) EndView(panel string, look EndLook) *EndView {
	b := s.behaving(panel)
	if b == nil {
		return nil
	}
	c, err := b.cups()
	if err != nil || len(c.Layups) == 0 {
		return nil
	}
	way := c.Layups[0]
	for _, l := range c.Layups {
		if l.Name == look.Layup {
			way = l
		}
	}
	p := way.Dry
	if look.Wet {
		p = way.Wet
	}
	shape := &p.Smooth
	if look.Form == FormGlued || look.Form == FormMost && mostBow(p) == p.Glued.Sagitta {
		shape = &p.Glued
	}
	bow, wave, factor := shape.Sagitta, shape.Washboard, 0.0
	if look.Flat {
		bow, wave, factor = 0, 0, 1e-9 // 0 would have one chosen
	}
	v, err := p.End(shape, factor)
	if err != nil {
		return nil
	}
	sides := b.n.Role.Sides()
	out := &EndView{View: v, Bow: bow, Wave: wave, Front: sides[0].Word, Back: sides[1].Word}
	for i, k := range b.pieces() {
		if i >= len(v.Strips) {
			break
		}
		out.Guessed = out.Guessed || v.Strips[i].Guessed
		rolled := i < len(way.Rolled) && way.Rolled[i]
		out.Woods = append(out.Woods, b.endWood(&k, v.Strips[i].Outline, rolled))
	}
	return out
}

// endWood is the wood of a strip in the middle of its length, laid into its
// outline in the view.
func (b *behaving) endWood(k *laidStrip, outline geom.Polygon, rolled bool) EndWood {
	wood := k.strip.Wood(b.fp)
	bf := &wood.Faces[k.strip.UpFace()-1]
	out := EndWood{Heart: wood.AssumedHeart, Sap: wood.AssumedSap}
	if bf.Heart != nil {
		out.Heart = *bf.Heart
	}
	if bf.Sap != nil {
		out.Sap = *bf.Sap
	}
	from := 0.0
	for i := range b.fp.Strips {
		if &b.fp.Strips[i] == k.strip {
			from = max(0, -b.fp.StripY(i))
		}
	}
	lay := endLay(outline, rolled)
	for _, ring := range sapSection(b.sapAcross(k, wood, from), k.width, wood.Thickness) {
		for i, q := range ring {
			ring[i] = lay(q)
		}
		out.Sapwood = append(out.Sapwood, ring)
	}
	return out
}

// sapAcross reads where sapwood shows on the show face and the back across the
// middle of a strip, at the middles of even steps from its front edge.
func (b *behaving) sapAcross(k *laidStrip, wood *face.Board, from float64) (sap [2][]bool) {
	st := *k.strip
	st.Board = wood
	up := st.UpFace()
	n := min(max(int(k.width/1.5), 8), 400)
	for side, f := range [2]int{up, 3 - up} {
		to, bf := st.PlaceToFace(f), &wood.Faces[f-1]
		for i := range n {
			v := from + k.width*(float64(i)+0.5)/float64(n)
			sap[side] = append(sap[side], bf.At(to.Apply(geom.Pt(st.L/2, v)), wood) == face.Sap)
		}
	}
	return sap
}

// endLay maps a place in a strip's section, parts of its width from the front
// edge and of its thickness from the show face, into its outline in the view:
// the back from front to rear, then the show face from rear to front.
func endLay(outline geom.Polygon, rolled bool) func(geom.Point) geom.Point {
	n := len(outline)/2 - 1
	return func(q geom.Point) geom.Point {
		if rolled {
			q = geom.Pt(1-q.X, 1-q.Y)
		}
		t := min(max(q.X, 0), 1) * float64(n)
		i := min(int(t), n-1)
		part := t - float64(i)
		last := len(outline) - 1
		low := outline[i].Add(outline[i+1].Sub(outline[i]).Mul(part))
		top := outline[last-i].Add(outline[last-i-1].Sub(outline[last-i]).Mul(part))
		return top.Add(low.Sub(top).Mul(q.Y))
	}
}
