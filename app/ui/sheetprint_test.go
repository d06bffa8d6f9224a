package ui

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"heartside/app/sheet"
)

func TestSheetPrinted(t *testing.T) {
	s := sheetAt(t, 100)
	s.typed("p")
	s.q.wait(t, "the viewer", func() bool { return strings.Contains(s.p.side.done.Text, "print from there") })
	if len(s.opened) != 1 || !strings.HasPrefix(s.opened[0], filepath.Join(s.folder, "print")) || !strings.Contains(s.opened[0], s.p.side.code.now) {
		t.Fatalf("opened %v", s.opened)
	}
	data, err := os.ReadFile(s.opened[0])
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("%d bytes, %v", len(data), err)
	}
	// The bench is told which pages are on paper.
	if n := len(s.ses.Committed().Printed); n != len(s.p.m.doc.Pages) {
		t.Errorf("%d pages are known as printed", n)
	}
	if !strings.Contains(s.p.side.done.Text, s.opened[0]) || len(s.sent) > 0 {
		t.Errorf("told %q, sent %v", s.p.side.done.Text, s.sent)
	}
}

func TestSheetWithoutViewer(t *testing.T) {
	for name, set := range map[string]func(*sheetStage){
		"none":   func(s *sheetStage) { s.noOpen = errNoViewer },
		"failed": func(s *sheetStage) { s.noView = errors.New("exit status 3") },
	} {
		s := sheetAt(t, 100)
		set(s)
		s.act("sheet-print")
		s.q.wait(t, "the message", func() bool { return s.asks != nil })
		list, _ := filepath.Glob(filepath.Join(s.folder, "print", "*.pdf"))
		if len(list) != 1 || !strings.Contains(labelText(s.asks.q.body), list[0]) {
			t.Fatalf("%s: %q does not say where %v lies", name, labelText(s.asks.q.body), list)
		}
		s.asks.q.also()
		if got := s.app.Clipboard().Content(); got != list[0] {
			t.Errorf("%s: copied %q", name, got)
		}
		s.asks.confirm()
		s.q.wait(t, "the printer", func() bool { return strings.Contains(s.said, "Shop-7") })
		if len(s.sent) != 1 || s.sent[0] != list[0] {
			t.Errorf("%s: sent %v", name, s.sent)
		}
	}
}

// Nothing goes to the printer that was not asked about.
func TestSheetStraightToThePrinter(t *testing.T) {
	s := sheetAt(t, 100)
	s.typed("l")
	if s.asks == nil || !strings.Contains(s.asks.q.yes, itoa(len(s.p.m.doc.Pages))) {
		t.Fatal("it does not ask")
	}
	s.asks.cancel()
	s.q.drain()
	if len(s.sent) > 0 {
		t.Fatal("it prints without a yes")
	}
	s.noSend = errNoSpooler
	s.typed("l")
	s.asks.confirm()
	s.q.wait(t, "the message", func() bool { return s.asks != nil && s.asks.q.title == "The sheet was not printed" })
	if got := labelText(s.asks.q.body); !strings.Contains(got, "no lp") || !strings.Contains(got, s.folder) {
		t.Errorf("it says %q", got)
	}
}

// Printing can be asked for from the panels: the page opens and prints.
func TestPrintFromThePanels(t *testing.T) {
	s := demo(t, 100)
	if a := s.acts.byID["sheet-print"]; !a.can() {
		t.Fatal("it cannot be asked for")
	}
	s.act("sheet")
	p := s.sheetUp()
	p.press = presses{folder: t.TempDir(), open: func(string) (func() error, error) { return nil, errNoViewer }}
	s.act("sheet-print") // the pages are not made yet
	if len(p.m.then) != 1 {
		t.Errorf("%d wait for the pages", len(p.m.then))
	}
	s.q.wait(t, "the message", func() bool { return s.asks != nil })
}

func TestOldPrintsGo(t *testing.T) {
	s := sheetAt(t, 100)
	dir := filepath.Join(s.folder, "print")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	begin := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range mostPrints + 3 {
		path := filepath.Join(dir, "old"+itoa(10+i)+".pdf")
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, begin, begin.AddDate(0, 0, i)); err != nil {
			t.Fatal(err)
		}
	}
	path, err := printFile(s.p.m.doc, s.folder, "new")
	if err != nil {
		t.Fatal(err)
	}
	list, _ := filepath.Glob(filepath.Join(dir, "*.pdf"))
	if len(list) != mostPrints {
		t.Errorf("%d files are kept", len(list))
	}
	// Of 11 old ones the 7 newest stay beside the new one: from number 14.
	if _, err := os.Stat(filepath.Join(dir, "old13.pdf")); err == nil {
		t.Error("an old one stays")
	}
	for _, p := range []string{path, filepath.Join(dir, "old14.pdf"), filepath.Join(dir, "old20.pdf")} {
		if _, err := os.Stat(p); err != nil {
			t.Errorf("%s is gone", filepath.Base(p))
		}
	}
	if _, err := printFile(&sheet.Document{}, "", "x"); err == nil {
		t.Error("without a folder it does not say so")
	}
}

// The programs of the system are found by name on the path.
func TestSystemPrograms(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("another program is called there")
	}
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	if _, err := openFile("x.pdf"); !errors.Is(err, errNoViewer) {
		t.Errorf("without xdg-open: %v", err)
	}
	if _, err := sendFile("x.pdf", "x"); !errors.Is(err, errNoSpooler) {
		t.Errorf("without lp: %v", err)
	}
	write := func(name, script string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("#!/bin/sh\n"+script+"\n"), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	// xdg-open ends with 3 where it finds no viewer (its manual page).
	write("xdg-open", "exit 3")
	wait, err := openFile("x.pdf")
	if err != nil || wait() == nil {
		t.Errorf("a viewer that fails: %v", err)
	}
	write("lp", `echo "lp: Error - no default destination available." >&2; exit 1`)
	if _, err := sendFile("x.pdf", "x"); err == nil || !strings.Contains(err.Error(), "no default destination") {
		t.Errorf("without a printer: %v", err)
	}
	write("lp", `[ "$1 $2 $3" = "-t name x.pdf" ] && echo "request id is Shop-8 (1 file(s))"`)
	if said, err := sendFile("x.pdf", "name"); err != nil || !strings.Contains(said, "Shop-8") {
		t.Errorf("%q, %v", said, err)
	}
}
