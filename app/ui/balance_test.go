package ui

import (
	"errors"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"heartside/app/intake"
	"heartside/layout/geom"
	"heartside/model"
)

// lightPicture is a board of 300 x 60 mm on a ground, a card at the upper left:
// 400 x 300 pixels, one a mm.
func lightPicture(t *testing.T, name string, ground, card color.RGBA) string {
	t.Helper()
	img := boardPicture(400, 300, image.Rect(50, 140, 350, 200))
	wood := image.NewRGBA(img.Rect)
	draw.Draw(wood, wood.Rect, img, image.Point{}, draw.Src)
	draw.Draw(img, img.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(50, 140, 350, 200), wood, image.Pt(50, 140), draw.Src)
	draw.Draw(img, image.Rect(10, 10, 60, 50), image.NewUniform(card), image.Point{}, draw.Src)
	path := filepath.Join(t.TempDir(), name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	return path
}

// lightProject has a photographed face 1 on each of boards A, B, C, all on one
// ground.
func lightProject(t *testing.T) *model.Project {
	p := model.NewProject()
	for _, id := range []string{"A", "B", "C"} {
		b := model.NewBoard(id, "walnut-black", 300, 60, 25)
		c := boardCorners()
		b.Faces[0] = model.Face{Photo: lightPicture(t, id+".png", color.RGBA{140, 130, 110, 255}, color.RGBA{120, 110, 90, 255}), Corners: &c, Known: true, Base: model.Heart}
		p.Boards = append(p.Boards, b)
	}
	return p
}

func whites(p *model.Project) (out []*[3]float64, names []string) {
	for _, b := range p.Boards {
		out, names = append(out, b.Faces[0].White), append(names, b.Faces[0].Reference)
	}
	return out, names
}

func TestBoardsWhoseColoursCannotBeCompared(t *testing.T) {
	c := boardCorners()
	for _, k := range []struct {
		refs [][2]string // of faces 1 and 2; "-" no photograph
		want string
		says string
	}{
		{[][2]string{{"", "-"}}, "", ""}, // alone
		{[][2]string{{"", ""}}, "A", "The colours of board A cannot be compared"},
		{[][2]string{{"", "-"}, {"", "-"}}, "A B", "The colours of A and B cannot"},
		{[][2]string{{"x", "x"}, {"x", "-"}, {"-", "-"}}, "", ""},
		{[][2]string{{"x", "x"}, {"x", ""}, {"y", "-"}}, "B C", "The colours of B and C cannot"},
		{[][2]string{{"x", "-"}, {"y", "-"}}, "A B", "A and B"},
		{[][2]string{{"", ""}, {"", ""}, {"", ""}, {"", ""}, {"", ""}, {"", ""}, {"", ""}}, "A B C D E F G", "7 boards cannot be compared yet: A, B, C, D, E, F and others"},
	} {
		p := model.NewProject()
		for i, r := range k.refs {
			b := model.NewBoard(string(rune('A'+i)), "walnut-black", 300, 60, 25)
			for f, name := range r {
				if name != "-" {
					b.Faces[f] = model.Face{Photo: "p", Corners: &c, Reference: name}
				}
			}
			p.Boards = append(p.Boards, b)
		}
		if got := strings.Join(apartBoards(p), " "); got != k.want {
			t.Errorf("%v: %q, want %q", k.refs, got, k.want)
		}
		if got := tintWords(p); !strings.Contains(got, k.says) || (k.says == "") != (got == "") {
			t.Errorf("%v: says %q, want %q in it", k.refs, got, k.says)
		}
	}
}

func TestColoursAgreeByTheGround(t *testing.T) {
	s := openReading(t, lightProject(t), 100, atOnce)
	s.rack.step = stepFaces
	s.showRack()
	if !strings.Contains(s.rack.tints.text.Text, "A, B and C cannot be compared yet") || !s.rack.tints.box.Visible() {
		t.Errorf("the head says %q", s.rack.tints.text.Text)
	}
	s.act("balance")
	if s.asks == nil {
		t.Fatal("not asked")
	}
	s.asks.confirm()
	s.q.drain()
	if s.rack.balance.stop == nil {
		t.Fatal("nothing is being measured")
	}
	s.q.wait(t, "the balance", func() bool { return s.rack.balance.stop == nil })
	gains, names := whites(s.ses.Committed())
	for i, g := range gains {
		// One ground in one light: all get the same.
		if g == nil || *g != *gains[0] || names[i] == "" || names[i] != names[0] {
			t.Errorf("board %d: %v of %q", i, g, names[i])
		}
	}
	if s.steps() != 1 || s.asks == nil || s.rack.tints.box.Visible() {
		t.Errorf("%d changes, told %v, line %v", s.steps(), s.asks != nil, s.rack.tints.box.Visible())
	}
	s.asks.cancel()
	s.act("undo")
	if gains, _ := whites(s.ses.Committed()); gains[0] != nil || gains[2] != nil {
		t.Error("one undo does not take it back")
	}
}

func TestMeasuringColoursIsStopped(t *testing.T) {
	s := openReading(t, lightProject(t), 100, atOnce)
	s.balanceByGround(s.photographed())
	s.act("balance")
	s.asks.confirm() // stop it
	s.q.wait(t, "the end", func() bool { return s.rack.balance.stop == nil })
	if s.steps() != 0 && strings.Contains(s.said, "Stopped") {
		t.Error("stopped, but changed")
	}
	if s.steps() == 0 && !strings.Contains(s.said, "Stopped") {
		t.Errorf("said %q", s.said)
	}
}

// sRGB light (IEC 61966-2-1) of 120, 110 and 90 is 0.1878, 0.1559 and 0.1022;
// the gains make the three alike: 0.1878/0.1559 = 1.204, 0.1878/0.1022 = 1.837.
func TestColoursAgreeByACardInOneStep(t *testing.T) {
	s := openReading(t, lightProject(t), 100, atOnce)
	p := s.showBalanceWith(realMeans().open)
	p.pic.Resize(fyne.NewSize(800, 600)) // two units a pixel
	s.q.wait(t, "the picture", func() bool { return p.img != nil })
	if !p.use.Disabled() {
		t.Error("usable without a patch")
	}
	for _, px := range []geom.Point{{X: 15, Y: 15}, {X: 55, Y: 45}} {
		at := p.pic.view.toRoom(px)
		p.pic.MouseDown(s.mouse(at, desktop.MouseButtonPrimary))
		p.pic.MouseUp(s.mouse(at, desktop.MouseButtonPrimary))
	}
	p.list.ticks[1].SetChecked(true) // C
	if p.use.Disabled() {
		t.Fatalf("not usable: %s", p.note.Text)
	}
	s.win.Canvas().Focus(p.pic)
	s.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.q.wait(t, "the balance", func() bool { return s.asks != nil })
	gains, names := whites(s.ses.Committed())
	if gains[0] == nil || gains[1] != nil || gains[2] == nil || *gains[0] != *gains[2] {
		t.Fatalf("gains %v", gains)
	}
	if g := gains[0]; math.Abs(g[1]/g[0]-1.204) > 0.005 || math.Abs(g[2]/g[0]-1.837) > 0.01 {
		t.Errorf("gains %v", *g)
	}
	if names[0] != names[2] || names[0] == "" || s.steps() != 1 {
		t.Errorf("references %q, %d changes", names, s.steps())
	}
	s.asks.cancel()
	s.act("undo")
	if gains, _ := whites(s.ses.Committed()); gains[0] != nil || gains[2] != nil {
		t.Error("one undo does not take it back")
	}
}

func TestAPatchBurntOutIsRefused(t *testing.T) {
	project := lightProject(t)
	project.Boards[0].Faces[0].Photo = lightPicture(t, "white.png", color.RGBA{140, 130, 110, 255}, color.RGBA{255, 255, 255, 255})
	s := open(t, project, 100)
	p := s.showBalanceWith(realMeans().open)
	s.q.wait(t, "the picture", func() bool { return p.img != nil })
	p.pic.corners = []geom.Point{{X: 15, Y: 15}, {X: 55, Y: 45}}
	p.show()
	if !p.use.Disabled() || !strings.Contains(p.note.Text, "burnt out") {
		t.Errorf("says %q", p.note.Text)
	}
	p.apply()
	if s.steps() != 0 || s.page != page(p) {
		t.Error("it was used")
	}
	s.leavePage() // drops the patch
	if s.page != page(p) || len(p.pic.corners) != 0 {
		t.Error("Escape left with the patch there")
	}
	s.leavePage()
	if s.page == page(p) {
		t.Error("Escape does not leave")
	}
}

func TestPlacesAreNamed(t *testing.T) {
	at := func(b string, f int) intake.Place { return intake.Place{Board: b, Part: intake.Part(f)} }
	list := []intake.Place{at("A", 1), at("A", 2), at("B", 2), at("C", 1)}
	if got, want := placeList(list), "A, B face 2 and C face 1"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	err := errors.New("the ground in the photographs of board A, face 2; board C, face 1 is another")
	if got := namedIn(err, list); !slices.Equal(got, []intake.Place{at("A", 2), at("C", 1)}) {
		t.Errorf("%v", got)
	}
}
