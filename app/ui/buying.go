package ui

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"heartside/model"
	"heartside/model/say"
)

// buying is the part of the board's dialog about where it is from: price, and
// which cut of which log. All of it may stay empty.
type buying struct {
	amount *field
	per    *pick
	log    *field
	order  *field
	price  string // its name, with the currency
}

func newBuying(w *Window, b *model.Board) *buying {
	f := &buying{amount: w.newField("", say.T("not known")), log: w.newField("", say.T("not known")), order: w.newField("", say.T("not known")), price: w.priceName()}
	per := "board-foot"
	if w.ses.Units() != "inch" {
		per = "cubic-metre"
	}
	if b.Price != nil {
		f.amount.Text, per = say.Number(b.Price.Amount), b.Price.Per
	}
	f.per = choice(w, pricings(), pricingWords, per)
	if b.Log != nil {
		f.log.Text = b.Log.Name
		if b.Log.Order > 0 {
			f.order.Text = itoa(b.Log.Order)
		}
	}
	return f
}

// priceName names the field of a price, with the currency where one is said.
func (w *Window) priceName() string {
	if c := w.ses.Project().Currency; c != "" {
		return say.F("Price, %s", c)
	}
	return say.T("Price")
}

func (f *buying) body() fyne.CanvasObject {
	return pairs(named(f.price), container.NewGridWithColumns(2, f.amount, f.per),
		named(say.T("Log")), f.log, named(say.T("Which cut of it")), f.order)
}

// read puts what was typed onto a board.
func (f *buying) read(b *model.Board) error {
	b.Price, b.Log = nil, nil
	if strings.TrimSpace(f.amount.Text) != "" {
		v, err := f.amount.number(say.T("price"))
		if err != nil {
			return err
		}
		if v < 0 {
			return say.Errorf("price: “%s” is less than nothing; write what the wood cost", f.amount.Text)
		}
		b.Price = &model.Price{Amount: v, Per: chosen(f.per, pricings())}
	}
	name, order := strings.TrimSpace(f.log.Text), strings.TrimSpace(f.order.Text)
	switch {
	case name == "" && order == "":
		return nil
	case name == "":
		return say.Error("log: name the log that the cut is counted in")
	}
	b.Log = &model.Log{Name: name}
	if order != "" {
		n, err := strconv.Atoi(order)
		if err != nil || n < 1 || n > 1000 {
			return say.Errorf("which cut: “%s” is no count; write 1 for the first board off the log, then 2, 3", order)
		}
		b.Log.Order = n
	}
	return nil
}
