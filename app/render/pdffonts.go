package render

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"maps"
	"slices"
	"strings"
)

// family names a typeface to the library, which makes it small letters and puts
// libraryPrefix before it in the document. It is made as long as the name that
// takes its place there, so that nothing after it moves.
func (c cut) family() string {
	name := fmt.Sprintf("face%d", c)
	return name + strings.Repeat("x", len(subsetTag(nil))+len(c.postScript())-len(libraryPrefix)-len(name))
}

const libraryPrefix = "utf8"

// postScript is the typeface's own name.
func (c cut) postScript() string { return strings.TrimSuffix(files()[c], ".ttf") }

// subsetTag is the mark of a typeface cut down to some characters: six capitals
// and a plus, different for different characters (ISO 32000-1, 9.6.4).
func subsetTag(used map[rune]bool) string {
	h := fnv.New64a()
	for _, r := range slices.Sorted(maps.Keys(used)) {
		fmt.Fprint(h, r, " ")
	}
	n, tag := h.Sum64(), make([]byte, 6)
	for i := range tag {
		tag[i] = 'A' + byte(n%26)
		n /= 26
	}
	return string(tag) + "+"
}

// nameFonts gives the typefaces of a finished document their names. The library
// embeds the characters used and no others, but has names of its own without
// the mark that says so.
func (p *PDF) nameFonts(doc []byte) []byte {
	for c := range cuts {
		if !p.fonts[c] {
			continue
		}
		name := subsetTag(p.used[c]) + c.postScript()
		for _, key := range [...]string{"/BaseFont /", "/FontName /"} {
			doc = bytes.ReplaceAll(doc, []byte(key+libraryPrefix+c.family()), []byte(key+name))
		}
	}
	return doc
}
