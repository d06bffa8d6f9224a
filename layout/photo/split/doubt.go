package split

// Reason is why a result is not to be trusted fully.
type Reason int

// Reasons for doubt.
const (
	LowContrast Reason = iota + 1
	Rough
	UnevenLight
	TwoAnswers
	OneColour
)

var reasonWords = map[Reason]string{
	LowContrast: "heartwood and sapwood differ little in colour",
	Rough:       "the surface is rough or streaked, and hides the sap line",
	UnevenLight: "shadows or glare lie on the face",
	TwoAnswers:  "two answers are nearly as good",
	OneColour:   "the face is of one colour: all heartwood or all sapwood, say which",
}

// String says the reason in plain words.
func (r Reason) String() string {
	if w, ok := reasonWords[r]; ok {
		return w
	}
	return "no reason known"
}

// doubts gathers what speaks against a result. Limits are engineering choices.
func (r *Result) doubts() (out []Reason) {
	if r.guess == nil {
		return nil
	}
	if !r.Present {
		out = append(out, OneColour)
	}
	if r.light > unevenLight {
		out = append(out, UnevenLight)
	}
	if r.Present && r.margin < twoAnswers {
		out = append(out, TwoAnswers)
	}
	if r.Present && r.v.region < 3.5 {
		out = append(out, LowContrast)
	}
	if r.v.step < 1 && r.rough > 0.12 {
		out = append(out, Rough)
	}
	return out
}

// twoAnswers is the lead of the best answer under which the next is nearly as
// good. An engineering choice.
const twoAnswers = 0.5

// unevenLight is how far the lightness along the board may spread, log light,
// before it counts as uneven. An engineering choice.
const unevenLight = 0.45
