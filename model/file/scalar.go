package file

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"heartside/model/catalog"
	"heartside/model/say"
)

// maxNumber bounds every number of a file; what a number means is bounded
// more closely by the rules of the project.
const maxNumber = 1e9

var decimal = regexp.MustCompile(`^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]+)?$`)

// plain reads a decimal number and says whether n is one.
func plain(n *yaml.Node) (float64, bool) {
	if n.Kind != yaml.ScalarNode || n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0 ||
		len(n.Value) > 64 || !decimal.MatchString(n.Value) {
		return 0, false
	}
	x, err := strconv.ParseFloat(n.Value, 64)
	return x + 0, err == nil && math.Abs(x) <= maxNumber // + 0 makes -0 plain
}

func (d *decoder) number(path string, n *yaml.Node) (float64, bool) {
	x, ok := plain(n)
	if ok {
		return x, true
	}
	what, hint := say.F("needs a number, found %s", found(n)), say.T("write a plain decimal number, as in 12.5")
	switch v := strings.ToLower(n.Value); {
	case n.Kind != yaml.ScalarNode:
	case decimal.MatchString(n.Value) && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0:
		hint = say.T("take the quotation marks away")
	case decimal.MatchString(n.Value):
		what, hint = say.F("the number %s is too large", short(n.Value)), say.T("numbers go up to 1e9")
	case strings.Contains(v, "nan") || strings.Contains(v, "inf"):
		what = say.F("%s is no number that can be measured", strconv.Quote(short(n.Value)))
	case decimal.MatchString(strings.Replace(v, ",", ".", 1)):
		hint = say.F("write a point, not a comma: %s", strings.Replace(v, ",", ".", 1))
	case strings.HasSuffix(v, "mm") || strings.HasSuffix(v, `"`) || strings.HasSuffix(v, "in"):
		hint = say.T("lengths are millimetres, without a unit")
	}
	d.fail(n, path, what, hint)
	return 0, false
}

func (d *decoder) whole(path string, n *yaml.Node) (int, bool) {
	x, ok := d.number(path, n)
	if ok && x != math.Trunc(x) {
		d.fail(n, path, say.F("needs a whole number, found %s", short(n.Value)), "")
		return 0, false
	}
	return int(x), ok
}

func (d *decoder) truth(path string, n *yaml.Node) (v, ok bool) {
	if n.Kind == yaml.ScalarNode && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) == 0 {
		switch n.Value {
		case "true":
			return true, true
		case "false":
			return false, true
		}
	}
	d.fail(n, path, say.F("needs true or false, found %s", found(n)), "")
	return false, false
}

func (d *decoder) text(path string, n *yaml.Node, enum []string) (string, bool) {
	if n.Kind != yaml.ScalarNode || null(n) {
		d.fail(n, path, say.F("needs a word, found %s", found(n)), "")
		return "", false
	}
	if enum == nil {
		return n.Value, true
	}
	for _, w := range enum {
		if w == n.Value {
			return w, true
		}
	}
	d.fail(n, path, say.F("%s is not a word that can stand here", strconv.Quote(short(n.Value))), suggest(n.Value, enum))
	return "", false
}

func null(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.ShortTag() == "!!null" && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) == 0
}

// found says what a node is.
func found(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return say.T("keys with values")
	case n.Kind == yaml.SequenceNode:
		return say.T("a list")
	case null(n):
		return "nothing"
	}
	return strconv.Quote(short(n.Value))
}

// short keeps messages readable whatever a file holds.
func short(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "..."
}

// suggest names the known word nearest to what was written, or all of them.
func suggest(word string, known []string) string {
	best, at := "", 1<<30
	if len(word) <= 40 {
		for _, k := range known {
			if d := catalog.Distance(strings.ToLower(word), k); d < at {
				best, at = k, d
			}
		}
	}
	if best != "" && at <= 1+len(best)/4 {
		return say.F("did you mean %s?", best)
	}
	return say.F("use one of %s", strings.Join(known, ", "))
}
