package ui

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"heartside/app/session"
	"heartside/app/sheet"
	"heartside/model"
	"heartside/model/say"
)

// presses are the programs of the system through which a sheet is printed.
type presses struct {
	folder string                                           // where files for printing are kept; "" for none
	open   func(path string) (wait func() error, err error) // the system's viewer
	send   func(path, name string) (said string, err error) // straight to the printer
}

// errNoViewer and errNoSpooler say that the system has no such program.
var (
	errNoViewer  = say.Later("no program was found that opens a PDF (there is no xdg-open)")
	errNoSpooler = say.Later("no program was found that takes files to a printer (there is no lp)")
)

// systemPresses are those of the system the program runs on.
func systemPresses() presses {
	return presses{folder: session.CacheDir(), open: openFile, send: sendFile}
}

// openFile hands a file to the system's viewer. wait returns once the viewer
// has taken it, or has failed to.
func openFile(path string) (wait func() error, err error) {
	var c *exec.Cmd
	switch runtime.GOOS {
	case "windows":
		c = exec.Command("rundll32", "url.dll,FileProtocolHandler", path)
	case "darwin":
		c = exec.Command("open", path)
	default:
		c = exec.Command("xdg-open", path)
	}
	if err := c.Start(); err != nil {
		if errors.Is(err, exec.ErrNotFound) {
			return nil, errNoViewer
		}
		return nil, say.Errorf("the system's viewer does not start: %w", err)
	}
	return c.Wait, nil
}

// sendFile gives a file to the spooler of the system.
func sendFile(path, name string) (string, error) {
	out, err := exec.Command("lp", "-t", name, path).CombinedOutput()
	said := strings.TrimSpace(string(out))
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return "", errNoSpooler
	case err != nil && said != "":
		return "", say.Errorf("the printer does not take it: %s", strings.TrimPrefix(said, "lp: "))
	case err != nil:
		return "", say.Errorf("the printer does not take it: %w", err)
	}
	return said, nil
}

// mostPrints is how many sheets printed last are kept in the folder.
const mostPrints = 8

// printFile writes the sheet to the folder for printing, and lets go of old
// ones there.
func printFile(doc *sheet.Document, folder, name string) (string, error) {
	if folder == "" {
		return "", say.Error("there is no folder for temporary files of yours: save the sheet as PDF and print that")
	}
	dir := filepath.Join(folder, "print")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", say.Errorf("the folder %s cannot be made: save the sheet as PDF and print that", dir)
	}
	path := filepath.Join(dir, name+".pdf")
	if _, err := sheet.Write(doc, path); err != nil {
		return "", err
	}
	old, _ := filepath.Glob(filepath.Join(dir, "*.pdf"))
	age := func(path string) int64 {
		if st, err := os.Stat(path); err == nil {
			return st.ModTime().UnixNano()
		}
		return 0
	}
	slices.SortFunc(old, func(a, b string) int {
		if age(a) > age(b) {
			return -1
		}
		return 1
	})
	for _, q := range old[min(mostPrints, len(old)):] {
		if q != path {
			os.Remove(q)
		}
	}
	return path, nil
}

// leaf is a sheet written for printing.
type leaf struct {
	path  string
	pages []model.PrintedPage
	of    string // the project's file, "" none yet
}

// print opens the sheet in the system's viewer, from which it is printed.
func (p *sheetPage) print() {
	p.printed(say.T("Opening the sheet in the system's viewer…"), func(l leaf) {
		wait, err := p.press.open(l.path)
		if err != nil {
			p.w.post(func() { p.notOpened(l, err) })
			return
		}
		p.w.post(func() {
			p.handed(l, say.T("Handed to the system's viewer: print from there."))
			p.w.trace.line("printing %s", l.path)
		})
		if err := wait(); err != nil {
			p.w.post(func() { p.notOpened(l, say.Errorf("the system's viewer did not open it (%w)", err)) })
		}
	})
}

