package sheet

import (
	"encoding/csv"
	"encoding/xml"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The drawings are of true size: the finished panel 900 x 200 and the board 1200
// x 240 of the shelf stand in them at that size.
func TestDrawingsAreOfTrueSize(t *testing.T) {
	in := load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t))
	d, err := Build(in)
	if err != nil {
		t.Fatal(err)
	}
	list := d.Drawings()
	if len(list) != 2 || list[0].Kind != KindPanel || list[1].Kind != KindBoards {
		t.Fatalf("%d drawings", len(list))
	}
	for i, want := range [][2]float64{{in.Panels[0].Panel.Length, in.Panels[0].Panel.Width}, {in.Boards[0].Length, in.Boards[0].Width}} {
		data, err := list[i].SVG()
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for x := xml.NewDecoder(strings.NewReader(string(data))); ; {
			tok, err := x.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			e, ok := tok.(xml.StartElement)
			if !ok || e.Name.Local != "path" {
				continue
			}
			for _, a := range e.Attr {
				var xs, ys []float64
				if a.Name.Local != "d" {
					continue
				}
				for _, q := range strings.FieldsFunc(a.Value, func(r rune) bool { return strings.ContainsRune("MLZ", r) }) {
					xy := strings.Fields(q)
					vx, _ := strconv.ParseFloat(xy[0], 64)
					vy, _ := strconv.ParseFloat(xy[1], 64)
					xs, ys = append(xs, vx), append(ys, vy)
				}
				if len(xs) == 4 {
					found = found || math.Abs(slices.Max(xs)-slices.Min(xs)-want[0]) < 0.02 && math.Abs(slices.Max(ys)-slices.Min(ys)-want[1]) < 0.02
				}
			}
		}
		if !found {
			t.Errorf("%s: nothing of %g x %g mm", list[i].fileName(), want[0], want[1])
		}
	}
}

// By hand, see TestWidthsOfTurnedStrip: the shelf's strip lies at 130, 15, is 930
// x 212, turned; blank 980 x 221; finished 900 x 200; its sap 21.79, 13.59 and
// 7.54 along the back edge.
func TestCuttingList(t *testing.T) {
	d, err := Build(load(t, project(t, "shelf-one-strip.yaml"), A4, faces(t)))
	if err != nil {
		t.Fatal(err)
	}
	data, err := d.CSV()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	if err != nil || len(rows) != 2 {
		t.Fatalf("%v, %d rows", err, len(rows))
	}
	yaml, err := d.YAML()
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{
		"mark": "A1", "board": "A", "x": "130", "y": "15", "length": "930", "width": "212", "angle": "0", "turned": "true",
		"rough_length": "980", "rough_width": "221", "finished_length": "900", "finished_width": "200",
		"sap_front_left": "0", "sap_back_left": "21.79", "sap_back_middle": "13.59", "sap_back_right": "7.54", "kind": "strip",
	} {
		i := slices.Index(rows[0], key)
		if i < 0 {
			t.Fatalf("no column %s", key)
		}
		got := rows[1][i]
		a, errA := strconv.ParseFloat(got, 64)
		b, errB := strconv.ParseFloat(want, 64)
		if near := errA == nil && errB == nil && math.Abs(a-b) < 0.15; got != want && (!near || !strings.HasPrefix(key, "sap_")) {
			t.Errorf("%s: %q, want %q", key, got, want) // the line between the faces is smoothed a little
		}
		want = d.in.CutList()[0].Get(key)
		line := key + ": " + want
		if key == "mark" || key == "board" || key == "kind" {
			line = key + `: "` + want + `"`
		}
		if !strings.Contains(string(yaml), line+"\n") {
			t.Errorf("the YAML lacks %s", line)
		}
	}
}
