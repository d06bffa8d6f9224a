package session

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"heartside/layout/cost"
	"heartside/model/say"
	"heartside/model/unit"
)

// LossClear is the share of clear stock that is lost all the same where the maker
// says nothing else. Common practice, no source.
const LossClear = 0.25

// ClearOffer is clear stock as the maker enters it. Rate.Amount 0: no price yet.
type ClearOffer struct {
	Rate      cost.Rate
	Loss      float64
	Thickness float64 // mm
}

// Against is what a plan is held against: the plans and the clear stock, and the
// words about them.
type Against struct {
	Rows     []Row
	Verdicts []string
	Warnings []string
}

// LostWords says what counts as lost.
func LostWords() string {
	return say.T("Lost is the face of the wood used up that ends in no finished part: wood ripped off for its colour or its flaws, saw kerfs, jointed edges, ends, and what is left too small to be of use. What is left big enough counts as not used. Planing to thickness is not in it: it stands in a row of its own, once.")
}

// PerWords names the unit of a price.
func PerWords(p cost.Per) string {
	switch p {
	case cost.PerBoardFoot:
		return say.T("board foot")
	case cost.PerCubicFoot:
		return say.T("cubic foot")
	case cost.PerCubicMetre:
		return say.T("cubic metre")
	}
	return say.T("board")
}

// PerOf is the unit that volumes are told in.
func PerOf(sys unit.System) cost.Per {
	if sys == unit.Inch {
		return cost.PerBoardFoot
	}
	return cost.PerCubicMetre
}

func (k *KeptTrimmed) money(v float64) string { return unit.FormatMoney(v, k.currency) }

// both prints an area of face and a volume, in the units of the largest of a row.
func (k *KeptTrimmed) both(area, volume, areas, volumes float64) string {
	text := unit.FormatAreaLike(area, areas, k.sys) + ", " + unit.FormatVolumeLike(volume, volumes, k.sys)
	if k.sys == unit.Inch {
		text += " (" + unit.FormatCubicFeet(volume) + ")"
	}
	return text
}

// most returns the largest of a figure of the rows.
func most(rows []cost.Row, of func(*cost.Row) float64) float64 {
	v := 0.0
	for i := range rows {
		v = math.Max(v, of(&rows[i]))
	}
	return v
}

func (k *KeptTrimmed) volume(mm3 float64) string {
	text := unit.FormatVolume(mm3, k.sys)
	if k.sys == unit.Inch {
		text += " (" + unit.FormatCubicFeet(mm3) + ")"
	}
	return text
}

// Against holds the two plans and clear stock side by side. An error tells what
// of the clear stock makes no sense; the rows of the two plans come all the same.
func (k *KeptTrimmed) Against(c ClearOffer) (Against, error) {
	plans := []cost.Plan{k.Keep.Cost, k.Trim.Cost}
	stock := cost.ClearStock{Rate: c.Rate, Thickness: c.Thickness, Loss: c.Loss, Joints: k.Keep.Joints}
	clear, bad := stock.Plan(k.Keep.Cost.Finished + k.Keep.Cost.Missing)
	if bad == nil {
		plans = append(plans, clear)
	}
	rows, err := cost.Compare(plans)
	if err != nil {
		return Against{}, err
	}
	out := Against{Rows: k.table(rows)}
	out.Verdicts = k.verdicts(rows, stock)
	out.Warnings = k.warnings()
	return out, bad
}

