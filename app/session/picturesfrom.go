package session

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"heartside/app/picture"
	"heartside/layout/photo"
	"heartside/model/file"
	"heartside/model/say"
)

// Source gives the bytes of pictures by the name the project knows them by.
type Source interface {
	Open(name string) (io.ReadCloser, error)
}

// keyed is a Source whose pictures can be kept on disk: its key changes with
// the picture.
type keyed interface {
	Key(name string) (string, error)
}

// Folder is a Source that reads from the folder of the project.
type Folder string

func (f Folder) path(name string) string {
	p := filepath.FromSlash(name)
	if !filepath.IsAbs(p) {
		p = filepath.Join(string(f), p)
	}
	return p
}

// Open opens a picture by its path from the folder.
func (f Folder) Open(name string) (io.ReadCloser, error) {
	r, err := picture.Open(f.path(name))
	if err != nil {
		return nil, err
	}
	return r, nil
}

// Key returns a key for a picture as it is; see picture.Key.
func (f Folder) Key(name string) (string, error) { return picture.Key(f.path(name)) }

// readPicture opens, decodes and squares one photograph, to px pixels a mm.
func readPicture(ctx context.Context, from Source, k *pictureKey, px float64) (*photo.Squared, error) {
	r, err := from.Open(k.name)
	if err != nil {
		return nil, plainError(err)
	}
	defer r.Close()
	img, _, err := picture.Decode(ctx, r, picture.Limits{})
	if err != nil {
		return nil, err
	}
	s, err := photo.Square(ctx, img, k.view(), k.length, k.width, px)
	if err != nil {
		// The name of the step says nothing to the maker.
		return nil, errors.New(strings.TrimPrefix(err.Error(), "squaring a photograph: "))
	}
	return s, nil
}

// plainError drops the path that an error of the file system repeats.
func plainError(err error) error {
	var p *picture.Error
	if errors.As(err, &p) || errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return file.Cause(err)
}

// trouble says why a photograph is not shown.
func trouble(name string, err error) string {
	var p *picture.Error
	switch {
	case errors.Is(err, os.ErrNotExist):
		return say.F("%s not found; put it back or choose it again, the board is drawn meanwhile", name)
	case errors.As(err, &p):
		return fmt.Sprintf("%s: %s; %s", name, p.What, p.Do)
	}
	return fmt.Sprintf("%s: %v", name, err)
}
