package session

import (
	"math"
	"strings"

	"heartside/layout/face"
	"heartside/layout/wood/depth"
	"heartside/model"
	"heartside/model/say"
	"heartside/model/unit"
)

// Stock is what comes off the board of a strip until its panel is finished, mm.
type Stock struct {
	Thickness, Finished float64
	Off                 [2]float64 // off face 1 and face 2, before glue-up
	After               float64    // off the panel after glue-up, from both faces alike
	Chosen              bool       // the maker said what comes off which face
}

// Taken returns all that comes off face 1 and face 2.
func (k Stock) Taken() [2]float64 { return [2]float64{k.Off[0] + k.After/2, k.Off[1] + k.After/2} }

// All returns all that comes off.
func (k Stock) All() float64 { return k.Off[0] + k.Off[1] + k.After }

// stockOf tells what comes off a strip's board. What the maker has given to a
// face comes off before glue-up, else half of what the allowance for after
// glue-up leaves; face.Strip.Taken is the same added up.
func stockOf(st *face.Strip, thickness, afterGlue float64) Stock {
	k := Stock{Finished: thickness, Chosen: st.Off.Set}
	if st.Board == nil {
		return k
	}
	k.Thickness = st.Board.Thickness
	all := k.Thickness - thickness
	if !(all > 0) || !(thickness > 0) {
		return k
	}
	k.After = math.Min(math.Max(afterGlue, 0), all)
	k.Off = [2]float64{(all - k.After) / 2, (all - k.After) / 2}
	if st.Off.Set {
		k.Off = st.Off.Face
		if given := k.Off[0] + k.Off[1]; given > all {
			k.Off[0], k.Off[1] = k.Off[0]*all/given, k.Off[1]*all/given
		}
		k.After = math.Max(0, all-k.Off[0]-k.Off[1])
	}
	return k
}

// deepOf returns what is known of a board below its faces, nil where nothing is.
func deepOf(b *face.Board) *deep {
	if b == nil {
		return nil
	}
	d, _ := b.Deep.(*deep)
	return d
}

// noPlaning says why a slider of planing shows nothing for a board, "" where it
// does.
func (s *Session) noPlaning(b *face.Board, all float64) string {
	switch {
	case !(all > 0):
		return say.F("Board %s is no thicker than the panel (%s): nothing is planed off.", b.ID, s.Len(b.Thickness))
	case deepOf(b) == nil:
		return say.F("Both faces of board %s must be known to tell what lies below them.", b.ID)
	}
	return ""
}

// DepthView is panel and board in hand as they look with a part of the stock
// taken off. It is only looked at: readings stay those of the finished faces.
type DepthView struct {
	Panel *face.Panel // nil: as it is without
	Hand  *face.Board // the board in hand, nil: as sawn
	Says  string      // what is off, for the slider
	Steps int         // of the slider, so that what is off comes out in what is printed
	Why   string      // why there is nothing to show; "" there is
	// Badges tell that what is shown is not the finished faces; "" it is.
	PanelBadge, HandBadge string
}

// DepthView returns panel, board in hand and words with the part done, 0 to 1,
// of all stock off. It never waits: what is not worked out yet comes with the
// next call after OnDepth's.
func (s *Session) DepthView(panel, board, strip string, done float64) DepthView {
	done = math.Min(math.Max(done, 0), 1)
	v := DepthView{}
	p := s.Panel(panel)
	ready := s.depthReady()
	var subject *face.Strip // whose stock the words tell
	why, placed := say.T("There is no panel on screen."), 0
	if p != nil {
		why = say.T("No strip lies on a board yet.")
		shown, still := 0, []string{}
		for i := range p.Strips {
			st := &p.Strips[i]
			if st.Board == nil {
				continue
			}
			placed++
			if no := s.noPlaning(st.Board, st.Board.Thickness-p.Thickness); no != "" {
				if shown == 0 {
					why = no
				}
				if st.Board.Thickness > p.Thickness {
					still = append(still, s.Number(panel, st.ID))
				}
				continue
			}
			shown++
			if subject == nil || st.ID == strip {
				subject = st
			}
		}
		if shown > 0 {
			v.Panel, why = s.partPlaned(p, done), ""
			if done < 1 {
				v.PanelBadge = panelBadge(done)
			}
			if len(still) > 0 {
				words := say.F("strip %s as sawn: what lies below is not known", strings.Join(still, ", "))
				if v.PanelBadge == "" {
					v.PanelBadge = say.Upper(words)
				} else {
					v.PanelBadge += "; " + words
				}
			}
		}
	}
	v.Why = why
	hand := s.handStrip(p, board, strip)
	if fb := s.Board(board); fb != nil && hand != nil {
		all := fb.Thickness - hand.thickness
		if no := s.noPlaning(fb, all); no == "" {
			off := hand.strip.Taken(hand.thickness)
			v.Hand = deepOf(fb).look([2]float64{off[0] * done, off[1] * done}, ready)
			v.HandBadge = s.depthWords(fb, stockOf(hand.strip, hand.thickness, s.Project().Allowances.AfterGlue), done)
			v.Why = ""
			if subject == nil || hand.strip.ID == strip {
				subject = hand.strip
				v.Says = v.HandBadge
			}
		} else if v.Panel == nil && (p == nil || placed == 0) {
			v.Why = no
		}
	}
	v.Steps = 40
	if subject != nil {
		t := p.Thickness
		if hand != nil && subject == hand.strip {
			t = hand.thickness
		}
		v.Steps = s.depthSteps(subject.Board.Thickness - t)
	}
	if v.Says == "" && subject != nil {
		t := p.Thickness
		v.Says = s.depthWords(subject.Board, stockOf(subject, t, s.Project().Allowances.AfterGlue), done)
	}
	return v
}

