package ui

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/render"
	"heartside/app/session"
	"heartside/app/sheet"
	"heartside/model"
)

// The demo has three panels, and strips on its boards A to E; F is not cut.
func TestSheetShowsEveryPage(t *testing.T) {
	s := sheetAt(t, 100)
	d := s.p.m.doc
	if d == nil || s.page != page(s.p) {
		t.Fatalf("no sheet: %q", s.p.m.wrong)
	}
	var panels, boards []string
	for _, q := range d.Pages {
		switch {
		case q.Kind == sheet.KindPanel && !q.Again:
			panels = append(panels, q.Panel)
		case q.Kind == sheet.KindBoards && !q.Again:
			boards = append(boards, q.Board)
		}
	}
	if !slices.Equal(panels, []string{"top", "left-side", "right-side"}) || !slices.Equal(boards, []string{"A", "B", "C", "D", "E"}) {
		t.Errorf("pages of panels %v and of boards %v", panels, boards)
	}
	for i := range d.Pages {
		k := s.p.list.thumbs[i]
		if !k.Visible() || k.img.Image == nil || !strings.Contains(k.name.Text, d.Pages[i].Title) {
			t.Errorf("page %d is small as %q, drawn %v", i+1, k.name.Text, k.img.Image != nil)
		}
	}
	s.q.wait(t, "the page in hand", func() bool { return !s.p.view.rough() && s.p.view.imgOf.dots == s.p.view.dots() })
	// A page that fits its room is drawn with as many dots as it is seen with.
	v := s.p.view
	if w, h := v.view.room.X*v.pixels, v.view.room.Y*v.pixels; float64(v.img.Rect.Dx()) > w || float64(v.img.Rect.Dy()) > h {
		t.Errorf("%v does not fit a room of %.0f x %.0f", v.img.Rect, w, h)
	}
	if low := 0.85 * v.view.room.X * v.pixels; float64(v.img.Rect.Dx()) < low {
		t.Errorf("a lying page is %d wide, less than %.0f", v.img.Rect.Dx(), low)
	}
	if got := s.p.status(); !strings.HasPrefix(got, itoa(len(d.Pages))+" pages on A4") {
		t.Errorf("it says %q", got)
	}
}

func TestSheetPagesByKeys(t *testing.T) {
	s := sheetAt(t, 100)
	last := len(s.p.m.doc.Pages) - 1
	at := func(want int, what string) {
		t.Helper()
		if s.p.at != want || s.p.view.of != s.p.m.doc.Pages[want] {
			t.Errorf("%s: page %d, want %d", what, s.p.at, want)
		}
	}
	s.pressed(fyne.KeyPageUp)
	at(0, "before the first")
	s.pressed(fyne.KeyPageDown, fyne.KeyDown)
	at(2, "two on")
	s.pressed(fyne.KeyEnd, fyne.KeyPageDown)
	at(last, "after the last")
	s.pressed(fyne.KeyUp)
	at(last-1, "one back")
	s.pressed(fyne.KeyHome)
	at(0, "the first")
	s.typed("++")
	if z := s.p.view.view.zoom; z < 1.56 || z > 1.57 { // 1.25 x 1.25
		t.Errorf("zoom %g", z)
	}
	was := s.p.view.view.at
	s.pressed(fyne.KeyDown)
	if at(0, "an arrow moves a large page"); s.p.view.view.at.Y <= was.Y {
		t.Error("the page does not move down")
	}
	s.pressed(fyne.KeyPageDown)
	at(1, "a large page is turned all the same")
	s.typed("1")
	if k := s.p.view.view.scale(); k < 0.999*s.surf.unitsPerMM() || k > 1.001*s.surf.unitsPerMM() {
		t.Errorf("%g units a mm at true size, want %g", k, s.surf.unitsPerMM())
	}
	s.typed("0")
	if s.p.view.larger() {
		t.Error("0 does not show all of the page")
	}
	for range 40 {
		s.typed("+")
	}
	s.q.wait(t, "the page", func() bool { return s.p.view.imgOf.dots == s.p.view.dots() })
	if side := max(s.p.view.img.Rect.Dx(), s.p.view.img.Rect.Dy()); side > longestPage+1 {
		t.Errorf("a page is drawn %d pixels long", side)
	}
	// Boxes of the column know the keys of the pages, and keep their own.
	s.typed("0")
	k := s.tickOf(t, "Panels")
	s.win.Canvas().Focus(k)
	s.pressed(fyne.KeyEnd)
	at(last, "from a box")
	s.typed(" ")
	if k.Checked || s.win.Canvas().Focused() != fyne.Focusable(k) {
		t.Error("a blank does not take the tick away, or the keys go")
	}
	s.pressed(fyne.KeyEscape)
	if s.page != nil {
		t.Error("Esc does not lead back")
	}
}

