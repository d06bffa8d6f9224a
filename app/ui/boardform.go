package ui

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model"
	"heartside/model/catalog"
	"heartside/model/say"
	"heartside/model/unit"
)

// boardForm is the dialog that a board begins and is changed with: identity,
// then sizes, then the sapwood widths taken with a tape.
type boardForm struct {
	w        *Window
	was      *model.Board // as it was, nil for a new one
	letter   *field
	chalk    *widget.Label
	species  *speciesField
	about    *widget.Label
	size     [3]*field // length, width, thickness
	moisture *field
	wanted   *pick
	edges    *pick
	stated   bool   // the maker has said what is wanted
	thick    string // the thickness that was asked about and is right
	bark     *pick
	planes   *pick
	buying   *buying
	seen2    *tick
	tape     [2][2][3]*field // face, marked edge or other edge, station
	drawing  *boardDrawing
}

// nextBoard is what a new board begins as: the next letter, and the species
// and wanted wood of the last one.
func (w *Window) nextBoard() *model.Board {
	p := w.ses.Project()
	b := &model.Board{ID: model.NextBoardID(p), Species: "walnut-black", Wanted: model.WantHeart}
	if n := len(p.Boards); n > 0 {
		b.Species, b.Wanted = p.Boards[n-1].Species, p.Boards[n-1].Wanted
	}
	return b
}

// newBoardAsk begins a board.
func (w *Window) newBoardAsk() {
	b := w.nextBoard()
	f := newBoardForm(w, b, nil)
	w.ask(question{title: say.T("New board"), body: f.body(), yes: say.T("Add the board"), size: fyne.NewSize(900, 700), focus: f.letter,
		do: func() error {
			out, err := f.board()
			if err != nil {
				return err
			}
			if err := f.askThick(out.Thickness); err != nil {
				return err
			}
			if w.ses.Project().Board(out.ID) != nil {
				return errors.New(say.F("letter: there is a board %s already; take the next free letter", out.ID))
			}
			if err := w.ses.Commit(model.AddBoard{Board: out}); err != nil {
				return err
			}
			w.ses.Select(session.Selection{Panel: w.ses.Selected().Panel, Strip: w.ses.Selected().Strip, Board: out.ID, Zone: -1})
			w.say(say.F("Chalk %s on the board now: marked end, corner of the marked edge, face-1 side.", out.ID))
			return nil
		}})
}

// editBoardAsk changes the board in hand.
func (w *Window) editBoardAsk() {
	b := w.board()
	f := newBoardForm(w, b, b)
	w.ask(question{title: say.F("Board %s", b.ID), body: f.body(), yes: say.T("Keep"), size: fyne.NewSize(900, 700), focus: f.size[0],
		do: func() error {
			out, err := f.board()
			if err != nil {
				return err
			}
			if err := f.askThick(out.Thickness); err != nil {
				return err
			}
			if out.ID != b.ID {
				to := out.ID
				out.ID = b.ID
				if err := w.ses.Commit(model.RenameBoard{From: b.ID, To: to}); err != nil {
					return err
				}
				out.ID = to
				w.holdBoard(to)
			}
			return w.ses.Commit(model.SetBoard{Board: out})
		}})
}

