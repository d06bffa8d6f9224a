package file

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
)

// rules tells broken rules of the project at the lines they come from.
func (d *decoder) rules(err error) {
	list := []error{err}
	var joined interface{ Unwrap() []error }
	if errors.As(err, &joined) {
		list = joined.Unwrap()
	}
	for _, err := range list {
		if len(d.errs) >= maxErrs {
			return
		}
		var r model.RuleError
		if !errors.As(err, &r) {
			d.fail(nil, "", err.Error(), "")
			continue
		}
		field := d.known(fieldOf(r))
		d.errs = append(d.errs, &Error{File: d.file, Line: d.lines[field], Field: field, What: r.Detail, Hint: r.Rule.Hint(), cause: r})
	}
}

// known returns the longest beginning of a path that stands in the file.
func (d *decoder) known(path string) string {
	for path != "" {
		if _, ok := d.lines[path]; ok {
			return path
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return ""
}

// fieldOf returns the path of what a rule is about.
func fieldOf(r model.RuleError) string {
	path := ""
	var where []string
	if r.Where != "" {
		where = strings.Split(r.Where, ", ")
	}
	switch {
	case len(where) > 0 && where[0] == "yard":
		path, where = "yard", where[1:]
		if r.Board != "" {
			path = "yard.boards[" + short(r.Board) + "]"
		}
	case r.Set != "":
		path = "sets[" + short(r.Set) + "]"
		if len(where) == 0 {
			return path + ".name"
		}
	case r.Part != "":
		path = "parts[" + short(r.Part) + "]"
	case r.Strip != "" && r.Panel != "" && !strings.HasPrefix(r.Where, "kept"):
		path = "panels[" + short(r.Panel) + "].strips[" + short(r.Strip) + "]"
	case r.Strip != "" && r.Panel == "":
		path, where = "spares["+short(r.Strip)+"]", where[min(1, len(where)):]
	case strings.HasPrefix(r.Where, "kept"):
		return "kept"
	case strings.HasPrefix(r.Where, "joined"):
	case r.Panel != "":
		path = "panels[" + short(r.Panel) + "]"
	case r.Board != "":
		path = "boards[" + short(r.Board) + "]"
	}
	for _, w := range where {
		path = step(path, w)
	}
	if key := keyOf(r.Rule); key != "" && len(where) == 0 {
		path = join(path, key)
	}
	return path
}

// step goes from a path into a part named in words.
func step(path, word string) string {
	if word == "" {
		return path
	}
	if at := strings.LastIndexByte(word, ' '); at > 0 {
		n, err := strconv.Atoi(word[at+1:])
		if err == nil {
			switch word[:at] {
			case "face":
				return fmt.Sprintf("%s.faces.%d", path, n)
			case "zone":
				return fmt.Sprintf("%s.zones[%d]", path, n-1)
			case "hidden region":
				return fmt.Sprintf("%s.hidden[%d]", path, n-1)
			case "grain line":
				return fmt.Sprintf("%s.grain[%d]", path, n-1)
			case "cutting":
				return fmt.Sprintf("%s.places[%d]", path, n-1)
			case "entry", "place":
				return fmt.Sprintf("%s[%d]", path, n-1)
			}
		}
	}
	return join(path, word)
}

// keyOf returns the key a rule is about where its place does not say.
func keyOf(r model.Rule) string {
	switch r {
	case model.RuleEmptyID, model.RuleID, model.RuleDuplicateID:
		return "id"
	case model.RuleMoisture:
		return "moisture"
	case model.RuleSpecies:
		return "species"
	case model.RuleAngle:
		return "angle"
	case model.RuleUp:
		return "up"
	case model.RulePlace:
		return "x"
	case model.RuleUnknownBoard:
		return "board"
	case model.RuleStockOff:
		return "off"
	case model.RuleTape, model.RuleFace:
		return "planed"
	case model.RuleEmptyPlace:
		return "stage"
	}
	return ""
}

// notices are the remarks on a project that could be read.
func (d *decoder) notices(p *model.Project) []Notice {
	var out []Notice
	tell := func(field, text string) {
		field = d.known(field)
		out = append(out, Notice{File: d.file, Line: d.lines[field], Field: field, Text: text})
	}
	species := func(field, id string) {
		if catalog.Find(id).Known() {
			return
		}
		if near := catalog.Nearest(id); near != "" {
			tell(field, say.F("the species %q is not in the table, so its colours are assumed plain; did you mean %s?", short(id), near))
			return
		}
		tell(field, say.F("the species %q is not in the table, so its colours are assumed plain; choose one from the list if it is there", short(id)))
	}
	for _, b := range p.Boards {
		at := "boards[" + short(b.ID) + "]"
		species(at+".species", b.Species)
		for _, ph := range photosOf(b) {
			if absolute(ph.name) {
				tell(at+"."+ph.field, say.F("the photo path %s is absolute and will not be found on another computer; keep photos in a folder beside the project", short(ph.name)))
			}
		}
	}
	for i, c := range p.Colours {
		species(fmt.Sprintf("colours[%d].species", i), c.Species)
	}
	for _, r := range model.Problems(p) {
		e := r
		field := fieldOf(model.RuleError{Board: e.Board, Panel: e.Panel, Strip: e.Strip, Part: e.Part, Set: e.Set, Where: e.Where})
		tell(field, e.Detail+"; "+e.Rule.Hint())
		out[len(out)-1].Rule = e.Rule
	}
	return out
}
