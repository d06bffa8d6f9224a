package file

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"heartside/model"
)

// sound is a project without a fault; each case below spoils one place of it.
const sound = `heartside: 1
name: Table
units: mm
limits: {streak: 0.12, mix: [0.25, 0.60]}
boards:
  - id: A
    species: teak
    length: 2400
    width: 210
    thickness: 26
    bark: 2
    pith: {across: 105, depth: -60}
    faces:
      1:
        corners: [[130, 450], [3880, 460], [3900, 95], [120, 80]]
        zones:
          - {kind: sap, polygon: [[0, 0], [2400, 0], [2400, 38], [0, 52]]}
          - {kind: flaw, polygon: [[50, 50], [60, 50], [60, 60]]}
panels:
  - id: top
    length: 900
    width: 450
    thickness: 20
    front-named: true
    strips:
      - {id: A1, board: A, x: 40, y: 8, length: 930, width: 92, up: 1}
      - {id: "2", length: 930, width: 92}
spares:
  - {id: A9, board: A, length: 300, width: 60}
joined: []
`

func TestFaultsNameLineAndField(t *testing.T) {
	if _, _, err := Read([]byte(sound), "t.yaml"); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, old, new string
		line           int
		field, says    string
	}{
		{"unknown key", "name: Table", "nmae: Table", 2, "nmae", "did you mean name?"},
		{"unknown key of a board", "    width: 210", "    wdith: 210", 9, "boards[A].wdith", "did you mean width?"},
		{"unknown key of a strip", "up: 1}", "up: 1, colour: red}", 26, "panels[top].strips[A1].colour", "use one of id, board"},
		{"third face", "      1:\n", "      3:\n", 14, "boards[A].faces.3", "unknown key"},
		{"key twice", "    width: 210", "    width: 210\n    width: 211", 10, "boards[A].width", "stands twice"},
		{"missing", "    species: teak\n", "", 6, "boards[A].species", "is missing"},
		{"missing in a strip", "length: 930, width: 92, up: 1", "length: 930, up: 1", 26, "panels[top].strips[A1].width", "is missing"},
		{"missing polygon", "{kind: flaw, polygon: [[50, 50], [60, 50], [60, 60]]}", "{kind: flaw}", 18, "boards[A].faces.1.zones[1].polygon", "is missing"},
		{"word for a number", "length: 2400", "length: long", 8, "boards[A].length", `needs a number, found "long"`},
		{"unit", "length: 2400", "length: 2400 mm", 8, "boards[A].length", "without a unit"},
		{"comma", "thickness: 26", "thickness: 26,5", 10, "boards[A].thickness", "26.5"},
		{"quoted", "length: 2400", `length: "2400"`, 8, "boards[A].length", "quotation marks"},
		{"no number", "length: 2400", "length: .nan", 8, "boards[A].length", "no number"},
		{"endless", "length: 2400", "length: .inf", 8, "boards[A].length", "no number"},
		{"too large", "length: 2400", "length: 1e999", 8, "boards[A].length", "too large"},
		{"hexadecimal", "length: 2400", "length: 0x10", 8, "boards[A].length", "decimal"},
		{"nothing", "length: 2400", "length:", 8, "boards[A].length", "found nothing"},
		{"list for a number", "length: 2400", "length: [1]", 8, "boards[A].length", "found a list"},
		{"not whole", "up: 1}", "up: 1.5}", 26, "panels[top].strips[A1].up", "whole number"},
		{"not true or false", "front-named: true", "front-named: yes", 24, "panels[top].front-named", "true or false"},
		{"word not known", "units: mm", "units: meter", 3, "units", "use one of mm, inch"},
		{"word nearly known", "kind: flaw", "kind: flow", 18, "boards[A].faces.1.zones[1].kind", "did you mean flaw?"},
		{"list for a word", "name: Table", "name: [a]", 2, "name", "needs a word, found a list"},
		{"map for a list", "joined: []", "joined: {}", 30, "joined", "needs a list"},
		{"list for a map", "limits: {streak: 0.12, mix: [0.25, 0.60]}", "limits: []", 4, "limits", "needs keys"},
		{"three for two", "mix: [0.25, 0.60]", "mix: [0.25, 0.60, 1]", 4, "limits.mix", "a list of 3"},
		{"point of three", "[60, 60]]", "[60, 60, 1]]", 18, "boards[A].faces.1.zones[1].polygon[2]", "a list of 3"},
		{"point with a word", "[60, 60]]", "[60, x]]", 18, "boards[A].faces.1.zones[1].polygon[2][1]", "needs a number"},
		{"polygon of numbers", "[[50, 50], [60, 50], [60, 60]]", "[50, 50]", 18, "boards[A].faces.1.zones[1].polygon[0]", "found"},
		{"polygon of nothing", "[[50, 50], [60, 50], [60, 60]]", "abc", 18, "boards[A].faces.1.zones[1].polygon", "list of points"},
		{"three corners", ", [120, 80]]", "]", 15, "boards[A].faces.1.corners", "needs a list of 4"},
		{"anchor", "name: Table", "name: &n Table", 2, "", "anchors"},
		{"alias of nothing", "name: Table", "name: *n", 0, "", "unknown anchor"},
		{"own tag", "name: Table", "name: !table Table", 2, "", "tags"},
		{"second document", "joined: []", "joined: []\n---\nmore: 1", 31, "", "second document"},
		{"broken brackets", "mix: [0.25, 0.60]", "mix: [0.25, 0.60", 4, "", "not YAML"},
		{"version missing", "heartside: 1\n", "", 1, "heartside", "is missing"},
		{"version not first", "heartside: 1\nname: Table", "name: Table\nheartside: 1", 2, "heartside", "first"},
		{"version zero", "heartside: 1", "heartside: 0", 1, "heartside", "no version 0"},
		{"version in words", "heartside: 1", "heartside: one", 1, "heartside", "needs a number"},

		{"rule: length", "length: 2400", "length: -5", 8, "boards[A].length", "-5"},
		{"rule: id", "id: A\n", "id: A/1\n", 6, "boards[A/1].id", "letters, digits"},
		{"rule: bark", "bark: 2", "bark: 1", 12, "boards[A].pith", "disagree"},
		{"rule: corners", "[[130, 450], [3880, 460], [3900, 95], [120, 80]]", "[[120, 80], [3900, 95], [3880, 460], [130, 450]]", 15, "boards[A].faces.1.corners", "anticlockwise"},
		{"rule: zone", "[[50, 50], [60, 50], [60, 60]]", "[[50, 250], [60, 250], [60, 260]]", 18, "boards[A].faces.1.zones[1]", "beside the board"},
		{"rule: crossing", "[[0, 0], [2400, 0], [2400, 38], [0, 52]]", "[[0, 0], [2400, 0], [0, 52], [2400, 38]]", 17, "boards[A].faces.1.zones[0]", "crosses itself"},
		{"rule: no such board", "{id: A1, board: A,", "{id: A1, board: Q,", 26, "panels[top].strips[A1].board", "does not exist"},
		{"rule: two strips", `{id: "2", length`, `{id: A1, length`, 27, "panels[top].strips[A1].id", "two strips"},
		{"rule: up", "up: 1}", "up: 3}", 26, "panels[top].strips[A1].up", "face 3"},
		{"rule: share", "streak: 0.12", "streak: 12", 4, "limits.streak", "share"},
		{"rule: spare", "{id: A9, board: A, length: 300, width: 60}", "{id: A9, board: A, length: 300, width: 60, angle: 95}", 29, "spares[A9].angle", "95"},
		{"rule: joined", "joined: []", "joined: [{panels: [top, side], how: fixed}]", 30, "joined[0]", "no such panel"},
		{"rule: planed", "up: 1}", "up: 1, planed: {near: [1, 2, 3], far: [0, 0, 93]}}", 26, "panels[top].strips[A1].planed", "93"},
		{"rule: grain line", "        zones:\n", "        grain: [[[0, 5], [90, 6]], [[0, 400], [90, 401]]]\n        zones:\n", 16, "boards[A].faces.1.grain[1]", "beside the board"},
		{"grain of a point", "        zones:\n", "        grain: [[0, 5]]\n        zones:\n", 16, "boards[A].faces.1.grain[0][0]", "needs a list of 2"},
		{"rings", "    front-named: true", "    rings: bark-down", 24, "panels[top].rings", "use one of any, alternate, bark-up, heart-up"},
		{"spoiled", "    bark: 2", "    spoiled: yes", 11, "boards[A].spoiled", "true or false"},
		{"rule: set of one", "joined: []", "sets: [{name: Doors, panels: [top]}]", 30, "sets[Doors].panels", "two panels or more"},
		{"rule: set of a stranger", "joined: []", "sets:\n  - {name: Doors, panels: [top, Q]}", 31, "sets[Doors].panels", "no such panel"},
		{"rule: gap", "joined: []", "sets:\n  - name: Doors\n    panels: [top, top]\n    gap: 101", 33, "sets[Doors].gap", "0 to 100"},
		{"rule: set twice", "joined: []", "sets:\n  - {name: Doors, panels: [top, top]}\n  - {name: Doors, panels: [top, top]}", 32, "sets[Doors].name", "two sets"},
		{"rule: set without name", "joined: []", "sets: [{name: \"\", panels: [top, top]}]", 30, "sets", "no name"},
		{"set without panels", "joined: []", "sets: [{name: Doors}]", 30, "sets[Doors].panels", "is missing"},
		{"way of a set", "joined: []", "sets: [{name: Doors, panels: [top, top], way: besides}]", 30, "sets[Doors].way", "did you mean beside?"},
		{"match of a set", "joined: []", "sets: [{name: Doors, panels: [top, top], match: book}]", 30, "sets[Doors].match", "none, mirrored, slipped, in-order"},
		{"unknown key of a set", "joined: []", "sets: [{name: Doors, panels: [top, top], gaps: 3}]", 30, "sets[Doors].gaps", "did you mean gap?"},
		{"rule: part like a panel", "joined: []", "parts: [{id: top, length: 9, width: 9, thickness: 9}]", 30, "parts[top].id", "a panel has this id"},
		{"rule: count", "joined: []", "parts: [{id: leg, count: 0, length: 9, width: 9, thickness: 9}]", 30, "parts[leg].count", "1 to 1000"},
		{"rule: part size", "joined: []", "parts: [{id: leg, length: 9, width: 0, thickness: 9}]", 30, "parts[leg].width", "0 mm"},
		{"rule: cutting", "joined: []", "parts:\n  - {id: leg, length: 9, width: 9, thickness: 9, places: [\n    {board: A, length: 9, width: 9},\n    {board: Q, length: 9, width: 9}]}", 33, "parts[leg].places[1].board", "does not exist"},
		{"cutting without board", "joined: []", "parts: [{id: leg, length: 9, width: 9, thickness: 9, places: [{length: 9, width: 9}]}]", 30, "parts[leg].places[0].board", "is missing"},
		{"half a leg", "joined: []", "parts: [{id: leg, count: 1.5, length: 9, width: 9, thickness: 9}]", 30, "parts[leg].count", "whole number"},
		{"kind of part", "joined: []", "parts: [{id: leg, kind: legs, length: 9, width: 9, thickness: 9}]", 30, "parts[leg].kind", "did you mean leg?"},
		{"unknown key of a part", "joined: []", "parts: [{id: leg, cuont: 4, length: 9, width: 9, thickness: 9}]", 30, "parts[leg].cuont", "did you mean count?"},
		{"rule: kept", "joined: []", "kept: [{panel: top, name: x, strips: [{id: A1, length: 1, width: 1, up: 4}]}]", 30, "kept", "face 4"},
	} {
		text := strings.Replace(sound, c.old, c.new, 1)
		if text == sound {
			t.Fatalf("%s: nothing replaced", c.name)
		}
		p, _, err := Read([]byte(text), "t.yaml")
		var list Errors
		if p != nil || !errors.As(err, &list) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		e := list[0]
		for _, f := range list {
			if f.Field == c.field {
				e = f
			}
		}
		if e.File != "t.yaml" || e.Line != c.line || e.Field != c.field || !strings.Contains(e.Error(), c.says) {
			t.Errorf("%s: %q\n  line %d field %q; want line %d field %q saying %q", c.name, e.Error(), e.Line, e.Field, c.line, c.field, c.says)
		}
		var r model.RuleError
		if strings.HasPrefix(c.name, "rule") && (!errors.As(err, &r) || e.Hint == "") {
			t.Errorf("%s: no rule behind it, or no word on what to do: %v", c.name, err)
		}
	}
}