func newBoardForm(w *Window, b, was *model.Board) *boardForm {
	f := &boardForm{w: w, was: was}
	known := was != nil
	f.letter = w.newField(b.ID, "A")
	f.chalk = wrapped("", widget.MediumImportance)
	f.about = wrapped("", widget.LowImportance)
	f.species = newSpeciesField(w, b.Species, func() { f.propose(); f.changed() })
	f.size = [3]*field{w.lengthField(b.Length, known), w.lengthField(b.Width, known), w.lengthField(b.Thickness, known)}
	f.size[2].PlaceHolder = say.T("26 mm, or 4/4")
	if w.ses.Units() == unit.Inch {
		f.size[2].PlaceHolder = say.T(`1 1/4", or 5/4`)
	}
	f.moisture = w.newField("", say.T("not measured"))
	if b.Moisture > 0 {
		f.moisture.Text = say.Print("%g", b.Moisture)
	}
	wanted := b.Wanted
	if wanted == model.WantDefault {
		wanted = model.WantHeart
	}
	f.wanted = choice(w, woods(), wantedWords, wanted)
	f.stated = known
	f.wanted.changed = func() { f.stated = true }
	f.edges = choice(w, edgeKinds(), edgesWords, b.Edges)
	f.bark = choice(w, barks(), barkWords, b.Bark)
	f.planes = choice(w, planings(), planesWords, b.Planes)
	f.buying = newBuying(w, b)
	f.seen2 = newTick(w, say.T("I have looked at face 2"), b.Faces[1].Known, f.changed)
	for face := range f.tape {
		var marked, other model.Tape
		if known {
			marked, other = model.FaceTape(b, face+1)
		}
		for edge, tape := range [2]model.Tape{marked, other} {
			for i, v := range tape {
				f.tape[face][edge][i] = w.lengthField(v, known && v != 0)
				f.tape[face][edge][i].PlaceHolder, f.tape[face][edge][i].narrow = "0", true
				f.tape[face][edge][i].follow(f.changed)
			}
		}
	}
	f.drawing = newBoardDrawing(w)
	f.letter.follow(f.changed)
	for _, e := range f.size {
		e.follow(f.changed)
	}
	f.changed()
	return f
}

// body lays the form out.
func (f *boardForm) body() fyne.CanvasObject {
	identity := container.NewVBox(bold(say.T("1  Its letter")), pairs(named(say.T("Letter")), f.letter), f.chalk)
	sizes := container.NewVBox(bold(say.T("2  What it is")), pairs(
		named(say.T("Species")), f.species.field,
		named(say.T("Length")), f.size[0], named(say.T("Width")), f.size[1], named(say.T("Thickness")), f.size[2],
		named(say.T("Moisture, %")), f.moisture,
		named(say.T("Wanted")), f.wanted, named(say.T("Edges")), f.edges, named(say.T("Bark side")), f.bark, named(say.T("Planes")), f.planes), f.about)
	left := container.NewVBox(identity, widget.NewSeparator(), sizes)
	right := container.NewVBox(bold(say.T("3  Sapwood widths, with a tape")),
		wrapped(say.T("Width of the sapwood from each edge, at the marked end, in the middle and at the other end. Leave empty where there is none."), widget.LowImportance),
		f.tapeTable(0), f.seen2, f.tapeTable(1), f.drawing,
		bold(say.T("4  Where it is from, if you know")), f.buying.body())
	if f.w.look.TextPercent() > 125 {
		return container.NewVBox(left, widget.NewSeparator(), right)
	}
	return container.NewGridWithColumns(2, left, container.NewBorder(nil, nil, widget.NewSeparator(), nil, right))
}

// changed follows what is typed: the chalk mark, the species' sources, the
// drawing.
func (f *boardForm) changed() {
	id := strings.TrimSpace(f.letter.Text)
	f.chalk.SetText(say.F("Chalk %s on the marked end, at the corner of the marked edge, on the side you call face 1. Everything on screen and on the sheet refers to that mark.", id))
	t := say.T("No wood in the list has such a name.")
	if f.species != nil && f.species.found != "" {
		t = aboutSpecies(catalog.Find(f.species.found))
	}
	if f.about.Text != t {
		f.about.SetText(t)
	}
	for edge := range f.tape[1] {
		for _, e := range f.tape[1][edge] {
			if e == nil {
				return // still being made
			}
			if f.seen2.Checked == e.Disabled() {
				if f.seen2.Checked {
					e.Enable()
				} else {
					e.Disable()
				}
			}
		}
	}
	if f.drawing == nil {
		return
	}
	if b, err := f.board(); err == nil {
		f.drawing.show(b)
	}
}

