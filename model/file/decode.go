package file

import (
	"reflect"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"heartside/model/say"
)

// decoder fills the structs of a version from YAML nodes, gathering faults.
type decoder struct {
	file  string
	errs  Errors
	lines map[string]int // line of each field and list entry met
}

func (d *decoder) fail(n *yaml.Node, path, what, hint string) {
	if len(d.errs) >= maxErrs {
		return
	}
	e := &Error{File: d.file, Field: path, What: what, Hint: hint}
	if n != nil {
		e.Line = n.Line
	}
	d.errs = append(d.errs, e)
}

// field is a key of a struct as its tags tell.
type field struct {
	key      string
	required bool
	enum     []string
	index    int
}

func fieldsOf(t reflect.Type) []field {
	out := make([]field, t.NumField())
	for i := range out {
		f := t.Field(i)
		key, rest, _ := strings.Cut(f.Tag.Get("key"), ",")
		out[i] = field{key: key, required: rest == "required", index: i}
		if e := f.Tag.Get("enum"); e != "" {
			out[i].enum = strings.Split(e, "|")
		}
	}
	return out
}

// value decodes n into v.
func (d *decoder) value(path string, n *yaml.Node, v reflect.Value, enum []string) {
	switch p := v.Addr().Interface().(type) {
	case *polygonV1:
		d.polygon(path, n, p)
		return
	case *pithsV1:
		if n.Kind == yaml.MappingNode {
			*p = make(pithsV1, 1)
			d.value(path, n, reflect.ValueOf(&(*p)[0]).Elem(), nil)
			return
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		d.mapping(path, n, v)
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		d.value(path, n, v.Elem(), enum)
	case reflect.Slice:
		d.list(path, n, v)
	case reflect.Array:
		d.array(path, n, v)
	case reflect.Float64:
		if x, ok := d.number(path, n); ok {
			v.SetFloat(x)
		}
	case reflect.Int:
		if x, ok := d.whole(path, n); ok {
			v.SetInt(int64(x))
		}
	case reflect.Bool:
		if x, ok := d.truth(path, n); ok {
			v.SetBool(x)
		}
	case reflect.String:
		if x, ok := d.text(path, n, enum); ok {
			v.SetString(x)
		}
	}
}

func (d *decoder) mapping(path string, n *yaml.Node, v reflect.Value) {
	if x, ok := v.Addr().Interface().(interface{ defaults() }); ok {
		x.defaults()
	}
	fields := fieldsOf(v.Type())
	if n.Kind != yaml.MappingNode && !null(n) {
		d.fail(n, path, say.F("needs keys with values, found %s", found(n)), say.F("write them as {%s: ...} or one a line, indented", fields[0].key))
		return
	}
	seen := make(map[string]bool, len(fields))
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, val := n.Content[i], n.Content[i+1]
		at := join(path, k.Value)
		if k.Kind != yaml.ScalarNode {
			d.fail(k, path, say.T("a key must be a plain word"), "")
			continue
		}
		if seen[k.Value] {
			d.fail(k, at, say.T("the key stands twice"), say.T("keep one of them"))
			continue
		}
		seen[k.Value] = true
		known := false
		for _, f := range fields {
			if f.key == k.Value {
				known = true
				d.lines[at] = k.Line
				d.value(at, val, v.Field(f.index), f.enum)
			}
		}
		if !known {
			keys := make([]string, len(fields))
			for i, f := range fields {
				keys[i] = f.key
			}
			d.fail(k, at, say.F("unknown key %s", strconv.Quote(short(k.Value))), suggest(k.Value, keys))
		}
	}
	for _, f := range fields {
		if f.required && !seen[f.key] {
			d.fail(n, join(path, f.key), say.T("is missing"), say.F("add %s: ...", f.key))
		}
	}
}

func (d *decoder) list(path string, n *yaml.Node, v reflect.Value) {
	if null(n) {
		return
	}
	if n.Kind != yaml.SequenceNode {
		d.fail(n, path, say.F("needs a list, found %s", found(n)), say.T("write [] for an empty list, or one entry a line beginning with a hyphen"))
		return
	}
	if len(n.Content) == 0 {
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content)))
	key := "id"
	if path == "sets" {
		key = "name"
	}
	for i, e := range n.Content {
		at := path + "[" + entry(e, key, i) + "]"
		d.lines[at] = e.Line
		d.value(at, e, v.Index(i), nil)
	}
}

// entry names an entry of a list: by its id, or what else names it, where it
// has one.
func entry(n *yaml.Node, key string, i int) string {
	if n.Kind == yaml.MappingNode {
		for k := 0; k+1 < len(n.Content); k += 2 {
			if id := n.Content[k+1]; n.Content[k].Value == key && id.Kind == yaml.ScalarNode && id.Value != "" {
				return short(id.Value)
			}
		}
	}
	return strconv.Itoa(i)
}

func (d *decoder) array(path string, n *yaml.Node, v reflect.Value) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != v.Len() {
		have := found(n)
		if n.Kind == yaml.SequenceNode {
			have = say.F("a list of %d", len(n.Content))
		}
		d.fail(n, path, say.F("needs a list of %d, found %s", v.Len(), have), "")
		return
	}
	for i, e := range n.Content {
		d.value(path+"["+strconv.Itoa(i)+"]", e, v.Index(i), nil)
	}
}

// polygon decodes many points without a name for each.
func (d *decoder) polygon(path string, n *yaml.Node, to *polygonV1) {
	if null(n) {
		return
	}
	if n.Kind != yaml.SequenceNode {
		d.fail(n, path, say.F("needs a list of points, found %s", found(n)), say.T("write [[x, y], [x, y], [x, y]]"))
		return
	}
	if len(n.Content) == 0 {
		return
	}
	out := make(polygonV1, len(n.Content))
	for i, e := range n.Content {
		if e.Kind == yaml.SequenceNode && len(e.Content) == 2 {
			x, okX := plain(e.Content[0])
			y, okY := plain(e.Content[1])
			if okX && okY {
				out[i] = pointV1{x, y}
				continue
			}
		}
		d.array(path+"["+strconv.Itoa(i)+"]", e, reflect.ValueOf(&out[i]).Elem())
	}
	*to = out
}

func join(path, key string) string {
	if path == "" {
		return short(key)
	}
	return path + "." + short(key)
}
