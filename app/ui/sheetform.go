package ui

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"heartside/app/sheet"
	"heartside/model/unit"
)

func papers() []sheet.Paper { return []sheet.Paper{sheet.A4, sheet.Letter} }

func paperWords(p sheet.Paper) string {
	if p == sheet.Letter {
		return "Letter"
	}
	return "A4"
}

// sheetAsk writes the layout sheet.
func (w *Window) sheetAsk() {
	units := w.ses.Units()
	usual := sheet.A4
	if units == unit.Inch {
		usual = sheet.Letter
	}
	for _, p := range papers() {
		if paperWords(p) == w.set.paper(string(units)) {
			usual = p
		}
	}
	paper := choice(w, papers(), paperWords, usual)
	pages := newSheetPages(w)
	name := fileName(w.ses.Committed().Name)
	if p := w.ses.Path(); p != "" {
		name = strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
	}
	extra := container.NewVBox(pairs(named("Paper"), paper, named("Pages"), pages.boxes()),
		wrapped("The ending says what is written: .pdf one document, .png a picture of each page.", widget.LowImportance))
	w.choose(choosing{title: "Layout sheet", yes: "Write the sheet", trace: "export", name: name + ".pdf", kinds: []string{".pdf", ".png"}, extra: extra,
		do: func(path string) error {
			if filepath.Ext(path) == "" {
				path += ".pdf"
			}
			if ext := strings.ToLower(filepath.Ext(path)); ext != ".pdf" && ext != ".png" {
				return fmt.Errorf("%s: the sheet is written as .pdf or .png; end the name so", filepath.Base(path))
			}
			which, err := pages.chosen()
			if err != nil {
				return err
			}
			return w.overwrite(path, "", func() error {
				w.set.keepPaper(string(units), paperWords(chosen(paper, papers())))
				w.post(func() { w.writeSheet(path, chosen(paper, papers()), which) })
				return nil
			})
		}})
}

// sheetPages chooses the pages of a sheet; all to begin with.
type sheetPages struct{ panel, boards, fit, sources *tick }

func newSheetPages(w *Window) *sheetPages {
	return &sheetPages{panel: newTick(w, "Panels", true, nil), boards: newTick(w, "Boards", true, nil),
		fit: newTick(w, "Glue-up and fit", true, nil), sources: newTick(w, "Sources of the numbers", true, nil)}
}

func (p *sheetPages) boxes() fyne.CanvasObject {
	return container.NewGridWithColumns(2, p.panel, p.boards, p.fit, p.sources)
}

func (p *sheetPages) chosen() (sheet.Pages, error) {
	out := sheet.Pages{Panel: p.panel.Checked, Boards: p.boards.Checked, Fit: p.fit.Checked, Sources: p.sources.Checked}
	if out == (sheet.Pages{}) {
		return out, errors.New("no pages are chosen: tick some")
	}
	return out, nil
}

// writeSheet makes the sheet beside the window, with what was on screen when
// it was asked for.
func (w *Window) writeSheet(path string, paper sheet.Paper, pages sheet.Pages) {
	in := sheet.FromSession(w.ses, time.Now().Format("2006-01-02"), paper, w.faces)
	in.Pages = pages
	for i := range in.Panels {
		if in.Panels[i].Reading != nil {
			in.Panels[i].Reading = in.Panels[i].Reading.Clone() // the session goes on reading
		}
	}
	bar := widget.NewProgressBarInfinite()
	up := w.ask(question{title: "Writing the layout sheet", body: container.NewVBox(bar, wrapped(path, widget.LowImportance)), no: "Leave it to itself", size: fyne.NewSize(460, 190)})
	go func() {
		doc, err := sheet.Build(in)
		var files []string
		if err == nil {
			files, err = sheet.Write(doc, path)
		}
		w.post(func() {
			bar.Stop()
			up.close()
			if err != nil {
				w.fail("The sheet could not be written", err)
				return
			}
			w.trace.wrote(path)
			w.say(fmt.Sprintf("Wrote %s: %s.", filepath.Base(path), count(max(len(doc.Pages), len(files)), "page", "pages")))
		})
	}()
}