// propose follows the species with the wood usually wanted of it, until the
// maker has said what is wanted.
func (f *boardForm) propose() {
	if f.stated || f.wanted == nil || f.species == nil || f.species.found == "" {
		return
	}
	for i, v := range woods() {
		if v == usuallyWanted(f.species.found) && f.wanted.SelectedIndex() != i {
			f.wanted.take(i)
		}
	}
}

// askThick asks about a thickness that few boards have.
func (f *boardForm) askThick(mm float64) error {
	most := 80.0
	if f.w.ses.Units() == unit.Inch {
		most = 3 * unit.InchMM
	}
	if mm <= most || f.size[2].Text == f.thick || f.was != nil && mm == f.was.Thickness {
		return nil
	}
	return f.w.sure(say.T("Is that right?"), say.F("The thickness comes to %s, which is more a beam than a board.", f.w.ses.Len(mm)), say.T("Yes, that thick"),
		func() { f.thick = f.size[2].Text })
}

// aboutSpecies tells what the table holds of a wood and where it is from.
func aboutSpecies(s catalog.Species) string {
	if !s.Known() {
		return say.T("This wood is not in the list, so nothing is known of it here.")
	}
	t := say.Of(s.Name) + ", " + s.Latin + ". "
	if v := s.Move.Tangential; v.OK {
		t += say.F("Moves %g of its width per 1 %% moisture, tangential (%s). ", v.Value, v.Text())
	}
	return say.F("%sColours on screen: %s.", t, say.Of(catalog.SwatchText))
}

// board reads the form.
func (f *boardForm) board() (*model.Board, error) {
	out := model.Board{}
	if f.was != nil {
		out = *f.was
	}
	out.ID = strings.TrimSpace(f.letter.Text)
	if out.ID == "" {
		return nil, say.Error("letter: every board needs one, such as A; chalk it on the board first")
	}
	var errs [6]error
	out.Species, errs[4] = f.species.wood()
	out.Length, errs[0] = f.sized(0, say.T("length"), out.Length)
	out.Width, errs[1] = f.sized(1, say.T("width"), out.Width)
	if f.was == nil || f.size[2].Text != f.w.ses.Len(f.was.Thickness) {
		out.Thickness, _, errs[2] = unit.ParseThickness(f.size[2].Text, f.w.ses.Units())
		if errs[2] != nil {
			errs[2] = say.Errorf("thickness: %w", errs[2])
		}
	}
	out.Moisture, errs[3] = f.moisture.number(say.T("moisture"))
	errs[5] = f.buying.read(&out)
	if err := first(errs[:]...); err != nil {
		return nil, err
	}
	out.Edges = chosen(f.edges, edgeKinds())
	if wanted := chosen(f.wanted, woods()); wanted != model.WantHeart || out.Wanted != model.WantDefault { // which is heartwood
		out.Wanted = wanted
	}
	out.Bark, out.Planes = chosen(f.bark, barks()), chosen(f.planes, planings())
	for i := range out.Faces {
		if err := f.face(&out, i); err != nil {
			return nil, err
		}
	}
	return &out, nil
}

func (f *boardForm) sized(i int, name string, was float64) (float64, error) {
	if f.was != nil && f.size[i].Text == f.w.ses.Len(was) {
		return was, nil
	}
	return f.size[i].size(name)
}

// removeBoard takes the board in hand out of the project.
func (w *Window) removeBoard() {
	b := w.board()
	n := 0
	for _, p := range w.ses.Project().Panels {
		for _, s := range p.Strips {
			if s.Board == b.ID {
				n++
			}
		}
	}
	if n == 0 {
		w.commit(model.RemoveBoard{ID: b.ID})
		return
	}
	w.ask(question{title: say.F("Remove board %s?", b.ID), yes: say.T("Remove"),
		body: wrapped(say.F("%s laid on it; their places in the panels become empty. Undo brings all back.", say.Count(n, say.T("strip is"), say.T("strips are"))), widget.MediumImportance),
		do:   func() error { return w.ses.Commit(model.RemoveBoard{ID: b.ID}) }})
}