// printed writes the sheet for printing and goes on with the file, beside the
// window.
func (p *sheetPage) printed(what string, then func(leaf)) {
	w := p.w
	if p.m.wrong != "" {
		w.say(p.m.wrong)
		return
	}
	w.keepSheet(&p.ask)
	w.say(what)
	of := w.ses.Path()
	p.with(func(doc *sheet.Document) {
		name := w.sheetName() + "-" + sheet.Code(w.ses.Committed())
		go func() {
			l := leaf{of: of}
			err := sheetSafe(func() (err error) {
				l.path, err = printFile(doc, p.press.folder, name)
				l.pages = doc.Marks()
				return err
			})
			if err != nil {
				w.post(func() { w.say(""); w.fail(say.T("The sheet could not be written for printing"), err) })
				return
			}
			then(l)
		}()
	})
}

// handed says what became of the sheet and where the file lies.
func (p *sheetPage) handed(l leaf, text string) {
	if p.w.work.Err() != nil {
		return
	}
	p.onPaper(l.pages, l.of)
	p.w.say(text)
	p.side.tell(say.F("✓ %s The file is %s", text, l.path))
}

// notOpened says that there is no viewer, where the file lies, and offers the
// printer.
func (p *sheetPage) notOpened(l leaf, why error) {
	if p.w.work.Err() != nil {
		return
	}
	p.w.say("")
	p.side.tell(say.F("⚠ Not opened. The file is %s", l.path))
	p.w.trace.line("not printed %s", l.path)
	p.w.ask(question{title: say.T("The sheet was not opened for printing"), yes: say.T("Send it to the printer"), no: say.T("Close"), other: say.T("Copy where it lies"), plain: true,
		body: wrapped(say.F("%s\n\nThe sheet lies here, ready to be opened and printed by hand:\n%s", ended(sentence(say.Err(why))), l.path), 0),
		do:   func() error { p.send(l); return nil },
		also: func() { p.copyPath(l.path) },
		size: fyne.NewSize(600, 300),
	})
}

func (p *sheetPage) copyPath(path string) {
	p.w.app.Clipboard().SetContent(path)
	p.w.say(say.F("Copied %s.", path))
}

// printAsk sends the sheet straight to the printer, after a question.
func (p *sheetPage) printAsk() {
	w := p.w
	if p.m.wrong != "" {
		w.say(p.m.wrong)
		return
	}
	p.with(func(doc *sheet.Document) {
		w.ask(question{title: say.T("Send the sheet to the printer?"), yes: say.F("Send %s", say.Count(len(doc.Pages), say.T("page"), say.T("pages"))), no: say.T("Go back"), plain: true,
			body: wrapped(say.F("All pages go to the printer the system uses by itself, through lp, on %s. Print (P) shows them in a viewer first, where printer and pages are chosen.", p.ask.paper.Name()), 0),
			do: func() error {
				p.printed(say.T("Sending the sheet to the printer…"), func(l leaf) { w.post(func() { p.send(l) }) })
				return nil
			}, size: fyne.NewSize(520, 230)})
	})
}

// send gives a written sheet to the printer, beside the window.
func (p *sheetPage) send(l leaf) {
	w, name := p.w, p.w.sheetName()
	w.say(say.T("Sending the sheet to the printer…"))
	go func() {
		said, err := p.press.send(l.path, name)
		w.post(func() {
			if w.work.Err() != nil {
				return
			}
			if err != nil {
				w.say("")
				p.side.tell(say.F("⚠ Not printed. The file is %s", l.path))
				w.fail(say.T("The sheet was not printed"), say.Errorf("%w. The sheet lies here: %s", err, l.path))
				return
			}
			text := say.T("Sent to the printer.")
			if said != "" {
				text = say.F("Sent to the printer: %s.", said)
			}
			p.handed(l, text)
		})
	}()
}
