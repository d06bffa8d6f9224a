package ui

import (
	"image"
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/layout/colour"
	"heartside/layout/wood/moisture"
	"heartside/model"
)

// behaveAt is a window with the page of behaviour up.
func behaveAt(t *testing.T, s stage) *behavePage {
	t.Helper()
	if a := s.acts.find(ctrl(fyne.KeyH)); a == nil || a.ID != "behave" {
		t.Fatal("Ctrl+H does not lead to the page")
	}
	s.act("behave")
	p, ok := s.page.(*behavePage)
	if !ok {
		t.Fatalf("the page is %T", s.page)
	}
	return p
}

// filed opens a project of the tests' folder.
func filed(t *testing.T, name string, text int) stage {
	t.Helper()
	data, err := os.ReadFile("../../testdata/projects/" + name)
	if err != nil {
		t.Fatal(err)
	}
	s := open(t, session.Blank(), text)
	if err := s.ses.OpenFrom(data, name, nil); err != nil {
		t.Fatal(err)
	}
	s.opened()
	return s
}

// said lists the texts of the labels and buttons in an object.
func said(o fyne.CanvasObject) []string {
	var out []string
	for _, in := range inside(o) {
		switch x := in.(type) {
		case *widget.Label:
			out = append(out, x.Text)
		case *behaveButton:
			out = append(out, x.Text)
		}
	}
	return out
}

func pageButtonOf(t *testing.T, o fyne.CanvasObject, begins string) *behaveButton {
	t.Helper()
	for _, in := range inside(o) {
		if b, ok := in.(*behaveButton); ok && strings.HasPrefix(b.Text, begins) {
			return b
		}
	}
	t.Fatalf("there is no button %q", begins)
	return nil
}

func TestBehavePageOpensAndCloses(t *testing.T) {
	s := demo(t, 100)
	p := behaveAt(t, s)
	if got := s.win.Canvas().Focused(); got != fyne.Focusable(p.first) {
		t.Errorf("the keys are at %T", got)
	}
	// What the page rests on is changed from the page.
	s.act("fitting")
	if s.asks == nil {
		t.Fatal("how the panel is built in cannot be asked for from the page")
	}
	s.asks.cancel()
	if s.act("new-panel") {
		t.Error("a panel was begun from the page")
	}
	p.first.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if s.page != nil {
		t.Error("Escape does not lead back")
	}
}

// The demo has all matters, what others build on first, and its width at a
// glance; the demo's top is 360 mm wide as entered.
func TestBehaveCardsOfTheDemo(t *testing.T) {
	p := behaveAt(t, demo(t, 100))
	for _, id := range []string{"width", "cup", "fit", "joined", "ageing", "dye", "stack", "air"} {
		if p.byID[id] == nil {
			t.Errorf("there is no card %s", id)
		}
	}
	if p.cards.Objects[0] != p.byID["width"] || p.cards.Objects[1] != p.byID["cup"] {
		t.Error("width and cup do not come first")
	}
	top := strings.Join(said(p.top), "\n")
	for _, want := range []string{"360 mm\ntoday", "driest", "dampest", "To watch"} {
		if !strings.Contains(top, want) {
			t.Errorf("the glance says\n%s\nwithout %q", top, want)
		}
	}
	// Another panel, from the drop-down.
	p.panels.SetSelectedIndex(1)
	if got := p.w.ses.Selected().Panel; p.head.Text != "How the wood will behave: "+title(got) || got == "top" {
		t.Errorf("the head says %q of %s", p.head.Text, got)
	}
}

// What stands out is named at the top and leads to its card.
func TestBehaveWarningLeadsToItsCard(t *testing.T) {
	s := demo(t, 100)
	q := s.ses.Project().Board("A")
	wet := *q
	wet.Moisture = 16 // far beyond what the room gives
	if err := s.ses.Commit(model.SetBoard{Board: &wet}); err != nil {
		t.Fatal(err)
	}
	p := behaveAt(t, s)
	if !strings.Contains(strings.Join(said(p.top), "\n"), "⚠") {
		t.Fatalf("a board at 16 %% does not stand out: %q", said(p.top))
	}
	test.Tap(pageButtonOf(t, p.top, "Show it"))
	card := p.byID["stack"]
	y := fyne.CurrentApp().Driver().AbsolutePositionForObject(card).Y - fyne.CurrentApp().Driver().AbsolutePositionForObject(p.scroll).Y
	if y < -1 || y > p.scroll.Size().Height-40 {
		t.Errorf("its card lies at %.0f of %.0f", y, p.scroll.Size().Height)
	}
	// The sign stands in the title of the card, so that colour is not all.
	if !strings.HasPrefix(said(card)[0], "⚠") {
		t.Errorf("the card is headed %q", said(card)[0])
	}
}

