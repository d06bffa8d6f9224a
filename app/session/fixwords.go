package session

import (
	"fmt"
	"math"
	"strings"

	"heartside/layout/arrange"
	"heartside/layout/face"
)

// fix says what a fix asks for: "turn strip A3 end for end; its light edge
// then meets strip B1's".
func (w words) fix(f *arrange.Fix) string {
	var out []string
	for i := range f.Steps {
		out = append(out, w.step(&f.Steps[i]))
	}
	text := strings.Join(out, " and ")
	if meets := w.how(f); meets != "" {
		text += "; " + meets
	}
	return text
}

func (w words) step(s *arrange.Step) string {
	one := w.strips(s.Strips[:1])
	by := w.len(math.Abs(s.By))
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
		return "saw " + one + " from another place on board " + s.Board
	case arrange.Narrow:
		return "make " + one + " " + by + " narrower"
	case arrange.Widen:
		return "make " + one + " " + by + " wider"
	case arrange.Lengthen:
		return "make " + one + " " + by + " longer"
	case arrange.TakeSpare:
		return "take spare " + w.spare(s.Strips) + " for " + one
	}
	return string(s.Kind) + " " + one
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

// how says what the wood warned of is then.
func (w words) how(f *arrange.Fix) string {
	tone := w.tone()
	switch f.How {
	case face.ExcuseEdge:
		return "its " + tone + " wood then lies along an outside edge"
	case face.ExcuseMirror:
		if len(f.Meets) > 0 {
			return "its " + tone + " wood is then mirrored by " + w.strips(f.Meets)
		}
		return "its " + tone + " wood then lies in the middle"
	case face.ExcuseJoint:
		if len(f.Meets) > 0 {
			return "its " + tone + " edge then meets " + w.strips(f.Meets) + "'s"
		}
	case face.ExcusePair:
		if len(f.Meets) > 0 {
			return "it then makes a pair with " + w.strips(f.Meets)
		}
	case face.ExcusePattern:
		return "it then is one of a row"
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
