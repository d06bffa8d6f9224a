package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/model"
)

// The keys alone bring a strip on and back, several at once, and type its
// widths.
func TestBenchByKeys(t *testing.T) {
	st := demo(t, 100)
	w := st.Window
	p := w.benchShow()
	if len(p.rows) == 0 {
		t.Fatal("no row")
	}
	key := func(k fyne.KeyName) { p.rows[p.at].grip.TypedKey(&fyne.KeyEvent{Name: k}) }
	stage := func(i int) model.Stage { return p.rows[i].b.Stage }
	key(fyne.KeyRight)
	if stage(0) != model.Sawn {
		t.Errorf("one on, and it is %s", stage(0))
	}
	p.rows[0].grip.TypedRune('a')
	key(fyne.KeyRight)
	if stage(0) != model.Planed || stage(1) != model.Sawn {
		t.Errorf("all one on: %s and %s", stage(0), stage(1))
	}
	w.ses.Undo()
	if stage(0) != model.Sawn || stage(1) != model.Planned {
		t.Errorf("one step back: %s and %s", stage(0), stage(1))
	}
	// Empty fields take what is expected: all as expected.
	for i := range 6 {
		p.rows[0].in[i/3][i%3].OnSubmitted("")
	}
	st.q.drain()
	if r := p.rows[0]; r.b.Measured == nil || len(r.b.Diffs) != 0 || !strings.HasPrefix(r.told.Text, "✓") {
		t.Errorf("measured %v, said %q", r.b.Measured, r.told.Text)
	}
	p.rows[0].forget()
	if p.rows[0].b.Measured != nil || p.rows[0].in[0][0].Text != "" {
		t.Error("not forgotten")
	}
}
