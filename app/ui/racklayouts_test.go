package ui

import (
	"context"
	"errors"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"heartside/app/intake"
)

// clipped lists texts of the page that have less room than they need, or run
// out of the window at a side.
func (s stage) clipped() []string {
	var out []string
	d := fyne.CurrentApp().Driver()
	width := s.win.Canvas().Size().Width
	for _, o := range seen(s.page.content()) {
		text := ""
		switch t := o.(type) {
		case *widget.Label:
			if text = t.Text; t.Truncation != fyne.TextTruncateOff {
				continue
			}
		case *canvas.Text:
			text = t.Text
		case *pageButton:
			text = t.Text
		case *tick:
			text = t.Text
		case *pick:
			text = t.Selected
		case *field:
			text = "field " + t.Text + t.PlaceHolder
		}
		if text == "" {
			continue
		}
		at, size, least := d.AbsolutePositionForObject(o), o.Size(), o.MinSize()
		if size.Width < least.Width-1 || size.Height < least.Height-1 || at.X < -1 || at.X+size.Width > width+1 {
			out = append(out, text)
		}
	}
	return out
}

// seen lists an object and all in it that is not hidden.
func seen(o fyne.CanvasObject) []fyne.CanvasObject {
	if !o.Visible() {
		return nil
	}
	out := []fyne.CanvasObject{o}
	var in []fyne.CanvasObject
	switch c := o.(type) {
	case *fyne.Container:
		in = c.Objects
	case *widget.Label, *field, *pick, *tick, *pageButton: // measured as a whole
	case fyne.Widget:
		in = test.WidgetRenderer(c).Objects()
	}
	for _, c := range in {
		out = append(out, seen(c)...)
	}
	return out
}

func TestNothingOfTheRackIsClipped(t *testing.T) {
	for _, c := range []struct {
		text          int
		width, height float32
	}{{100, 1280, 800}, {200, 1280, 800}, {100, 900, 800}, {200, 900, 800}} {
		s := openReading(t, stack("A", "B", "C"), c.text, func(_ context.Context, j intake.Job, _ func(intake.Step)) (*intake.Reading, error) {
			if j.Place.Part == intake.Face2 {
				return nil, errors.New("no board stands out from the ground; give its four corners by hand, or photograph it on a plain ground")
			}
			return foundReading(j), nil
		})
		s.win.Resize(fyne.NewSize(c.width, c.height))
		if got := s.win.Content().MinSize().Width; got > c.width {
			t.Errorf("%d %%: the window needs %.0f of %.0f", c.text, got, c.width)
		}
		s.act("rack")
		s.rack.turn(stepBoards)
		e := s.rack.boards
		e.addRow()
		e.rows[0].size[0].SetText("2x4")
		e.keep()
		check := func(what string) {
			t.Helper()
			for _, text := range s.clipped() {
				t.Errorf("%d %%, %.0f wide, %s: clipped: %q", c.text, c.width, what, text)
			}
		}
		check("letters and sizes")
		s.rack.turn(stepPhotos)
		check("photographs")
		s.drop(pictureFiles(t, "IMG_20310501_090000.png", "IMG_2.png", "A-b.png")...)
		s.rack.pics.rows[1].board.SetSelected("board A")
		s.rack.pics.rows[1].part.SetSelected("face 1")
		check("pairing")
		s.rack.pics.aside()
		s.drop(pictureFiles(t, "A1.png", "A2.png", "B1.png", "C-a.png")...)
		check("reading")
		s.q.wait(t, "the reading", func() bool { return !s.watch.busy })
		check("faces")
	}
}

func TestFlowBeginsALineWhereThereIsNoRoom(t *testing.T) {
	test.NewTempApp(t)
	a, b, c := box(100, 10), box(100, 20), box(100, 10)
	f := flow([]fyne.CanvasObject{a, b, c}, c)
	gap := 2 * pad()
	f.Resize(fyne.NewSize(300+2*gap, 50))
	if a.Position().X != 0 || b.Position().X != 100+gap || c.Position().X != 200+2*gap || c.Size().Width != 100 {
		t.Errorf("three fit a line: at %v, %v, %v", a.Position(), b.Position(), c.Position())
	}
	f.Resize(fyne.NewSize(250, 50))
	if c.Position().X != 0 || c.Position().Y != 20+pad() || c.Size().Width != 250 {
		t.Errorf("the third begins a line and takes all of it: at %v, %v", c.Position(), c.Size())
	}
	if m := f.MinSize(); m.Width != 100 || m.Height != 20+pad()+10 {
		t.Errorf("two lines need %v", m)
	}
}

// note makes the camera's note of a picture by hand, after the tables of the
// EXIF standard (CIPA DC-008): a TIFF header, one table with the tag 0x8769
// that leads to a second one, which holds the tag 0x9003 of 20 letters.
func note() []byte {
	out := append([]byte{0xFF, 0xD8, 0xFF, 0xE1, 0, 0}, "Exif\x00\x00"...)
	out = append(out, "II*\x00\x08\x00\x00\x00"...)                     // little end first; the table at 8
	out = append(out, 1, 0, 0x69, 0x87, 4, 0, 1, 0, 0, 0, 26, 0, 0, 0)  // one entry: the second table at 26
	out = append(out, 0, 0, 0, 0)                                       // no further table; 8 + 2 + 12 + 4 = 26
	out = append(out, 1, 0, 0x03, 0x90, 2, 0, 20, 0, 0, 0, 44, 0, 0, 0) // 20 letters at 44
	out = append(out, 0, 0, 0, 0)                                       // 26 + 2 + 12 + 4 = 44
	return append(out, "2031:05:01 09:08:07\x00"...)
}

func TestTimeOfAPicture(t *testing.T) {
	want := time.Date(2031, 5, 1, 9, 8, 7, 0, time.UTC)
	data := note()
	if got := exifTime(data); !got.Equal(want) {
		t.Errorf("taken at %v, want %v", got, want)
	}
	for i := range data[:len(data)-1] { // the last byte only ends the text
		if got := exifTime(data[:i]); !got.IsZero() {
			t.Errorf("the first %d bytes give %v", i, got)
		}
	}
	for i := range data { // nothing else than a time or none comes of a damaged note
		bad := append([]byte(nil), data...)
		bad[i] ^= 0xFF
		exifTime(bad)
	}
}
