package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// choosing is a question for the path of a file.
type choosing struct {
	title string
	yes   string
	trace string   // what the tracer calls it
	name  string   // file name to begin with
	kinds []string // endings shown, with the dot
	must  bool     // the file must be there
	extra fyne.CanvasObject
	do    func(path string) error
	many  func(paths []string) error // several files may be ticked; in the place of do
}

// chooser is a dialog with a path to type and the folder's files to pick.
type chooser struct {
	w    *Window
	q    choosing
	path *field
	list *fileList
	dir  string
	rows []row
	tick ticks
}

// row is a folder or file of the list.
type row struct {
	name   string
	folder bool
}

// choose asks for a file.
func (w *Window) choose(q choosing) {
	c := &chooser{w: w, q: q, dir: w.set.folder()}
	c.path = w.newField(filepath.Join(c.dir, q.name), "")
	c.list = newFileList(w, func() int { return len(c.rows) },
		func() fyne.CanvasObject {
			return container.NewBorder(nil, nil, widget.NewIcon(theme.FileIcon()), nil, widget.NewLabel(""))
		},
		c.draw)
	c.list.OnSelected = c.pick
	c.list.typed = c.beginPath
	c.read()
	top := container.NewVBox(c.path)
	focus := fyne.Focusable(c.path)
	if q.many != nil {
		top.Add(c.ticking())
		focus = c.list
	}
	if q.extra != nil {
		top.Add(q.extra)
	}
	body := container.NewBorder(top, nil, nil, nil, c.list)
	w.ask(question{title: q.title, yes: q.yes, body: container.New(roomLayout{fyne.NewSize(300, 260)}, body),
		size: fyne.NewSize(640, 480), tall: true, focus: focus, do: c.confirm})
	if q.many != nil {
		c.tick.all.a = w.asks
	}
	c.path.CursorColumn = len([]rune(c.path.Text))
	c.path.Refresh()
	w.trace.asking(q.trace)
}

// beginPath lets a path be typed while the list has the keys.
func (c *chooser) beginPath(r rune) {
	if r != filepath.Separator && r != '/' && r != '~' {
		return
	}
	c.w.win.Canvas().Focus(c.path) // which marks all that stands there
	c.path.TypedRune(r)
}

func (c *chooser) draw(i int, o fyne.CanvasObject) {
	box := o.(*fyne.Container)
	label, mark := box.Objects[0].(*widget.Label), box.Objects[1].(*widget.Icon)
	r := c.rows[i]
	label.SetText(r.name)
	if r.folder {
		mark.SetResource(theme.FolderIcon())
	} else if c.q.many != nil {
		mark.SetResource(c.tick.icon(filepath.Join(c.dir, r.name)))
	} else {
		mark.SetResource(theme.FileIcon())
	}
}

// read lists the folder: folders first, then files of the kinds wanted.
func (c *chooser) read() {
	c.rows = c.rows[:0]
	if filepath.Dir(c.dir) != c.dir {
		c.rows = append(c.rows, row{"..", true})
	}
	entries, err := os.ReadDir(c.dir)
	if err != nil {
		if c.w.asks != nil {
			c.w.asks.tell(say.F("The folder %s cannot be read: %v. Type another path.", c.dir, err))
		}
	}
	var files []row
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		st, err := os.Stat(filepath.Join(c.dir, e.Name()))
		switch {
		case err != nil:
		case st.IsDir():
			c.rows = append(c.rows, row{e.Name(), true})
		case slices.Contains(c.q.kinds, strings.ToLower(filepath.Ext(e.Name()))):
			files = append(files, row{e.Name(), false})
		}
	}
	c.rows = append(c.rows, files...)
}

// pick follows a folder or takes a file's name.
func (c *chooser) pick(i int) {
	r := c.rows[i]
	c.list.UnselectAll()
	name := filepath.Base(c.path.Text)
	if !r.folder && c.q.many != nil {
		c.turnTick(i)
		return
	}
	if !r.folder {
		c.path.SetText(filepath.Join(c.dir, r.name))
		return
	}
	c.dir = filepath.Join(c.dir, r.name)
	c.read()
	c.list.ScrollToTop()
	c.list.Refresh()
	if c.q.must {
		name = ""
	}
	c.path.SetText(filepath.Join(c.dir, name))
}

func (c *chooser) confirm() error {
	if len(c.tick.list) > 0 {
		return c.takeMany(c.tick.list)
	}
	path := strings.TrimSpace(c.path.Text)
	if path == "" {
		return say.Error("no file is named: type a path or pick a file from the list")
	}
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			path = filepath.Join(home, rest)
		}
	}
	if !filepath.IsAbs(path) {
		path = filepath.Join(c.dir, path)
	}
	st, err := os.Stat(path)
	switch {
	case err == nil && st.IsDir() && c.q.many != nil && filepath.Clean(path) == filepath.Clean(c.dir):
		return say.Error("no picture is ticked: Space ticks one, Ctrl+A all in the folder")
	case err == nil && st.IsDir():
		c.dir = path
		c.read()
		c.list.Refresh()
		if c.q.many != nil {
			c.w.win.Canvas().Focus(c.list)
			return errAsked // stays open, on that folder
		}
		return say.Error("that is a folder: add the name of a file, or pick one from the list")
	case err != nil && c.q.must:
		return say.Errorf("there is no file %s; check the name", path)
	}
	if c.q.many != nil {
		return c.takeMany([]string{path})
	}
	if err := c.q.do(path); err != nil {
		return err
	}
	c.w.set.keepFolder(filepath.Dir(path))
	return nil
}
