package say

import (
	"unicode"
	"unicode/utf8"
)

// Upper makes a text begin with a capital letter.
func Upper(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 || r == utf8.RuneError {
		return text
	}
	return string(unicode.ToUpper(r)) + text[n:]
}

// Lower makes a text that is to go on within a sentence begin with a small letter;
// in English alone, as other languages may want their capitals kept.
func Lower(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	if n == 0 || r == utf8.RuneError || texts.Load() != nil {
		return text
	}
	return string(unicode.ToLower(r)) + text[n:]
}
