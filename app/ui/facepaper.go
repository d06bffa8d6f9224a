package ui

import (
	"context"
	"fmt"
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/layout/photo"
	"heartside/layout/photo/outline"
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
		return "Letter (8½ × 11 in)"
	}
	return "A4 (210 × 297 mm)"
}

// paperAsk measures the board by a sheet of paper that lies beside it on the
// ground.
func (c *faceCorners) paperAsk() {
	p := c.p
	switch {
	case c.lie.waney:
		p.w.say("Waney edges are measured by the length; a sheet of paper measures straight boards.")
		return
	case p.img == nil || len(c.lie.at) != 4:
		p.w.say("Set all four corners of the board first; then it can be measured by the paper.")
		return
	case c.busy != "":
		return
	}
	now := outline.A4
	if p.w.ses.Units() == unit.Inch {
		now = outline.Letter
	}
	sheet := choice(p.w, sheetsOfPaper(), sheetWords, now)
	p.w.ask(question{title: "Measure by a sheet of paper", yes: "Measure", plain: true, focus: sheet, size: fyne.NewSize(480, 240),
		body: container.NewVBox(pairs(named("Sheet"), sheet),
			wrapped("The whole sheet lies flat on the ground beside the board, white, in the same photograph.", widget.LowImportance)),
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
	c.busy = "Measuring by the paper…"
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
				p.w.say("The board was not measured: " + err.Error() + ".")
				return
			}
			p.w.say("")
			p.w.tellAll("Measured by a sheet of paper", c.paperWords(got))
		})
	}()
	p.show()
}

// paperWords tells the size found beside the one entered.
func (c *faceCorners) paperWords(got paperSize) string {
	p := c.p
	size := func(l, w float64) string { return p.w.ses.Len(l) + " × " + p.w.ses.Len(w) }
	text := fmt.Sprintf("By the sheet, board %s measures %s; it was entered as %s. The sheet was found %.0f %% sure.",
		p.board, size(got.length, got.width), size(p.length, p.width), 100*got.sure)
	if off(got.length, p.length) < 0.01 && off(got.width, p.width) < 0.01 {
		return text + " They agree within 1 %."
	}
	return text + " If the tape says so too, change the size in “Board in hand…” (" + p.w.acts.byID["edit-board"].keyNames() + ") once this face is done."
}

// off is how far a length lies from another, as a share of it.
func off(a, b float64) float64 {
	if b <= 0 {
		return 1
	}
	return max(a-b, b-a) / b
}
