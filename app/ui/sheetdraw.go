package ui

import (
	"image"
	"sync"

	"heartside/app/sheet"
)

// viewJob is a page as it is to be drawn.
type viewJob struct {
	doc  *sheet.Document
	page int
	dots float64 // an inch
	grey bool
}

// viewDrawer draws the page asked for last, one at a time.
type viewDrawer struct {
	mu   sync.Mutex
	next *viewJob
	now  viewJob
	busy bool
}

// want has a page drawn in the place of what was wanted before.
func (d *viewDrawer) want(j viewJob, done func(viewJob, *image.RGBA)) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.busy && d.now == j {
		d.next = nil
		return
	}
	d.next = &j
	if d.busy {
		return
	}
	d.busy = true
	go func() {
		for {
			d.mu.Lock()
			if d.next == nil {
				d.busy = false
				d.mu.Unlock()
				return
			}
			j := *d.next
			d.now, d.next = j, nil
			d.mu.Unlock()
			done(j, rastered(j.doc, j.page, j.dots, j.grey))
		}
	}()
}
