package ui

import "testing"

// F7 explains the figures of every page that has some.
func TestPagesExplainTheirFigures(t *testing.T) {
	for _, id := range []string{"arrange", "match", "keep-trim", "yard", "bench", "behave"} {
		s := demo(t, 100)
		s.q.drain()
		s.act(id)
		if s.page == nil {
			t.Errorf("%s: the page does not show", id)
			continue
		}
		title, list := s.pageMeanings()
		if title == "" || len(list) < 2 {
			t.Errorf("%s: %q, %d meanings", id, title, len(list))
		}
		s.act("explain")
		if s.asks == nil || s.asks.q.title != title {
			t.Errorf("%s: nothing is explained", id)
		}
	}
}
