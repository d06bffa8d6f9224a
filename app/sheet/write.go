package sheet

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"path/filepath"
	"strings"
	"time"

	"heartside/app/render"
	"heartside/model/disk"
	"heartside/model/file"
	"heartside/model/say"
)

// printDPI is how fine pictures of pages are written.
const printDPI = 300

// PDF returns the whole sheet as a document.
func (d *Document) PDF() ([]byte, error) { return d.pdf(render.Meta{}) }

func (d *Document) pdf(meta render.Meta) ([]byte, error) {
	meta.Title = d.Title
	meta.Subject = say.F("Layout sheet, code %s", Code(d.in.Project))
	meta.Author = d.in.Author
	if at, err := time.Parse("2006-01-02", d.in.Date); err == nil {
		meta.Date = at
	}
	out := render.NewPDF(meta, d.faces)
	again := 0
	for _, p := range d.Pages {
		out.AddPage(p.W, p.H)
		if p.Again {
			again++
			out.Bookmark(say.F("%s, page %d", p.Title, again+1), 1)
		} else {
			again = 0
			out.Bookmark(p.Title, 0)
		}
		p.Draw(out)
	}
	data, err := out.Bytes()
	if err != nil {
		return nil, say.Errorf("layout sheet: %w", err)
	}
	return data, nil
}

// Raster draws a page, counted from 0, on white at so many dots an inch.
func (d *Document) Raster(page int, dpi float64) (*image.RGBA, error) {
	if page < 0 || page >= len(d.Pages) {
		return nil, say.Errorf("layout sheet: there is no page %d of %d", page+1, len(d.Pages))
	}
	if !(dpi >= 10 && dpi <= 1200) {
		return nil, say.Errorf("layout sheet: %g dots an inch; use 10 to 1200", dpi)
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
		return nil, say.Errorf("layout sheet: page %d: %w", page+1, err)
	}
	return b.Bytes(), nil
}

// Endings are the endings of files a sheet can be written as.
func Endings() []string { return []string{".pdf", ".png", ".svg", ".csv", ".yaml", ".yml"} }

// Write writes the sheet to path, as the ending says: .pdf one document, .png
// a picture of each page: the first to path itself, the further ones beside it
// with -2, -3 and so on before the ending; .svg a drawing of true size of every
// panel and board, the first to path itself, the others beside it by name; .csv
// and .yaml the cutting list. It returns the files written.
func Write(d *Document, path string) ([]string, error) {
	out, err := d.files(path)
	if err != nil {
		return nil, err
	}
	var written []string
	for _, f := range out {
		data, err := f.make()
		if err != nil {
			return written, err
		}
		if err := save(f.name, data); err != nil {
			return written, err
		}
		written = append(written, f.name)
	}
	return written, nil
}

// output is a file to be written.
type output struct {
	name string
	make func() ([]byte, error)
}

// files are those of a path, by its ending.
func (d *Document) files(path string) ([]output, error) {
	ext := filepath.Ext(path)
	beside := func(name string) string { return strings.TrimSuffix(path, ext) + "-" + name + ext }
	switch strings.ToLower(ext) {
	case ".pdf":
		return []output{{path, d.PDF}}, nil
	case ".csv":
		return []output{{path, d.CSV}}, nil
	case ".yaml", ".yml":
		return []output{{path, d.YAML}}, nil
	case ".png":
		var out []output
		for i := range d.Pages {
			f := output{path, func() ([]byte, error) { return d.PNG(i, printDPI) }}
			if i > 0 {
				f.name = beside(fmt.Sprint(i + 1))
			}
			out = append(out, f)
		}
		return out, nil
	case ".svg":
		var out []output
		for i, g := range d.Drawings() {
			f := output{path, g.SVG}
			if i > 0 {
				f.name = beside(g.fileName())
			}
			out = append(out, f)
		}
		return out, nil
	}
	return nil, say.Errorf("layout sheet %s: write it as %s", filepath.Base(path), strings.Join(Endings(), ", "))
}

// save writes a file whole or not at all.
func save(path string, data []byte) error {
	if err := disk.Replace(disk.Real{}, path, data, disk.Mode{Perm: 0o644, Exact: true}); err != nil {
		return say.Errorf("layout sheet %s: %w; choose another name or a folder that may be written", filepath.Base(path), file.Cause(err))
	}
	return nil
}
