package ui

import (
	"os"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
)

// settings are the maker's habits, kept between starts. Nothing here is part
// of a project.
type settings struct{ p fyne.Preferences }

// How many recent files are kept.
const mostRecent = 10

const (
	keyLook     = "look"
	keyText     = "text"
	keyRecent   = "recent"
	keyStarted  = "started"
	keyFolder   = "folder"
	keyPaper    = "paper"
	keyCopies   = "copy-photos"
	keyMaker    = "maker"
	keyLanguage = "language"
	keyHints    = "hints-done"
)

// look returns the look and text size to start with; the environment, for
// tests and scripts, goes before what was kept.
func (s settings) look(env func(string) string) (Look, int) {
	look := Look(s.p.StringWithFallback(keyLook, string(FollowSystem)))
	if v := Look(env("HEARTSIDE_THEME")); v != "" {
		look = v
	}
	if look != Light && look != Dark {
		look = FollowSystem
	}
	text := s.p.IntWithFallback(keyText, 100)
	if v, err := strconv.Atoi(env("HEARTSIDE_TEXT")); err == nil {
		text = v
	}
	return look, text
}

func (s settings) keepLook(look Look, text int) {
	s.p.SetString(keyLook, string(look))
	s.p.SetInt(keyText, text)
}

// language is the one to speak; the environment goes before what was chosen.
func (s settings) language(env func(string) string) Language {
	if env != nil {
		if l := Language(env("HEARTSIDE_LANGUAGE")); l != "" {
			return l
		}
	}
	return Language(s.p.String(keyLanguage))
}

func (s settings) keepLanguage(l Language) { s.p.SetString(keyLanguage, string(l)) }

// recent returns the files opened last that are still there, newest first.
func (s settings) recent() []string {
	var out []string
	for _, path := range s.p.StringList(keyRecent) {
		if _, err := os.Stat(path); err == nil {
			out = append(out, path)
		}
	}
	return out
}

// opened puts a file at the head of the recent ones.
func (s settings) opened(path string) {
	list := slices.DeleteFunc(s.p.StringList(keyRecent), func(p string) bool { return p == path })
	list = append([]string{path}, list...)
	s.p.SetStringList(keyRecent, list[:min(len(list), mostRecent)])
}

// first reports whether the program never ran here before, and remembers that
// it has.
func (s settings) first() bool {
	if s.p.Bool(keyStarted) {
		return false
	}
	s.p.SetBool(keyStarted, true)
	return true
}

// folder is where files were last opened or saved.
func (s settings) folder() string {
	if f := s.p.String(keyFolder); f != "" {
		if st, err := os.Stat(f); err == nil && st.IsDir() {
			return f
		}
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	return home
}

// paper is the paper last written on in a project of these units, "" for none
// yet.
func (s settings) paper(units string) string { return s.p.String(keyPaper + "-" + units) }

func (s settings) keepPaper(units, paper string) { s.p.SetString(keyPaper+"-"+units, paper) }

// copies reports whether pictures are copied beside the project.
func (s settings) copies() bool { return s.p.Bool(keyCopies) }

func (s settings) keepCopies(on bool) { s.p.SetBool(keyCopies, on) }

func (s settings) keepFolder(path string) { s.p.SetString(keyFolder, path) }

// hints are those of the first hour that need not come again, a bit each.
func (s settings) hints() int { return s.p.Int(keyHints) }

func (s settings) keepHints(done int) { s.p.SetInt(keyHints, done) }

// maker is the name that stands on sheets, "" none.
func (s settings) maker() string { return s.p.String(keyMaker) }

func (s settings) keepMaker(name string) { s.p.SetString(keyMaker, name) }
