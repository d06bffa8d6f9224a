package render

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"heartside/layout/geom"
)

// Meta is what a document says of itself.
type Meta struct {
	Title, Author, Subject, Keywords string
	// Date is written as the date of making. It is given, not read from a
	// clock, so that the same drawing gives the same bytes.
	Date time.Time
	// Plain leaves the page contents uncompressed, to be read in tests.
	Plain bool
}

// PDF is a Canvas that writes a document. Units are millimetres; typefaces
// are embedded with the characters used.
type PDF struct {
	doc    *fpdf.Fpdf
	faces  *Faces
	height float64 // of the page, mm
	alpha  []float64
	fonts  [cuts]bool
	used   [cuts]map[rune]bool // characters written
	widths map[int]bool        // of pictures written: no two may be equally wide
	images map[*image.RGBA]kept
	err    error
}

var _ Canvas = (*PDF)(nil)

// perMM is how many points a millimetre has.
const perMM = 72 / 25.4

// NewPDF returns an empty document; AddPage comes first.
func NewPDF(meta Meta, f *Faces) *PDF {
	d := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	d.SetMargins(0, 0, 0)
	d.SetAutoPageBreak(false, 0)
	d.SetCellMargin(0)
	d.SetCatalogSort(true)
	d.SetCompression(!meta.Plain)
	date := meta.Date
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	d.SetCreationDate(date.UTC())
	d.SetModificationDate(date.UTC())
	d.SetProducer("Heartside", true)
	d.SetTitle(meta.Title, true)
	d.SetAuthor(meta.Author, true)
	d.SetSubject(meta.Subject, true)
	d.SetKeywords(meta.Keywords, true)
	return &PDF{doc: d, faces: f, widths: map[int]bool{}, images: map[*image.RGBA]kept{}}
}

// AddPage begins a page of w x h mm. Clips left open on the last page end.
func (p *PDF) AddPage(w, h float64) {
	p.closeClips()
	// A landscape page is stated as such: the library turns a size whose
	// sides are the other way round.
	orientation := "P"
	size := fpdf.SizeType{Wd: w, Ht: h}
	if w > h {
		orientation = "L"
		size.Wd, size.Ht = h, w
	}
	p.doc.AddPageFormat(orientation, size)
	p.height = h
	p.alpha = []float64{1}
}

// Bookmark names the current page in the document's outline; level 0 is the
// outermost.
func (p *PDF) Bookmark(title string, level int) {
	if !p.ready() {
		return
	}
	p.setFont(regular, 10)
	p.doc.Bookmark(title, level, 0)
}

// Pages returns how many pages there are.
func (p *PDF) Pages() int { return p.doc.PageCount() }

// Measure returns the typefaces text is set in.
func (p *PDF) Measure() *Faces { return p.faces }

// Bytes finishes the document and returns it.
func (p *PDF) Bytes() ([]byte, error) {
	p.closeClips()
	if p.err != nil {
		return nil, fmt.Errorf("PDF: %w", p.err)
	}
	var b bytes.Buffer
	if err := p.doc.Output(&b); err != nil {
		return nil, fmt.Errorf("PDF: %w", err)
	}
	return p.nameFonts(b.Bytes()), nil
}

func (p *PDF) closeClips() {
	for len(p.alpha) > 1 {
		p.Pop()
	}
}

// write puts drawing commands on the page.
func (p *PDF) write(s string) {
	if p.ready() {
		p.doc.RawWriteStr(s)
	}
}

// ready reports whether there is a page to draw on.
func (p *PDF) ready() bool {
	if p.err == nil && len(p.alpha) == 0 {
		p.err = fmt.Errorf("drawing before the first page")
	}
	return p.err == nil
}

// opacity sets how opaque the next things are, where that changes.
func (p *PDF) opacity(a uint8) {
	want := float64(a) / 255
	if last := &p.alpha[len(p.alpha)-1]; *last != want {
		p.doc.SetAlpha(want, "Normal")
		*last = want
	}
}

