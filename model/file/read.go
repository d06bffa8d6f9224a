package file

import (
	"bytes"
	"cmp"
	"errors"
	"io"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"heartside/model"
	"heartside/model/say"
)

// Read reads a project from the text of its file; name is the file's name in
// messages. The error is an Errors, or a *VersionError for a file of a later
// version; a project read without error keeps every rule of model.Validate.
func Read(data []byte, name string) (*model.Project, []Notice, error) {
	d := &decoder{file: name, lines: map[string]int{}}
	root := d.parse(data)
	if root == nil {
		return nil, nil, d.errs
	}
	have, ok := d.header(root)
	if !ok {
		return nil, nil, d.errs
	}
	if have > Version {
		return nil, nil, &VersionError{File: name, Have: have, Want: Version}
	}
	if d.aliases(root); len(d.errs) > 0 {
		return nil, nil, d.errs
	}
	if err := lift(root, have); err != nil {
		d.fail(root, "heartside", err.Error(), "")
		return nil, nil, d.errs
	}
	var v projectV1
	d.mapping("", root, reflect.ValueOf(&v).Elem())
	if len(d.errs) > 0 {
		return nil, nil, d.sorted()
	}
	p := v.project()
	if err := model.Validate(p); err != nil {
		d.rules(err)
		return nil, nil, d.sorted()
	}
	return p, d.notices(p), nil
}

func (d *decoder) sorted() Errors {
	slices.SortStableFunc(d.errs, func(a, b *Error) int { return cmp.Compare(a.Line, b.Line) })
	return d.errs
}

// parse returns the file's one mapping, or nil with the fault told.
func (d *decoder) parse(data []byte) *yaml.Node {
	if len(data) > maxBytes {
		d.fail(nil, "", say.F("the file has %d MB, more than the %d that are read", len(data)>>20, maxBytes>>20),
			say.T("keep photographs beside the project, not in it"))
		return nil
	}
	if n := separators(data); n > maxNodes {
		d.fail(nil, "", say.F("the file holds more than %d values", maxNodes), say.T("zones with fewer corners will do"))
		return nil
	}
	if line := badText(data); line > 0 {
		d.fail(&yaml.Node{Line: line}, "", say.T("this is no text"), say.T("open a project file, or save this one as UTF-8 text"))
		return nil
	}
	var doc, more yaml.Node
	err := decodeYAML(data, &doc, &more)
	switch {
	case errors.Is(err, io.EOF) || err == nil && doc.Kind == 0:
		d.fail(nil, "heartside", say.T("the file is empty"), say.F("a project begins with heartside: %s", strconv.Itoa(Version)))
		return nil
	case err != nil:
		line, what := syntax(err)
		d.fail(&yaml.Node{Line: line}, "", say.F("this is not YAML: %s", what), say.T("look at the indentation, the brackets and the quotation marks of this line and the one before"))
		return nil
	case more.Kind != 0:
		d.fail(&more, "", say.T("a second document begins here"), say.T("keep one project a file"))
		return nil
	}
	root := doc.Content[0]
	if root.Kind != yaml.MappingNode {
		d.fail(root, "heartside", say.F("this is no Heartside project: found %s", found(root)), say.F("a project begins with heartside: %s", strconv.Itoa(Version)))
		return nil
	}
	return root
}

// decodeYAML parses the first document and notes whether there is a second.
// Whatever the parser does, a faulty file gives an error.
func decodeYAML(data []byte, doc, more *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = say.Errorf("yaml: %v", r)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(data))
	if err := dec.Decode(doc); err != nil {
		return err
	}
	if err := dec.Decode(more); err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	return nil
}

var (
	syntaxLine = regexp.MustCompile(`^yaml: (?:line ([0-9]+): )?`)
	// Faults in the order of the signs carry a line counted from 0, those in
	// the signs themselves one counted from 1.
	fromZero = regexp.MustCompile(`^did not find expected (',' or|key|'-' indicator|<document start>|node content)`)
)

func syntax(err error) (line int, what string) {
	s := err.Error()
	if m := syntaxLine.FindStringSubmatch(s); m != nil {
		line, _ = strconv.Atoi(m[1])
		s = s[len(m[0]):]
	}
	if fromZero.MatchString(s) {
		line++
	}
	return line, s
}

// separators counts what makes values of a text, before any is made.
func separators(data []byte) int {
	n := 0
	for _, c := range data {
		switch c {
		case ',', '[', '{', ':', '\n', '-':
			n++
		}
	}
	return n
}

// badText returns the line of the first byte that is no UTF-8, 0 for none.
// Text that begins with the mark of UTF-16 is left to the parser.
func badText(data []byte) int {
	if bytes.HasPrefix(data, []byte{0xfe, 0xff}) || bytes.HasPrefix(data, []byte{0xff, 0xfe}) || utf8.Valid(data) {
		return 0
	}
	line := 1
	for len(data) > 0 {
		r, n := utf8.DecodeRune(data)
		if r == utf8.RuneError && n == 1 {
			break
		}
		if r == '\n' {
			line++
		}
		data = data[n:]
	}
	return line
}

// header reads the version, which comes first.
func (d *decoder) header(root *yaml.Node) (int, bool) {
	hint := say.F("a project begins with heartside: %s", strconv.Itoa(Version))
	for i := 0; i+1 < len(root.Content); i += 2 {
		k, v := root.Content[i], root.Content[i+1]
		if k.Value != "heartside" {
			continue
		}
		if i > 0 {
			d.fail(k, "heartside", say.T("the version does not come first"), say.T("move it to the first line"))
			return 0, false
		}
		n, ok := d.whole("heartside", v)
		if ok && n < 1 {
			d.fail(v, "heartside", say.F("there is no version %s", strconv.Itoa(n)), hint)
			return 0, false
		}
		return n, ok
	}
	d.fail(root, "heartside", say.T("is missing: this is no Heartside project"), hint)
	return 0, false
}

// aliases refuses anchors, aliases and tags of the writer's own.
func (d *decoder) aliases(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		d.fail(n, "", say.T("anchors (&) and aliases (*) are not used in a project"), say.T("write the value out; quote a word that begins with & or *"))
		return
	case n.Style&yaml.TaggedStyle != 0 && !strings.HasPrefix(n.ShortTag(), "!!"):
		d.fail(n, "", say.T("tags (!) are not used in a project"), say.T("quote a word that begins with !"))
		return
	}
	for _, c := range n.Content {
		d.aliases(c)
	}
}
