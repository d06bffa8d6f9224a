package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/photo"
	"heartside/layout/photo/split"
	"heartside/model/say"
)

// faceSide is the column beside the picture: what the face is, how much
// sapwood it shows, how sure that is, and the keys.
type faceSide struct {
	p      *facePage
	box    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
	head   *widget.Label
	size   *widget.Label
	share  *widget.Label
	sure   *widget.Label
	lie    *widget.Label // which end and edge lie where
	edges  *widget.Label
	even   *tick
	doubt  *tick
	slide  *widget.Slider
	zones  []fyne.CanvasObject // parts of the step with zones
	spots  []fyne.CanvasObject // of the step with corners
	keys   *widget.Label
	advice *faceAdvice
	agree  *agreeCard // whether the two faces belong together
}

func newFaceSide(p *facePage) *faceSide {
	s := &faceSide{p: p}
	s.body = container.New(columnLayout{})
	s.scroll = container.NewVScroll(s.body)
	s.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, s.scroll))
	s.fill()
	return s
}

// fill makes the parts of the column.
func (s *faceSide) fill() {
	p, z := s.p, s.p.zones
	text := func() *widget.Label { return wrapped("", widget.MediumImportance) }
	s.head, s.size, s.share, s.sure, s.lie, s.edges, s.keys = text(), text(), text(), text(), text(), text(), wrapped("", widget.LowImportance)
	s.advice, s.agree = newFaceAdvice(p), newAgreeCard(p.w)
	s.head.SizeName, s.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	s.share.TextStyle.Bold = true
	s.even = newTick(p.w, say.T("Even light (E)"), z.show.even, nil)
	s.even.OnChanged = func(on bool) {
		if on != z.show.even {
			z.evenLight(on)
		}
		p.w.takeKeys()
	}
	s.doubt = newTick(p.w, say.T("Where it is not sure: dots (D)"), z.show.doubt, nil)
	s.doubt.OnChanged = func(on bool) {
		if on != z.show.doubt {
			z.doubts(on)
		}
		p.w.takeKeys()
	}
	s.slide = widget.NewSlider(0, 1)
	s.slide.Step, s.slide.Value = 0.05, z.show.zones
	s.slide.OnChanged = func(v float64) {
		z.show.zones = v
		z.canvas.renew()
	}
	s.slide.OnChangeEnded = func(float64) { p.w.takeKeys() }
	s.zones = []fyne.CanvasObject{snug(s.share), snug(s.sure), s.advice.box, s.agree.box, p.bar.acts, snug(bold(say.T("Show"))), s.even, s.doubt, snug(wrapped(say.T("Zones over the picture (hold V to hide)"), widget.MediumImportance)), s.slide}
	s.spots = []fyne.CanvasObject{snug(s.lie), snug(s.edges)}
	s.body.Objects = append(append(append([]fyne.CanvasObject{snug(s.head), snug(s.size)}, s.zones...), s.spots...), snug(bold(say.T("Keys"))), snug(s.keys))
	s.body.Refresh()
}

// write sets a text where it is another.
func (s *faceSide) write(l *widget.Label, text string) bool {
	if l.Text == text {
		return false
	}
	l.Hidden = text == ""
	l.SetText(text)
	return true
}

// show brings the column up to date.
func (s *faceSide) show() {
	p, z := s.p, s.p.zones
	ses := p.w.ses
	b := ses.Project().Board(p.board)
	if b == nil {
		return
	}
	changed := s.write(s.head, say.F("Board %s, face %s", p.board, itoa(p.face)))
	changed = s.write(s.size, sizeWords(ses, b)+"\n"+faceState(ses, b, p.face).text()) || changed
	onZones := p.step == stepZones
	changed = changed || s.slide.Visible() != onZones
	for _, o := range s.zones {
		setShown(o, onZones)
	}
	for _, o := range s.spots {
		setShown(o, !onZones)
	}
	if onZones {
		changed = s.write(s.share, s.shareText()) || changed
		changed = s.write(s.sure, s.sureText()) || changed
		changed = s.advice.show() || changed
		s.ticks(z)
		changed = s.agree.show(p.board, p.face) || changed
	} else {
		text := s.cornerText()
		if p.corners.tape.on {
			text = p.corners.tape.text()
		}
		changed = s.write(s.lie, text) || changed
		wide, high := 1, 1
		if p.img != nil {
			wide, high = p.img.Bounds().Dx(), p.img.Bounds().Dy()
		}
		edges := p.w.edgeWords(&p.corners.lie, wide, high, p.length, p.width)
		if p.corners.tape.on {
			edges = ""
		}
		changed = s.write(s.edges, edges) || changed
	}
	changed = s.write(s.keys, p.keys()) || changed
	if changed {
		s.body.Refresh()
	}
}

