package file

import (
	"strings"

	"heartside/model"
)

type finishV1 struct {
	What    string   `key:"what,required"`
	Product string   `key:"product"`
	Wood    string   `key:"wood" enum:"heart|sap|all"`
	Panels  []string `key:"panels"`
	Where   []string `key:"where"`
	Date    string   `key:"date"`
	Note    string   `key:"note"`
}

func recordV1(list []finishV1) []model.FinishStep {
	var out []model.FinishStep
	for _, v := range list {
		s := model.FinishStep{What: v.What, Product: v.Product, Panels: v.Panels, Date: v.Date, Note: v.Note}
		if v.Wood != "all" {
			s.Wood = model.ZoneKind(v.Wood)
		}
		for _, w := range v.Where {
			s.Where = append(s.Where, model.FinishPlace(w))
		}
		out = append(out, s)
	}
	return out
}

func (e *emitter) record(list []model.FinishStep) {
	if len(list) == 0 {
		return
	}
	words := func(list []string) string {
		out := make([]string, len(list))
		for i, s := range list {
			out[i] = word(s)
		}
		return "[" + strings.Join(out, ", ") + "]"
	}
	e.line(0, "record:")
	for _, s := range list {
		e.line(2, "- what: %s", word(s.What))
		if s.Product != "" {
			e.line(4, "product: %s", word(s.Product))
		}
		if s.Wood != "" {
			e.line(4, "wood: %s", word(string(s.Wood)))
		}
		if len(s.Panels) > 0 {
			e.line(4, "panels: %s", words(s.Panels))
		}
		if len(s.Where) > 0 {
			var where []string
			for _, w := range s.Where {
				where = append(where, string(w))
			}
			e.line(4, "where: %s", words(where))
		}
		if s.Date != "" {
			e.line(4, "date: %s", word(s.Date))
		}
		if s.Note != "" {
			e.line(4, "note: %s", word(s.Note))
		}
	}
}
