package ui

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/sheet"
	"heartside/model"
	"heartside/model/say"
)

// sheetCode shows the short code of the plan large, and tells by the code on
// an old sheet whether it is still of this plan.
type sheetCode struct {
	p      *sheetPage
	box    *fyne.Container
	large  *canvas.Text
	old    *field
	answer *widget.Label
	of     *model.Project // what the code was worked out for
	now    string
}

func newSheetCode(p *sheetPage) *sheetCode {
	c := &sheetCode{p: p}
	c.large = canvas.NewText("", theme.Color(theme.ColorNameForeground))
	c.large.TextStyle.Bold = true
	c.large.TextSize = 2.4 * theme.TextSize()
	c.old = p.w.newField("", say.T("Four letters"))
	c.old.follow(c.judge)
	c.answer = wrapped("", widget.LowImportance)
	line := flow([]fyne.CanvasObject{container.NewPadded(c.large), container.NewCenter(p.button(say.T("Copy (C)"), p.copyCode))})
	c.box = container.New(stackLayout{}, snug(bold(say.T("Short code of this plan"))), line, snug(wrapped(say.T("Code on an old sheet"), widget.MediumImportance)), c.old, snug(c.answer))
	return c
}

// show brings the code up to date.
func (c *sheetCode) show() {
	if now := c.p.w.ses.Committed(); now != c.of {
		c.of, c.now = now, sheet.Code(now)
		c.judge()
	}
	if ink := theme.Color(theme.ColorNameForeground); c.large.Text != c.now || c.large.Color != ink {
		c.large.Text, c.large.Color = c.now, ink
		c.large.Refresh()
	}
}

// judge says what the code typed in means.
func (c *sheetCode) judge() {
	before := ""
	if p := c.p.w.ses.Before(); p != nil {
		before = sheet.Code(p)
	}
	text, importance := codeWords(c.old.Text, c.now, before)
	if c.answer.Text == text && c.answer.Importance == importance {
		return
	}
	c.answer.Importance = importance
	c.answer.SetText(text)
	if c.p.side != nil {
		c.p.side.relaid()
	}
}

// codeWords says whether a sheet with the code typed is of the plan whose code
// is now; before is the plan's before its last change, "" none.
func codeWords(typed, now, before string) (string, widget.Importance) {
	code := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '-' || r == '.' {
			return -1
		}
		return unicode.ToUpper(r)
	}, typed)
	switch n := len([]rune(code)); {
	case n == 0:
		return say.T("It stands at the top of every page. Typed in here, it tells whether that sheet is still right."), widget.LowImportance
	case strings.ContainsAny(code, "01IO"):
		return say.T("Codes have no 0, 1, I or O in them: read it again."), widget.WarningImportance
	case n != len([]rune(now)):
		return say.F("A code has %s letters and figures.", itoa(len([]rune(now)))), widget.LowImportance
	case code == now:
		return say.T("✓ This sheet is of this plan as it is now."), widget.SuccessImportance
	case code == before:
		return say.T("⚠ This sheet is of the plan before its last change: print again."), widget.WarningImportance
	}
	return say.T("⚠ This sheet is of another plan, or of this one before it was changed: print again."), widget.WarningImportance
}

// copyCode puts the code on the clipboard.
func (p *sheetPage) copyCode() {
	p.w.app.Clipboard().SetContent(p.side.code.now)
	p.w.say(say.F("Copied the code %s.", p.side.code.now))
}