// table is a row a figure, a column a plan.
func (k *KeptTrimmed) table(rows []cost.Row) []Row {
	out := []Row{{Values: []string{say.F("Keep the %s", k.wood), say.T("Trim it off"), say.T("Buy clear stock")}, Head: true}}
	add := func(name string, show func(i int, r *cost.Row) string) {
		x := Row{Name: name}
		for i := range 3 {
			text := say.T("not known")
			if i < len(rows) {
				text = show(i, &rows[i])
			}
			x.Values = append(x.Values, text)
		}
		out = append(out, x)
	}
	own := func(i int) *KeptPlan { return [2]*KeptPlan{&k.Keep, &k.Trim}[i] }
	add(say.T("Wood used up"), func(_ int, r *cost.Row) string {
		return k.both(r.Used, r.UsedVolume, most(rows, func(r *cost.Row) float64 { return r.Used }), most(rows, func(r *cost.Row) float64 { return r.UsedVolume }))
	})
	add(say.T("Lost of it"), func(_ int, r *cost.Row) string {
		return k.both(r.Lost, r.LostVolume, most(rows, func(r *cost.Row) float64 { return r.Lost }), most(rows, func(r *cost.Row) float64 { return r.LostVolume })) + "; " + unit.FormatPercent(r.Loss())
	})
	add(say.T("Planed off the parts"), func(i int, _ *cost.Row) string {
		if i > 1 {
			return say.T("not counted")
		}
		return k.volume(own(i).Planed)
	})
	add(say.T("Kept out of the bin"), func(_ int, r *cost.Row) string {
		if r.Spared <= 0 {
			return say.T("nothing: it loses most")
		}
		return k.both(r.Spared, r.SparedVolume, most(rows, func(r *cost.Row) float64 { return r.Spared }), most(rows, func(r *cost.Row) float64 { return r.SparedVolume }))
	})
	add(say.T("To buy for 100 finished"), func(_ int, r *cost.Row) string { return buyWords(r.Loss()) })
	add(say.T("Boards cut into"), func(i int, r *cost.Row) string {
		if i > 1 {
			return say.T("not counted")
		}
		return fmt.Sprint(r.Boards)
	})
	if k.sys == unit.Inch {
		add(say.T("Those boards whole, as tallied"), func(i int, _ *cost.Row) string {
			if i > 1 {
				return say.T("not counted")
			}
			t := own(i).Tally
			return say.F("%d ft² surface measure, %s bd ft", t.Surface, say.Decimal(strings.TrimSuffix(fmt.Sprintf("%.2f", t.BoardFeet), ".00")))
		})
	}
	add(say.T("Joints"), func(i int, r *cost.Row) string {
		if i > 1 {
			return say.T("not known")
		}
		return fmt.Sprint(r.Joints)
	})
	add(say.T("Cost of the wood used"), func(i int, r *cost.Row) string {
		switch {
		case r.Priced:
			return k.money(r.Cost)
		case i > 1:
			return say.T("no price yet")
		case len(own(i).Unpriced) == 0:
			return say.T("nothing is cut")
		}
		return say.F("not known: no price for %s", say.List(own(i).Unpriced))
	})
	add(say.T("Unwanted wood shown"), func(i int, _ *cost.Row) string {
		if i > 1 {
			return say.T("none, if it is clear")
		}
		if len(own(i).Panels) == 0 {
			return say.T("no panel to judge")
		}
		return unit.FormatPercent(own(i).Unwanted)
	})
	add(say.T("Against its look"), func(i int, r *cost.Row) string {
		if !r.Judged {
			return say.T("not judged")
		}
		return say.F("%.1f points", r.Points)
	})
	if slices.ContainsFunc(rows, func(r cost.Row) bool { return r.Missing > 1 }) {
		add(say.T("Cannot be made"), func(_ int, r *cost.Row) string {
			if r.Missing <= 1 {
				return say.T("nothing: all is there")
			}
			return say.F("%s of face", unit.FormatArea(r.Missing, k.sys))
		})
	}
	return out
}

// buyWords says how much is bought for 100 finished, beside what is added.
func buyWords(loss float64) string {
	buy, err := cost.ToBuy(100, loss)
	add, bad := cost.AddOn(loss)
	if err != nil || bad != nil {
		return say.T("not known")
	}
	return say.F("%.0f: add %s", buy, unit.FormatPercent(add))
}
