package unit

import "heartside/model/say"

// longestMM is the longest length taken: 1 km.
const longestMM = 1e6

// Parse reads a length and returns it in mm. It takes "24", "24 mm", "2.4 cm",
// "1.2 m", "12,5", `7 3/8"`, `7-3/8"`, "7½ in", `1'-2 1/2"`, "1' 2" and the
// like, with straight or typographic marks and a sign in front. A number
// without a unit is in mm or, where sys is Inch, in inches; a fraction without
// a unit is taken only there. The error is a *ParseError.
func Parse(text string, sys System) (mm float64, err error) {
	toks, bad := scan(text)
	if bad != nil {
		return 0, bad
	}
	p := parser{text: text, toks: toks}
	sign := 1.0
	switch p.peek().mark {
	case dash:
		sign = -1
		p.i++
	case plus:
		p.i++
	}
	mm, bad = p.length(sys)
	if bad != nil {
		return 0, bad
	}
	if mm > longestMM {
		return 0, p.fail(toks[0], say.T("the length is over 1 km"), say.T("check the unit"))
	}
	if mm == 0 {
		return 0, nil // no minus zero
	}
	return sign * mm, nil
}

// parser walks the tokens of a text.
type parser struct {
	text string
	toks []token
	i    int
}

func (p *parser) peek() token { return p.toks[p.i] }

// after looks n tokens ahead.
func (p *parser) after(n int) token { return p.toks[min(p.i+n, len(p.toks)-1)] }

func (p *parser) fail(at token, what, hint string) *ParseError {
	return &ParseError{p.text, at.at, what, hint}
}

// length reads everything after the sign.
func (p *parser) length(sys System) (float64, *ParseError) {
	first := p.peek()
	v, parts, bad := p.mixed()
	if bad != nil {
		return 0, bad
	}
	u := p.peek()
	if u.mark != end {
		p.i++
	}
	switch u.mark {
	case end:
		switch {
		case sys == Inch:
			return v * InchMM, nil
		case parts:
			return 0, p.fail(first, say.T("a fraction needs its unit in a project in mm"), say.T(`add " or in`))
		}
		return v, nil
	case millimetre, centimetre, metre:
		if parts {
			return 0, p.fail(first, say.T("fractions are for inches and feet"), say.T("write mm, cm and m with decimals"))
		}
		v *= u.mmOf()
	case inch:
		v *= InchMM
	case foot:
		more, bad := p.inches(v, parts)
		if bad != nil {
			return 0, bad
		}
		v = v*FootMM + more
	case number, fraction:
		return 0, p.fail(u, say.T("two numbers follow one another"), say.T("write one length, thousands without a gap"))
	default:
		return 0, p.fail(u, say.T("here a unit is wanted"), hintUnits())
	}
	if t := p.peek(); t.mark != end {
		return 0, p.fail(t, say.T("more follows after the length"), say.T("write one length"))
	}
	return v, nil
}

// inches reads what may follow feet, in mm.
func (p *parser) inches(feet float64, parts bool) (float64, *ParseError) {
	if p.peek().mark == end {
		return 0, nil
	}
	if p.peek().mark == dash {
		p.i++
	}
	at := p.peek()
	if at.mark != number && at.mark != fraction {
		return 0, p.fail(at, say.T("after the feet inches are wanted"), say.T(`write a length such as 1'-2 1/2"`))
	}
	if parts || feet != float64(int64(feet)) {
		return 0, p.fail(at, say.T("parts of a foot and inches do not go together"), say.T("write whole feet, then inches"))
	}
	v, _, bad := p.mixed()
	if bad != nil {
		return 0, bad
	}
	if v >= 12 {
		return 0, p.fail(at, say.T("after feet there are under 12 inches"), say.T("write it in inches alone, or carry the feet"))
	}
	switch u := p.peek(); u.mark {
	case end:
	case inch:
		p.i++
	default:
		return 0, p.fail(u, say.T("after the feet inches are wanted"), say.T(`write a length such as 1'-2 1/2"`))
	}
	return v * InchMM, nil
}

// mixed reads "7", "7.5", "3/8", "7 3/8", "7-3/8", "½" or "7½"; parts tells
// whether there was a fraction.
func (p *parser) mixed() (v float64, parts bool, bad *ParseError) {
	t := p.peek()
	switch {
	case t.mark == end && len(p.toks) == 1:
		return 0, false, &ParseError{p.text, 1, say.T("no length given"), say.T(`type a length such as 24 mm or 7 3/8"`)}
	case t.mark == fraction:
		p.i++
		return t.value, true, nil
	case t.mark != number:
		return 0, false, p.fail(t, say.T("here a number is wanted"), say.T(`write a length such as 24 mm or 7 3/8"`))
	case p.after(1).mark == slash:
		v, bad = p.over()
		return v, true, bad
	}
	p.i++
	if !t.whole {
		return t.value, false, nil
	}
	skip := 0
	if p.peek().mark == dash {
		skip = 1
	}
	at := p.after(skip)
	switch {
	case at.mark == fraction:
		p.i += skip + 1
		return t.value + at.value, true, nil
	case at.mark == number && p.after(skip+1).mark == slash:
		p.i += skip
		v, bad = p.over()
		if bad == nil && v >= 1 {
			bad = p.fail(at, say.T("after whole inches the fraction is under 1"), say.T("carry it: 8 1/8 for 7 9/8"))
		}
		return t.value + v, true, bad
	}
	return t.value, false, nil
}

// over reads "3/8".
func (p *parser) over() (float64, *ParseError) {
	a, b := p.peek(), p.after(2)
	switch {
	case b.mark != number:
		return 0, p.fail(b, say.T("a number is wanted under the stroke"), say.T("write a fraction such as 3/8"))
	case !a.whole || !b.whole:
		return 0, p.fail(a, say.T("a fraction has whole numbers"), say.T("write 3/8 or 0.375"))
	case b.value == 0:
		return 0, p.fail(b, say.T("nothing can be divided by 0"), say.T("write a fraction such as 3/8"))
	}
	p.i += 3
	return a.value / b.value, nil
}
