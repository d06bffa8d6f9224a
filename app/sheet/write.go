package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"strings"

	"heartside/app/render"
	"heartside/model/file"
)

// printDPI is how fine pictures of pages are written.
const printDPI = 150

// PDF returns the whole sheet as a document.
func (d *Document) PDF() ([]byte, error) { return d.pdf(render.Meta{}) }

func (d *Document) pdf(meta render.Meta) ([]byte, error) {
	meta.Title = d.Title
	meta.Subject = "Layout sheet"
	out := render.NewPDF(meta, d.faces)
	last := ""
	for _, p := range d.Pages {
		out.AddPage(p.W, p.H)
		if p.Title != last {
			out.Bookmark(p.Title, 0)
		}
		last = p.Title
		p.Draw(out)
	}
	data, err := out.Bytes()
	if err != nil {
		return nil, fmt.Errorf("layout sheet: %w", err)
	}
	return data, nil
}

// Raster draws a page, counted from 0, on white at so many dots an inch.
func (d *Document) Raster(page int, dpi float64) (*image.RGBA, error) {
	if page < 0 || page >= len(d.Pages) {
		return nil, fmt.Errorf("layout sheet: there is no page %d of %d", page+1, len(d.Pages))
	}
	if !(dpi >= 10 && dpi <= 1200) {
		return nil, fmt.Errorf("layout sheet: %g dots an inch; use 10 to 1200", dpi)
	}
	p, scale := d.Pages[page], dpi/25.4
	img := image.NewRGBA(image.Rect(0, 0, int(p.W*scale+0.5), int(p.H*scale+0.5)))
	draw.Draw(img, img.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	p.Draw(render.NewRaster(img, scale, d.faces))
	return img, nil
}

// PNG returns a picture of one page, counted from 0.
func (d *Document) PNG(page int, dpi float64) ([]byte, error) {
	img, err := d.Raster(page, dpi)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return nil, fmt.Errorf("layout sheet: page %d: %w", page+1, err)
	}
	return b.Bytes(), nil
}

// Write writes the sheet to path, as the ending says: .pdf one document, .png
// a picture of each page: the first to path itself, the further ones beside it
// with -2, -3 and so on before the ending. It returns the files written.
func Write(d *Document, path string) ([]string, error) {
	switch ext := strings.ToLower(filepath.Ext(path)); ext {
	case ".pdf":
		data, err := d.PDF()
		if err != nil {
			return nil, err
		}
		if err := save(path, data); err != nil {
			return nil, err
		}
		return []string{path}, nil
	case ".png":
		var out []string
		for i := range d.Pages {
			name := path
			if i > 0 {
				name = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, filepath.Ext(path)), i+1, filepath.Ext(path))
			}
			data, err := d.PNG(i, printDPI)
			if err != nil {
				return out, err
			}
			if err := save(name, data); err != nil {
				return out, err
			}
			out = append(out, name)
		}
		return out, nil
	default:
		return nil, fmt.Errorf("layout sheet %s: write it as .pdf or .png", filepath.Base(path))
	}
}

// save writes a file whole or not at all.
func save(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".sheet-*")
	if err != nil {
		return fmt.Errorf("layout sheet %s: %w; choose a folder that may be written", filepath.Base(path), file.Cause(err))
	}
	_, err = f.Write(data)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = os.Chmod(f.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name())
		return fmt.Errorf("layout sheet %s: %w; choose another name or folder", filepath.Base(path), file.Cause(err))
	}
	return nil
}
