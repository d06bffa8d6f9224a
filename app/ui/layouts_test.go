package ui

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

func box(w, h float32) *canvas.Rectangle {
	r := canvas.NewRectangle(color.Black)
	r.SetMinSize(fyne.NewSize(w, h))
	return r
}

func TestRowLeavesOutWhatDoesNotFit(t *testing.T) {
	test.NewTempApp(t)
	more := box(50, 10)
	row := &rowLayout{gap: func() float32 { return 5 }, more: more}
	objs := []fyne.CanvasObject{box(100, 10), box(100, 20), box(100, 10), more}
	c := container.New(row, objs...)
	for _, k := range []struct {
		width float32
		shown int
		more  bool
	}{
		{310, 3, false}, // 100 + 5 + 100 + 5 + 100
		{309, 2, true},  // two and the way to the third: 100 + 5 + 100 + 5 + 50
		{259, 1, true},
		{60, 0, true},
	} {
		c.Resize(fyne.NewSize(k.width, 20))
		n := 0
		for _, o := range objs[:3] {
			if o.Visible() {
				n++
			}
		}
		if n != k.shown || more.Visible() != k.more {
			t.Errorf("width %.0f shows %d and more %v, want %d and %v", k.width, n, more.Visible(), k.shown, k.more)
		}
		if more.Visible() && more.Position().X+50 > k.width {
			t.Errorf("width %.0f: the way to the rest ends at %.0f", k.width, more.Position().X+50)
		}
	}
	if m := c.MinSize(); m != fyne.NewSize(50, 20) {
		t.Errorf("the row needs %v", m)
	}
}

func TestSideColumnKeepsItsShare(t *testing.T) {
	test.NewTempApp(t)
	a, b := box(200, 100), box(120, 100)
	c := container.New(sideLayout{column: func() float32 { return 330 }}, a, b)
	c.Resize(fyne.NewSize(1280, 600))
	if a.Size().Width != 950 || b.Size().Width != 330 || b.Position().X != 950 {
		t.Errorf("at 1280 the column is %v at %v", b.Size(), b.Position())
	}
	c.Resize(fyne.NewSize(500, 600))
	if b.Size().Width != 210 { // 42 % of 500
		t.Errorf("at 500 the column is %v", b.Size())
	}
}

func TestFiguresGoUnderTheirNameWhereNarrow(t *testing.T) {
	test.NewTempApp(t)
	f := newFigures()
	f.set([]figure{{name: "Contrast coverage", show: "12 %", back: "under 0.1 %"}})
	f.box.Resize(fyne.NewSize(400, 100))
	wide := f.box.MinSize().Height
	if f.cells[0][1].Position().Y != 0 {
		t.Error("with room the values do not stand beside their name")
	}
	f.box.Resize(fyne.NewSize(150, 100))
	if f.cells[0][1].Position().Y == 0 || f.box.MinSize().Height <= wide {
		t.Error("without room the values stand on their name")
	}
	if x := f.cells[0][2].Position().X + f.cells[0][2].Size().Width; x > 150 {
		t.Errorf("the last value ends at %.0f of 150", x)
	}
}

func TestHiddenTextTakesNoRoomInTheColumn(t *testing.T) {
	test.NewTempApp(t)
	a, b := box(10, 30), box(10, 40)
	b.Hide()
	c := container.New(columnLayout{}, a, snug(b))
	if got, want := c.MinSize().Height, float32(30+2*columnAir); got != want {
		t.Errorf("the column needs %.0f, want %.0f", got, want)
	}
}
