package session

import (
	"math"

	"heartside/layout/cost"
	"heartside/model/say"
	"heartside/model/unit"
)

// nearlySame is by what share of the wood used two losses may differ and be
// called nearly the same: no more than kerfs of another place make. An
// engineering choice.
const nearlySame = 0.005

// verdicts are what the figures come to, in sentences. None says which plan is
// best: that is the maker's to weigh.
func (k *KeptTrimmed) verdicts(rows []cost.Row, clear cost.ClearStock) []string {
	var out []string
	keep, trim := &rows[0], &rows[1]
	switch more := trim.MoreLost; {
	case k.Nothing:
		out = append(out, say.T("Both woods are wanted here: nothing is unwanted, so there is nothing to trim."))
	case k.Keep.ID == k.Trim.ID:
		out = append(out, say.F("Both plans cut the same: the boards give the parts without the %s at no loss.", k.wood))
		if k.Trim.Cost.Unwanted {
			out[len(out)-1] = say.F("Both plans cut the same: these boards cannot show less of the %s.", k.wood)
		}
	case keep.Missing > 1 || trim.Missing > 1:
		out = append(out, say.T("The two plans do not make the same: look at what cannot be made before the other rows."))
	case math.Abs(more) <= nearlySame*keep.Used:
		out = append(out, say.T("Both lose nearly the same."))
	case more > 0:
		out = append(out, say.F("Trimming loses %s more than keeping.", k.both(more, math.Max(0, trim.MoreLostVolume), more, trim.MoreLostVolume)))
	default:
		out = append(out, say.F("Trimming loses %s less than keeping: the search found a better fit there.", unit.FormatArea(-more, k.sys)))
	}
	if !k.Nothing && k.Keep.ID != k.Trim.ID && keep.Priced && trim.Priced && keep.Whole() && trim.Missing <= 1 {
		switch more := trim.MoreCost; {
		case more >= 0.005:
			out = append(out, say.F("Trimming costs %s more in wood.", k.money(more)))
		case more <= -0.005:
			out = append(out, say.F("Trimming costs %s less in wood: it takes cheaper boards.", k.money(-more)))
		default:
			out = append(out, say.T("Both cost the same in wood."))
		}
	}
	loss := keep.Loss()
	if buy, err := cost.ToBuy(100, loss); err == nil && loss > 0 {
		add, _ := cost.AddOn(loss)
		out = append(out, say.F("Where %s of what is bought is lost, buy %.0f for 100 finished: add %s, not %s.", unit.FormatPercent(loss), buy, unit.FormatPercent(add), unit.FormatPercent(loss)))
	}
	if len(rows) < 3 || clear.Rate.Amount <= 0 {
		return append(out, say.T("Enter what clear stock costs to see whether buying it would be cheaper."))
	}
	per := PerWords(clear.Rate.Per)
	for i, name := range [2]string{say.F("keeps the %s", k.wood), say.T("trims it")} {
		r := &rows[i]
		if !r.Priced || r.Missing > 1 {
			continue
		}
		even, err := clear.EvenRate(r.Plan)
		if err != nil {
			continue
		}
		cheaper := say.T("clear stock is the dearer one")
		if clear.Rate.Amount < even.Amount-0.005 {
			cheaper = say.T("clear stock is the cheaper one")
		} else if clear.Rate.Amount < even.Amount+0.005 {
			cheaper = say.T("they cost the same")
		}
		out = append(out, say.F("Even price: clear stock at %s a %s costs as much as the plan that %s. At %s %s.", k.money(even.Amount), per, name, k.money(clear.Rate.Amount), cheaper))
	}
	if text := k.evenLoss(keep, clear); text != "" {
		out = append(out, text)
	}
	return out
}

// evenLoss says how much of the stock at hand may be lost before clear stock is
// the cheaper one.
func (k *KeptTrimmed) evenLoss(keep *cost.Row, clear cost.ClearStock) string {
	unitMM3, ok := clear.Rate.Per.Volume()
	if !ok || !keep.Priced || keep.UsedVolume <= 0 {
		return ""
	}
	price := keep.Cost / keep.UsedVolume * unitMM3
	even, err := cost.Offer{Price: clear.Rate.Amount, Loss: clear.Loss}.EvenLoss(price)
	if err != nil {
		return ""
	}
	if even <= 0 {
		return say.F("The boards at hand come to %s a %s: clear stock is no dearer finished, even if nothing of them were lost.", k.money(price), PerWords(clear.Rate.Per))
	}
	return say.F("The boards at hand come to %s a %s. At the same thickness, clear stock with %s lost is even with them when %s of them is lost; of this plan %s is.",
		k.money(price), PerWords(clear.Rate.Per), unit.FormatPercent(clear.Loss), unit.FormatPercent(even), unit.FormatPercent(keep.Loss()))
}

// warnings are what makes the comparison weak.
func (k *KeptTrimmed) warnings() []string {
	out := append([]string(nil), k.Left...)
	unpriced := map[string]bool{}
	var list []string
	for _, p := range []*KeptPlan{&k.Keep, &k.Trim} {
		for _, id := range p.Unpriced {
			if !unpriced[id] {
				unpriced[id] = true
				list = append(list, id)
			}
		}
	}
	switch len(list) {
	case 0:
	case 1:
		out = append(out, say.F("Board %s has no price, so the cost is not known. Give it one: take the board in hand, Board in hand…, Price.", list[0]))
	default:
		out = append(out, say.F("Boards %s have no price, so the cost is not known. Give them one: take each in hand, Board in hand…, Price.", say.List(list)))
	}
	if k.Trim.Cost.Unwanted && !k.Nothing {
		out = append(out, say.F("The boards do not give these parts without it: the plan that trims still shows %s.", k.wood))
	}
	if k.Keep.Cost.Unwanted {
		out = append(out, say.T("The plan that keeps it shows more than the panels allow."))
	}
	for i, p := range []*KeptPlan{&k.Keep, &k.Trim} {
		for _, s := range p.Short {
			out = append(out, [2]string{say.T("Keep: "), say.T("Trim: ")}[i]+s)
		}
	}
	if k.Stopped {
		out = append(out, say.T("Stopped before the end: there may be better plans of both kinds."))
	}
	return out
}
