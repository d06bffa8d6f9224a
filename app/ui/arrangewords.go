package ui

import (
	"math"
	"strings"

	"heartside/app/session"
	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// askedLooks are those that a search can be asked for.
func askedLooks() []model.Look { return looks()[1:] }

// lookToAsk is the look the page begins with.
func lookToAsk(l model.Look, wanted face.Wanted) model.Look {
	switch {
	case l != model.AsLaid && l != "":
		return l
	case wanted == face.WantBoth: // no wood is unwanted, so it has no place to be
		return model.SapToSap
	}
	return model.SapOut
}

func ringKinds() []model.Rings {
	return []model.Rings{model.RingsAny, model.RingsAlternate, model.RingsBarkUp, model.RingsHeartUp}
}

// ringWords says how growth rings are to lie.
func ringWords(r model.Rings) string {
	switch r {
	case model.RingsAlternate:
		return say.T("Rings alternate")
	case model.RingsBarkUp:
		return say.T("Bark side up")
	case model.RingsHeartUp:
		return say.T("Heart side up")
	}
	return say.T("Rings any way")
}

// pointWords are points against an arrangement, as a figure.
func pointWords(v float64) string {
	switch {
	case !(v > 0):
		return "0"
	case v < 0.05:
		return say.T("under 0.1")
	}
	return say.Print("%.1f", v)
}

// gainWords are points that could still be won, rounded up: more cannot.
func gainWords(v float64) string { return say.Print("%.1f", max(math.Ceil(10*v-1e-9), 0)/10) }

// title names an arrangement.
func (e *layEntry) title() string {
	switch e.kind {
	case layAnswer:
		return say.F("Answer %s", itoa(e.n))
	case layKept:
		return say.F("Kept “%s”", e.name)
	}
	return say.T("0  As it lies now")
}

// against is what speaks against it in one figure.
func (e *layEntry) against() string {
	switch {
	case e.fault != "" || !e.known:
		return ""
	case !(e.got.Points > 0):
		return say.T("nothing against")
	}
	return say.F("%s against", pointWords(e.got.Points))
}

// readings are the shares that one asks for first.
func (e *layEntry) readings() string {
	a := e.got.After
	if a == (session.After{}) && !e.known && e.kind != layNow {
		return ""
	}
	streaks := say.T("No streak alone.")
	if a.LoneStreaks > 0 {
		streaks = say.F("⚠ %s alone.", say.Count(a.LoneStreaks, say.T("streak"), say.T("streaks")))
	}
	text := say.F("Sapwood %s", session.Percent(a.Light))
	if !e.early {
		text += say.F(", contrast coverage %s", session.Percent(a.Coverage))
	}
	return text + ".\n" + streaks
}

// change is what is done to get there.
func (e *layEntry) change() string {
	switch {
	case e.fault != "":
		return "⚠ " + e.fault
	case e.kind == layNow:
		return ""
	case e.same:
		return say.T("✓ It lies so now.")
	case e.got.Change == "":
		return say.T("Nothing is to be moved.")
	}
	return ended(sentence(e.got.Change))
}

// text is all that a tile says under its picture.
func (e *layEntry) text() string {
	return strings.TrimSpace(e.readings() + " " + e.change())
}

// status says how far the search is, in plain words.
func (p *arrangePage) status() string {
	f := &p.found
	read := ""
	if f.Tried > 0 {
		read = say.F(" %s arrangements read.", grouped(f.Tried))
	}
	switch {
	case p.trouble != "":
		return "⚠ " + p.trouble
	case p.running && len(f.Answers) == 0:
		return say.F("Searching…%s", read)
	case p.running:
		return say.F("Searching… The best so far, after %s arrangements were read, has %s against it.", grouped(f.Tried), pointWords(f.Answers[0].Points))
	case len(f.Answers) == 0 && p.stopped:
		return say.F("Stopped before anything was found.%s", read)
	case len(f.Answers) == 0:
		return say.F("There is nothing to choose: every strip is held, or no other arrangement is allowed.%s", read)
	}
	text := ""
	switch best := f.Answers[0].Points; {
	case f.Best:
		text = say.T("✓ No arrangement of these strips does better.")
	case !math.IsInf(f.Least, 0) && !math.IsNaN(f.Least):
		text = say.F("At most %s points better is possible.", gainWords(best-f.Least))
		if f.Proved {
			text = say.F("By the joints alone none does better; in all, at most %s points better is possible.", gainWords(best-f.Least))
		}
	case f.Proved:
		text = say.T("By the joints alone none does better.")
	}
	if p.stopped {
		text = strings.TrimSpace(say.T("Stopped.") + " " + text)
	}
	if p.was != "" {
		text += " " + p.was
	}
	return strings.TrimSpace(text + read)
}

// grouped prints a number with its thousands apart: "12 400".
func grouped(n int) string {
	s := itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "\u00a0" + s[i:]
	}
	return s
}
