package ui

import (
	"io/fs"
	"strings"

	"heartside/assets"
	"heartside/model/say"
)

// helpPart is one piece of a screen of the help.
type helpPart struct {
	kind helpKind
	text string // of an action: its id
}

type helpKind int

const (
	helpText helpKind = iota
	helpHead
	helpPoint
	helpDo
)

// helpScreen is a screen of the help: a stage of the job, or a matter.
type helpScreen struct {
	title string
	parts []helpPart
}

// readHelp reads the screens built into the program, in the language in use.
func readHelp() ([]helpScreen, error) {
	names, err := fs.Glob(assets.Help, "help/"+say.Language()+"/*.md")
	if err == nil && len(names) == 0 { // there is none in this language
		names, err = fs.Glob(assets.Help, "help/*.md")
	}
	if err != nil {
		return nil, say.Errorf("help: %w", err)
	}
	var out []helpScreen
	for _, name := range names { // in the order of their names
		data, err := fs.ReadFile(assets.Help, name)
		if err != nil {
			return nil, say.Errorf("help: %w", err)
		}
		out = append(out, parseHelp(string(data)))
	}
	return out, nil
}

// parseHelp takes a text apart by its lines: a line is a piece, whatever it
// begins with; lines without a sign that follow one another are one paragraph.
func parseHelp(text string) helpScreen {
	var s helpScreen
	joins := false // the next plain line goes on with the last piece
	for _, l := range strings.Split(text, "\n") {
		l = strings.TrimSpace(l)
		kind, rest := helpText, l
		switch {
		case l == "":
			joins = false
			continue
		case strings.HasPrefix(l, "# "):
			s.title, joins = l[2:], false
			continue
		case strings.HasPrefix(l, "## "):
			kind, rest = helpHead, l[3:]
		case strings.HasPrefix(l, "- "):
			kind, rest = helpPoint, l[2:]
		case strings.HasPrefix(l, "> "):
			kind, rest = helpDo, strings.TrimSpace(l[2:])
		case joins:
			s.parts[len(s.parts)-1].text += " " + l
			continue
		}
		s.parts = append(s.parts, helpPart{kind, rest})
		joins = kind == helpText || kind == helpPoint
	}
	return s
}

// keyed puts keys in the place of actions named in braces, as the actions have
// them.
func (a *actions) keyed(text string) string {
	for {
		at := strings.IndexByte(text, '{')
		end := strings.IndexByte(text, '}')
		if at < 0 || end < at {
			return text
		}
		key := "?"
		if x := a.byID[text[at+1:end]]; x != nil && len(x.Keys) > 0 {
			key = x.Keys[0].String()
		}
		text = text[:at] + key + text[end+1:]
	}
}

// found reports whether every word sought stands in a text, whatever the case.
func found(text, sought string) bool {
	text = strings.ToLower(text)
	for _, word := range strings.Fields(strings.ToLower(sought)) {
		if !strings.Contains(text, word) {
			return false
		}
	}
	return true
}
