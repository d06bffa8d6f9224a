package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// Every action and key that the texts name is there.
func TestHelpNamesWhatThereIs(t *testing.T) {
	s := open(t, session.Blank(), 100)
	screens, err := readHelp()
	if err != nil || len(screens) < 11 {
		t.Fatalf("%d screens, %v", len(screens), err)
	}
	for _, x := range screens {
		if x.title == "" || len(x.parts) < 4 {
			t.Errorf("screen %q has %d pieces", x.title, len(x.parts))
		}
		for _, p := range x.parts {
			if p.kind == helpDo && (s.acts.byID[p.text] == nil || len(s.acts.byID[p.text].Keys) == 0) {
				t.Errorf("%s: no action with a key %q", x.title, p.text)
			}
			if got := s.acts.keyed(p.text); strings.ContainsAny(got, "{}?") && !strings.Contains(p.text, "?") {
				t.Errorf("%s: %q", x.title, got)
			}
		}
	}
}

// The help says the same in every language: as many pages, pieces of each kind and
// the same actions.
func TestHelpIsInEveryLanguage(t *testing.T) {
	t.Cleanup(func() { say.Use("", nil) })
	english, err := readHelp()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range []Language{German, Spanish} {
		if err := speak(l); err != nil {
			t.Fatal(err)
		}
		got, err := readHelp()
		if err != nil || len(got) != len(english) {
			t.Fatalf("%s: %d pages, want %d: %v", l, len(got), len(english), err)
		}
		for i, x := range got {
			if x.title == english[i].title || len(x.parts) != len(english[i].parts) {
				t.Errorf("%s: page %q has %d pieces, %q %d", l, x.title, len(x.parts), english[i].title, len(english[i].parts))
				continue
			}
			for k, p := range x.parts {
				e := english[i].parts[k]
				if p.kind != e.kind || (p.kind == helpDo) != (p.text == e.text) || strings.Count(p.text, "{") != strings.Count(e.text, "{") {
					t.Errorf("%s, page %q: %q is said for %q", l, x.title, p.text, e.text)
				}
			}
		}
	}
}

func TestParseHelp(t *testing.T) {
	got := parseHelp("# One\n\nA line\ngoes on.\n\n- a point\n  longer\n## Head\nText\n> undo\n")
	want := []helpPart{{helpText, "A line goes on."}, {helpPoint, "a point longer"}, {helpHead, "Head"}, {helpText, "Text"}, {helpDo, "undo"}}
	if got.title != "One" || len(got.parts) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got.parts[i] != want[i] {
			t.Errorf("piece %d is %+v, want %+v", i, got.parts[i], want[i])
		}
	}
}

func helpSays(p *helpPage) string {
	var all []string
	for _, o := range inside(p.text) {
		switch x := o.(type) {
		case *widget.Label:
			all = append(all, x.Text)
		case *helpButton:
			all = append(all, x.Text)
		}
	}
	return strings.Join(all, "\n")
}

// What is typed is looked for in all screens; a button turns to the screen.
func TestHelpSearch(t *testing.T) {
	s := demo(t, 100)
	s.act("help")
	p, ok := s.page.(*helpPage)
	if !ok {
		t.Fatal("the help does not show")
	}
	s.win.Canvas().Focused().TypedRune('h') // on the button that has the keys
	if s.win.Canvas().Focused() != p.search || p.search.Text != "h" {
		t.Errorf("a letter begins no search: %q", p.search.Text)
	}
	p.search.SetText("HORSES walnut")
	if all := helpSays(p); !strings.Contains(all, "To “Cautions”") || strings.Contains(all, "Kerf") {
		t.Errorf("found:\n%s", all)
	}
	p.search.SetText("zzz")
	if all := helpSays(p); !strings.Contains(all, "nowhere") {
		t.Errorf("found:\n%s", all)
	}
	p.turn(7)
	if all := helpSays(p); p.search.Text != "" || !strings.Contains(all, "Kerf") {
		t.Errorf("after turning:\n%s", all)
	}
}

// A button leaves the help and goes there; Escape leads back.
func TestHelpGoes(t *testing.T) {
	s := demo(t, 100)
	s.act("help")
	p := s.page.(*helpPage)
	p.goTo(s.acts.byID["behave"])
	if _, ok := s.page.(*behavePage); !ok {
		t.Error("the button does not go there")
	}
	s.act("help")
	s.pageTyped(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if _, ok := s.page.(*behavePage); !ok {
		t.Error("Escape does not lead back to where the help was opened")
	}
	e := open(t, session.Blank(), 200)
	e.act("help")
	e.page.(*helpPage).goTo(e.acts.byID["behave"])
	if e.page != nil || !strings.Contains(e.status.text.Text, "no board") {
		t.Errorf("without a panel: page %v, says %q", e.page, e.status.text.Text)
	}
}