func TestSheetOfWhatIsChosen(t *testing.T) {
	s := sheetAt(t, 100)
	for _, text := range []string{"Boards and cuts", "Glue-up and fit", "Sources"} {
		s.tickOf(t, text).SetChecked(false)
	}
	s.tickOf(t, "For the client").SetChecked(true)
	s.made(t)
	if got := s.kinds(); len(got) != 2 || got[sheet.KindPanel] < 3 || got[sheet.KindClient] < 3 {
		t.Errorf("panels and the client: %v", got)
	}
	// The right side is cut from D and E, and shares E with the left side.
	s.tickOf(t, "Boards and cuts").SetChecked(true)
	s.tickOf(t, "Top").SetChecked(false)
	s.tickOf(t, "Left side").SetChecked(false)
	s.made(t)
	boards := map[string]bool{}
	for _, q := range s.p.m.doc.Pages {
		if q.Panel != "" && q.Panel != "right-side" {
			t.Errorf("a page of %s", q.Panel)
		}
		if q.Board != "" {
			boards[q.Board] = true
		}
	}
	if len(boards) != 2 || !boards["D"] || !boards["E"] {
		t.Errorf("boards %v", boards)
	}
	if !strings.Contains(s.p.status(), "numbers in the whole sheet") {
		t.Errorf("it says %q", s.p.status())
	}
	// Wood that another panel takes is drawn on the board all the same.
	if in := s.p.ask.boardsOf(s.p.m.in); len(in.Panels) != 3 {
		t.Errorf("%d panels are known to the boards", len(in.Panels))
	}
	s.tickOf(t, "Right side").SetChecked(false)
	s.made(t)
	if s.p.m.doc != nil || !strings.Contains(s.p.none.Text, "tick one") || !s.p.side.save.Disabled() {
		t.Errorf("of no panel: %q", s.p.none.Text)
	}
	s.takeKeys()
	s.pressed(fyne.KeyReturn)
	if s.asks != nil {
		t.Error("it asks where to save nothing")
	}
}

// A3 is 297 x 420 mm (ISO 216).
func TestSheetOnOtherPaper(t *testing.T) {
	s := sheetAt(t, 100)
	s.p.ask.paper = sheet.A3
	s.p.chosen()
	s.made(t)
	for _, q := range s.p.m.doc.Pages {
		if w, h := min(q.W, q.H), max(q.W, q.H); w != 297 || h != 420 {
			t.Fatalf("a page of %g x %g", q.W, q.H)
		}
	}
	s.keepSheet(&s.p.ask)
	if got := s.usualSheet().paper; got != sheet.A3 {
		t.Errorf("next time it begins with %s", got)
	}
}

func TestSheetFollowsTheProject(t *testing.T) {
	s := sheetAt(t, 100)
	s.p.take(4) // board B
	was, code, title := s.p.m.doc, s.p.side.code.now, s.p.m.doc.Pages[4].Title
	if err := s.ses.Commit(model.FlipStrip{Panel: "top", Strip: "t2"}); err != nil {
		t.Fatal(err)
	}
	s.made(t)
	if s.p.m.doc == was || s.p.side.code.now == code {
		t.Error("the sheet is still the old one")
	}
	if got := s.p.m.doc.Pages[s.p.at].Title; got != title {
		t.Errorf("page %q is in hand, was %q", got, title)
	}
	s.win.Canvas().Focus(s.p.side.code.old)
	s.typed(strings.ToLower(code))
	if got := s.p.side.code.answer.Text; !strings.Contains(got, "before its last change") {
		t.Errorf("of the sheet before: %q", got)
	}
	s.pressed(fyne.KeyEscape)
	if s.page != page(s.p) || s.win.Canvas().Focused() != fyne.Focusable(s.p.view) {
		t.Error("Esc in the field does not give the keys back to the pages")
	}
	s.typed("c")
	if got := s.app.Clipboard().Content(); got != s.p.side.code.now {
		t.Errorf("copied %q", got)
	}
}

func TestSheetStopsAndGoesOn(t *testing.T) {
	s := &sheetStage{stage: demo(t, 100)}
	s.p = s.showSheet(presses{})
	if !s.p.m.busy || !strings.Contains(s.p.none.Text, "Making") {
		t.Fatalf("it says %q", s.p.none.Text)
	}
	s.typed("s")
	s.q.drain()
	if s.p.m.busy || s.p.m.doc != nil || !strings.Contains(s.p.none.Text, "Stopped") || !s.p.side.again.Visible() {
		t.Errorf("after S it says %q", s.p.none.Text)
	}
	s.typed("m")
	s.made(t)
	if s.p.m.doc == nil {
		t.Error("M makes no pages")
	}
}

func TestCodeOfAnOldSheet(t *testing.T) {
	for typed, want := range map[string]string{
		"":          "top of every page",
		"w3g":       "5 letters",
		" w3g-4u ":  "✓ This sheet is of this plan",
		"W3G4U":     "✓ This sheet is of this plan",
		"ABCDE":     "before its last change: print again",
		"ABCDF":     "another plan",
		"W3G40":     "no 0, 1, I or O",
		"W3G4UU":    "5 letters",
		"Wörtchens": "5 letters",
	} {
		if got, _ := codeWords(typed, "W3G4U", "ABCDE"); !strings.Contains(got, want) {
			t.Errorf("%q: %q, want %q", typed, got, want)
		}
	}
}

