package file

import "heartside/model"

type clearV1 struct {
	Price     *priceV1 `key:"price"`
	Loss      float64  `key:"loss"`
	Thickness float64  `key:"thickness"`
}

func (v *clearV1) clear() *model.ClearStock {
	if v == nil {
		return nil
	}
	c := &model.ClearStock{Loss: v.Loss, Thickness: v.Thickness}
	if v.Price != nil {
		c.Price = &model.Price{Amount: v.Price.Amount, Per: v.Price.Per}
	}
	return c
}

func (e *emitter) clear(c *model.ClearStock) {
	if c == nil {
		return
	}
	var pairs []string
	if c.Price != nil {
		pairs = append(pairs, "price", e.price(c.Price))
	}
	pairs = append(pairs, "loss", e.fine(c.Loss))
	if c.Thickness != 0 {
		pairs = append(pairs, "thickness", e.mm(c.Thickness))
	}
	e.line(0, "clear-stock: %s", flow(pairs...))
}

func (e *emitter) price(p *model.Price) string {
	return flow("amount", e.fine(p.Amount), "per", word(p.Per))
}
