package ui

import (
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2/widget"

	"heartside/app/sheet"
	"heartside/model"
	"heartside/model/say"
)

// sheetName is a name for files of the sheet, without ending.
func (w *Window) sheetName() string {
	if p := w.ses.Path(); p != "" {
		return strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
	}
	return fileName(w.ses.Committed().Name)
}

// save asks for a file and writes the sheet as its ending says.
func (p *sheetPage) save() {
	w := p.w
	if p.m.wrong != "" {
		w.say(p.m.wrong)
		return
	}
	endings := sheet.Endings()
	w.choose(choosing{title: say.T("Save the layout sheet"), yes: say.T("Save"), trace: "export", name: w.sheetName() + endings[0], kinds: endings,
		extra: wrapped(say.F("The ending says what is written: %s.", endingWords(endings)), widget.LowImportance),
		do: func(path string) error {
			if filepath.Ext(path) == "" {
				path += endings[0]
			}
			if ext := strings.ToLower(filepath.Ext(path)); !slices.Contains(endings, ext) {
				return say.Errorf("%s: the sheet is written as %s; end the name so", filepath.Base(path), strings.Join(endings, ", "))
			}
			if path == w.ses.Path() {
				return say.Errorf("%s is the project itself; choose another name", filepath.Base(path))
			}
			return w.overwrite(path, "", func() error {
				w.post(func() { p.write(path) })
				return nil
			})
		}})
}

// endingWords says what each ending means.
func endingWords(endings []string) string {
	var out []string
	for _, e := range endings {
		switch e {
		case ".pdf":
			e += say.T(" one document")
		case ".png":
			e += say.T(" a picture of each page")
		case ".svg":
			e += say.T(" a drawing in true size of every panel and board")
		case ".csv", ".yaml":
			e += say.T(" the cutting list")
		}
		out = append(out, e)
	}
	return strings.Join(out, ", ")
}

// write writes the pages beside the window.
func (p *sheetPage) write(path string) {
	w := p.w
	w.keepSheet(&p.ask)
	w.say(say.F("Writing %s…", filepath.Base(path)))
	of := w.ses.Path()
	p.with(func(doc *sheet.Document) {
		go func() {
			var files []string
			err := sheetSafe(func() (err error) { files, err = sheet.Write(doc, path); return err })
			var pages []model.PrintedPage
			if ext := strings.ToLower(filepath.Ext(path)); err == nil && (ext == ".pdf" || ext == ".png") {
				pages = doc.Marks()
			}
			w.post(func() {
				if w.work.Err() != nil {
					return
				}
				if err != nil {
					w.say("")
					w.fail(say.T("The sheet could not be written"), err)
					return
				}
				w.trace.wrote(path)
				p.onPaper(pages, of)
				text := say.F("Wrote %s: %s.", filepath.Base(path), say.Count(max(len(doc.Pages), len(files)), say.T("page"), say.T("pages")))
				w.say(text)
				p.side.tell(say.F("✓ %s It lies in %s.", text, filepath.Dir(path)))
			})
		}()
	})
}

// onPaper remembers pages that were printed or written to a file, unless
// another project has been opened meanwhile: from then on the bench tells which
// of them are out of date.
func (p *sheetPage) onPaper(pages []model.PrintedPage, of string) {
	if of == p.w.ses.Path() && (of != "" || !p.gone()) {
		p.w.ses.Printed(pages)
	}
}
