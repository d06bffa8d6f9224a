package file

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"heartside/layout/colour"
	"heartside/layout/geom"
	"heartside/model"
)

// there writes and reads back.
func there(t interface{ Fatalf(string, ...any) }, p *model.Project) (*model.Project, []byte) {
	text := Marshal(p)
	q, _, err := Read(text, "again.yaml")
	if err != nil {
		t.Fatalf("what was written cannot be read: %v\n%s", err, text)
	}
	return q, text
}

func TestFixturesComeBack(t *testing.T) {
	for name, data := range fixtures(t) {
		p, _, err := Read(data, name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		q, text := there(t, p)
		if !reflect.DeepEqual(p, q) {
			t.Errorf("%s: read %+v\nand back %+v", name, p, q)
		}
		if again := Marshal(q); !bytes.Equal(text, again) {
			t.Errorf("%s: written twice it differs:\n%s\n%s", name, text, again)
		}
	}
}

// What a maker would see: the order of keys, flow style, trimmed numbers.
func TestWrittenLikeByHand(t *testing.T) {
	p := read(t, "contract.yaml")
	p.Boards[0].Length = 2400.00049
	p.Boards[0].Moisture = 8.0999999999
	want := `heartside: 1
name: Hall table
units: mm
climate: {now: {rh: 45, temp: 20}, dry: {rh: 30, temp: 20}, wet: {rh: 65, temp: 22}}
limits: {streak: 0.12, mix: [0.25, 0.6]}
allowances: {kerf: 3, rest: 3, joint: 1.5, ends: 25, panel-edge: 5, after-glue: 1.5, snipe: 60, flaw-margin: 10}
machines: {flatten: 300, thickness: 330, shortest: 300, narrowest: 50}
boards:
  - id: A
    species: walnut-black
    length: 2400
    width: 210
    thickness: 26
    moisture: 8.1
    price: {amount: 12.5, per: board-foot}
    bark: 2
    pith: {across: 105, depth: -60}
    planes: from-marked-end
    log: {name: L1, order: 2}
    shape: {cup: 1, bow: 4, crook: 2, twist: 1}
    wanted: heart
    faces:
      1:
        photo: photos/a1.jpg
        corners: [[130, 450], [3880, 460], [3900, 95], [120, 80]]
        base: heart
        zones:
          - {kind: sap, polygon: [[0, 0], [2400, 0], [2400, 38], [0, 52]]}
      2:
        zones:
          - {kind: sap, polygon: [[0, 150], [2400, 168], [2400, 210], [0, 210]]}
    ends: {a: {photo: photos/a-a.jpg}, b: {}}
panels:
  - id: top
    role: top
    length: 900
    width: 450
    thickness: 20
    shape: rectangle
    show: face
    look: sap-out
    wanted: heart
    unwanted-limit: {face: 0.3, back: 1}
    strips:
      - {id: A1, board: A, x: 40, y: 8, length: 930, width: 92, angle: 0, up: 1, turned: false, shift: 0, pinned: false, stage: planned}
  - id: side
    role: other
    length: 700
    width: 380
    thickness: 20
    shape: rectangle
    show: face
    look: as-laid
    unwanted-limit: {face: 1, back: 1}
    strips: []
spares: []
joined:
  - {panels: [top, side], how: fixed, edges: [left, top]}
kept: []
`
	if got := string(Marshal(p)); got != want {
		t.Errorf("got:\n%s", got)
	}
}

// A region that trimming would flatten keeps its digits.
func TestTrimmingNeverSpoilsAProject(t *testing.T) {
	p := read(t, "contract.yaml")
	thin := geom.Polygon{{X: 10, Y: 5}, {X: 1000, Y: 5}, {X: 1000, Y: 5.0002}}
	p.Boards[0].Faces[0].Zones[0].Polygon = thin
	if err := model.Validate(p); err != nil {
		t.Fatal(err)
	}
	q, _ := there(t, p)
	if !reflect.DeepEqual(p, q) {
		t.Errorf("%v", q.Boards[0].Faces[0].Zones)
	}
}

func TestWordsComeBack(t *testing.T) {
	for _, w := range []string{
		"", " ", "null", "Null", "~", "true", "no", "Y", "1", "1.5", "0x1F", "1e3", ".inf", "-", "- a", "a: b", "a #b", "#a", "a,b", "[a]", "{a}",
		"&a", "*a", "!a", "|", ">", "%a", "@a", "`a`", "'a'", `"a"`, `back\slash`, "two\nlines", "tab\there", "\u00a0", "\u2028", "\ufeff", "\x00\x7f\u0085", "é", "日本", "🪵",
		"2024-05-01", "12:30:45", "<<", "=", "a  b", " a", "a ", "photos/a 1.jpg", `C:\photos\a.jpg`, "a-b_c.d", "?", "? a", "---", "...", "a:", ":a", "a/(b)+c",
	} {
		p := model.NewProject()
		p.Name = w
		b := model.NewBoard("A", "teak", 100, 100, 20)
		b.Note, b.Faces[0] = w, model.Face{Photo: w, Reference: w, Known: true}
		p.Boards = []*model.Board{b}
		if q, text := there(t, p); !reflect.DeepEqual(p, q) {
			t.Errorf("%q came back as %q:\n%s", w, q.Name, text)
		}
	}
}

// gen draws what a project may hold, lengths on the grid of 0.001 mm.
type gen struct{ *rapid.T }

func (g gen) mm(name string, lo, hi float64) float64 {
	return float64(rapid.IntRange(int(math.Ceil(lo*1000)), int(hi*1000)).Draw(g.T, name)) / 1000
}

func (g gen) word(name string, of ...string) string { return rapid.SampledFrom(of).Draw(g.T, name) }

func (g gen) coin(name string) bool { return rapid.Bool().Draw(g.T, name) }

// triangle lies on a face, never flat and never crossing itself.
func (g gen) triangle(l, w float64) geom.Polygon {
	x := g.mm("x", 0, l-3)
	y := g.mm("y", 0, w-3)
	grid := func(v float64) float64 { return math.Round(v*1000) / 1000 }
	return geom.Polygon{{X: x, Y: y}, {X: grid(x + g.mm("dx", 1, 2)), Y: y}, {X: x, Y: grid(y + g.mm("dy", 1, 2))}}
}

func (g gen) strip(id string, board string) model.Strip {
	s := model.Strip{ID: id, L: g.mm("l", 0.001, 19999), W: g.mm("w", 0.001, 19999), Up: rapid.IntRange(1, 2).Draw(g.T, "up"),
		Turned: g.coin("turned"), Shift: g.mm("shift", -500, 500), Pinned: g.coin("pinned"), Stage: model.Planned}
	if board == "" {
		return s
	}
	s.Board, s.X, s.Y, s.Angle = board, g.mm("x", -10, 3000), g.mm("y", -10, 300), g.mm("angle", -89.999, 90)
	s.Stage = model.Stage(g.word("stage", "planned", "sawn", "planed", "jointed", "glued"))
	if g.coin("row") {
		s.Row = g.word("row name", "1", "12", "chest: top row")
	}
	if g.coin("off") {
		s.Off = &[2]float64{g.mm("off 1", 0, 5), g.mm("off 2", 0, 5)}
	}
	if g.coin("planed") {
		s.Planed = &model.PlanedSap{Near: model.Tape{g.mm("near", 0, s.W)}, Far: model.Tape{0, g.mm("far", 0, s.W)}, Face: rapid.IntRange(0, 2).Draw(g.T, "face")}
	}
	return s
}

// yard draws boards on offer: their wood is the yard's, and of a board only what
// is found out before it is bought stands in the file.
func (g gen) yard() *model.Yard {
	y := &model.Yard{Species: g.word("wood", "walnut-black", "odd one"), Wanted: model.Wanted(g.word("to show", "", "heart", "sap", "both")), NoRack: g.coin("without rack")}
	for i := range rapid.IntRange(0, 2).Draw(g.T, "offers") {
		b := g.board(fmt.Sprint("o", i))
		y.Offers = append(y.Offers, model.Offer{Say: model.Decision(g.word("say", "", "keep", "leave")), Board: &model.Board{
			ID: b.ID, Species: y.Species, Wanted: y.Wanted, Length: b.Length, Width: b.Width, Thickness: b.Thickness, Price: b.Price, Faces: b.Faces, Note: b.Note}})
	}
	return y
}

func (g gen) board(id string) *model.Board {
	b := model.NewBoard(id, g.word("species", "walnut-black", "teak", "odd one"), g.mm("length", 10, 6000), g.mm("width", 10, 900), g.mm("thickness", 11, 100))
	b.Moisture, b.Note = g.mm("moisture", 0, 60), rapid.String().Draw(g.T, "note")
	b.Wanted = model.Wanted(g.word("wanted", "", "heart", "sap", "both"))
	b.Planes = model.Planes(g.word("planes", "", "from-marked-end", "to-marked-end", "mixed"))
	b.Bark = model.Bark(g.word("bark", "", "none"))
	if g.coin("price") {
		b.Price = &model.Price{Amount: g.mm("amount", 0, 9999), Per: g.word("per", "board", "board-foot", "cubic-foot", "cubic-metre")}
	}
	if g.coin("log") {
		b.Log = &model.Log{Name: g.word("log", "L1", "yard 7: top"), Order: rapid.IntRange(0, 9).Draw(g.T, "order")}
	}
	for i := range rapid.IntRange(0, 3).Draw(g.T, "piths") {
		b.Pith = append(b.Pith, model.Pith{X: float64(i), HasX: true, Across: g.mm("across", -200, 200), Depth: g.mm("depth", -200, 200)})
	}
	if g.coin("end") {
		b.Heart = g.mm("heart", 0, 900)
		b.Ends[1] = model.End{Photo: "photos/e.jpg", Corners: &[4]geom.Point{{X: 0, Y: 0}, {X: 200, Y: 2}, {X: 210, Y: 40}, {X: 2, Y: 33}}}
	}
	for i := range b.Faces {
		f := &b.Faces[i]
		if f.Known = g.coin("known"); !f.Known {
			continue
		}
		if g.coin("read") {
			f.Bow, f.White = g.mm("bow", -0.3, 0.3), &[3]float64{1, 0.5, g.mm("white", 0.125, 8)}
			f.Split = &model.Split{By: model.SplitFound, Sure: g.mm("sure", 0, 1)}
			f.Tones = []model.Tone{{Kind: model.Sap, Mean: colour.Lab{L: 70, A: 6, B: 20.5}, Spread: 3.25}}
		}
		f.Photo, f.Reference = g.word("photo", "", "photos/x.jpg", "../a b.png"), g.word("reference", "", "grey: 1")
		f.Base = model.ZoneKind(g.word("base", "", "heart", "sap", "unseen"))
		if g.coin("corners") {
			f.Corners = &[4]geom.Point{{X: 0.5, Y: 90.25}, {X: 200, Y: 95}, {X: 210, Y: 4}, {X: 2, Y: 3}}
		}
		if g.coin("outline") {
			f.Outline = geom.Polygon{{X: 0, Y: 0}, {X: b.Length, Y: 0}, {X: b.Length, Y: b.Width}}
		}
		for range rapid.IntRange(0, 3).Draw(g.T, "zones") {
			f.Zones = append(f.Zones, model.Zone{Kind: model.ZoneKind(g.word("kind", "heart", "sap", "flaw", "unseen")), Polygon: g.triangle(b.Length, b.Width)})
		}
		for range rapid.IntRange(0, 2).Draw(g.T, "grain") {
			f.Grain = append(f.Grain, g.triangle(b.Length, b.Width)) // an open line of three points
		}
	}
	b.Spoiled = g.coin("spoiled")
	if g.coin("cut") && b.Faces[0].Outline == nil && b.Faces[1].Outline == nil && b.Length > 10 {
		b.Cut = [2]float64{g.mm("cut marked", 0, 4), g.mm("cut other", 0, 4)}
	}
	b.Edges = model.Edges(g.word("edges", "", "waney", "waney-measured"))
	return b
}

func (g gen) part(id string, boards []*model.Board) model.Part {
	n := model.NewPart(id, model.PartKind(g.word("kind", "leg", "rail", "breadboard-end", "other")), rapid.IntRange(1, 1000).Draw(g.T, "count"),
		g.mm("length", 1, 3000), g.mm("width", 1, 300), g.mm("thickness", 1, 300))
	n.Wanted = model.Wanted(g.word("wanted", "", "heart", "sap", "both"))
	for range rapid.IntRange(0, min(3, 3*len(boards))).Draw(g.T, "places") {
		n.Places = append(n.Places, model.PartPlace{Board: rapid.SampledFrom(boards).Draw(g.T, "board").ID, X: g.mm("x", -10, 3000), Y: g.mm("y", -10, 300),
			L: g.mm("l", 0.001, 19999), W: g.mm("w", 0.001, 19999), Angle: g.mm("angle", -89.999, 90),
			Stage: model.Stage(g.word("stage", "planned", "sawn", "planed", "jointed", "glued"))})
	}
	return n
}

func (g gen) project() *model.Project {
	p := model.NewProject()
	p.Name, p.Units = rapid.String().Draw(g.T, "name"), "inch"
	p.Limits = model.Limits{Streak: g.mm("streak", 0, 1), Mix: [2]float64{0, g.mm("mix", 0, 1)}}
	p.Allowances.Kerf = g.mm("kerf", 0, 10)
	for i := range rapid.IntRange(0, 3).Draw(g.T, "boards") {
		p.Boards = append(p.Boards, g.board(string(rune('A'+i))))
	}
	board := func() string {
		if len(p.Boards) == 0 || g.coin("empty") {
			return ""
		}
		return rapid.SampledFrom(p.Boards).Draw(g.T, "board").ID
	}
	for i := range rapid.IntRange(0, 2).Draw(g.T, "panels") {
		n := model.NewPanel(fmt.Sprint("p", i), model.Role(g.word("role", "top", "door", "other")), g.mm("length", 10, 3000), g.mm("width", 10, 2000), g.mm("thickness", 5, 50))
		n.Look, n.Wanted = model.Look(g.word("look", "as-laid", "sap-in", "even-mix")), model.Wanted(g.word("wanted", "", "sap"))
		n.BothShow, n.FrontNamed = g.coin("both"), g.coin("front")
		n.Rings = model.Rings(g.word("rings", "", "alternate", "bark-up", "heart-up"))
		n.UnwantedLimit[0] = g.mm("limit", 0, 1)
		if g.coin("poly") {
			n.Shape, n.Points = model.Poly, g.triangle(n.Length, n.Width)
			n.Hidden = []geom.Polygon{g.triangle(n.Length, n.Width)}
		}
		for k := range rapid.IntRange(0, 4).Draw(g.T, "strips") {
			n.Strips = append(n.Strips, g.strip(fmt.Sprint(k), board()))
		}
		p.Panels = append(p.Panels, n)
		if g.coin("kept") {
			p.Kept = append(p.Kept, model.Kept{Panel: n.ID, Name: g.word("kept", "a", "b: c"), Strips: n.Strips})
		}
	}
	if len(p.Boards) > 0 {
		p.Spares = []model.Strip{g.strip("S", p.Boards[0].ID)}
	}
	if len(p.Panels) == 2 {
		p.Joined = []model.Joined{{Panels: [2]string{"p0", "p1"}, How: "free", Edges: [2]string{"left", g.word("edge", "top", "back edge")}}}
	}
	if len(p.Panels) == 2 && g.coin("set") {
		p.Sets = []model.Set{{Name: g.word("name", "Doors", "a, b: c", "- 1"), Panels: []string{"p1", "p0"}, Gap: g.mm("gap", 0, 100),
			Way: model.SetWay(g.word("way", "beside", "along")), Match: model.SetMatch(g.word("match", "none", "mirrored", "slipped", "in-order"))}}
	}
	for i := range rapid.IntRange(0, 2).Draw(g.T, "parts") {
		p.Parts = append(p.Parts, g.part(fmt.Sprint("leg ", i), p.Boards))
	}
	if g.coin("printed") {
		p.Printed = []model.PrintedPage{{Page: "panel", Of: g.word("of", "", "p0", "- a"), Part: rapid.IntRange(0, 3).Draw(g.T, "part"), Paper: g.word("paper", "", "a4"), Sheet: g.word("sheet", "", "A7KQ2"), Mark: g.word("mark", "0", "1e5", "ab")}}
	}
	if g.coin("record") {
		p.Record = []model.FinishStep{{What: g.word("what", "dye", "oil: tung", "- x"), Product: rapid.String().Draw(g.T, "product"), Wood: model.ZoneKind(g.word("on", "", "heart", "sap")),
			Date: g.word("day", "", "2026-03-01"), Note: g.word("step note", "", "two coats")}}
		if g.coin("where") {
			p.Record[0].Panels, p.Record[0].Where = []string{"p0", "gone"}, []model.FinishPlace{model.OnShow, model.OnEdges}
		}
	}
	if g.coin("clear") {
		p.Clear = &model.ClearStock{Loss: g.mm("loss", 0, 0.9), Thickness: g.mm("as sold", 1, 90)}
		if g.coin("price of it") {
			p.Clear.Price = &model.Price{Amount: g.mm("amount", 0, 9999), Per: g.word("per", "board-foot", "cubic-foot", "cubic-metre")}
		}
	}
	p.Currency = g.word("currency", "", "EUR")
	if g.coin("yard") {
		p.Yard = g.yard()
	}
	if g.coin("colours") {
		p.Colours = []model.Colours{{Species: "teak", Years: g.mm("years", 0, 50), Sap: &colour.Lab{L: g.mm("L", 0, 100), A: g.mm("a", -50, 50)}}}
	}
	return p
}

func TestProjectsComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := gen{t}.project()
		if err := model.Validate(p); err != nil {
			t.Skip(err)
		}
		q, text := there(t, p)
		if !reflect.DeepEqual(p, q) {
			t.Fatalf("came back changed:\n%+v\n%+v\n%s", p, q, text)
		}
		if again := Marshal(q); !bytes.Equal(text, again) {
			t.Fatalf("written twice it differs:\n%s\n%s", text, again)
		}
	})
}

