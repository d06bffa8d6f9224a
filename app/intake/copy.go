package intake

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"heartside/model/say"
)

// photosFolder is where pictures are kept beside a project.
const photosFolder = "photos"

// CopyBeside copies a picture into the folder photos beside the project in dir
// and returns its path from dir, with slashes. The original stays as it is. A
// picture of that name with the same content is taken as it is there; one with
// other content gets a number behind its name. A picture that lies in dir
// already is not copied.
func CopyBeside(dir, path string) (string, error) {
	if rel, err := filepath.Rel(dir, path); err == nil && filepath.IsLocal(rel) {
		return filepath.ToSlash(rel), nil
	}
	folder := filepath.Join(dir, photosFolder)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", say.Errorf("copying %s: no folder for pictures can be made (%w); copy the picture there yourself, or leave it where it is", filepath.Base(path), err)
	}
	base := filepath.Base(path)
	ext := filepath.Ext(base)
	stem := strings.TrimSuffix(base, ext)
	for n := 1; ; n++ {
		name := base
		if n > 1 {
			name = fmt.Sprintf("%s-%d%s", stem, n, ext)
		}
		to := filepath.Join(folder, name)
		switch same, err := sameFile(path, to); {
		case err == nil && same:
			return photosFolder + "/" + name, nil
		case err == nil:
			continue // another picture has the name
		case !os.IsNotExist(err):
			return "", say.Errorf("copying %s: %w", base, err)
		}
		if err := copyFile(path, to); err != nil {
			return "", say.Errorf("copying %s: %w; make room or choose another folder, or leave the picture where it is", base, err)
		}
		return photosFolder + "/" + name, nil
	}
}

// copyFile writes a copy that is whole or not there.
func copyFile(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.CreateTemp(filepath.Dir(to), ".copy-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			out.Close()
			os.Remove(out.Name())
		}
	}()
	if _, err = io.Copy(out, in); err != nil {
		return err
	}
	if err = out.Sync(); err != nil {
		return err
	}
	if err = out.Close(); err != nil {
		return err
	}
	if err = os.Chmod(out.Name(), 0o644); err != nil {
		return err
	}
	return os.Rename(out.Name(), to)
}

// sameFile compares what two files hold.
func sameFile(a, b string) (bool, error) {
	g, err := os.Open(b)
	if err != nil {
		return false, err
	}
	defer g.Close()
	f, err := os.Open(a)
	if err != nil {
		return false, say.Errorf("the picture cannot be read: %w", err)
	}
	defer f.Close()
	if x, err := f.Stat(); err == nil {
		if y, err := g.Stat(); err == nil && x.Size() != y.Size() {
			return false, nil
		}
	}
	const chunk = 1 << 16
	p, q := make([]byte, chunk), make([]byte, chunk)
	for {
		n, errF := io.ReadFull(f, p)
		m, errG := io.ReadFull(g, q)
		if !bytes.Equal(p[:n], q[:m]) {
			return false, nil
		}
		if errF != nil || errG != nil {
			end := func(err error) bool { return err == io.EOF || err == io.ErrUnexpectedEOF }
			if end(errF) && end(errG) {
				return true, nil
			}
			return false, say.Errorf("the pictures cannot be compared: %v, %v", errF, errG)
		}
	}
}
