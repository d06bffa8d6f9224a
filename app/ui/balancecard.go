package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/layout/photo/light"
)

// balanceByCard makes a card neutral in the photograph of a face and gives the
// same balance to others, as one change.
func (w *Window) balanceByCard(from intake.Place, to []intake.Place, ring geom.Polygon, kind cardKind) {
	how := "by the " + map[bool]string{true: "grey card", false: "white sheet"}[kind.lightness == light.GreyCard]
	fails := func(err error) { w.fail("The colours were not changed", err) }
	w.balanceWork("Measuring the card…",
		func(ctx context.Context, done func(session.Balanced, error)) {
			w.ses.BalanceByCard(ctx, from.Board, from.Part.Face(), ring, kind.lightness, done)
		},
		func(got session.Balanced, err error) {
			switch {
			case err != nil:
				fails(err)
			case len(to) == 0:
				w.tellBalanced(how, got)
			default:
				w.copyBalance(from, to, how, fails)
			}
		})
}

// copyBalance gives the balance of a face to others. What the card did to the
// face itself is taken back first, so that all is one step of the history; the
// session has taken the balance down by then.
func (w *Window) copyBalance(from intake.Place, to []intake.Place, how string, fails func(error)) {
	w.balanceWork("Giving "+count(len(to), "photograph", "photographs")+" the same balance…",
		func(ctx context.Context, done func(session.Balanced, error)) {
			before, _ := w.ses.Depth()
			w.ses.CopyBalance(ctx, from, append([]intake.Place{from}, to...), func(got session.Balanced, err error) { done(got, err) })
			if now, _ := w.ses.Depth(); now == before { // else it was done at once
				w.ses.Undo()
			}
		},
		func(got session.Balanced, err error) {
			if err != nil {
				fails(err)
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