// Exact keeps what Marshal rounds.
func TestExactComesBackExactly(t *testing.T) {
	p := read(t, "contract.yaml")
	q := *p
	b := *p.Boards[0]
	b.Length += 1.0 / 3 // no decimal ends there
	q.Boards = append([]*model.Board{&b}, p.Boards[1:]...)
	r, _, err := Read(Exact(&q), "exact.yaml")
	if err != nil || !reflect.DeepEqual(&q, r) {
		t.Errorf("came back changed, or not at all: %v", err)
	}
}

func FuzzRead(f *testing.F) {
	n := 0
	for _, data := range fixtures(f) {
		f.Add(data)
		n++
	}
	for _, s := range []string{sound, caseText, "", "heartside: 1\n", "heartside: 2\n", "heartside: 1\na: &a *a\n", "heartside: 1\nname: !!binary aGk=\n",
		"heartside: 1\nboards: [{id: A, species: x, length: 1e-3, width: 0.0010001, thickness: 1}]\n", "heartside: 1\n? {a: b}\n: c\n", "\xff\xfeh\x00"} {
		f.Add([]byte(s))
		n++
	}
	if n < 11 {
		f.Fatalf("only %d seeds", n)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, _, err := Read(data, "fuzz.yaml")
		if err != nil {
			var v *VersionError
			var e *Error
			if p != nil || !errors.As(err, &v) && !errors.As(err, &e) || err.Error() == "" {
				t.Fatalf("%v, %v", p, err)
			}
			return
		}
		q, text := there(t, p)
		if again := Marshal(q); !bytes.Equal(text, again) {
			t.Fatalf("written twice it differs:\n%s\n%s", text, again)
		}
	})
}
