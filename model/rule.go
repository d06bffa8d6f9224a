package model

import (
	"cmp"
	"strconv"
	"strings"

	"heartside/model/say"
)

// Rule names something a project must keep.
type Rule string

// The rules. All but the last four are kept by every project that Apply or
// Validate lets pass; the last four are told by Problems and block nothing.
const (
	RuleMissing      Rule = "missing"       // something needed was not given
	RuleEmptyID      Rule = "empty-id"      // boards, panels and strips have an id
	RuleID           Rule = "odd-id"        // ids are made of letters, digits, - _ . and single spaces
	RuleDuplicateID  Rule = "duplicate-id"  // boards, panels and parts, strips of a panel, spares, sets: one id each
	RuleUnknownBoard Rule = "unknown-board" // what is named exists
	RuleUnknownPanel Rule = "unknown-panel" //
	RuleUnknownStrip Rule = "unknown-strip" //
	RuleUnknownKept  Rule = "unknown-kept"  //
	RuleUnknownSet   Rule = "unknown-set"   //
	RuleUnknownPart  Rule = "unknown-part"  //
	RuleSpecies      Rule = "species"       // a board has a species
	RuleSize         Rule = "size"          // finite, above 0 and below 20000 mm
	RulePlace        Rule = "place"         // places and shifts are finite and within 20000 mm
	RuleAngle        Rule = "angle"         // above -90 up to 90 degrees
	RuleUp           Rule = "up"            // face 1 or 2 shows
	RuleFace         Rule = "face"          // a board has faces 1 and 2
	RulePolygon      Rule = "polygon"       // three points or more, finite, with area, not crossing itself
	RuleOutsideFace  Rule = "zone-outside"  // a zone or outline has some part on its face
	RuleCorners      Rule = "corners"       // photo corners run anticlockwise as seen
	RulePhotograph   Rule = "photograph"    // lens, white balance and measured colours within what is possible
	RuleMoisture     Rule = "moisture"      // 0 to 60 per cent
	RuleShare        Rule = "share"         // shares lie between 0 and 1
	RuleMixOrder     Rule = "mix-order"     // the even-mix range runs upward
	RuleAllowance    Rule = "allowance"     // allowances and machine limits are not negative
	RuleClimate      Rule = "climate"       // 0 to 100 per cent, -50 to 80 degrees C
	RuleBarkPith     Rule = "bark-pith"     // bark side and pith agree
	RuleWord         Rule = "unknown-word"  // a word out of a fixed list
	RulePrice        Rule = "price"         // an amount not negative, in a known unit
	RuleStockOff     Rule = "stock-off"     // what is taken off leaves wood
	RuleTape         Rule = "tape"          // widths measured lie between 0 and the strip's width
	RuleStage        Rule = "stage"         // what is sawn stays as it was sawn
	RuleEmptyPlace   Rule = "empty-place"   // an empty place has no stage, no stock off, no measured sap
	RuleJoined       Rule = "joined"        // two different panels, fixed or free
	RuleSet          Rule = "set"           // two panels or more, none twice
	RuleGap          Rule = "gap"           // 0 to 100 mm
	RuleCount        Rule = "count"         // 1 to 1000
	RuleGrain        Rule = "grain"         // two points or more, finite, with a length
	RuleColour       Rule = "colour"        // CIELAB within bounds, an age not negative
	RuleBehaviour    Rule = "behaviour"     // a factor of 0.5 to 1.5, a difference of 0 to 10 points
	RuleFitting      Rule = "fitting"       // rows lie on the panel, a groove is shallower than the panel is wide
	RuleProfile      Rule = "profile"       // what is worked off an edge leaves a face and some thickness
	RuleCut          Rule = "cut"           // what is cut off the ends of a board leaves wood
	RulePrinted      Rule = "printed"       // a page that was printed has a kind and a mark, and stands once
	RuleRecord       Rule = "record"        // a step says what, on which wood and sides, on a day
	RuleCurrency     Rule = "currency"      // a code of three capitals
	RuleWanted       Rule = "wanted-not-stated"
	RuleSameNumber   Rule = "same-number"
	RuleSpoiled      Rule = "spoiled"
	RuleSeason       Rule = "season-order"
)

// Hint returns what a maker can do about a broken rule.
func (r Rule) Hint() string { return hints(r) }

