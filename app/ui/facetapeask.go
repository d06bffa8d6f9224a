package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/geom"
	"heartside/layout/photo/scale"
	"heartside/model/say"
	"heartside/model/unit"
)

// enter asks for the distance of the last stretch.
func (t *faceTape) enter() {
	c, p := t.c, t.c.p
	if t.half() {
		p.w.say(say.F("Two marks are needed. %s", t.hint()))
		return
	}
	if len(c.lie.at) != 4 {
		p.w.say(say.T("Set all four corners of the board first; then it can be measured by the tape."))
		return
	}
	k := len(t.marks)/2 - 1
	wide, high := p.img.Bounds().Dx(), p.img.Bounds().Dy()
	if err := scale.Marks(c.lie.view(), wide, high, t.marks[2*k], t.marks[2*k+1]); err != nil {
		t.shown()
		p.w.say("⚠ " + sentence(say.Err(err)) + ".")
		return
	}
	t.shown()
	t.ask(k)
}

// ask asks for the distance of stretch k, then measures.
func (t *faceTape) ask(k int) {
	p, now := t.c.p, t.told[k]
	if !now.known {
		now.ground = t.aside(k)
	}
	hint := say.T("500 mm")
	if p.w.ses.Units() == unit.Inch {
		hint = `24"`
	}
	f := p.w.newField("", hint)
	if now.known {
		f.Text = p.w.ses.Len(now.distance)
	}
	places := []bool{false, true}
	lies := choice(p.w, places, func(ground bool) string {
		if ground {
			return say.T("on the ground beside the board")
		}
		return say.T("on the board")
	}, now.ground)
	title := say.T("Distance between the marks")
	if k > 0 {
		title = say.T("Distance between the marks of the second stretch")
	}
	about := say.T("What you read at the second mark less what you read at the first.")
	if thick := t.thickness(); thick > 0 {
		about += say.F(" The ground lies %s below the face, the board's thickness; that is allowed for.", p.w.ses.Len(thick))
	}
	p.w.ask(question{title: title, yes: say.T("Measure"), no: say.T("Back to the marks"), focus: f, size: fyne.NewSize(520, 300),
		body: container.NewVBox(pairs(named(say.T("Distance")), f, named(say.T("The tape lies")), lies), wrapped(about, widget.LowImportance)),
		do: func() error {
			d, err := f.size(say.T("distance"))
			if err != nil {
				return err
			}
			was := t.told[k]
			t.told[k] = tapeTold{true, d, chosen(lies, places)}
			got, err := t.measured()
			if err != nil {
				t.told[k] = was
				return err
			}
			p.w.post(func() {
				t.shown()
				t.c.offer(t.offered(got))
			})
			return nil
		}})
}

// aside reports whether both marks of a stretch lie beside the board.
func (t *faceTape) aside(k int) bool {
	board := geom.Polygon(t.c.lie.at)
	return !board.Contains(t.marks[2*k]) && !board.Contains(t.marks[2*k+1])
}

func (t *faceTape) thickness() float64 {
	if b := t.c.p.w.ses.Committed().Board(t.c.p.board); b != nil {
		return b.Thickness
	}
	return 0
}

func (t *faceTape) measured() (*scale.Result, error) {
	p := t.c.p
	return scale.Size(t.c.lie.view(), p.img.Bounds().Dx(), p.img.Bounds().Dy(), t.thickness(), t.stretches(), p.length, p.width)
}

const (
	strained = 3    // of scale.Result.Strain: something is wrong
	loosely  = 0.15 // the camera's distance is hardly told beyond this share of it
)

// offered tells what was measured by the tape.
func (t *faceTape) offered(r *scale.Result) measuredSize {
	p := t.c.p
	m := measuredSize{title: say.T("Measured by a tape"), verb: say.F("Measure board %s by a tape", p.board), no: say.T("Back to the marks"),
		length: r.Length, width: r.Width, lengthOff: r.LengthOff, widthOff: r.WidthOff, then: t.stop}
	if r.Strain > strained {
		m.doubt = say.T("Corners, marks and distances do not go together. Look at each mark, at what was typed, and at where the tape lies: until then this size is doubtful.")
	}
	switch r.Ratio {
	case scale.FromStretches:
		m.notes = append(m.notes, say.T("Length and width are both from the two stretches."))
	case scale.FromPicture:
		m.notes = append(m.notes, say.T("The ratio of length to width is from the picture: how the edges of the board run together."))
	default:
		text := say.F("The ratio of length to width is that of the size entered; the picture tells it only within %s. The tape gives the scale of both.", whole(r.PictureOff))
		m.notes = append(m.notes, text)
	}
	if len(t.stretches()) == 1 && r.Ratio != scale.FromStretches {
		m.notes = append(m.notes, say.T("A second stretch in another direction, best across the first, makes both surer: go back to the marks and click two more."))
	}
	if ground := t.onGround(); ground && t.thickness() > 0 {
		text := say.F("The tape lies on the ground, and the face %s higher: allowed for.", p.w.ses.Len(t.thickness()))
		if r.CameraOff > loosely*r.Camera {
			text += say.F(" This picture hardly tells how far off the camera stood, about %s; the give or take allows for that.", p.w.ses.Len(p.w.roughly(r.Camera)))
		}
		m.notes = append(m.notes, text)
	}
	return m
}

func (t *faceTape) onGround() bool {
	for _, s := range t.stretches() {
		if s.Ground {
			return true
		}
	}
	return false
}

// roughly is a length to the next 50 mm, or 2 in.
func (w *Window) roughly(mm float64) float64 {
	step := 50.0
	if w.ses.Units() == unit.Inch {
		step = 2 * unit.InchMM
	}
	return step * math.Round(mm/step)
}
