package phone

import "heartside/model/say"

// words are the texts of the page, in the language of the program.
type words struct {
	Lang                       string // its code
	Title, Head                string
	Board, Part, Picture, Send string
	Limits, Wait, Open         string
}

// pageWords are the texts of a page that takes pictures within these limits.
func pageWords(l Limits) words {
	return words{
		Lang:    say.Language(),
		Title:   say.T("Photographs for Heartside"),
		Head:    say.T("Photographs for the rack"),
		Board:   say.T("1. Which board?"),
		Part:    say.T("2. What does it show?"),
		Picture: say.T("3. Take or choose the picture"),
		Send:    say.T("4. Send"),
		Limits:  say.F("Up to %s of %s each. Several at once are counted off: the next goes to the other face (or end), then to the boards that follow and have none. ✓ takes no more: it has a picture, or was entered by hand.", count(l.Count), size(l.Picture)),
		Wait:    say.T("After Send wait until this page says what arrived."),
		Open:    say.T("Pictures travel unencrypted: use this only on a network you trust."),
	}
}
