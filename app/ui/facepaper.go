package ui

import (
	"context"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/photo"
	"heartside/layout/photo/outline"
	"heartside/model/say"
	"heartside/model/unit"
)

// paperSize is what a sheet of paper beside a board says of its size.
type paperSize struct {
	length, width float64 // mm
	sure          float64 // of the sheet's corners, 0 to 1
}

// measurePaper looks for a sheet of paper and measures the board at view by it.
func measurePaper(ctx context.Context, img image.Image, view photo.View, paper outline.Paper, thickness float64) (paperSize, error) {
	sheet, sure, err := outline.Sheet(ctx, img, paper)
	if err != nil {
		return paperSize{}, err
	}
	b := img.Bounds()
	l, w, err := outline.SizeFromSheet(view, sheet, paper, thickness, b.Dx(), b.Dy())
	return paperSize{l, w, sure}, err
}

// sheetsOfPaper are the sheets that may lie beside a board.
func sheetsOfPaper() []outline.Paper { return []outline.Paper{outline.A4, outline.Letter} }

func sheetWords(p outline.Paper) string {
	if p == outline.Letter {
		return say.T("Letter (8½ × 11 in)")
	}
	return say.T("A4 (210 × 297 mm)")
}

// paperAsk measures the board by a sheet of paper that lies beside it on the
// ground.
func (c *faceCorners) paperAsk() {
	p := c.p
	switch {
	case c.lie.waney:
		p.w.say(say.T("Waney edges are measured by the length; a sheet of paper measures straight boards."))
		return
	case p.img == nil || len(c.lie.at) != 4:
		p.w.say(say.T("Set all four corners of the board first; then it can be measured by the paper."))
		return
	case c.busy != "":
		return
	}
	now := outline.A4
	if p.w.ses.Units() == unit.Inch {
		now = outline.Letter
	}
	sheet := choice(p.w, sheetsOfPaper(), sheetWords, now)
	p.w.ask(question{title: say.T("Measure by a sheet of paper"), yes: say.T("Measure"), plain: true, focus: sheet, size: fyne.NewSize(480, 240),
		body: container.NewVBox(pairs(named(say.T("Sheet")), sheet),
			wrapped(say.T("The whole sheet lies flat on the ground beside the board, white, in the same photograph."), widget.LowImportance)),
		do: func() error {
			paper := chosen(sheet, sheetsOfPaper())
			p.w.post(func() { c.paperMeasure(paper) })
			return nil
		}})
}

func (c *faceCorners) paperMeasure(paper outline.Paper) {
	p := c.p
	if p.img == nil || len(c.lie.at) != 4 || c.busy != "" {
		return
	}
	thickness := 0.0
	if b := p.w.ses.Committed().Board(p.board); b != nil {
		thickness = b.Thickness
	}
	c.busy = say.T("Measuring by the paper…")
	p.w.say(c.busy)
	img, view, ctx, measure := p.img, c.lie.view(), p.ctx, p.means.paper
	go func() {
		var got paperSize
		err := guarded(func() (err error) { got, err = measure(ctx, img, view, paper, thickness); return err })
		p.w.post(func() {
			if ctx.Err() != nil {
				return
			}
			c.busy = ""
			p.show()
			if err != nil {
				p.w.say(say.F("The board was not measured: %s.", say.Err(err)))
				return
			}
			p.w.say("")
			c.offer(c.paperOffered(got, thickness))
		})
	}()
	p.show()
}

// paperOffered tells what was measured by the sheet.
func (c *faceCorners) paperOffered(got paperSize, thickness float64) measuredSize {
	p := c.p
	m := measuredSize{title: say.T("Measured by a sheet of paper"), verb: say.F("Measure board %s by a sheet of paper", p.board),
		length: got.length, width: got.width}
	m.notes = []string{say.F("The sheet was found %.0f %% sure.", 100*got.sure)}
	if got.sure < unsure {
		m.doubt = say.T("The sheet is hard to tell from what lies about it. Look whether the whole of it lies flat and white in the picture: this size is doubtful.")
	}
	if thickness > 0 {
		m.notes = append(m.notes, say.F("The paper lies on the ground, and the face of the board its thickness higher, %s: that is allowed for.", p.w.ses.Len(thickness)))
	}
	return m
}

// off is how far a length lies from another, as a share of it.
func off(a, b float64) float64 {
	if b <= 0 {
		return 1
	}
	return max(a-b, b-a) / b
}
