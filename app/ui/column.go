package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/app/session"
	"heartside/model/say"
)

// column is the right side of the window: readings of the panel on screen,
// its warnings worst first, then edges, ends and joints.
type column struct {
	w     *Window
	box   fyne.CanvasObject
	body  *fyne.Container
	reads *readings
	cards *fyne.Container
	more  *moreReadings
	seen  *seenTogether
	empty *widget.Label
	next  *nextSteps // what comes next, where something is missing
	told  *notices
	how   *widget.Button // how the readings are meant

	notes  []session.Note // as shown
	shown  string         // what the cards were made for
	open   map[string]bool
	list   []*card
	waits  bool // a later refresh is on its way
	latest time.Time
}

// settle bounds how often the warnings are written anew while a
// gesture runs; the figures follow every frame.
const settle = 100 * time.Millisecond

func newColumn(w *Window) *column {
	c := &column{w: w, open: map[string]bool{}}
	c.body = container.New(columnLayout{})
	scroll := container.NewVScroll(c.body)
	c.box = container.NewBorder(nil, nil, widget.NewSeparator(), nil, container.New(roomLayout{fyne.NewSize(180, 120)}, scroll))
	c.rebuild()
	return c
}

// rebuild makes the column's parts anew, after a change of text size.
func (c *column) rebuild() {
	c.reads, c.more, c.seen = newReadings(c.w), newMoreReadings(c.w), newSeenTogether(c.w)
	c.cards = container.New(stackLayout{})
	c.empty = wrapped("", widget.MediumImportance)
	c.empty.Hide()
	c.next = newNextSteps(c.w)
	was := c.told
	c.told = newNotices(c.w)
	if was != nil {
		c.told.dismissed = was.dismissed
	}
	c.how = widget.NewButtonWithIcon(say.T("How is this read?"), theme.QuestionIcon(), func() { c.w.act("explain") })
	c.how.Importance, c.how.Alignment = widget.LowImportance, widget.ButtonAlignLeading
	c.shown, c.list = "-", nil
	c.body.Objects = []fyne.CanvasObject{
		c.reads.box, c.told.box, container.New(stackLayout{}, c.reads.rows.box, c.seen.box), c.how, snug(c.empty), c.next.box, c.cards, c.more.box,
	}
	if c.w.large() { // the warnings must not be pushed out of sight
		o := c.body.Objects
		o[2], o[3], o[4], o[5], o[6] = o[4], o[5], o[6], o[2], o[3]
	}
	c.body.Refresh()
}

// show follows the session: figures at once, warnings at most ten times a
// second while a gesture runs.
func (c *column) show() {
	c.reads.show()
	if c.w.ses.Previewing() && time.Since(c.latest) < settle {
		if !c.waits {
			c.waits = true
			time.AfterFunc(settle, func() {
				c.w.post(func() {
					c.waits = false
					c.showNotes()
				})
			})
		}
		return
	}
	c.showNotes()
}

// showNotes shows the warnings, and what to do where there is nothing to warn
// of yet.
func (c *column) showNotes() {
	c.latest = time.Now()
	c.more.show()
	id := c.w.ses.Selected().Panel
	c.notes = c.w.ses.Notes(id)
	if c.w.surf != nil && c.w.surf.pointed >= len(c.notes) {
		c.w.surf.pointed = -1
	}
	text := c.advice(id)
	c.write(c.empty, text)
	if c.next.show(c.w.missing()) {
		c.body.Refresh()
	}
	if told, seen := c.told.show(), c.seen.show(); told || seen {
		c.body.Refresh()
	}
	if key := c.key(); key != c.shown {
		c.shown = key
		c.fill()
	}
}

// write sets a text of the column, and has it laid out anew where the text is
// another.
func (c *column) write(l *widget.Label, text string) {
	if l.Text == text {
		return
	}
	l.Hidden = text == ""
	l.SetText(text)
	c.body.Refresh()
}

