package session

import (
	"strings"

	"heartside/layout/face"
	"heartside/layout/wood/flatten"
	"heartside/model/say"
)

// WillNotCleanUp warns of a strip whose blank is too bent to be planed to the
// panel's thickness.
const WillNotCleanUp face.WarningKind = "will-not-clean-up"

const weightFlat = 78

// cleaning is what becomes of the blank of one strip when it is flattened.
type cleaning struct {
	strip  laidStrip
	answer *flatten.Answer
}

// cleanings are those of strips from boards whose shape was measured.
func (b *behaving) cleanings() []cleaning {
	var out []cleaning
	a, m := b.p.Allowances, b.p.Machines
	for _, k := range b.pieces() {
		s := k.board.Shape
		if s.Cup == 0 && s.Bow == 0 && s.Crook == 0 && s.Twist == 0 {
			continue
		}
		board := flatten.Board{Length: k.board.Length, Width: k.board.Width, Thickness: k.board.Thickness,
			Shape: flatten.Shape{Cup: s.Cup, Bow: s.Bow, Crook: s.Crook, Twist: s.Twist}}
		edge := a.Joint + a.Rest
		length, width := min(k.strip.L+2*a.Ends, k.board.Length), min(k.strip.W+2*edge, k.board.Width)
		got, err := flatten.Will(board, length, width,
			flatten.Wanted{Thickness: b.n.Thickness + a.AfterGlue, Width: k.strip.W},
			flatten.Options{Skim: flatten.UsualSkim, Kerf: a.Kerf, Narrowest: m.Narrowest, Shortest: m.Shortest})
		if err == nil {
			out = append(out, cleaning{k, got})
		}
	}
	return out
}

// remedyWords say what would save a blank.
func (b *behaving) remedyWords(list []flatten.Remedy) string {
	var out []string
	for _, r := range list {
		switch r.Way {
		case flatten.RipFirst:
			out = append(out, say.F("rip it into %d first, flatten and glue again: %s left", r.Pieces, b.s.Len(r.Thickness)))
		case flatten.CutShorter:
			out = append(out, say.F("cut it to %s before flattening", b.s.Len(r.Length)))
		case flatten.ThinnerPanel:
			out = append(out, say.F("a panel of %s", b.s.Len(r.Thickness)))
		case flatten.Narrower:
			out = append(out, say.F("a strip of %s", b.s.Len(r.Width)))
		}
	}
	return strings.Join(out, "; ")
}

func (b *behaving) flatSection() (Section, bool) {
	list := b.cleanings()
	if len(list) == 0 {
		return Section{}, false
	}
	out := Section{ID: "flatten", Title: say.T("Will it clean up?"), Lead: say.T("Every blank whose board was measured comes flat with wood to spare.")}
	out.Rows = []Row{{Name: say.T("Left when flat, of the blank"), Values: []string{say.T("surely"), say.T("likely"), say.T("straight width")}, Head: true}}
	bad := 0
	for _, c := range list {
		l := c.answer.Left
		out.Rows = append(out.Rows, Row{Name: say.F("Strip %s, board %s", c.strip.number, c.strip.board.ID), Values: []string{b.s.Len(l.Sure), b.s.Len(l.Likely), b.s.Len(l.Straight)}})
		if c.answer.Verdict != flatten.CleansUp {
			bad++
			word := say.T("may miss")
			if c.answer.Verdict == flatten.WillNot {
				word, out.Strong = say.T("misses"), true
			}
			note := say.F("Strip %s %s %s of thickness", c.strip.number, word, b.s.Fine(max(c.answer.ShortLikely, c.answer.ShortSure)))
			if c.answer.ShortSure == 0 && c.answer.ShortWidth > 0 {
				note = say.F("Strip %s is %s too crooked for its width", c.strip.number, b.s.Fine(c.answer.ShortWidth))
			}
			if r := b.remedyWords(c.answer.Remedies); r != "" {
				note += say.F(". What saves it: %s", r)
			}
			out.Notes = append(out.Notes, note+".")
		}
		for _, s := range l.Working {
			s.Formula = say.F("Strip %s: %s", c.strip.number, say.Of(s.Formula))
			out.How = append(out.How, s)
		}
	}
	if bad > 0 {
		out.Lead = say.F("%d of %d blanks may not come flat in time.", bad, len(list))
	}
	out.Notes = append(out.Notes, say.T("Cup falls with the square of the width, bow and crook with the square of the length: ripping or crosscutting first saves thickness. A bent or twisted board never runs against a saw fence: straight-line it on a sled or cut to a line on the band saw, with a riving knife where there is one; the machine's manual decides."))
	return out, true
}

// flatWarnings tell of blanks that will not clean up.
func (b *behaving) flatWarnings() (out []face.Warning) {
	for _, c := range b.cleanings() {
		if c.answer.Verdict != flatten.WillNot {
			continue
		}
		w := face.Warning{Kind: WillNotCleanUp, Strips: []string{c.strip.strip.ID}, Boards: []string{c.strip.board.ID},
			Measure: c.answer.ShortLikely, Limit: b.n.Thickness, Weight: weightFlat, Why: "thickness"}
		if c.answer.ShortLikely == 0 {
			w.Why, w.Measure, w.Limit = "width", c.answer.ShortWidth, c.strip.strip.W
		}
		out = append(out, w)
	}
	return out
}

// sayFlat words a blank that will not clean up.
func (w words) sayFlat(x *face.Warning, where string) (title, text string) {
	if x.Why == "width" {
		return say.F("Too crooked for its width: %s, by %s", where, w.fine(x.Measure)),
			say.T("Its edges cannot be made straight and leave the width wanted. Cut it shorter first, or make the strip narrower.")
	}
	return say.F("Will not clean up to %s: %s, by %s", w.len(x.Limit), where, w.fine(x.Measure)),
		say.T("Flattened over its whole blank the board is too thin. Ripping or crosscutting first may save it: see how the wood will behave.")
}