// setFont takes a typeface, which enters the document at its first use.
func (p *PDF) setFont(c cut, points float64) {
	if !p.fonts[c] {
		p.doc.AddUTF8FontFromBytes(c.family(), "", bytes.Clone(p.faces.data[c]))
		p.fonts[c], p.used[c] = true, map[rune]bool{}
	}
	p.doc.SetFont(c.family(), "", points)
}

// path returns the commands that lay out p.
func (p *PDF) path(path Path) string {
	var b strings.Builder
	for _, l := range path {
		for i, q := range l.Points {
			op := "l"
			if i == 0 {
				op = "m"
			}
			fmt.Fprintf(&b, "%s %s %s ", coord(q.X*perMM), coord((p.height-q.Y)*perMM), op)
		}
		if l.Closed && len(l.Points) > 0 {
			b.WriteString("h ")
		}
	}
	return b.String()
}

// coord writes a number of points to thousandths.
func coord(v float64) string { return rounded(v, 1000) }

func rgb(c color.NRGBA, op string) string {
	return fmt.Sprintf("%.3f %.3f %.3f %s ", float64(c.R)/255, float64(c.G)/255, float64(c.B)/255, op)
}

// Fill implements Canvas.
func (p *PDF) Fill(path Path, c color.NRGBA) {
	if c.A == 0 || len(path) == 0 || !p.ready() {
		return
	}
	p.opacity(c.A)
	p.write(rgb(c, "rg") + p.path(path) + "f*")
}

// Stroke implements Canvas.
func (p *PDF) Stroke(path Path, pen Pen) {
	if pen.Color.A == 0 || len(path) == 0 || !(pen.Width > 0) || !p.ready() {
		return
	}
	p.opacity(pen.Color.A)
	shape := 0
	if pen.Round {
		shape = 1
	}
	var dash strings.Builder
	for _, d := range pen.Dash {
		dash.WriteString(coord(d*perMM) + " ")
	}
	p.write(fmt.Sprintf("%s%s w %d J %d j [%s] 0 d %sS", rgb(pen.Color, "RG"), coord(pen.Width*perMM),
		shape, shape, strings.TrimSpace(dash.String()), p.path(path)))
}

// Hatch implements Canvas: the lines themselves, so that every printer draws
// them alike.
func (p *PDF) Hatch(path Path, h Hatch) { hatchAsLines(p, path, h) }

// Text implements Canvas.
func (p *PDF) Text(at geom.Point, s string, st Style) {
	if st.Color.A == 0 || !(st.Size > 0) || !p.ready() {
		return
	}
	s = p.faces.Printable(s, st)
	if s == "" {
		return
	}
	p.opacity(st.Color.A)
	p.setFont(st.cut(), st.Size*perMM)
	for _, r := range s {
		p.used[st.cut()][r] = true
	}
	// Both colours, so that the library writes no colour of its own.
	p.doc.SetFillColor(int(st.Color.R), int(st.Color.G), int(st.Color.B))
	p.doc.SetTextColor(int(st.Color.R), int(st.Color.G), int(st.Color.B))
	x := at.X + st.start(p.faces.Width(s, st))
	if st.Turn != 0 {
		p.doc.TransformBegin()
		p.doc.TransformRotate(st.Turn, at.X, at.Y)
	}
	p.doc.Text(x, at.Y, s)
	if st.Turn != 0 {
		p.doc.TransformEnd()
	}
}

// Push implements Canvas.
func (p *PDF) Push(path Path) {
	if !p.ready() {
		return
	}
	clip := p.path(path)
	if clip == "" {
		clip = "0 0 m h "
	}
	p.write("q " + clip + "W* n")
	p.alpha = append(p.alpha, p.alpha[len(p.alpha)-1])
}

// Pop implements Canvas. A Pop too many does nothing.
func (p *PDF) Pop() {
	if len(p.alpha) > 1 {
		p.write("Q")
		p.alpha = p.alpha[:len(p.alpha)-1]
	}
}
