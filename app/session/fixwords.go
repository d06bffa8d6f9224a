package session

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/arrange"
	"heartside/layout/face"
)

// fix says what a fix of a warning asks for: "turn strip A3 end for end; its
// light edge then meets strip B1's".
func (w words) fix(x *face.Warning, f *arrange.Fix) string {
	var out []string
	for i := range f.Steps {
		out = append(out, w.step(f, &f.Steps[i]))
	}
	text := strings.Join(out, " and ")
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
		return "turn " + one + " end for end"
	case arrange.RollOver:
		return "roll " + one + " over"
	case arrange.RollAndTurn:
		return "roll " + one + " over and turn it end for end"
	case arrange.Swap:
		return "swap " + w.strips(s.Strips)
	case arrange.MoveToEdge:
		return "move " + one + " to " + w.side(s.Edge)
	case arrange.Shift:
		return "shift " + one + " " + by + " to the " + rightLeft(s.By)
	case arrange.MoveAcross:
		return "saw " + one + " " + by + " " + toward(s.By, "edge")
	case arrange.MoveAlong:
		return "saw " + one + " " + by + " " + toward(s.By, "end")
	case arrange.MoveOnBoard:
		return "saw " + one + " from another place" + w.place(f, s.Strips[0])
	case arrange.Narrow:
		return "make " + one + " " + by + " narrower"
	case arrange.Widen:
		return "make " + one + " " + by + " wider"
	case arrange.Lengthen:
		return "make " + one + " " + by + " longer"
	case arrange.TakeOff:
		return w.takeOff(f, s, one)
	case arrange.TakeSpare:
		return "take spare " + w.spare(s.Strips) + " for " + one
	}
	return string(s.Kind) + " " + one
}

// takeOff says how much comes off each face of a strip.
func (w words) takeOff(f *arrange.Fix, s *arrange.Step, one string) string {
	text := "take " + w.fine(s.By) + " off the show face of " + one
	for i := range f.Panel {
		if st := &f.Panel[i]; st.ID == s.Strips[0] && st.Off.Set {
			text += " and " + w.fine(st.Off.Face[2-st.UpFace()]) + " off the other"
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
		return "left"
	}
	return "right"
}

// toward says which way a strip moves on its board: away from the marked edge
// or end, or nearer to it.
func toward(by float64, what string) string {
	if by < 0 {
		return "nearer to the marked " + what
	}
	return "further from the marked " + what
}

// place says where on its board a fix puts a strip.
func (w words) place(f *arrange.Fix, id string) string {
	for i := range f.Panel {
		if st := &f.Panel[i]; st.ID == id && st.Board != nil {
			return fmt.Sprintf(" on board %s, %s from the marked end and %s from the marked edge", st.Board.ID, w.len(st.X), w.len(st.Y))
		}
	}
	return ""
}

// how says what becomes of the wood warned of.
func (w words) how(x *face.Warning, f *arrange.Fix) string {
	whose := "its"
	if len(f.Steps) != 1 || len(x.Strips) == 0 || f.Steps[0].Strips[0] != x.Strips[0] {
		whose = "the"
		if len(x.Strips) > 0 {
			whose = w.strips(x.Strips[:1]) + "'s"
		}
	}
	wood, meets := whose+" "+w.tone()+" wood", w.strips(f.Meets)
	switch {
	case f.How == face.ExcuseEdge:
		return wood + " then lies along an outside edge"
	case f.How == face.ExcuseMirror && len(f.Meets) > 0:
		return wood + " is then mirrored by " + meets
	case f.How == face.ExcuseMirror:
		return wood + " then lies in the middle"
	case f.How == face.ExcuseJoint && len(f.Meets) > 0:
		return whose + " " + w.tone() + " edge then meets " + meets + "'s"
	case f.How == face.ExcusePair && len(f.Meets) > 0:
		return wood + " then makes a pair with " + meets
	case f.How == face.ExcusePattern:
		return wood + " is then one of a row"
	}
	return ""
}

// after says what the show face would read.
func (w words) after(f *arrange.Fix) string {
	text := fmt.Sprintf("sapwood %s, contrast coverage %s", Percent(f.After.Light), Percent(f.After.Coverage))
	switch n := f.After.LoneStreaks; n {
	case 0:
		text += ", no streak alone"
	case 1:
		text += ", one streak alone"
	default:
		text += fmt.Sprintf(", %d streaks alone", n)
	}
	return text
}
