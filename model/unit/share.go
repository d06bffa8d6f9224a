package unit

import (
	"math"

	"heartside/model/say"
)

// FormatPercent prints a share from 0 to 1 in per cent: whole from 10 to 99,
// to 0.1 nearer 0 and 1, where it matters whether there is any, as "13 %" and
// "0.4 %". A share that is not 0 never prints as 0, nor one under 1 as 100.
func FormatPercent(share float64) string {
	p := share * 100
	switch {
	case math.IsNaN(p) || math.IsInf(p, 0):
		return notKnown()
	case p > 0 && p < 0.05:
		return say.T("under 0.1 %")
	case p >= 99.95 && p < 100:
		return say.T("over 99.9 %")
	case math.Abs(p) < 9.95 || (p > 99 && p < 100):
		return trimmed(p, 1) + " %"
	}
	return signed(p, 0) + " %"
}

// FormatMoney prints an amount to two decimals with its currency's code after
// it, as "12.50 EUR"; without a code the bare amount.
func FormatMoney(amount float64, currency string) string {
	if math.IsNaN(amount) || math.IsInf(amount, 0) {
		return notKnown()
	}
	if currency == "" {
		return signed(amount, 2)
	}
	return signed(amount, 2) + " " + currency
}