func hints(r Rule) string {
	switch r {
	case RuleEmptyID:
		return say.T("give it a letter or a short name")
	case RuleID:
		return say.T("use up to 40 letters, digits, hyphens, dots, underscores and single spaces, beginning with a letter or digit")
	case RuleDuplicateID:
		return say.T("give one of them another id")
	case RuleUnknownBoard, RuleUnknownPanel, RuleUnknownStrip, RuleUnknownKept, RuleUnknownSet, RuleUnknownPart:
		return say.T("check the name, or add it first")
	case RuleSpecies:
		return say.T("choose a species from the list")
	case RuleBehaviour:
		return say.T("give a factor of 0.5 to 1.5, 1 where you have no evidence, and a difference of 0 to 10 points")
	case RuleFitting:
		return say.T("measure the rows from the front edge of the panel, and give the groove a depth of 0 to 50 mm")
	case RuleProfile:
		return say.T("give a width under half the panel and a depth under its thickness")
	case RuleCut:
		return say.T("cut off less; where nothing of it can be used, say that the board is spoiled")
	case RulePrinted:
		return say.T("take the line out of the file; the page then counts as not printed")
	case RuleRecord:
		return say.T("say what was put on; wood is heart, sap or all, where is face, back or edges, and a day is written as 2026-03-01")
	case RuleCurrency:
		return say.T("write its three letters, such as EUR, USD or GBP, or nothing")
	case RuleSize:
		return say.T("give a length above 0 and below 20000 mm")
	case RulePlace:
		return say.T("give a distance within 20000 mm")
	case RuleAngle:
		return say.T("give an angle above -90 and up to 90 degrees")
	case RuleUp, RuleFace:
		return say.T("name face 1 or face 2")
	case RulePolygon:
		return say.T("draw it again with three corners or more, so that it encloses some wood and its border does not cross itself")
	case RuleOutsideFace:
		return say.T("move it onto the face, or delete it")
	case RuleCorners:
		return say.T("give the corners in the order (0, 0), (length, 0), (length, width), (0, width), anticlockwise as seen in the picture")
	case RulePhotograph:
		return say.T("take the line out of the file and read the photograph again, or correct the number")
	case RuleMoisture:
		return say.T("give a moisture content from 0 to 60 per cent, 0 where it was not measured")
	case RuleShare:
		return say.T("give a share from 0 to 1 (0 to 100 per cent)")
	case RuleMixOrder:
		return say.T("put the smaller share first")
	case RuleAllowance:
		return say.T("give 0 or more, below 20000 mm")
	case RuleClimate:
		return say.T("give 0 to 100 per cent relative humidity and -50 to 80 degrees C")
	case RuleBarkPith:
		return say.T("look at the rings on the marked end: they curve round the pith, and the bark side is the other one; correct the one that is wrong")
	case RulePrice:
		return say.T("give an amount of 0 or more per board-foot, cubic-foot, cubic-metre or board")
	case RuleStockOff:
		return say.T("take off less, so that some thickness is left")
	case RuleTape:
		return say.T("measure again: widths run from 0 to the width of the wood")
	case RuleStage:
		return say.T("set its stage back to planned first if it is not cut after all")
	case RuleEmptyPlace:
		return say.T("place it on a board first")
	case RuleJoined:
		return say.T("name two different panels, and fixed or free")
	case RuleSet:
		return say.T("name two different panels or more, in the order they stand")
	case RuleGap:
		return say.T("give a gap from 0 to 100 mm")
	case RuleCount:
		return say.T("give a whole number from 1 to 1000")
	case RuleGrain:
		return say.T("draw it again with two points or more, or delete it")
	case RuleColour:
		return say.T("give a lightness of 0 to 100, a and b from -128 to 128, and years of 0 or more")
	case RuleWanted:
		return say.T("say for the panel whether heartwood, sapwood or both is wanted")
	case RuleSameNumber:
		return say.T("give one of them another id, so that the chalk numbers differ")
	case RuleSpoiled:
		return say.T("cut it from another board, or say that the board is sound after all")
	case RuleSeason:
		return say.T("swap the dry and the wet season, or correct their humidity")
	}
	return ""
}

// RuleError says which rule is broken, where, and what to do. The ids that do
// not apply are empty.
type RuleError struct {
	Rule                Rule
	Board, Panel, Strip string // ids
	Part, Set           string // id of a part, name of a set
	Where               string // the part of it: "face 1, zone 2", "allowances, kerf"
	Detail              string // what is wrong
}

// Error implements error: what, where and what to do.
func (e RuleError) Error() string {
	var where []string
	if e.Set != "" {
		where = append(where, say.F("set %s", e.Set))
	}
	if e.Part != "" {
		where = append(where, say.F("part %s", e.Part))
	}
	if e.Panel != "" {
		where = append(where, say.F("panel %s", e.Panel))
	}
	if e.Strip != "" {
		where = append(where, say.F("strip %s", e.Strip))
	}
	if e.Board != "" {
		where = append(where, say.F("board %s", e.Board))
	}
	if e.Where != "" {
		for _, w := range strings.Split(e.Where, ", ") {
			where = append(where, placeWords(w))
		}
	}
	var b strings.Builder
	if len(where) > 0 {
		b.WriteString(strings.Join(where, ", ") + ": ")
	}
	b.WriteString(cmp.Or(e.Detail, string(e.Rule)))
	if h := e.Rule.Hint(); h != "" {
		b.WriteString("; " + h)
	}
	return b.String()
}

func noBoard(id string) error {
	return RuleError{Rule: RuleUnknownBoard, Board: id, Detail: say.T("there is no such board")}
}

func noPanel(id string) error {
	return RuleError{Rule: RuleUnknownPanel, Panel: id, Detail: say.T("there is no such panel")}
}

func noStrip(panel, id string) error {
	return RuleError{Rule: RuleUnknownStrip, Panel: panel, Strip: id, Detail: say.T("there is no such strip")}
}

func quote(s string) string { return strconv.Quote(s) }

// placeWords says a part of a project that is told by its number, "face 2"; keys
// of its file stay.
func placeWords(place string) string {
	k := strings.LastIndexByte(place, ' ')
	if k < 0 {
		return place
	}
	number := place[k+1:]
	switch place[:k] {
	case "face":
		return say.F("face %s", number)
	case "zone":
		return say.F("zone %s", number)
	case "end":
		return say.F("end %s", number)
	case "hidden region":
		return say.F("hidden region %s", number)
	case "grain line":
		return say.F("grain line %s", number)
	case "cutting":
		return say.F("cutting %s", number)
	case "entry":
		return say.F("entry %s", number)
	case "place":
		return say.F("place %s", number)
	case "step":
		return say.F("step %s", number)
	case "kept arrangement":
		return say.F("kept arrangement %s", number)
	}
	return place
}
