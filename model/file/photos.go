package file

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"heartside/model"
	"heartside/model/say"
)

type photo struct {
	field string // within the board: "faces.1.photo"
	where string // in words: "face 1"
	name  string
}

// photosOf lists the pictures a board names.
func photosOf(b *model.Board) []photo {
	var out []photo
	for i, f := range b.Faces {
		if f.Photo != "" {
			out = append(out, photo{fmt.Sprintf("faces.%d.photo", i+1), say.F("face %d", i+1), f.Photo})
		}
	}
	for i, e := range b.Ends {
		if e.Photo != "" {
			out = append(out, photo{"ends." + string(rune('a'+i)) + ".photo", [...]string{say.T("marked end"), say.T("other end")}[i], e.Photo})
		}
	}
	return out
}

// absolute reports whether a photo path names a place on one computer.
func absolute(name string) bool {
	return strings.HasPrefix(name, "/") || strings.HasPrefix(name, `\`) || filepath.IsAbs(name) ||
		len(name) > 1 && name[1] == ':'
}

// PhotoPath returns where a photo of a project in the folder dir lies.
func PhotoPath(dir, name string) string {
	if absolute(name) {
		return filepath.FromSlash(name)
	}
	return filepath.Join(dir, filepath.FromSlash(name))
}

// MissingPhotos tells of every photo of p that is not found from the folder
// dir of its file.
func MissingPhotos(p *model.Project, dir string) []Notice {
	var out []Notice
	for _, b := range p.Boards {
		for _, ph := range photosOf(b) {
			info, err := os.Stat(PhotoPath(dir, ph.name))
			if err == nil && !info.IsDir() {
				continue
			}
			out = append(out, Notice{File: ph.name, Field: say.F("board %s, %s", b.ID, ph.where),
				Text: say.T("the photo is not found; put it back or choose another, until then the face is drawn without it")})
		}
	}
	return out
}
