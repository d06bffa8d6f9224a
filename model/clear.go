package model

import (
	"heartside/model/say"
)

// ClearStock is stock without unwanted wood as a seller offers it, to hold plans
// against.
type ClearStock struct {
	Price     *Price  // by volume; nil: not known
	Loss      float64 // share of it that is lost all the same, 0 to under 1
	Thickness float64 // as sold, mm; 0: as the boards
}

// SetClear says what clear stock costs; nil: nothing is said of it.
type SetClear struct{ Clear *ClearStock }

// Label implements Edit.
func (e SetClear) Label() string { return say.T("Change what clear stock costs") }

func (e SetClear) apply(p *Project) (*Project, error) {
	now := clonePtr(e.Clear)
	if now != nil {
		now.Price = clonePtr(now.Price)
		if old := p.Clear; old != nil && old.Loss == now.Loss && old.Thickness == now.Thickness && samePrice(old.Price, now.Price) {
			return p, nil
		}
	}
	return p.with(func(q *Project) { q.Clear = now }), nil
}

func samePrice(a, b *Price) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}

// clear checks what is said of clear stock.
func (c *checker) clear(s *ClearStock) {
	if s == nil {
		return
	}
	if p := s.Price; p != nil && (!within(p.Amount, 0, 1e9) || !oneOf(p.Per, "board-foot", "cubic-foot", "cubic-metre")) {
		c.fail(RuleError{Rule: RulePrice, Where: "clear-stock", Detail: say.F("%g per %q cannot be", p.Amount, p.Per)})
	}
	if !(s.Loss >= 0 && s.Loss < 1) {
		c.fail(RuleError{Rule: RuleShare, Where: "clear-stock", Detail: say.F("a loss of %g is none", s.Loss)})
	}
	if s.Thickness != 0 {
		c.size(RuleError{Where: "clear-stock"}, "thickness", s.Thickness)
	}
}
