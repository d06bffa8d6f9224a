package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
	"heartside/model/say"
)

// pairRow asks what one picture shows.
type pairRow struct {
	s       *pictureStep
	pairing intake.Pairing
	boards  []string
	box     *fyne.Container
	ground  *canvas.Rectangle
	thumb   *canvas.Image
	board   *pick
	part    *pick
	state   *widget.Label
	touched bool   // the maker chose
	refused string // why it cannot be taken in so, "" it can
	told    string
}

func newPairRow(s *pictureStep, p intake.Pairing) *pairRow {
	r := &pairRow{s: s, pairing: p, boards: []string{""}}
	for _, b := range s.w.ses.Project().Boards {
		r.boards = append(r.boards, b.ID)
	}
	r.thumb = canvas.NewImageFromImage(nil)
	r.thumb.FillMode, r.thumb.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleFastest
	r.board = choice(s.w, r.boards, func(id string) string {
		if id == "" {
			return say.T("not used")
		}
		return say.F("board %s", id)
	}, p.Place.Board)
	part := p.Place.Part
	if part == intake.NoPart {
		part = intake.Face1
	}
	r.part = choice(s.w, intake.Parts(), intake.Part.String, part)
	r.board.changed, r.part.changed = r.chose, r.chose
	r.board.gained, r.part.gained = func() { s.inHand(r) }, func() { s.inHand(r) }
	name := widget.NewLabel(filepath.Base(p.Picture.Path))
	name.Truncation = fyne.TextTruncateEllipsis
	taken := widget.NewLabel(say.T("time not known"))
	if !p.Picture.Taken.IsZero() {
		taken.SetText(say.Day(p.Picture.Taken) + p.Picture.Taken.Format(", 15:04:05"))
	}
	taken.SizeName, taken.Importance = theme.SizeNameCaptionText, widget.LowImportance
	taken.Truncation = fyne.TextTruncateEllipsis
	r.state = wrapped("", widget.MediumImportance)
	state := least(24, r.state)
	about := least(22, container.New(stackLayout{}, snug(name), snug(taken)))
	line := flow([]fyne.CanvasObject{newTapBox(container.New(thumbLayout{}, r.thumb), func() { s.inHand(r) }), about,
		least(15, r.board), least(16, r.part), state}, state, about)
	r.ground = canvas.NewRectangle(theme.Color(theme.ColorNameBackground))
	r.box = container.New(stackLayout{}, container.NewStack(r.ground, container.NewPadded(line)), widget.NewSeparator())
	return r
}

// place is what the row says the picture shows.
func (r *pairRow) place() intake.Place {
	id := chosen(r.board, r.boards)
	if id == "" {
		return intake.Place{}
	}
	return intake.Place{Board: id, Part: chosen(r.part, intake.Parts())}
}

// settled reports whether the row needs no look.
func (r *pairRow) settled() bool {
	return r.refused == "" && (r.touched || r.pairing.Sure())
}

// chose follows the maker's choice.
func (r *pairRow) chose() {
	r.touched = true
	r.s.judge()
	r.s.inHand(r)
}

// tell shows how sure the place is, by sign and word.
func (r *pairRow) tell() {
	text, how := "", widget.MediumImportance
	switch {
	case r.refused != "":
		text, how = "✕ "+r.refused, widget.DangerImportance
	case r.place() == intake.Place{} && r.touched:
		text, how = say.T("– not used"), widget.LowImportance
	case r.place() == intake.Place{}:
		text, how = say.T("? no place found: choose one"), widget.WarningImportance
	case r.touched:
		text, how = say.T("✓ chosen"), widget.SuccessImportance
	case r.pairing.How == intake.ByName:
		text, how = say.T("✓ by its name"), widget.SuccessImportance
	case r.pairing.How == intake.ByGroup:
		text, how = say.T("? by names that go together: check the board"), widget.WarningImportance
	default:
		text, how = say.T("? counted off in order: check"), widget.WarningImportance
	}
	if r.refused == "" && r.s.photographed(r.place()) {
		text += say.T("; replaces the photograph there")
	}
	if r.told != text {
		r.told = text
		r.state.Importance = how
		r.state.SetText(text)
	}
	setShown(r.part, r.place() != intake.Place{})
}

// judge refuses places given twice and tells how sure each is.
func (s *pictureStep) judge() {
	first := map[intake.Place]*pairRow{}
	for _, r := range s.rows {
		r.refused = ""
		p := r.place()
		if p.Board == "" {
			continue
		}
		if s.w.ses.Project().Board(p.Board) == nil {
			r.refused = say.F("board %s is no longer in the project: choose another", p.Board)
		} else if other := first[p]; other != nil {
			r.refused = say.F("%s is given twice, here and to %s: choose another place or “not used”", p.String(), filepath.Base(other.pairing.Picture.Path))
		} else {
			first[p] = r
		}
	}
	for _, r := range s.rows {
		r.tell()
	}
	s.show()
	settled(s.scroll)
}

// inHand shows the picture of a row large.
func (s *pictureStep) inHand(r *pairRow) {
	for _, o := range s.rows {
		c := theme.Color(theme.ColorNameBackground)
		if o == r {
			c = theme.Color(theme.ColorNameSelection)
		}
		if o.ground.FillColor != c {
			o.ground.FillColor = c
			o.ground.Refresh()
		}
	}
	into(s.scroll, r.box)
	path := r.pairing.Picture.Path
	s.preview.path = path
	s.preview.show(s.looks.got[path], filepath.Base(path)+s.looks.trouble(path))
}

// looked shows pictures that were opened meanwhile.
func (s *pictureStep) looked(path string) {
	p := s.looks.got[path]
	for _, r := range s.rows {
		if r.pairing.Picture.Path == path && p != nil {
			r.thumb.Image = p
			r.thumb.Refresh()
		}
	}
	if s.preview.path == path {
		s.preview.show(p, filepath.Base(path)+s.looks.trouble(path))
	}
}
