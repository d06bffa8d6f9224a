package ui

import (
	"strings"

	"heartside/app/session"
	"heartside/model/say"
	"heartside/model/unit"
)

// read reads the fields.
func (e *yardEntry) read() (o session.Offer, bad *fault) {
	fail := func(i int, err error) (session.Offer, *fault) { return o, &fault{err, e.in[i]} }
	var was *session.Offer
	yard := e.p.yard()
	for i := range yard.Offers {
		if yard.Offers[i].ID == e.p.st.was {
			was = &yard.Offers[i]
		}
	}
	var err error
	if was != nil {
		o.Note = was.Note
	}
	if o.ID = strings.TrimSpace(e.in[yardLetter].Text); o.ID == "" {
		return fail(yardLetter, say.Error("letter: every board needs one, such as A; chalk it on the board first"))
	}
	for _, x := range []struct {
		i    int
		name string
		to   *float64
	}{{yardLength, say.T("length"), &o.Length}, {yardWidth, say.T("width"), &o.Width}} {
		if *x.to, err = e.in[x.i].size(x.name); err != nil {
			return fail(x.i, err)
		}
	}
	if o.Width > o.Length {
		return fail(yardWidth, say.Errorf("width: %s is more than the length; length runs along the grain", e.in[yardWidth].Text))
	}
	if o.Thickness, _, err = unit.ParseThickness(e.in[yardThick].Text, e.p.w.ses.Units()); err != nil {
		return fail(yardThick, say.Errorf("thickness: %w", err))
	}
	if was != nil { // finer than it prints
		for _, x := range []struct {
			i   int
			to  *float64
			was float64
		}{{yardLength, &o.Length, was.Length}, {yardWidth, &o.Width, was.Width}, {yardThick, &o.Thickness, was.Thickness}} {
			if e.in[x.i].Text == e.p.w.ses.Len(x.was) {
				*x.to = x.was
			}
		}
	}
	for f := range o.Sap {
		o.Unseen[f], o.Faces[f] = true, e.pictured(f)
		for k, edge := range [2]string{say.T("marked edge"), say.T("other edge")} {
			i := yardSap11 + 2*f + k
			tape, seen, err := session.TapeOf(e.in[i].Text, e.p.w.ses.Units())
			if err != nil {
				return fail(i, say.Errorf("face %d, %s: %w", f+1, edge, err))
			}
			for _, v := range tape {
				if v > o.Width {
					return fail(i, say.Errorf("face %d, %s: sapwood %s wide does not fit a board %s wide", f+1, edge, e.p.w.ses.Len(v), e.p.w.ses.Len(o.Width)))
				}
			}
			if o.Sap[f][k] = tape; seen {
				o.Unseen[f] = false
			}
		}
	}
	if strings.TrimSpace(e.in[yardPrice].Text) != "" {
		v, err := e.in[yardPrice].number(say.T("price"))
		if err == nil && v < 0 {
			err = say.Errorf("price: “%s” is less than nothing; write what the wood costs", e.in[yardPrice].Text)
		}
		if err != nil {
			return fail(yardPrice, err)
		}
		o.Rate = session.RateOf(v, e.p.st.per)
	}
	if o.Say, err = decided(e.in[yardSay].Text); err != nil {
		return fail(yardSay, err)
	}
	return o, nil
}
