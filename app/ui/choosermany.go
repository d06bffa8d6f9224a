package ui

import (
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"heartside/model/say"
)

// ticks are the files ticked in a chooser, in the order of ticking.
type ticks struct {
	list []string
	text *widget.Label
	all  *keyButton
}

func (t *ticks) icon(path string) fyne.Resource {
	if slices.Contains(t.list, path) {
		return theme.CheckButtonCheckedIcon()
	}
	return theme.CheckButtonIcon()
}

// ticking is the line that counts what is ticked.
func (c *chooser) ticking() fyne.CanvasObject {
	c.tick.text = wrapped("", widget.MediumImportance)
	c.list.all = c.tickAll
	c.tick.all = newKeyButton(nil, say.T("Tick all here"), c.tickAll)
	c.tellTicks()
	return container.NewBorder(nil, nil, nil, container.NewVBox(c.tick.all), c.tick.text)
}

func (c *chooser) tellTicks() {
	text := say.T("Space ticks a picture, Ctrl+A all in the folder, Enter uses what is ticked.")
	if n := len(c.tick.list); n > 0 {
		text = say.F("%s ticked.", say.Count(n, say.T("picture"), say.T("pictures")))
		here := 0
		for _, p := range c.tick.list {
			if filepath.Dir(p) == filepath.Clean(c.dir) {
				here++
			}
		}
		if here < n {
			text += say.F(" %s of them in other folders.", itoa(n-here))
		}
	}
	c.tick.text.SetText(text)
}

// turnTick ticks a row of the list, or takes its tick away.
func (c *chooser) turnTick(i int) {
	path := filepath.Join(c.dir, c.rows[i].name)
	if at := slices.Index(c.tick.list, path); at >= 0 {
		c.tick.list = slices.Delete(c.tick.list, at, at+1)
	} else {
		c.tick.list = append(c.tick.list, path)
	}
	c.w.mended()
	c.list.RefreshItem(i)
	c.tellTicks()
}

// tickAll ticks all pictures of the folder; where all are ticked it takes the
// ticks away.
func (c *chooser) tickAll() {
	var here []string
	for _, r := range c.rows {
		if !r.folder {
			here = append(here, filepath.Join(c.dir, r.name))
		}
	}
	in := func(p string) bool { return slices.Contains(here, p) }
	had := len(c.tick.list)
	c.tick.list = slices.DeleteFunc(c.tick.list, in)
	if had-len(c.tick.list) < len(here) {
		c.tick.list = append(c.tick.list, here...)
	}
	c.w.mended()
	c.list.Refresh()
	c.tellTicks()
}

// takeMany uses the files.
func (c *chooser) takeMany(paths []string) error {
	if err := c.q.many(paths); err != nil {
		return err
	}
	c.w.set.keepFolder(c.dir)
	return nil
}