func TestWhatIsNoProject(t *testing.T) {
	for name, text := range map[string]string{
		"empty": "", "blank": "\n\n", "comment": "# nothing\n", "word": "hello", "list": "- 1\n- 2\n",
		"null": "null", "tab": "heartside: 1\nboards:\n\t- id: A\n", "binary": "\x00\x01\x02", "not UTF-8": "heartside: 1\nname: \xff\n",
		"null key": "heartside: 1\n? [a]\n: b\n", "deep": "heartside: 1\nname: " + strings.Repeat("[", 20000),
	} {
		p, _, err := Read([]byte(text), "t.yaml")
		var list Errors
		if p != nil || !errors.As(err, &list) || len(list) == 0 || list.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	_, _, err := Read([]byte("heartside: 1\nname: \xff\n"), "t.yaml")
	var e *Error
	if !errors.As(err, &e) || e.Line != 2 {
		t.Errorf("bad text: %v", err)
	}
}

func TestLimitsComeBeforeMemory(t *testing.T) {
	for name, data := range map[string][]byte{
		"too long":   make([]byte, maxBytes+1),
		"too many":   []byte("heartside: 1\nboards: [" + strings.Repeat("[],", maxNodes/2) + "]"),
		"alias bomb": []byte("heartside: 1\na: &a [1,1]\nb: &b [*a,*a]\nc: [*b,*b]\n"),
	} {
		if _, _, err := Read(data, "x"); err == nil {
			t.Errorf("%s: read", name)
		}
	}
}

func TestAllFaultsUpToTwenty(t *testing.T) {
	text := strings.Replace(strings.Replace(sound, "name: Table", "nam: 1", 1), "length: 900", "length: x", 1)
	_, _, err := Read([]byte(text), "t.yaml")
	var list Errors
	if !errors.As(err, &list) || len(list) != 2 || list[0].Line != 2 || list[1].Line != 21 {
		t.Errorf("%v", err)
	}
	if lines := strings.Split(err.Error(), "\n"); len(lines) != 2 || !strings.HasPrefix(lines[1], "t.yaml:21: panels[top].length: ") {
		t.Errorf("%q", lines)
	}
	var b strings.Builder
	b.WriteString("heartside: 1\n")
	for i := range 50 {
		fmt.Fprintf(&b, "odd%d: 1\n", i)
	}
	if _, _, err = Read([]byte(b.String()), "t"); !errors.As(err, &list) || len(list) != 20 {
		t.Errorf("%d told", len(list))
	}
}

// Some systems end their messages with a full stop; ours go on after it.
func TestCauseStandsInASentence(t *testing.T) {
	system := errors.New("The system cannot find the file specified.")
	got := Cause(fmt.Errorf("open: %w", &fs.PathError{Op: "open", Path: "x", Err: system}))
	if got.Error() != "The system cannot find the file specified" || !errors.Is(got, system) {
		t.Errorf("%v", got)
	}
	if Cause(nil) != nil {
		t.Error("no error has a cause")
	}
}
