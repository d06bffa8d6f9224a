package picture

import (
	"bytes"
	"unicode/utf8"

	"heartside/model/say"
)

// The formats that are read, as Info.Format names them.
const (
	formatJPEG = "JPEG"
	formatPNG  = "PNG"
	formatWebP = "WebP"
	formatTIFF = "TIFF"
	formatHEIC = "HEIC"
)

// Kinds returns the endings of the names of files that can be read, with their
// dot, in lower case.
func Kinds() []string {
	k := []string{".jpg", ".jpeg", ".jpe", ".jfif", ".png", ".webp", ".tif", ".tiff"}
	if withHEIC {
		k = append(k, ".heic", ".heif", ".hif")
	}
	return k
}

// marks are the first bytes of files that are told from pictures, with what
// they are. Sources: the specifications of each format.
var marks = []struct {
	off  int
	mark string
	kind Kind
	what string
}{
	{0, "%PDF-", NotAPicture, say.Mark("a PDF document")},
	{0, "GIF8", Unsupported, say.Mark("a GIF picture")},
	{0, "8BPS", Unsupported, say.Mark("a layered picture (PSD)")},
	{0, "\x00\x00\x00\x0cJXL ", Unsupported, say.Mark("a JPEG XL picture")},
	{0, "\xff\x0a", Unsupported, say.Mark("a JPEG XL picture")},
	{0, "\x00\x00\x00\x0cjP  ", Unsupported, say.Mark("a JPEG 2000 picture")},
	{0, "\xff\x4f\xff\x51", Unsupported, say.Mark("a JPEG 2000 picture")},
	{0, "II+\x00", Unsupported, say.Mark("a BigTIFF picture")},
	{0, "MM\x00+", Unsupported, say.Mark("a BigTIFF picture")},
	{0, "FUJIFILMCCD-RAW", Unsupported, say.Mark("a camera's raw file")},
	{0, "IIRO", Unsupported, say.Mark("a camera's raw file")},
	{0, "IIRS", Unsupported, say.Mark("a camera's raw file")},
	{0, "MMOR", Unsupported, say.Mark("a camera's raw file")},
	{0, "IIU\x00", Unsupported, say.Mark("a camera's raw file")},
	{8, "WAVE", NotAPicture, say.Mark("a sound")},
	{8, "AVI ", NotAPicture, say.Mark("a film")},
	{0, "\x1aE\xdf\xa3", NotAPicture, say.Mark("a film")},
	{0, "ID3", NotAPicture, say.Mark("a sound")},
	{0, "OggS", NotAPicture, say.Mark("a sound or a film")},
	{0, "PK\x03\x04", NotAPicture, say.Mark("a ZIP archive or an office document")},
	{0, "PK\x05\x06", NotAPicture, say.Mark("a ZIP archive")},
	{0, "\xd0\xcf\x11\xe0", NotAPicture, say.Mark("an office document")},
	{0, "7z\xbc\xaf\x27\x1c", NotAPicture, say.Mark("an archive")},
	{0, "Rar!", NotAPicture, say.Mark("an archive")},
	{0, "\x1f\x8b", NotAPicture, say.Mark("a compressed file")},
	{0, "{\\rtf", NotAPicture, say.Mark("an office document")},
	{0, "\x7fELF", NotAPicture, say.Mark("a program")},
	{0, "MZ", NotAPicture, say.Mark("a program")},
}

// brands are the main brands of files that begin with a file type box.
// Sources: ISO/IEC 23008-12 and the registry of brands.
var brands = map[string]struct {
	format string // "" where it is not read
	what   string
}{
	"heic": {formatHEIC, ""}, "heix": {formatHEIC, ""}, "heim": {formatHEIC, ""}, "heis": {formatHEIC, ""},
	"mif1": {formatHEIC, ""}, "mif2": {formatHEIC, ""}, "miaf": {formatHEIC, ""},
	"msf1": {formatHEIC, ""}, "hevc": {formatHEIC, ""}, "hevx": {formatHEIC, ""},
	"avif": {"", say.Mark("an AVIF picture")}, "avis": {"", say.Mark("a moving AVIF picture")},
	"jxl ": {"", say.Mark("a JPEG XL picture")}, "jp2 ": {"", say.Mark("a JPEG 2000 picture")},
	"crx ": {"", say.Mark("a camera's raw file")},
}

// sniff tells the format by the first bytes, whatever the name says.
func sniff(s *source) (string, error) {
	h, err := s.head(512)
	if err != nil {
		return "", explain("picture", err)
	}
	at := func(off int, mark string) bool {
		return len(h) >= off+len(mark) && string(h[off:off+len(mark)]) == mark
	}
	switch {
	case at(0, "\xff\xd8\xff"):
		return formatJPEG, nil
	case at(0, "\x89PNG\r\n\x1a\n"):
		return formatPNG, nil
	case at(0, "RIFF") && at(8, "WEBP"):
		return formatWebP, nil
	case at(0, "II*\x00"), at(0, "MM\x00*"):
		return formatTIFF, nil
	case at(4, "ftyp") && len(h) >= 12:
		b, ok := brands[string(h[8:12])]
		switch {
		case !ok:
			return "", foreign(NotAPicture, say.T("a film"))
		case b.format == "":
			return "", foreign(Unsupported, b.what)
		}
		return b.format, nil
	}
	for _, m := range marks {
		if at(m.off, m.mark) && (m.off == 0 || at(0, "RIFF")) {
			return "", foreign(m.kind, m.what)
		}
	}
	// A bitmap's second header says its own length.
	if at(0, "BM") && len(h) > 18 && h[14] >= 12 && h[15]|h[16]|h[17] == 0 {
		return "", foreign(Unsupported, say.T("a bitmap (BMP)"))
	}
	return "", foreign(NotAPicture, lookOf(h))
}

func foreign(k Kind, what string) *Error {
	if k == Unsupported {
		return unsupported(what, nil)
	}
	return &Error{k, say.F("this is %s, not a photograph", say.Of(what)), say.T("choose a photograph, or save the picture as JPEG"), nil}
}

// lookOf says what unknown bytes look like.
func lookOf(h []byte) string {
	low := bytes.ToLower(bytes.TrimSpace(bytes.TrimPrefix(h, []byte("\xef\xbb\xbf"))))
	switch {
	case len(bytes.Trim(h, "\x00")) == 0:
		return say.F("a file of zeros, as a copy that was broken off leaves it (looked at %d bytes)", len(h))
	case bytes.HasPrefix(low, []byte("<!doctype html")), bytes.HasPrefix(low, []byte("<html")):
		return say.T("a web page")
	case bytes.HasPrefix(low, []byte("<svg")):
		return say.T("a drawing (SVG)")
	case bytes.HasPrefix(low, []byte("<?xml")):
		return say.T("an XML file")
	case isText(h):
		return say.T("a text file")
	}
	return say.T("a file of an unknown kind")
}

func isText(h []byte) bool {
	for len(h) > 0 {
		r, n := utf8.DecodeRune(h)
		if r == utf8.RuneError && n == 1 {
			return len(h) < utf8.UTFMax // a letter cut off at the end
		}
		if r < ' ' && r != '\n' && r != '\r' && r != '\t' && r != '\f' {
			return false
		}
		h = h[n:]
	}
	return true
}
