package ui

import (
	"strings"
	"testing"

	"heartside/app/session"
	"heartside/assets"
	"heartside/model/file"
)

// Forms opened and kept as they are change nothing, in a language with a decimal
// comma too: what is shown is read back as what it was.
func TestFormsReadTheirOwnNumbers(t *testing.T) {
	foreign(t)
	job := strings.NewReplacer(
		"{rh: 45, temp: 20}", "{rh: 45.5, temp: 20.5}", "kerf: 3,", "kerf: 3.2,", "thickness: 26\n", "thickness: 26.3\n", "length: 1500\n", "length: 1500.5\n",
		"streak: 0.12", "streak: 0.125", "allowances:", "behaviour: {sap-factor: 1.05}\nallowances:",
	).Replace(fileText(t, assets.Demo, "demo/project.yaml"))
	for _, id := range []string{"project", "edit-board", "edit-panel", "size", "fitting", "terms"} {
		s := open(t, session.Blank(), 100)
		if err := s.ses.OpenFrom([]byte(job), "job", nil); err != nil {
			t.Fatal(err)
		}
		s.opened()
		s.take("t2")
		s.q.drain()
		was := string(file.Marshal(s.ses.Project()))
		if !s.act(id) || s.asks == nil {
			t.Fatalf("%s asks nothing", id)
		}
		shown := strings.Join(shownTexts(s.asks.pop), "\n")
		s.asks.confirm()
		s.q.drain()
		if s.asks != nil {
			t.Errorf("%s: what it shows is refused: %s", id, s.asks.trouble.Text)
		}
		if now := string(file.Marshal(s.ses.Project())); now != was {
			t.Errorf("%s: keeping what it shows changes the project:\n%s\nwas\n%s", id, now, was)
		}
		if pointed.MatchString(shown) || id == "project" && !strings.Contains(shown, "3,2 mm") {
			t.Errorf("%s: its numbers have no comma: %s", id, shown)
		}
	}
}