// key tells one list of warnings from another.
func (c *column) key() string {
	k := ""
	for _, n := range c.notes {
		k += n.Title + "\x00" + n.Text + "\x00" + fmt.Sprint(n.FixesKnown, n.Severe, n.Under) + "\x00"
		for _, f := range n.Fixes {
			k += f.Text + "\x00" + f.After + "\x00" + f.Cost + "\x00"
		}
	}
	return k
}

// noteID tells a warning from the others of its panel, so that an opened one
// stays open while its figures change.
func noteID(n session.Note) string { return string(n.Kind) + fmt.Sprint(n.Strips, n.Side) }

func (c *column) fill() {
	c.cards.RemoveAll()
	c.list = nil
	for i, n := range c.notes {
		id := noteID(n)
		if _, known := c.open[id]; !known {
			c.open[id] = i == 0 && n.Severe
		}
		k := newCard(c, i, n, c.open[id])
		c.list = append(c.list, k)
		c.cards.Add(k)
	}
	c.cards.Refresh()
	c.body.Refresh()
	c.w.trace.settled(c.w)
}

// advice is what to do where nothing can be judged yet, "" where it can.
func (c *column) advice(id string) string {
	p := c.w.ses.Project()
	n := p.Panel(id)
	switch {
	case len(p.Boards) == 0:
		return say.T("Begin with the boards: give the first one its letter and its sizes, or enter many at once at the rack.")
	case n == nil:
		return say.T("The boards are in. Now give the first panel its finished size.")
	case len(n.Strips) == 0:
		return say.T("This panel has no strips yet. F5 proposes how many, of which width.")
	}
	r := c.w.ses.Reading(id)
	switch {
	case r == nil:
		return ""
	case r.Placed == 0:
		return say.T("All places are empty. Drag one onto a board, or sweep along the board in hand. Shift+Enter lays them all.")
	case r.Placed < len(n.Strips):
		return say.F("%s still empty.", say.Count(len(n.Strips)-r.Placed, say.T("place is"), say.T("places are")))
	case len(c.notes) == 0:
		return say.T("No warnings.")
	}
	return ""
}

// point lights the place of warning i up, -1 none.
func (c *column) point(i int) {
	if c.w.surf.pointed == i {
		return
	}
	c.w.surf.pointed = i
	for k, card := range c.list {
		card.setPointed(k == i)
	}
	c.w.surf.stale()
	if i >= 0 && i < len(c.notes) {
		c.w.say(c.notes[i].Title)
	}
}

// cycle points at the next warning.
func (c *column) cycle(by int) {
	if len(c.list) == 0 {
		c.w.say(say.T("There is no warning."))
		return
	}
	c.point((c.w.surf.pointed + by + len(c.list)) % len(c.list))
}

// firstFix does the first fix of the warning pointed at, or of the worst.
func (c *column) firstFix() {
	i := max(c.w.surf.pointed, 0)
	if i >= len(c.notes) || len(c.notes[i].Fixes) == 0 {
		c.w.say(say.T("No fix is known for that warning."))
		return
	}
	c.apply(c.notes[i].Fixes[0])
}

// apply makes a fix part of the project.
func (c *column) apply(f session.Fix) {
	w := c.w
	w.nudge.settle()
	w.surf.pointed = -1
	panel := w.ses.Selected().Panel
	end := f.Kind == "turn"
	var strip string
	if len(f.Strips) > 0 {
		strip = f.Strips[0]
	}
	was, ok := lastStrip(w.ses.Panel(panel), strip)
	if err := w.ses.Apply(f); err != nil {
		w.fail(say.T("The fix cannot be done"), err)
		return
	}
	now, still := lastStrip(w.ses.Panel(panel), strip)
	if ok && still && was.Board != nil && (was.Up != now.Up || was.Turned != now.Turned) {
		w.surf.startRoll(was, end)
	}
	w.hints.fixed()
	w.say(say.F("Done: %s %s takes it back.", ended(f.Text), w.acts.byID["undo"].keyNames()))
}

// bold is a label for a heading in the column.
func bold(text string) *widget.Label {
	l := widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	l.SizeName = theme.SizeNameText
	return l
}