func (s *faceSide) ticks(z *faceZones) {
	for t, on := range map[*tick]bool{s.even: z.show.even, s.doubt: z.show.doubt} {
		if t.Checked != on {
			t.SetChecked(on)
		}
	}
}

func (s *faceSide) shareText() string {
	z := s.p.zones
	v, ok := z.share()
	switch {
	case s.p.trouble != "":
		return s.p.trouble
	case !ok:
		return s.p.making
	}
	shares := z.work.now.mask.Shares()
	text := say.F("Light share %s, heartwood %s", shareLine(v), shareLine(shares[photo.Heart]))
	if f := shares[photo.Flaw]; f > 0 {
		text += say.F(", flaws %s", shareLine(f))
	}
	if u := shares[photo.Unseen]; u > 0 {
		text += say.F(", not sure %s", shareLine(u))
	}
	return text + "."
}

func (s *faceSide) sureText() string {
	z := s.p.zones
	if z.work == nil || z.work.now.result == nil {
		return ""
	}
	r := z.work.now.result
	sign := "✓ "
	if r.Confidence < unsure {
		sign = "⚠ "
	}
	text := say.F("%sThe program is %s sure of its split", sign, whole(r.Confidence))
	if r.SapHigh-r.SapLow > 0.005 {
		text += say.F("; by it the light share is %s to %s", shareLine(r.SapLow), shareLine(r.SapHigh))
	}
	text += "."
	for _, d := range r.Doubts {
		if d == split.OneColour { // asked below, with what to press
			continue
		}
		text += "\n• " + sentence(d.String())
	}
	return text
}

// cornerText tells how sure each corner is and which is which.
func (s *faceSide) cornerText() string {
	c := s.p.corners
	var out []string
	if s.p.trouble != "" {
		out = append(out, s.p.trouble)
	}
	names := cornerNames(s.p.face)
	for i, n := range names {
		state := say.T("to be set")
		if i < len(c.lie.at) {
			state = c.lie.trust[i].words()
		}
		out = append(out, itoa(i+1)+"  "+n+": "+state)
	}
	if c.lie.waney {
		out = append(out, "", waneyWords(&c.lie))
	}
	return strings.Join(append(out, "", lieWords(s.p.face, c.lie.at)), "\n")
}

// keys lists the keys that have no button with their name on it.
func (p *facePage) keys() string {
	if p.step == stepCorners && p.corners.tape.on {
		return p.corners.tape.keys()
	}
	if p.step == stepCorners {
		text := say.T("W: waney edges. 1 to 4: corner in hand. Arrows: move it, with Shift ten times as far. + and −: zoom. 0: all of the picture. O: other face. PgDn: next face to look at.")
		if p.w.large() {
			text = say.F("Enter: use the corners. C, Z: corners, zones. F: find again. E: snap edges. T: turn. P, M: measure by paper, by tape. Ctrl: no snapping. %s", text)
		}
		return text
	}
	text := say.T("Arrows: cursor, with Shift further. Home, End: ends. Space: begin and end a stroke there, or set a corner. [ and ]: width. + and −: zoom. 0: whole board. 1: size to work at. V held: no zones. X: no wood. W: trace waney edges, or straight again. Shift+H, Shift+S: all heart, all sap. Shift+U: what is suggested as not sure. O: other face. PgDn: next face to look at.")
	if p.w.large() {
		text = say.F("Enter: looks right. C, Z: corners, zones. S, H, F, U: sapwood, heartwood, flaw, not sure. T, B, P, L: teach, paint, polygon, straight line. %s", text)
	}
	return text
}

// reveal implements page.
func (p *facePage) reveal(o fyne.CanvasObject) {
	if o == fyne.CanvasObject(p.side.even) || o == fyne.CanvasObject(p.side.doubt) {
		into(p.side.scroll, o)
	}
}
