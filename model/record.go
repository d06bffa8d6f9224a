package model

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"heartside/model/say"
)

// FinishStep is a step of colour or finish that was done, or is to be: what was
// put on which wood of which panels. The record of a project lists them in their
// order.
type FinishStep struct {
	What    string   // dye, stain, toner, glaze, oil, varnish or another word
	Product string   // as the tin names it, thinning and all
	Wood    ZoneKind // heart or sap alone; "" all of the face
	Panels  []string // "" of all
	Where   []FinishPlace
	Date    string // day as 2026-03-01, "" not said
	Note    string
}

// FinishPlace is a side of a panel.
type FinishPlace string

// Sides a step is done on; none stands for all of them.
const (
	OnShow  FinishPlace = "face"
	OnBack  FinishPlace = "back"
	OnEdges FinishPlace = "edges" // and ends
)

// FinishPlaces are all sides.
func FinishPlaces() []FinishPlace { return []FinishPlace{OnShow, OnBack, OnEdges} }

// dayForm is how a day is written.
const dayForm = "2006-01-02"

// mostRecord bounds the text of a step; more than a label holds.
const mostRecord = 500

// SetRecord replaces the record.
type SetRecord struct {
	Steps []FinishStep
	Verb  string // what was done; "" for "Change the record"
}

// Label implements Edit.
func (e SetRecord) Label() string {
	if e.Verb == "" {
		return say.T("Change the record")
	}
	return e.Verb
}

func (e SetRecord) apply(p *Project) (*Project, error) {
	steps := cloneRecord(e.Steps)
	if reflect.DeepEqual(steps, p.Record) {
		return p, nil
	}
	return p.with(func(q *Project) { q.Record = steps }), nil
}

func cloneRecord(list []FinishStep) []FinishStep {
	out := cloneSlice(list)
	for i := range out {
		out[i].Panels, out[i].Where = cloneSlice(out[i].Panels), cloneSlice(out[i].Where)
	}
	return out
}

// renameInRecord returns a record in which a panel has another name.
func renameInRecord(list []FinishStep, from, to string) []FinishStep {
	out := cloneRecord(list)
	for i := range out {
		for k := range out[i].Panels {
			if out[i].Panels[k] == from {
				out[i].Panels[k] = to
			}
		}
	}
	return out
}

// record checks the steps. A panel that is gone stays named: it was made.
func (c *checker) record(list []FinishStep) {
	for i, s := range list {
		at := RuleError{Rule: RuleRecord, Where: fmt.Sprintf("record, step %d", i+1)}
		bad := ""
		switch {
		case strings.TrimSpace(s.What) == "":
			bad = say.T("it does not say what was put on")
		case len(s.What)+len(s.Product)+len(s.Note) > 3*mostRecord:
			bad = say.T("it is longer than a record")
		case !oneOf(string(s.Wood), "", string(Heart), string(Sap)):
			bad = say.F("%q is not heart or sap", s.Wood)
		case slices.Contains(s.Panels, ""):
			bad = say.T("a panel has no name")
		}
		for _, w := range s.Where {
			if !slices.Contains(FinishPlaces(), w) {
				bad = say.F("%q is not face, back or edges", w)
			}
		}
		if s.Date != "" {
			if _, err := time.Parse(dayForm, s.Date); err != nil {
				bad = say.F("%q is no day", s.Date)
			}
		}
		if bad != "" {
			at.Detail = bad
			c.fail(at)
		}
	}
}
