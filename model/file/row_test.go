package file

import (
	"reflect"
	"strings"
	"testing"

	"heartside/model"
)

// The row a strip is cut in is written where there is one, and read back.
func TestRowComesBack(t *testing.T) {
	p := read(t, "contract.yaml")
	if text := string(Marshal(p)); strings.Contains(text, "row:") {
		t.Errorf("a row that nobody laid is written:\n%s", text)
	}
	n := *p.Panels[0]
	n.Strips = append([]model.Strip{}, n.Strips...)
	n.Strips[0].Row = "1"
	p.Panels[0] = &n
	q, text := there(t, p)
	if !reflect.DeepEqual(p, q) {
		t.Errorf("read back it differs:\n%s", text)
	}
	if !strings.Contains(string(text), `stage: planned, row: 1}`) {
		t.Errorf("it is written as\n%s", text)
	}
	// A quoted number is the same name.
	q, _, err := Read([]byte(strings.Replace(string(text), "row: 1}", `row: "1"}`, 1)), "hand.yaml")
	if err != nil || q.Panels[0].Strips[0].Row != "1" {
		t.Errorf("a quoted row gives %v", err)
	}
}
