package cost

import (
	"fmt"
	"math"
)

// Yield is how much of the boards that were cut is in the finished parts.
type Yield struct {
	Area      float64 // finished face over bought face
	Thickness float64 // finished over sold thickness, weighted by face
}

// Volume returns finished volume over bought volume.
func (y Yield) Volume() float64 { return y.Area * y.Thickness }

// Waste returns the share of the bought face that is lost; planing is not in it.
func (y Yield) Waste() float64 { return 1 - y.Area }

// YieldOf returns the yield of boards and the parts finished from them. More
// than was there is an error.
func YieldOf(boards, parts []Size) (Yield, error) {
	var face, volume [2]float64
	for i, list := range [2][]Size{boards, parts} {
		for k, s := range list {
			if err := s.check(); err != nil {
				return Yield{}, fmt.Errorf("%s %d: %w", [2]string{"board", "part"}[i], k+1, err)
			}
			face[i] += s.Face()
			volume[i] += s.Volume()
		}
	}
	switch {
	case face[0] == 0:
		return Yield{}, fmt.Errorf("no boards, no yield; give those that were cut")
	case face[1] == 0:
		return Yield{Thickness: 1}, nil
	case face[1] > face[0]*(1+1e-9) || volume[1] > volume[0]*(1+1e-9):
		return Yield{}, fmt.Errorf("the parts hold %.4g of the boards' face and %.4g of their volume; more than all of it cannot be", face[1]/face[0], volume[1]/volume[0])
	}
	area := face[1] / face[0]
	return Yield{Area: area, Thickness: volume[1] / volume[0] / area}, nil
}

// ToBuy returns how much is bought for a need where a share of what is bought
// is lost: need / (1 - waste).
func ToBuy(need, waste float64) (float64, error) {
	if !(need >= 0) || math.IsInf(need, 0) {
		return 0, fmt.Errorf("a need of %g is none; give a number not under 0", need)
	}
	if err := share("waste", waste); err != nil {
		return 0, err
	}
	return need / (1 - waste), nil
}

// AddOn returns what must be added to the need, as a share of it, where a share
// of what is bought is lost: 0.30 waste needs 0.43 added.
func AddOn(waste float64) (float64, error) {
	if err := share("waste", waste); err != nil {
		return 0, err
	}
	return waste / (1 - waste), nil
}

// WasteOf returns the waste that is covered by adding a share to the need: 0.30
// added covers 0.23.
func WasteOf(addOn float64) (float64, error) {
	if !(addOn >= 0) || math.IsInf(addOn, 0) {
		return 0, fmt.Errorf("adding %g is nothing; give a share not under 0", addOn)
	}
	return addOn / (1 + addOn), nil
}

// share returns an error where a loss is none.
func share(what string, v float64) error {
	if !(v >= 0) || v >= 1 {
		return fmt.Errorf("a %s of %g is none; give a share from 0 to under 1", what, v)
	}
	return nil
}

// Offer is stock at a price of which a share is lost in the making.
type Offer struct {
	Price float64 // per unit of stock
	Loss  float64 // share of it, 0 to 1
}

func (o Offer) check() error {
	if !(o.Price > 0) || math.IsInf(o.Price, 0) {
		return fmt.Errorf("a price of %g is none to compare; give a number over 0", o.Price)
	}
	return share("loss", o.Loss)
}

// Finished returns what a unit of finished wood costs.
func (o Offer) Finished() (float64, error) {
	if err := o.check(); err != nil {
		return 0, err
	}
	return o.Price / (1 - o.Loss), nil
}

// EvenLoss returns the loss at which stock of another price costs as much,
// finished, as o: under it that stock is the cheaper one. It is under 0 where
// that stock is dearer than o even with nothing lost.
func (o Offer) EvenLoss(price float64) (float64, error) {
	if err := o.check(); err != nil {
		return 0, err
	}
	if err := (Offer{price, 0}).check(); err != nil {
		return 0, err
	}
	return 1 - price*(1-o.Loss)/o.Price, nil
}

// EvenPrice returns the price at which stock of another loss costs as much,
// finished, as o.
func (o Offer) EvenPrice(loss float64) (float64, error) {
	if err := o.check(); err != nil {
		return 0, err
	}
	if err := share("loss", loss); err != nil {
		return 0, err
	}
	return o.Price * (1 - loss) / (1 - o.Loss), nil
}