// ITU-R BT.601: 0.299, 0.587 and 0.114 of red, green and blue. Pure red has a
// brightness of 76.2, which between 20 and 245 becomes (76 - 20) 255 / 225 = 63.
func TestInGrey(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 5, 1))
	for i, c := range []color.RGBA{{255, 0, 0, 255}, {255, 255, 255, 255}, {0, 0, 0, 255}, {250, 250, 250, 255}, {12, 12, 12, 255}} {
		img.SetRGBA(i, 0, c)
	}
	greyed(img)
	for i, want := range []uint8{63, 255, 0, 255, 0} {
		if got := img.RGBAAt(i, 0); got != (color.RGBA{want, want, want, 255}) {
			t.Errorf("colour %d becomes %v, want %d", i, got, want)
		}
	}
}

// The client's page is in colour; G shows it as a shop printer gives it.
func TestSheetInGrey(t *testing.T) {
	s := sheetAt(t, 100)
	s.tickOf(t, "For the client").SetChecked(true)
	s.made(t)
	s.pressed(fyne.KeyEnd)
	s.pressed(fyne.KeyPageUp) // before the sources
	coloured := func() bool {
		s.q.wait(t, "the page", func() bool { return !s.p.view.rough() && s.p.view.imgOf.grey == s.p.ask.grey })
		for i := 0; i < len(s.p.view.img.Pix); i += 4 {
			if q := s.p.view.img.Pix[i : i+3]; q[0] != q[1] || q[1] != q[2] {
				return true
			}
		}
		return false
	}
	if !coloured() {
		t.Error("the woods have no colours")
	}
	s.takeKeys()
	s.typed("g")
	s.made(t)
	if coloured() || !s.p.side.grey.Checked {
		t.Error("in grey there are colours")
	}
}

func TestSheetSaved(t *testing.T) {
	s := sheetAt(t, 100)
	s.pressed(fyne.KeyReturn)
	if s.asks == nil {
		t.Fatal("Enter does not ask for a file")
	}
	f := s.win.Canvas().Focused().(*field)
	s.typing(f, filepath.Join(s.folder, "x.doc"))
	s.asks.confirm()
	if s.asks == nil || !strings.Contains(s.asks.trouble.Text, ".pdf") {
		t.Fatal("x.doc is taken")
	}
	path := filepath.Join(s.folder, "x.pdf")
	s.typing(f, path)
	s.asks.confirm()
	s.q.wait(t, "the file", func() bool { return strings.Contains(s.said, "Wrote") })
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	if !strings.Contains(s.p.side.done.Text, s.folder) {
		t.Errorf("where it lies: %q", s.p.side.done.Text)
	}
	// What is asked for before the pages are there waits for them.
	s.p.makeAgain()
	if !s.p.m.busy {
		t.Fatal("nothing is made")
	}
	png := filepath.Join(s.folder, "y.png")
	s.p.write(png)
	s.q.wait(t, "the picture", func() bool { return strings.Contains(s.said, "Wrote y.png") })
	if list, _ := filepath.Glob(filepath.Join(s.folder, "y*.png")); len(list) != len(s.p.m.doc.Pages) {
		t.Errorf("%d pictures of %d pages", len(list), len(s.p.m.doc.Pages))
	}
}

// The name typed is on the client's page and is there at the next start.
func TestSheetMadeBy(t *testing.T) {
	s := sheetAt(t, 100)
	s.tickOf(t, "For the client").SetChecked(true)
	s.typing(s.p.side.maker, "Workshop on the Quay ")
	s.made(t)
	found := false
	for _, p := range s.p.m.doc.Pages {
		var rec render.Recorder
		p.Draw(&rec)
		found = found || strings.Contains(rec.String(), "Client of Workshop on the Quay")
	}
	if !found || s.set.maker() != "Workshop on the Quay" || gathered(s.ses, s.Window).Author != "Workshop on the Quay" {
		t.Error("the sheet does not bear the maker's name")
	}
}

func TestSheetOfNothing(t *testing.T) {
	s := sheetOn(t, open(t, session.Blank(), 100))
	if !strings.Contains(s.p.none.Text, "no panel yet") || !strings.Contains(s.p.none.Text, "Ctrl+T") {
		t.Errorf("it says %q", s.p.none.Text)
	}
	s.pressed(fyne.KeyReturn)
	s.typed("pl+-01cg")
	if s.asks != nil {
		t.Error("it asks what to do with nothing")
	}
	s.pressed(fyne.KeyPageDown, fyne.KeyEnd, fyne.KeyUp)
	s.p.view.paint(300, 200)
}
