package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// endSide is the column beside the photograph of an end: how it lies, what was
// read from it and what that rests on.
type endSide struct {
	p      *endPage
	box    fyne.CanvasObject
	body   *fyne.Container
	scroll *container.Scroll
	head   *widget.Label
	size   *widget.Label
	way    *widget.Label // how the end is photographed
	sketch *endSketch
	down   *tick
	mirror *tick
	none   *tick
	ticks  []*tick
	spots  *widget.Label // the corners
	pith   *widget.Label
	heart  *widget.Label
	rests  *widget.Label
	doubts *widget.Label
	keys   *widget.Label
}

func newEndSide(p *endPage) *endSide {
	s := &endSide{p: p, sketch: newEndSketch(p)}
	text := func(i widget.Importance) *widget.Label { return wrapped("", i) }
	s.head, s.size, s.way, s.spots, s.pith, s.heart = text(widget.MediumImportance), text(widget.MediumImportance), text(widget.MediumImportance), text(widget.MediumImportance), text(widget.MediumImportance), text(widget.MediumImportance)
	s.rests, s.doubts, s.keys = text(widget.LowImportance), text(widget.WarningImportance), text(widget.LowImportance)
	s.head.SizeName, s.head.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	s.pith.TextStyle.Bold, s.heart.TextStyle.Bold = true, true
	s.down = s.tick(say.T("Photographed with face 1 down (D)"), func(on bool) {
		if on != p.now.faceDown() {
			p.flip(faceLie.aboutTurned)
		}
	})
	s.mirror = s.tick(say.T("The picture is a mirror image (M)"), func(on bool) {
		if on != p.now.mirrored(p.end) {
			p.flip(swapped)
		}
	})
	s.none = s.tick(say.T("No border of the heartwood seen (X)"), func(on bool) { p.none(on) })
	s.body = container.New(columnLayout{}, snug(s.head), snug(s.size), snug(s.way), s.sketch, s.down, s.mirror, snug(s.spots), snug(s.pith), snug(s.heart), s.none, snug(s.doubts), snug(s.rests), snug(bold(say.T("Keys"))), snug(s.keys))
	s.scroll = container.NewVScroll(s.body)
	s.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, s.scroll))
	return s
}

func (s *endSide) tick(text string, do func(bool)) *tick {
	t := newTick(s.p.w, text, false, nil)
	t.OnChanged = func(on bool) {
		do(on)
		s.p.show()
		s.p.w.takeKeys()
	}
	s.ticks = append(s.ticks, t)
	return t
}

// set ticks a box without telling anyone.
func (t *tick) set(on bool) {
	if t.Checked != on {
		t.Checked = on
		t.Refresh()
	}
}

// show brings the column up to date.
func (s *endSide) show() {
	p, ses := s.p, s.p.w.ses
	b := ses.Project().Board(p.board)
	if b == nil {
		return
	}
	corners := p.step == endCorners
	doubts, rests := p.doubts(b), ""
	if !corners {
		rests = p.restWords(b)
	}
	changed := false
	write := func(l *widget.Label, text string) {
		if l.Text != text || l.Hidden != (text == "") {
			l.Hidden = text == ""
			l.SetText(text)
			changed = true
		}
	}
	write(s.head, p.place())
	write(s.size, say.F("Section %s × %s.", ses.Len(p.width), ses.Len(p.thickness)))
	way, spots, pith, heart := "", "", "", ""
	if corners {
		way, spots = p.wayWords(), p.cornerWords()
	} else {
		pith, heart = p.pithWords(), p.heartWords()
	}
	write(s.way, way)
	write(s.spots, spots)
	write(s.pith, pith)
	write(s.heart, heart)
	write(s.doubts, strings.Join(doubts, "\n"))
	write(s.rests, rests)
	write(s.keys, p.keyWords())
	for t, on := range map[*tick]bool{s.down: corners, s.mirror: corners, s.none: p.step == endHeart} {
		if t.Visible() != on {
			setShown(t, on)
			changed = true
		}
	}
	s.down.set(p.now.faceDown())
	s.mirror.set(p.now.mirrored(p.end))
	s.none.set(p.now.none)
	s.sketch.show(b.Species)
	if changed {
		s.body.Refresh()
	}
}
