package terms

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"heartside/layout/face"
)

// When says what the shares are of.
type When string

// When the shares hold.
const (
	BeforeRipping When = "before-ripping" // of the faces of boards as bought
	AfterRipping  When = "after-ripping"  // of the faces of every strip
)

// Count says how pieces that keep the terms are counted.
type Count string

// Ways to count.
const (
	ByArea  Count = "by-area"
	ByCount Count = "by-count"
)

// Terms are the terms of an order.
type Terms struct {
	Better, Other float64 // least share of the wood on the better face and on the other

	Wood face.Kind // that is ordered: heartwood, or sapwood as in white maple
	When When      // "" = before ripping
	By   Count     // "" = by area

	// Of is how much of the lot must keep the terms, by area or by number; 0 and
	// 1: all of it.
	Of float64
}

// Parse reads the shares of a seller's form: "90/70", per cent on the better face
// and on the other; "90" alone is "90/0". The rest is as in the zero value.
func Parse(text string) (Terms, error) {
	var v [2]float64
	parts := strings.Split(strings.TrimSpace(text), "/")
	if len(parts) > 2 {
		return Terms{}, fmt.Errorf("%q are no terms; give the per cent on the better face and on the other, such as 90/70", text)
	}
	for i, s := range parts {
		n, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%")), 64)
		if err != nil || !(n >= 0) || n > 100 {
			return Terms{}, fmt.Errorf("%q are no terms: %q is no per cent from 0 to 100; give them such as 90/70", text, s)
		}
		v[i] = n / 100
	}
	t := Terms{Better: v[0], Other: v[1]}
	return t, t.check()
}

// String writes the shares in the seller's form.
func (t Terms) String() string {
	f := func(v float64) string { return strconv.FormatFloat(math.Round(v*1e4)/100, 'f', -1, 64) }
	return f(t.Better) + "/" + f(t.Other)
}

func (t Terms) check() error {
	for _, v := range [...]float64{t.Better, t.Other, t.Of} {
		if !(v >= 0) || v > 1 {
			return fmt.Errorf("terms of %g on the better face, %g on the other, by %g of the lot: each must be a share from 0 to 1", t.Better, t.Other, t.Of)
		}
	}
	switch {
	case t.Other > t.Better:
		return fmt.Errorf("terms of %s ask for more on the other face than on the better one; turn them round", t)
	case t.Wood != face.Heart && t.Wood != face.Sap:
		return fmt.Errorf("terms of an order are of heartwood or of sapwood, not of %s", t.Wood)
	case t.When != "" && t.When != BeforeRipping && t.When != AfterRipping:
		return fmt.Errorf("terms hold %s or %s, not %q", BeforeRipping, AfterRipping, t.When)
	case t.By != "" && t.By != ByArea && t.By != ByCount:
		return fmt.Errorf("a lot is counted %s or %s, not %q", ByArea, ByCount, t.By)
	}
	return nil
}
