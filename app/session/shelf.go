package session

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"heartside/app/picture"
	"heartside/layout/photo"
)

// CacheDir returns the folder of the program in the user's cache, "" where
// there is none.
func CacheDir() string {
	dir, err := os.UserCacheDir()
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "heartside")
}

// Sizes of what is kept, engineering choices: 400 faces of 2400 x 210 mm take
// 600 MB squared and 90 MB in small, and the pictures on a large screen 100 MB.
const (
	mostSquared = 1 << 30
	mostLooks   = 256 << 20
	mostMemory  = 160 << 20
)

// shelf keeps squared photographs and their looks: all on disk, where there is
// a folder, and the latest in memory. Several goroutines may use it.
type shelf struct {
	squares, looks *picture.Store // nil: nothing is kept on disk
	memory         *memory
}

func newShelf(dir string, most int64) *shelf {
	if most <= 0 {
		most = mostMemory
	}
	s := &shelf{memory: newMemory(most)}
	if dir != "" {
		s.squares = picture.NewStore(filepath.Join(dir, "squared"), mostSquared)
		s.looks = picture.NewStore(filepath.Join(dir, "looks"), mostLooks)
	}
	return s
}

// order is a photograph as the goroutines that work know it.
type order struct {
	shot *shot // its name in memory; not to be looked into
	key  pictureKey
	from Source
}

// name is that of the squared photograph on disk, "" where it is not kept.
func (o *order) name(s *shelf) string {
	k, ok := o.from.(keyed)
	if !ok || s.squares == nil {
		return ""
	}
	file, err := k.Key(o.key.name)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("1|%s|%v|%g|%g x %g|%g", file, o.key.corners, o.key.bow, o.key.length, o.key.width, picturePx)
}

// lookName is that of a look of it, likewise.
func (o *order) lookName(s *shelf, spec *lookSpec) string {
	name := o.name(s)
	if name == "" {
		return ""
	}
	return fmt.Sprintf("%s|%s|%g|%g", name, spec.digest, fieldStep, smallPx)
}

// squared returns a photograph squared.
func (s *shelf) squared(ctx context.Context, o order) (*photo.Squared, error) {
	at := memoryKey{o.shot, ""}
	if sq := s.memory.get(at); sq != nil {
		return sq, nil
	}
	name := o.name(s)
	if name != "" {
		if img, ok := s.squares.GetImage(name); ok &&
			img.Rect.Dx() == whole(o.key.length*picturePx) && img.Rect.Dy() == whole(o.key.width*picturePx) {
			return &photo.Squared{Pix: img, PxPerMM: picturePx, Length: o.key.length, Width: o.key.width}, nil
		}
	}
	sq, err := readPicture(ctx, o.from, &o.key, picturePx)
	if err != nil {
		return nil, err
	}
	if name == "" || s.squares.PutImage(name, sq.Pix, picture.Plain) != nil {
		s.memory.put(at, sq, false) // else it is read from disk when its zones change
	}
	return sq, nil
}

func whole(v float64) int { return int(math.Max(1, math.Round(v))) }

// picture returns a photograph as a look has it. asked tells that the screen
// waits for it.
func (s *shelf) picture(ctx context.Context, o order, spec *lookSpec, asked bool) (pic *photo.Squared, left float64, note string, err error) {
	sq, err := s.squared(ctx, o)
	if err != nil {
		return nil, 0, "", err
	}
	if pic, left, note, err = spec.pixels(ctx, sq); err == nil {
		s.memory.put(memoryKey{o.shot, spec.tint}, pic, asked)
	}
	return pic, left, note, err
}

// look returns the look of a photograph.
func (s *shelf) look(ctx context.Context, o order, spec *lookSpec) (*look, error) {
	name := o.lookName(s, spec)
	if name != "" {
		if p, ok := s.looks.Get(name); ok {
			if l, ok := parseLook(p, o.key.length, o.key.width); ok {
				l.spec, l.own = *spec, true
				return l, nil
			}
		}
	}
	pic, left, note, err := s.picture(ctx, o, spec, false)
	if err != nil {
		return nil, err
	}
	l := spec.see(pic, left, note)
	if name != "" {
		_ = s.looks.Put(name, l.text()) // not kept, it is made again
	}
	return l, nil
}