func TestBehaveNotesFold(t *testing.T) {
	long, short := strings.Repeat("long words ", 14), "Short."
	for _, c := range []struct {
		notes []string
		open  int
	}{{nil, 0}, {[]string{long}, 1}, {[]string{short, short}, 2}, {[]string{short, short, short}, 2}, {[]string{long, long}, 1}} {
		if got := openOf(c.notes); got != c.open {
			t.Errorf("%d notes: %d open, want %d", len(c.notes), got, c.open)
		}
	}
	p := behaveAt(t, demo(t, 100))
	card := p.byID["cup"]
	more := pageButtonOf(t, card, "More (")
	at, folded := card.Position().X, card.Size().Height
	test.Tap(more)
	if more.Text != "Less" || card.Size().Height <= folded {
		t.Errorf("unfolded the button says %q and the card grows from %.0f to %.0f", more.Text, folded, card.Size().Height)
	}
	if card.Position().X != at {
		t.Error("unfolding sends the card to another column")
	}
	test.Tap(more)
	if card.Size().Height != folded {
		t.Errorf("folded again it is %.0f high, was %.0f", card.Size().Height, folded)
	}
}

// Keys scroll from wherever the focus is, and the focus is scrolled into sight.
func TestBehaveKeys(t *testing.T) {
	p := behaveAt(t, demo(t, 100))
	press := func(k fyne.KeyName) { p.w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
	press(fyne.KeyPageDown)
	if p.scroll.Offset.Y < 100 {
		t.Errorf("a page down scrolls to %.0f", p.scroll.Offset.Y)
	}
	press(fyne.KeyHome)
	press(fyne.KeyDown)
	if p.scroll.Offset.Y <= 0 || p.scroll.Offset.Y > 100 {
		t.Errorf("an arrow scrolls to %.0f", p.scroll.Offset.Y)
	}
	press(fyne.KeyEnd)
	if want := p.scroll.Content.Size().Height - p.scroll.Size().Height; p.scroll.Offset.Y != want {
		t.Errorf("End scrolls to %.0f of %.0f", p.scroll.Offset.Y, want)
	}
	for _, o := range inside(p.cards) {
		f, ok := o.(fyne.Focusable)
		if !ok {
			continue
		}
		p.w.win.Canvas().Focus(f)
		d := fyne.CurrentApp().Driver()
		y := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(p.scroll).Y
		if y < -0.5 || y+o.Size().Height > p.scroll.Size().Height+0.5 {
			t.Errorf("%T with the keys lies at %.0f to %.0f of %.0f", o, y, y+o.Size().Height, p.scroll.Size().Height)
		}
	}
	p.w.win.Canvas().Focused().TypedRune('3')
	if p.age != 2 {
		t.Error("3 does not show the panel in ten years")
	}
}

// Fourteen steps are listed in order, each with its formula and source, and
// keys scroll them; what is done again is not written again.
func TestHowListsItsSteps(t *testing.T) {
	s := demo(t, 100)
	var how moisture.Working
	for i := range 14 {
		how = append(how, moisture.Step{Formula: "f" + itoa(i) + " = a + b", Values: []moisture.Value{{Name: "a", Number: float64(i), Unit: "mm"}}, Source: "Book, table " + itoa(i), Flag: moisture.Read})
	}
	again := how[13]
	again.Values = []moisture.Value{{Name: "a", Number: 99, Unit: "mm"}}
	how = append(how, again, how[3]) // the last was worked out before
	s.workedOut(session.Section{Title: "Width", How: how})
	all := strings.Join(said(s.asks.q.body), "\n")
	at := 0
	for i := range 14 {
		for _, want := range []string{itoa(i+1) + ".", "f" + itoa(i) + " = a + b", "a = " + itoa(i) + " mm", "Book, table " + itoa(i) + " ("} {
			k := strings.Index(all[at:], want)
			if k < 0 {
				t.Fatalf("step %d has no %q after what came before", i+1, want)
			}
			at += k
		}
	}
	if strings.Contains(all, "15.") || !strings.Contains(all, "a = 99 mm") {
		t.Error("a step done again is listed as another, or its values are lost")
	}
	y := s.asks.scroll.Offset.Y
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	if s.asks.scroll.Offset.Y <= y {
		t.Error("the steps do not scroll by key")
	}
}

// 25.4 mm are an inch and 20 degrees Celsius 68 Fahrenheit, by definition.
func TestBehaveInInches(t *testing.T) {
	s := filed(t, "desk-inch-waney.yaml", 100)
	for _, c := range []struct {
		v    moisture.Value
		want string
	}{{moisture.Value{Number: 25.4, Unit: "mm"}, "1 in"}, {moisture.Value{Number: 20, Unit: "C"}, "68 °F"}, {moisture.Value{Number: -12.7, Unit: "mm"}, "−0.5 in"}} {
		if got := s.valueText(c.v); got != c.want {
			t.Errorf("%v is written %q, want %q", c.v, got, c.want)
		}
	}
	p := behaveAt(t, s)
	for _, text := range append(said(p.top), said(p.cards)...) {
		if strings.Contains(text, " mm") && !strings.Contains(text, "50 to 300 mm") {
			t.Errorf("millimetres in a project in inches: %q", text)
		}
	}
}

// At every size of text nothing runs out of its card.
func TestBehaveHasRoom(t *testing.T) {
	for _, text := range TextSizes() {
		p := behaveAt(t, demo(t, text))
		if m := p.w.win.Content().MinSize(); m.Width > 1280 || m.Height > 770 {
			t.Errorf("at %d %% the window needs %v", text, m)
		}
		d := fyne.CurrentApp().Driver()
		for id, card := range p.byID {
			right := d.AbsolutePositionForObject(card).X + card.Size().Width
			for _, o := range inside(card) {
				l, ok := o.(*widget.Label)
				if !ok || !l.Visible() || l.Text == "" {
					continue
				}
				if x := d.AbsolutePositionForObject(o).X + o.Size().Width; x > right {
					t.Errorf("at %d %% %q of %s ends at %.0f, its card at %.0f", text, l.Text, id, x, right)
				}
			}
		}
	}
}

// 3.5 mm of 360 may be drawn 20 times as large: 70 mm is under a fifth of 360,
// 72; 3.7 mm may not, and 10 is the next.
func TestBarsExaggerate(t *testing.T) {
	s := demo(t, 100)
	for wet, want := range map[float64]float64{363.5: 20, 363.7: 10, 360: 20, 396: 2, 450: 1} {
		b := newWidthBars(s.Window, session.YearWidth{Now: 360, Dry: 359, Wet: wet, Stays: 0.5})
		if b.k != want {
			t.Errorf("to %g mm it is drawn %g times, want %g", wet, b.k, want)
		}
	}
}

// Cherry heartwood darkens (the trade texts agree): the picture of a panel of
// cherry is darker in ten years than now, by every row of it that is wood.
func TestPictureOfLaterYears(t *testing.T) {
	s := filed(t, "desk-inch-waney.yaml", 100)
	p := behaveAt(t, s)
	lightness := func(age int) float64 {
		p.showAge(age)
		s.q.wait(t, "the picture", func() bool { return p.ages.drawn == age })
		return meanL(p.ages.img.Image.(*image.RGBA))
	}
	now, one, ten := lightness(0), lightness(1), lightness(2)
	if !(ten < one && one < now) {
		t.Errorf("cherry has lightness %.1f, %.1f and %.1f over the years", now, one, ten)
	}
	if !strings.Contains(p.ages.says.Text, "illustration") {
		t.Errorf("the picture is called %q", p.ages.says.Text)
	}
}

func meanL(img *image.RGBA) float64 {
	sum, n := 0.0, 0.0
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y += 3 {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x += 3 {
			if c := img.RGBAAt(x, y); c.A == 255 {
				sum, n = sum+colour.FromRGBA(c).L, n+1
			}
		}
	}
	return sum / n
}
