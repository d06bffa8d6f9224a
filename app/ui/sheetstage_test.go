package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"heartside/app/sheet"
)

// sheetStage is a window with the page of the layout sheet, and a system whose
// viewer and printer note what reaches them.
type sheetStage struct {
	stage
	p      *sheetPage
	opened []string
	sent   []string
	noOpen error  // the viewer does not start
	noView error  // the viewer starts and fails
	noSend error  // the printer does not take it
	folder string // for printing
}

func sheetAt(t *testing.T, text int) *sheetStage { return sheetOn(t, demo(t, text)) }

func sheetOn(t *testing.T, on stage) *sheetStage {
	t.Helper()
	s := &sheetStage{stage: on, folder: t.TempDir()}
	s.p = s.showSheet(presses{
		folder: s.folder,
		open: func(path string) (func() error, error) {
			if s.noOpen != nil {
				return nil, s.noOpen
			}
			s.opened = append(s.opened, path)
			return func() error { return s.noView }, nil
		},
		send: func(path, _ string) (string, error) {
			s.sent = append(s.sent, path)
			return "request id is Shop-7 (1 file(s))", s.noSend
		},
	})
	s.made(t)
	return s
}

// made waits until all pages are drawn.
func (s *sheetStage) made(t *testing.T) {
	t.Helper()
	s.q.drain()
	s.q.wait(t, "the pages", func() bool { return !s.p.m.busy })
}

func (s *sheetStage) pressed(keys ...fyne.KeyName) {
	for _, k := range keys {
		s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func (s *sheetStage) typed(text string) {
	for _, r := range text {
		s.win.Canvas().Focused().TypedRune(r)
	}
}

// kinds counts the pages of each kind.
func (s *sheetStage) kinds() map[sheet.Kind]int {
	out := map[sheet.Kind]int{}
	for _, q := range s.p.m.doc.Pages {
		out[q.Kind]++
	}
	return out
}

// tickOf finds the box of a text in the column.
func (s *sheetStage) tickOf(t *testing.T, text string) *sheetTick {
	t.Helper()
	for _, o := range inside(s.p.side.body) {
		if k, ok := o.(*sheetTick); ok && k.Text == text {
			return k
		}
	}
	t.Fatalf("there is no box %q", text)
	return nil
}
