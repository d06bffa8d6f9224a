package sheet

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strconv"

	"heartside/layout/face"
	"heartside/model"
	"heartside/model/say"
)

// field is one value of a strip in the cutting list: a text, a number or a
// truth.
type field struct {
	key  string
	text string
	raw  bool // a number or truth, written as it is
}

// CutRow is one strip of the cutting list, as keys and values in a fixed order.
type CutRow []field

// Get returns the value under a key, "" where there is none.
func (r CutRow) Get(key string) string {
	for _, f := range r {
		if f.key == key {
			return f.text
		}
	}
	return ""
}

// CutList lists every strip, spare and solid part with its place on its board:
// lengths in mm, x from the marked end and y from the marked edge on face 1.
// Sapwood widths are as the strip lies in its panel, show face up: left, middle
// and right along its front and its back edge, as far planed as is known.
func (in *Input) CutList() []CutRow {
	var out []CutRow
	for i := range in.Panels {
		p := &in.Panels[i]
		m := in.Project.Panel(p.Panel.ID)
		for k := range p.Panel.Strips {
			l, w := finishedSize(p.Panel, k)
			out = append(out, in.cutRow("strip", m, &p.Panel.Strips[k], &p.finished().Strips[k], l, w, p.Panel.Thickness))
		}
	}
	for i := range in.Spares {
		s := &in.Spares[i]
		out = append(out, in.cutRow("spare", nil, s, s, s.L, s.W, 0))
	}
	for _, bd := range in.Boards {
		for _, q := range in.placesOn(bd.ID) {
			if q.part != nil {
				out = append(out, in.cutRow("part", nil, q.strip, q.strip, q.part.Length, q.part.Width, q.part.Thickness))
			}
		}
	}
	return out
}

func (in *Input) cutRow(kind string, m *model.Panel, s, planed *face.Strip, finL, finW, finT float64) CutRow {
	var r CutRow
	text := func(key, v string) { r = append(r, field{key, v, false}) }
	number := func(key string, v float64) {
		r = append(r, field{key, strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64), true})
	}
	panel, board, thick := "", "", 0.0
	if m != nil {
		panel = m.ID
	}
	if s.Board != nil {
		board, thick = s.Board.ID, s.Board.Thickness
	}
	text("id", s.ID)
	text("mark", in.number(panel, s.ID))
	text("panel", panel)
	text("board", board)
	number("x", s.X)
	number("y", s.Y)
	number("length", s.L)
	number("width", s.W)
	number("angle", s.Angle)
	number("up", float64(s.UpFace()))
	r = append(r, field{"turned", strconv.FormatBool(s.Turned), true})
	number("finished_length", finL)
	number("finished_width", finW)
	number("finished_thickness", finT)
	l, w := blankSize(in.Project.Allowances, s)
	number("rough_length", l)
	number("rough_width", w)
	number("rough_thickness", thick)
	var off [2]float64
	if to := finT + in.Project.Allowances.AfterGlue; m != nil && thick > to {
		c := *s
		if ms, ok := m.Strip(s.ID); ok && ms.Off != nil {
			c.Off = face.Off{Set: true, Face: *ms.Off}
		}
		off = c.Taken(to)
	}
	number("off_face_1", off[0])
	number("off_face_2", off[1])
	var sap sapRead
	if s.Board != nil {
		sap = readSap(planed)
	}
	for _, e := range [...]struct {
		name string
		w    face.Widths
	}{{"sap_front", sap.front}, {"sap_back", sap.rear}} {
		for i, at := range [...]string{"left", "middle", "right"} {
			number(e.name+"_"+at, e.w[i])
		}
	}
	text("kind", kind)
	return r
}

// CSV returns the cutting list with a head line, fields parted by commas.
func (d *Document) CSV() ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	for i, r := range d.in.CutList() {
		keys, values := make([]string, len(r)), make([]string, len(r))
		for k, f := range r {
			keys[k], values[k] = f.key, f.text
		}
		if i == 0 {
			_ = w.Write(keys) // a Buffer takes everything
		}
		_ = w.Write(values)
	}
	w.Flush()
	if b.Len() == 0 {
		return nil, say.Errorf("cutting list: there is no strip; lay some first")
	}
	return b.Bytes(), w.Error()
}

// YAML returns the cutting list as a list of maps under the name of the job.
func (d *Document) YAML() ([]byte, error) {
	var b bytes.Buffer
	fmt.Fprintf(&b, "job: %s\ncode: %s\nunits: mm\nstrips:\n", quoted(d.Title), quoted(Code(d.in.Project)))
	for _, r := range d.in.CutList() {
		for i, f := range r {
			lead := "    "
			if i == 0 {
				lead = "  - "
			}
			v := f.text
			if !f.raw {
				v = quoted(v)
			}
			fmt.Fprintf(&b, "%s%s: %s\n", lead, f.key, v)
		}
	}
	return b.Bytes(), nil
}

// quoted is a text as JSON writes it, which YAML reads.
func quoted(s string) string {
	data, err := json.Marshal(s)
	if err != nil { // a string is always written
		return `""`
	}
	return string(data)
}
