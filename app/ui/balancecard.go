package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/layout/photo/light"
	"heartside/model/say"
)

// balanceByCard makes a card neutral in the photograph of a face and gives the
// same balance to others, as one change.
func (w *Window) balanceByCard(from intake.Place, to []intake.Place, ring geom.Polygon, kind cardKind) {
	how := say.F("by the %s", map[bool]string{true: say.T("grey card"), false: say.T("white sheet")}[kind.lightness == light.GreyCard])
	w.balanceWork(say.T("Measuring the card…"),
		func(ctx context.Context, done func(session.Balanced, error)) {
			w.ses.BalanceByCard(ctx, from, ring, kind.lightness, to, done)
		},
		func(got session.Balanced, err error) {
			if err != nil {
				w.fail(say.T("The colours were not changed"), err)
				return
			}
			w.tellBalanced(how, got)
		})
}

// key implements page.
func (p *balancePage) key(ev *fyne.KeyEvent) bool {
	by, arrow := arrows(ev.Name)
	switch {
	case arrow:
		if p.w.surf.mods().Shift {
			by = by.Mul(8)
		}
		p.pic.walk(by)
	case ev.Name == fyne.KeySpace:
		p.pic.press()
	case ev.Name == fyne.KeyDelete || ev.Name == fyne.KeyBackspace:
		p.pic.again()
	case ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter:
		p.apply()
	default:
		return false
	}
	return true
}

// sign implements page.
func (p *balancePage) sign(r rune) bool {
	switch r {
	case '+', '=':
		p.pic.zoom(p.pic.view.room.Mul(0.5), 1.5)
	case '-':
		p.pic.zoom(p.pic.view.room.Mul(0.5), 1/1.5)
	case '0':
		p.pic.view.zoom = 1
		p.pic.view.hold()
		p.pic.Refresh()
	case '?':
		p.w.act("keys")
	default:
		return false
	}
	return true
}
