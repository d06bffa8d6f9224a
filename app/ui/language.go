package ui

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"heartside/assets"
	"heartside/model/say"
)

// Language is one the program speaks, by its code; SystemLanguage follows the
// system.
type Language string

// Languages.
const (
	SystemLanguage Language = ""
	English        Language = "en"
	American       Language = "en-US"
	German         Language = "de"
	Spanish        Language = "es"
)

// languages are those to choose from: the system's, English, and those that there
// are texts in.
func languages() []Language {
	out := []Language{SystemLanguage, English}
	files, err := fs.Glob(assets.Lang, "lang/*.json")
	if err != nil { // the pattern is sound
		return out
	}
	for _, f := range files {
		out = append(out, Language(strings.TrimSuffix(path.Base(f), ".json")))
	}
	return out
}

// languageName is what a language calls itself.
func languageName(l Language) string {
	switch l {
	case English:
		return "English"
	case American:
		return "English (US)"
	case German:
		return "Deutsch"
	case Spanish:
		return "Español"
	}
	if l != SystemLanguage {
		return string(l)
	}
	return say.T("As the system")
}

// resolved is the language that is spoken.
func (l Language) resolved() Language {
	if l == SystemLanguage {
		l = Language(lang.SystemLocale().LanguageString())
	}
	known := languages()[1:]
	if slices.Contains(known, l) {
		return l
	}
	if short, _, _ := strings.Cut(string(l), "-"); slices.Contains(known, Language(short)) {
		return Language(short)
	}
	return English
}

// textPrefix keeps a text from being taken for one of the words that a file of
// translations gives a meaning of their own.
const textPrefix = "§"

// translations reads what the program says in a language: English to it.
func translations(l Language) (map[string]string, error) {
	data, err := fs.ReadFile(assets.Lang, "lang/"+string(l)+".json")
	if err != nil {
		return nil, fmt.Errorf("language %s: %w", l, err)
	}
	var texts map[string]string
	if err := json.Unmarshal(data, &texts); err != nil {
		return nil, fmt.Errorf("language %s: %w", l, err)
	}
	return texts, nil
}

// speak says everything from now on in a language. The toolkit keeps the
// translations, for the locale it takes the system to be in.
func speak(l Language) error {
	l = l.resolved()
	if l == English {
		say.Use("", nil)
		return tell(toolkitTexts(nil), lang.SystemLocale())
	}
	texts, err := translations(l)
	if err != nil {
		return err
	}
	return speakWith(l, texts)
}

// speakWith says everything in a language with these texts.
func speakWith(l Language, texts map[string]string) error {
	keyed := toolkitTexts(texts)
	for english, text := range texts {
		keyed[textPrefix+english] = text
	}
	if err := tell(keyed, fyne.Locale(l), lang.SystemLocale()); err != nil {
		return fmt.Errorf("language %s: %w", l, err)
	}
	said := make(map[string]string, len(texts))
	for english := range texts {
		said[english] = lang.X(textPrefix+english, english)
	}
	say.Use(string(l), said)
	return nil
}

// toolkitTexts are the words that the toolkit says itself, in the menu of a text and
// to end the program, by its own keys; English where texts have them not.
func toolkitTexts(texts map[string]string) map[string]string {
	out := map[string]string{}
	for _, key := range []string{say.Mark("Cut [text]"), say.Mark("Copy"), say.Mark("Paste"), say.Mark("Select all"), say.Mark("Undo"), say.Mark("Redo"), say.Mark("Quit")} {
		word, _, _ := strings.Cut(key, " [")
		out[word] = cmp.Or(texts[key], word)
	}
	return out
}

// tell gives the toolkit translations for locales.
func tell(texts map[string]string, locales ...fyne.Locale) error {
	data, err := json.Marshal(texts)
	if err != nil {
		return err
	}
	for _, locale := range locales {
		if err := lang.AddTranslationsForLocale(data, locale); err != nil {
			return err
		}
	}
	return nil
}
