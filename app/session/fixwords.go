package session

import (
	"math"
	"strings"

	"heartside/layout/arrange"
	"heartside/layout/face"
	"heartside/model/say"
)

// fix says what a fix of a warning asks for: "turn strip A3 end for end; its
// light edge then meets strip B1's".
func (w words) fix(x *face.Warning, f *arrange.Fix) string {
	var out []string
	for i := range f.Steps {
		out = append(out, w.step(f, &f.Steps[i]))
	}
	text := strings.Join(out, say.T(" and "))
	if meets := w.how(x, f); meets != "" {
		text += "; " + meets
	}
	return text
}

func (w words) step(f *arrange.Fix, s *arrange.Step) string {
	one := w.strips(s.Strips[:1])
	by := w.some(math.Abs(s.By))
	switch s.Kind {
	case arrange.Turn:
		return say.F("turn %s end for end", one)
	case arrange.RollOver:
		return say.F("roll %s over", one)
	case arrange.RollAndTurn:
		return say.F("roll %s over and turn it end for end", one)
	case arrange.Swap:
		return say.F("swap %s", w.strips(s.Strips))
	case arrange.MoveToEdge:
		return say.F("move %s to %s", one, w.side(s.Edge))
	case arrange.Shift:
		return say.F("shift %s %s to the %s", one, by, rightLeft(s.By))
	case arrange.MoveAcross:
		return say.F("saw %s %s %s", one, by, toward(s.By, say.T("edge")))
	case arrange.MoveAlong:
		return say.F("saw %s %s %s", one, by, toward(s.By, say.T("end")))
	case arrange.MoveOnBoard:
		return say.F("saw %s from another place%s", one, w.place(f, s.Strips[0]))
	case arrange.Narrow:
		return say.F("make %s %s narrower", one, by)
	case arrange.Widen:
		return say.F("make %s %s wider", one, by)
	case arrange.Lengthen:
		return say.F("make %s %s longer", one, by)
	case arrange.TakeOff:
		return w.takeOff(f, s, one)
	case arrange.TakeSpare:
		return say.F("take spare %s for %s", w.spare(s.Strips), one)
	}
	return string(s.Kind) + " " + one
}

// takeOff says how much comes off each face of a strip.
func (w words) takeOff(f *arrange.Fix, s *arrange.Step, one string) string {
	text := say.F("take %s off the show face of %s", w.fine(s.By), one)
	for i := range f.Panel {
		if st := &f.Panel[i]; st.ID == s.Strips[0] && st.Off.Set {
			text += say.F(" and %s off the other", w.fine(st.Off.Face[2-st.UpFace()]))
		}
	}
	return text
}

func (w words) spare(ids []string) string {
	if len(ids) < 2 {
		return ""
	}
	return ids[1]
}

func rightLeft(by float64) string {
	if by < 0 {
		return say.T("left")
	}
	return say.T("right")
}

// toward says which way a strip moves on its board: away from the marked edge
// or end, or nearer to it.
func toward(by float64, what string) string {
	if by < 0 {
		return say.F("nearer to the marked %s", what)
	}
	return say.F("further from the marked %s", what)
}

// place says where on its board a fix puts a strip.
func (w words) place(f *arrange.Fix, id string) string {
	for i := range f.Panel {
		if st := &f.Panel[i]; st.ID == id && st.Board != nil {
			return say.F(" on board %s, %s from the marked end and %s from the marked edge", st.Board.ID, w.len(st.X), w.len(st.Y))
		}
	}
	return ""
}

// how says what becomes of the wood warned of.
func (w words) how(x *face.Warning, f *arrange.Fix) string {
	whose := say.T("its")
	if len(f.Steps) != 1 || len(x.Strips) == 0 || f.Steps[0].Strips[0] != x.Strips[0] {
		whose = say.T("the")
		if len(x.Strips) > 0 {
			whose = say.F("%s's", w.strips(x.Strips[:1]))
		}
	}
	wood, meets := say.F("%s %s wood", whose, w.tone()), w.strips(f.Meets)
	switch {
	case f.How == face.ExcuseEdge:
		return say.F("%s then lies along an outside edge", wood)
	case f.How == face.ExcuseMirror && len(f.Meets) > 0:
		return say.F("%s is then mirrored by %s", wood, meets)
	case f.How == face.ExcuseMirror:
		return say.F("%s then lies in the middle", wood)
	case f.How == face.ExcuseJoint && len(f.Meets) > 0:
		return say.F("%s %s edge then meets %s's", whose, w.tone(), meets)
	case f.How == face.ExcusePair && len(f.Meets) > 0:
		return say.F("%s then makes a pair with %s", wood, meets)
	case f.How == face.ExcusePattern:
		return say.F("%s is then one of a row", wood)
	}
	return ""
}

// after says what the show face would read.
func (w words) after(f *arrange.Fix) string {
	text := say.F("sapwood %s, contrast coverage %s", Percent(f.After.Light), Percent(f.After.Coverage))
	switch n := f.After.LoneStreaks; n {
	case 0:
		text += say.T(", no streak alone")
	case 1:
		text += say.T(", one streak alone")
	default:
		text += say.F(", %d streaks alone", n)
	}
	return text
}
