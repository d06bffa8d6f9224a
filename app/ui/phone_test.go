package ui

import (
	"context"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"heartside/app/intake"
	"heartside/app/phone"
	"heartside/model"
)

// phoneStage has a saved project with board A, not photographed.
func phoneStage(t *testing.T) (stage, string) {
	t.Helper()
	p := model.NewProject()
	p.Boards = []*model.Board{model.NewBoard("A", "walnut-black", 835, 237, 30)}
	s := open(t, p, 100)
	path := filepath.Join(t.TempDir(), "job.yaml")
	if err := s.ses.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return s, path
}

// taken runs what takes a picture beside the window, as the page does.
func (s stage) taken(t *testing.T, take func(context.Context, phone.Picture) error, p phone.Picture) error {
	t.Helper()
	done := make(chan error, 1)
	go func() { done <- take(context.Background(), p) }()
	for end := time.Now().Add(time.Minute); time.Now().Before(end); {
		s.q.drain()
		select {
		case err := <-done:
			return err
		case <-time.After(5 * time.Millisecond):
		}
	}
	t.Fatal("the picture is never taken")
	return nil
}

func TestPhoneNeedsBoardsAndAFile(t *testing.T) {
	s := open(t, model.NewProject(), 100)
	if a := s.acts.find(ctrlShift(fyne.KeyI)); a == nil || a.ID != "rack-phone" {
		t.Fatal("Ctrl+Shift+I does not lead to it")
	}
	s.act("rack-phone")
	if s.asks != nil || s.rack.step != stepBoards {
		t.Error("without boards it does not lead to their letters and sizes")
	}
	p := model.NewProject()
	p.Boards = []*model.Board{model.NewBoard("A", "walnut-black", 835, 237, 30)}
	s = open(t, p, 100)
	s.act("rack-phone")
	if s.asks == nil || s.asks.q.title != "Save the project first" {
		t.Error("without a file it does not ask to save")
	}
}

// A picture is copied beside the project and is one step to take back; a second one
// for the same face replaces nothing and is not even copied.
func TestPictureFromThePhone(t *testing.T) {
	s, path := phoneStage(t)
	picture := filepath.Join(t.TempDir(), "board-A-1.jpg")
	data, err := os.ReadFile("../../testdata/photos/walnut.jpg")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(picture, data, 0o600); err != nil {
		t.Fatal(err)
	}
	take := s.phoneTake(path, false)
	arrived := phone.Picture{Place: intake.Place{Board: "A", Part: intake.Face1}, Path: picture}
	before := s.steps()
	if err := s.taken(t, take, arrived); err != nil {
		t.Fatal(err)
	}
	f := s.ses.Project().Board("A").Faces[0]
	if s.steps() != before+1 || f.Photo != "photos/board-A-1.jpg" {
		t.Errorf("%d steps, the photograph is %q", s.steps()-before, f.Photo)
	}
	err = s.taken(t, take, arrived)
	if err == nil || !strings.Contains(err.Error(), "has a photograph already") || s.steps() != before+1 {
		t.Errorf("the second one: %v, %d steps", err, s.steps()-before)
	}
	if list, _ := filepath.Glob(filepath.Join(filepath.Dir(path), "photos", "*")); len(list) != 1 {
		t.Errorf("copied: %v", list)
	}
	if got := phoneBoards(s.ses.Project(), false); len(got) != 1 || len(got[0].Have) != 1 || got[0].Have[0] != intake.Face1 {
		t.Errorf("the page is told of %+v", got)
	}
	s.ses.Undo()
	if s.ses.Project().Board("A").Faces[0].Photo != "" {
		t.Error("undo leaves the photograph")
	}
	s.ses.Replace(model.NewProject())
	if err := s.taken(t, take, arrived); err == nil || !strings.Contains(err.Error(), "another project") {
		t.Errorf("for another project: %v", err)
	}
}

// What was taped on a face stays, unless the maker said before that pictures may
// replace it; then it is one step to take back.
func TestThePhoneKeepsWhatWasTaped(t *testing.T) {
	s, path := phoneStage(t)
	c := *s.ses.Project().Board("A")
	c.Faces[0] = model.Face{Known: true, Zones: model.FaceTapeZones(1, 835, 237, model.Tape{10, 20, 30}, model.Tape{})}
	if !s.setBoard(c, "tape") {
		t.Fatal("the tape is not taken")
	}
	picture := filepath.Join(t.TempDir(), "board-A-1.jpg")
	data, err := os.ReadFile("../../testdata/photos/walnut.jpg")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(picture, data, 0o600); err != nil {
		t.Fatal(err)
	}
	arrived := phone.Picture{Place: intake.Place{Board: "A", Part: intake.Face1}, Path: picture}
	face := func() *model.Face { return &s.ses.Project().Board("A").Faces[0] }
	zones := len(face().Zones)
	err = s.taken(t, s.phoneTake(path, false), arrived)
	if err == nil || !strings.Contains(err.Error(), "entered by hand") || len(face().Zones) != zones || zones == 0 {
		t.Errorf("%v, %d zones of %d", err, len(face().Zones), zones)
	}
	if n := len(phoneBoards(s.ses.Project(), false)[0].Have); n != 1 || len(phoneBoards(s.ses.Project(), true)[0].Have) != 0 || handMadeFaces(s.ses.Project()) != 1 {
		t.Errorf("the page is told of %d places", n)
	}
	if err := s.taken(t, s.phoneTake(path, true), arrived); err != nil || face().Photo == "" {
		t.Fatalf("%v, the photograph is %q", err, face().Photo)
	}
	s.ses.Undo()
	if face().Photo != "" || len(face().Zones) != zones {
		t.Error("undo does not bring the tape back")
	}
}

// Stop ends the page and its folder, and so does the window's end.
func TestPhonePageEnds(t *testing.T) {
	for name, end := range map[string]func(s stage){
		"stop":   func(s stage) { s.asks.cancel() },
		"window": func(s stage) { s.stop() },
	} {
		t.Run(name, func(t *testing.T) {
			s, path := phoneStage(t)
			temp := t.TempDir()
			server, err := phone.Start(phone.Options{IP: netip.MustParseAddr("127.0.0.1"), Boards: phoneBoards(s.ses.Project(), false), Take: s.phoneTake(path, false), Temp: temp})
			if err != nil {
				t.Fatal(err)
			}
			s.phoneShow(server)
			if s.asks == nil || !strings.HasPrefix(server.URL(), "http://127.0.0.1:") {
				t.Fatal("no dialog is up")
			}
			end(s)
			select {
			case <-server.Done():
			case <-time.After(20 * time.Second):
				t.Fatal("the page stays open")
			}
			if left, _ := os.ReadDir(temp); len(left) != 0 {
				t.Errorf("left: %v", left)
			}
		})
	}
}

func TestPhoneWords(t *testing.T) {
	for want, st := range map[string]phone.State{
		"No phone has opened the page yet. It closes by itself in 10:00 min.":              {Left: 10 * time.Minute},
		"1 photograph arrived, 2 refused. Closes by itself in 1:05 min without a picture.": {Left: 65 * time.Second, Claimed: true, Arrived: 1, Refused: 2},
		"3 photographs arrived. Closed: it was stopped":                                    {Arrived: 3, Over: true, OverWhy: "it was stopped"},
	} {
		if got := phoneWords(st); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