// depthSteps is how many steps a slider has over the stock to take off: a tenth
// of a millimetre or 64th of an inch off each of two faces, and never so many
// that keys take long. An engineering choice.
func (s *Session) depthSteps(all float64) int {
	step := 0.2
	if s.Units() == unit.Inch {
		step = unit.InchMM / 32
	}
	return min(max(int(math.Round(all/step)), 8), 60)
}

// partPlaned is a panel with the part done of the stock taken off its strips,
// as far as that is worked out.
func (s *Session) partPlaned(p *face.Panel, done float64) *face.Panel {
	q := *p
	q.ToPlane = 1 // what its boards are is what is seen
	q.Strips = append([]face.Strip(nil), p.Strips...)
	ready := s.depthReady()
	for i := range q.Strips {
		st := &q.Strips[i]
		d := deepOf(st.Board)
		if d == nil {
			continue
		}
		off := st.Taken(p.Thickness)
		st.Board = d.look([2]float64{off[0] * done, off[1] * done}, ready)
		if done < 1 {
			st.Planed = nil // measured on the planed wood
		}
	}
	return &q
}

// BeforeDepth is the panel before the last change with the part done of its
// stock off, nil where there is none.
func (s *Session) BeforeDepth(panel string, done float64) *face.Panel {
	p := s.BeforePanel(panel)
	if p == nil {
		return nil
	}
	return s.partPlaned(p, done)
}

func panelBadge(done float64) string {
	if done <= 0 {
		return say.T("Sawn faces, not the finished ones")
	}
	return say.F("Not the finished faces: %s of the stock is off", Percent(done))
}

// depthWords say what is off a board: "Sawn: 26 mm", "Finished: 20 mm", or how
// much from which face and what is left.
func (s *Session) depthWords(b *face.Board, k Stock, done float64) string {
	switch {
	case done <= 0:
		return say.F("Sawn: %s", s.Len(k.Thickness))
	case done >= 1:
		return say.F("Finished: %s", s.Len(k.Finished))
	}
	off := k.Taken()
	return say.F("%s off %s, %s off %s: %s left", s.Fine(off[0]*done), sideOf(b, 1), s.Fine(off[1]*done), sideOf(b, 2), s.Fine(k.Thickness-done*k.All()))
}

// sideOf names a face of a board within a sentence.
func sideOf(b *face.Board, f int) string {
	if b.BarkFace == 1 || b.BarkFace == 2 {
		return say.F("the %s", say.Of(b.SideName(f)))
	}
	return say.Of(b.SideName(f))
}

// heldStrip is whose planing a board in hand is shown with.
type heldStrip struct {
	strip     *face.Strip
	thickness float64
}

// handStrip is the strip that tells how a board is planed: the one in hand, else
// the first of the panel on screen that comes from it, else the first of any
// panel; with none, halves until a panel on screen is finished.
func (s *Session) handStrip(p *face.Panel, board, strip string) *heldStrip {
	fb := s.Board(board)
	if fb == nil {
		return nil
	}
	var first *heldStrip
	look := func(q *face.Panel) {
		for i := range q.Strips {
			if st := &q.Strips[i]; st.Board == fb && (first == nil || q == p && st.ID == strip) {
				first = &heldStrip{st, q.Thickness}
			}
		}
	}
	if p != nil {
		look(p)
	}
	for _, n := range s.Project().Panels {
		if q := s.Panel(n.ID); q != nil && first == nil {
			look(q)
		}
	}
	if first == nil && p != nil {
		first = &heldStrip{&face.Strip{Board: fb, Up: 1}, p.Thickness}
	}
	return first
}

// HowKnown says in words how a face below the surface is known, and about how
// far its sap line may lie off.
func (s *Session) HowKnown(n depth.Note) string {
	words := ""
	switch n.How {
	case depth.Exact:
		return say.T("seen: it is the sawn face itself")
	case depth.About:
		words = say.T("worked out from both faces about the pith")
	case depth.Between:
		words = say.T("worked out from both faces")
	case depth.OneFace:
		words = say.T("worked out from one face and the pith")
	case depth.Circle:
		words = say.T("worked out from the pith and the radius of the heartwood")
	case depth.Assumed:
		return say.T("assumed: one face was looked at, below it is taken to be the same")
	default:
		return say.T("not known")
	}
	if n.Uncertain > 0 {
		words += say.F(", give or take %s", s.roughly(n.Uncertain))
	}
	return words
}

// roughly prints a length that is only about right: whole millimetres or 16ths
// of an inch, at least one.
func (s *Session) roughly(mm float64) string {
	step := 1.0
	if s.Units() == unit.Inch {
		step = unit.InchMM / 16
	}
	return s.Len(math.Max(math.Round(mm/step), 1) * step)
}

// planable reports whether a strip's faces may still be chosen, or why not.
func (s *Session) planable(m *model.Strip, st *face.Strip, k Stock) string {
	switch {
	case st.Board == nil:
		return say.T("no board yet")
	case !(k.All() > 0):
		return say.T("no thicker than the panel")
	case m.Stage == model.Planed || m.Stage == model.Jointed || m.Stage == model.Glued:
		return say.T("planed already")
	case st.Planed != nil:
		return say.T("measured after planing")
	case deepOf(st.Board) == nil:
		return say.T("its faces are not known")
	case !(k.All()-s.after(k) > 0):
		return say.T("all of it comes off after glue-up")
	}
	return ""
}

// after is what comes off after glue-up where nothing else was chosen.
func (s *Session) after(k Stock) float64 {
	return math.Min(s.Project().Allowances.AfterGlue, k.All())
}
