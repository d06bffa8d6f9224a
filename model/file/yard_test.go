package file

import (
	"strings"
	"testing"

	"heartside/model"
)

const yardText = `yard:
  species: walnut-black
  without-rack: true
  boards:
    - id: G
      length: 2300
      width: 180
      thickness: 26
      say: keep
      price: {amount: 9.5, per: board-foot}
      faces:
        1:
          zones:
            - {kind: sap, polygon: [[0, 0], [2300, 0], [2300, 22], [0, 22]]}
        2: {}
clear-stock: {price: {amount: 16, per: board-foot}, loss: 0.25}
`

func TestYardWrittenLikeByHand(t *testing.T) {
	p, _, err := Read([]byte("heartside: 1\ncurrency: EUR\n"+yardText), "yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(Marshal(p))
	if !strings.HasSuffix(text, yardText) || !strings.Contains(text, "\nunits: mm\ncurrency: EUR\n") {
		t.Errorf("written as\n%s", text)
	}
	o := p.Offer("G")
	if o == nil || o.Say != model.OfferKeep || o.Board.Species != "walnut-black" || !o.Board.Faces[1].Known || p.Clear.Loss != 0.25 {
		t.Errorf("read as %+v, %+v", p.Yard, p.Clear)
	}
}

// Faults name the line they are on.
func TestFaultsOfTheYardAreFound(t *testing.T) {
	for _, c := range []struct{ from, to, line, what string }{
		{"width: 180", "width: 0", "9", "width"},
		{"say: keep", "say: maybe", "11", "say"},
		{"loss: 0.25", "loss: 25", "18", "loss"},
		{"thickness: 26", "thick: 26", "10", "thick"},
	} {
		_, _, err := Read([]byte("heartside: 1\ncurrency: EUR\n"+strings.Replace(yardText, c.from, c.to, 1)), "yard.yaml")
		if err == nil || !strings.Contains(err.Error(), "yard.yaml:"+c.line) || !strings.Contains(err.Error(), c.what) {
			t.Errorf("%s: %v", c.to, err)
		}
	}
}
