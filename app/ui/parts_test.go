package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/layout/geom"
	"heartside/layout/layouttest"
	"heartside/model"
	"heartside/model/file"
	"heartside/model/say"
)

// legsAndDoors is the project of that name kept for tests.
func legsAndDoors(t *testing.T) *model.Project {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(layouttest.Root(t), "testdata", "projects", "legs-and-doors.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	p, _, err := file.Read(data, "legs-and-doors.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestNewPartByForm(t *testing.T) {
	s := demo(t, 100)
	f := newPartForm(s.Window, model.Part{})
	s.ask(question{title: "x", yes: "y", body: f.body()})
	if f.name.Text != "leg" || f.number.Text != "4" {
		t.Errorf("it begins as %q, %q of them", f.name.Text, f.number.Text)
	}
	if _, err := f.part(); err == nil || !strings.HasPrefix(err.Error(), "length") {
		t.Errorf("a part without a size gives %v", err)
	}
	f.kind.SetSelectedIndex(2)
	if f.name.Text != "breadboard end" || f.number.Text != "2" {
		t.Errorf("another kind makes it %q, %q of them", f.name.Text, f.number.Text)
	}
	for i, v := range []string{"460", "6 cm", "20"} {
		s.typing(f.size[i], v)
	}
	n, err := f.part()
	if err != nil || n.Kind != model.BreadboardEnd || n.Count != 2 || n.Length != 460 || n.Width != 60 || n.Thickness != 20 {
		t.Errorf("%+v, %v", n, err)
	}
	s.typing(f.number, "0")
	if _, err := f.part(); err == nil || !strings.Contains(err.Error(), "how many") {
		t.Errorf("none of them gives %v", err)
	}
	s.typing(f.number, "2")
	s.typing(f.name, "top")
	if n, err = f.part(); err != nil {
		t.Fatal(err)
	}
	// A panel has that name: the model refuses it, and the dialog stays.
	if err := s.ses.Commit(model.PutPart{Part: n}); err == nil {
		t.Error("a part is called as a panel is")
	}
}

// A part is cut from the board in hand by key: beside the strips that lie there,
// as one change.
func TestCutAPartFromTheBoardInHand(t *testing.T) {
	p := legsAndDoors(t)
	p.Parts = p.Parts[:1]
	p.Parts[0].Places = nil
	s := open(t, p, 100)
	s.holdBoard("C")
	start := s.steps()
	s.act("cut-part")
	s.asks.confirm()
	s.q.wait(t, "the leg", func() bool { return s.steps() == start+1 })
	leg, _ := s.ses.Project().Part("leg")
	if len(leg.Places) != 1 || leg.Places[0].Board != "C" || leg.Places[0].L != 720 || leg.Places[0].W != 50 {
		t.Fatalf("%+v", leg.Places)
	}
	// Board C is 1800 x 180: blanks of 770 x 59 and cuts of 3 go two along and two
	// across (2 x 770 + 3, 2 x 59 + 3; a third across needs 183). So five more
	// find room for three.
	s.act("cut-part")
	for _, o := range inside(s.asks.q.body) {
		if f, ok := o.(*field); ok && f.Text == "1" {
			s.typing(f, "5")
		}
	}
	s.asks.confirm()
	s.q.wait(t, "three more", func() bool { return s.steps() == start+2 })
	leg, _ = s.ses.Project().Part("leg")
	if len(leg.Places) != 4 || len(s.ses.LooseNotes()) != 0 {
		t.Errorf("%d cuttings; told: %v", len(leg.Places), s.ses.Problems())
	}
	if !strings.Contains(s.status.text.Text, "For 2 more there is no room") {
		t.Errorf("said: %q", s.status.text.Text)
	}
	s.act("undo")
	if leg, _ = s.ses.Project().Part("leg"); len(leg.Places) != 1 {
		t.Error("undo does not take all of one step back")
	}
}

// The other way round: strips are laid clear of parts.
func TestStripsKeepClearOfParts(t *testing.T) {
	p := legsAndDoors(t)
	p.Panels[1].Strips[1] = model.NewPlace("9", 650, 100)
	p.Boards = slices.DeleteFunc(p.Boards, func(b *model.Board) bool { return b.ID == "D" })
	p.Parts[1].Places = p.Parts[1].Places[:1]
	s := open(t, p, 100)
	s.ses.Select(session.Selection{Panel: "right", Strip: "9", Board: "C", Zone: -1})
	s.act("place")
	s.q.wait(t, "an answer", func() bool { return strings.Contains(s.status.text.Text, "no room") })
	if !s.lie(t, "9").Empty() {
		t.Error("a strip is laid over the legs on board C")
	}
	used := s.used("", "", "")
	if n := len(used); n != 3+5 {
		t.Errorf("%d pieces count as taken, want 3 strips, 4 legs and a rail", n)
	}
}

func TestCuttingIsDrawnNamedAndTakenOff(t *testing.T) {
	s := open(t, legsAndDoors(t), 100)
	s.holdBoard("C")
	at, ok := s.surf.scene().FacePoint("C", 1, geom.Pt(430, 67)) // the middle of leg 1
	if !ok {
		t.Fatal("board C is not on screen")
	}
	h := s.surf.scene().Hit(at)
	if h.Part != scene.BoardStrip || h.Solid != "leg 1" {
		t.Fatalf("there lies %+v", h)
	}
	if got := hint(s.Window, h); !strings.HasPrefix(got, "Part leg 1 on board C: 740 mm × 55 mm, 60 mm from the marked end") {
		t.Errorf("pointed at it says %q", got)
	}
	start := s.steps()
	s.press(at)
	s.drag(at.Add(geom.Pt(40, 0)))
	s.release(at.Add(geom.Pt(40, 0)))
	if s.steps() != start || s.ses.Previewing() {
		t.Error("dragging it changes something")
	}
	s.cuttingAsk(h.Strip, nil)
	s.typing(s.win.Canvas().Focused().(*field), "70")
	s.asks.confirm()
	leg, _ := s.ses.Project().Part("leg")
	if leg.Places[0].X != 70 || leg.Places[0].Y != 40 || s.steps() != start+1 {
		t.Errorf("moved it lies at %+v", leg.Places[0])
	}
	s.act("cuttings") // four lie there
	if s.asks == nil || s.asks.q.title != "Solid parts on board C" {
		t.Fatal("the cuttings are not listed")
	}
	s.asks.cancel()
	s.takeOff("leg/2")
	if leg, _ = s.ses.Project().Part("leg"); len(leg.Places) != 3 || leg.Places[1].X != 880 {
		t.Errorf("taken off, these stay: %+v", leg.Places)
	}
	s.ses.Undo()
	s.ses.Undo()
	if leg, _ = s.ses.Project().Part("leg"); len(leg.Places) != 4 || leg.Places[0].X != 60 {
		t.Error("undo does not bring it back")
	}
}

func TestSpoiledBoardByKey(t *testing.T) {
	s := demo(t, 100)
	s.take("t1")
	board := s.lie(t, "t1").Board
	s.act("spoiled")
	if b := s.ses.Project().Board(board); !b.Spoiled || !s.handSpoiled() {
		t.Fatal("the board in hand is not marked")
	}
	if n := s.column.notes; len(n) == 0 || n[0].Kind != session.BoardSpoiled || !strings.Contains(n[0].Title, s.ses.Number("top", "t1")) {
		t.Fatalf("the first note is %+v", n)
	}
	for _, o := range inside(s.column.list[0].detail) {
		if l, ok := o.(*widget.Label); ok && strings.Contains(l.Text, "No small change") {
			t.Error("the note says that a fix was sought")
		}
	}
	if in := s.surf.input(); !slices.Equal(in.Boards.Spoiled, []string{board}) {
		t.Errorf("crossed out: %v", in.Boards.Spoiled)
	}
	// An empty place is not laid on it.
	s.act("lift")
	start := s.steps()
	s.act("place")
	if s.steps() != start || !strings.Contains(s.status.text.Text, "nothing more is cut from it") {
		t.Errorf("Enter on it: %q", s.status.text.Text)
	}
	s.act("cut-part")
	if s.asks != nil || !strings.Contains(s.status.text.Text, "nothing more is cut from it") {
		t.Errorf("a part from it: %q", s.status.text.Text)
	}
	for _, b := range s.ses.Sound() {
		if b.ID == board {
			t.Error("it is offered for new strips")
		}
	}
	s.act("spoiled")
	if s.handSpoiled() || len(s.surf.input().Boards.Spoiled) != 0 {
		t.Error("it is not sound again")
	}
}

// A German noun keeps its capital within a sentence, unlike an English or Spanish one.
func TestKindOfAPartInASentence(t *testing.T) {
	s := open(t, session.Blank(), 100)
	n := model.NewPart("x", model.Leg, 4, 720, 50, 50)
	t.Cleanup(func() { say.Use("", nil) })
	for l, want := range map[Language]string{English: ", leg.", German: ", Bein.", Spanish: ", pata."} {
		if err := speak(l); err != nil {
			t.Fatal(err)
		}
		if got := s.partText(n); !strings.Contains(got, want) {
			t.Errorf("%s: %q says no %q", l, got, want)
		}
	}
}
