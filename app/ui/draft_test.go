package ui

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2/driver/desktop"

	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/file"
)

// corrected is the page of a face with a stroke that is not kept yet.
func corrected(t *testing.T) *faceStage {
	t.Helper()
	s := faceAt(t, smallBoard(), 100)
	m := s.at(2)
	s.types("s")
	s.strokeBy(m, m.Add(geom.Pt(50, 0)))
	s.acts(t)
	s.p.zones.take(modeNone)
	return s
}

// projectFile writes a project with a board Z.
func projectFile(t *testing.T) string {
	t.Helper()
	p := model.NewProject()
	p.Boards = []*model.Board{model.NewBoard("Z", "walnut-black", 900, 150, 25)}
	path := filepath.Join(t.TempDir(), "other.yaml")
	if err := file.Save(path, p); err != nil {
		t.Fatal(err)
	}
	return path
}

// What leads away from a face that was corrected asks what is to become of
// the corrections first, however the maker goes.
func TestACorrectedFaceIsNotLostOnTheWayElsewhere(t *testing.T) {
	for name, away := range map[string]func(*testing.T, *faceStage){
		"a project dropped": func(t *testing.T, s *faceStage) { s.drop(projectFile(t)) },
		"a recent project": func(t *testing.T, s *faceStage) {
			s.set.opened(projectFile(t))
			s.fillRecent()
			s.menus.recent.ChildMenu.Items[0].Action()
		},
		"photographs dropped": func(t *testing.T, s *faceStage) { s.drop(pictureFiles(t, "IMG_7.png")...) },
		"photographs chosen":  func(_ *testing.T, s *faceStage) { s.act("rack-photos") },
	} {
		s := corrected(t)
		away(t, s)
		if s.asks == nil || s.page != page(s.p) || s.ses.Project().Board("A") == nil {
			t.Errorf("%s: asked %v, the page is %T", name, s.asks != nil, s.page)
			continue
		}
		s.asks.cancel() // go on
		if s.page != page(s.p) || !s.p.unsaved() {
			t.Errorf("%s: Go on does not stay", name)
		}
	}
}

func TestACorrectedFaceIsKeptOnTheWayElsewhere(t *testing.T) {
	s := corrected(t)
	s.drop(pictureFiles(t, "IMG_7.png")...)
	s.asks.confirm() // keep
	s.q.wait(t, "the pictures", func() bool { return s.page == page(s.rack) })
	if s.steps() != 1 || len(s.rack.pics.rows) != 1 {
		t.Errorf("%d changes, %d pictures at the rack", s.steps(), len(s.rack.pics.rows))
	}
}

// Nothing is asked of a face that was only looked at.
func TestAFaceLookedAtIsLeftForADroppedProject(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	s.drop(projectFile(t))
	if s.asks != nil || s.ses.Project().Board("Z") == nil || s.page != nil {
		t.Errorf("asked %v, page %T", s.asks != nil, s.page)
	}
}

// The line under a page is that of the page: what lies behind it is hidden.
func TestThePointerTellsNothingOfWhatAPageHides(t *testing.T) {
	s := faceAt(t, smallBoard(), 100)
	said := s.status.text.Text
	s.surf.MouseMoved(s.mouse(geom.Pt(300, 200), desktop.MouseButton(0)))
	s.surf.stale()
	if got := s.status.text.Text; got != said || got != s.p.hint() {
		t.Errorf("the line says %q", got)
	}
	s.press("Escape")
	s.surf.MouseMoved(s.mouse(geom.Pt(300, 200), desktop.MouseButton(0)))
	if got := s.status.text.Text; got == said {
		t.Error("without the page the pointer tells nothing either")
	}
}
