package sheet

import (
	"errors"
	"fmt"
	"slices"

	"heartside/app/render"
	"heartside/layout/geom"
)

// Document is a finished layout sheet.
type Document struct {
	Title string
	Pages []*Page
	faces *render.Faces
}

// Page is one page, its size in mm.
type Page struct {
	Title string // "Panel top", "Board A"
	W, H  float64
	ink   ink
}

// Draw draws the page on a canvas that counts in mm from the page's top left
// corner.
func (p *Page) Draw(c render.Canvas) { p.ink.calls.Replay(c) }

// Build composes the sheet of a project in the order of the bench: a page for
// every panel, one for every board something is cut from, then one on gluing up
// and building in each panel; each with further pages where it says more than
// goes on one.
func Build(in Input) (*Document, error) {
	if in.Project == nil || in.Faces == nil {
		return nil, errors.New("layout sheet: there is no project or no typeface to set it in")
	}
	paper, err := ParsePaper(string(in.Paper))
	if err != nil {
		return nil, fmt.Errorf("layout sheet: %w", err)
	}
	in.Paper, in.Pages = paper, in.Pages.all()
	in.Panels = slices.Clone(in.Panels) // their finished faces are kept there
	b := newBuilder(&in)
	b.findNicks()
	for i := range in.Panels {
		if err := b.readable(&in.Panels[i]); err != nil {
			return nil, err
		}
	}
	b.write()
	if len(b.pages) == 0 {
		if in.Pages != (Pages{}).all() {
			return nil, errors.New("layout sheet: there is nothing to print on the pages chosen; choose others")
		}
		return nil, errors.New("layout sheet: the project holds no panel and no board anything is cut from; add a panel first")
	}
	b.finish()
	return &Document{Title: b.job(), Pages: b.pages, faces: in.Faces}, nil
}

// write makes the pages that were chosen.
func (b *builder) write() {
	in := b.in
	for i := range in.Panels {
		if in.Pages.Panel {
			b.panel(&in.Panels[i])
		}
	}
	for _, board := range in.Boards {
		if in.Pages.Boards {
			b.board(board)
		}
	}
	for i := range in.Panels {
		switch {
		case in.Pages.Fit:
			b.fit(&in.Panels[i])
		case in.Pages.Sources:
			b.sourcesOnly(&in.Panels[i])
		}
	}
}

// readable reports what keeps a panel from being drawn.
func (b *builder) readable(p *Panel) error {
	if b.in.Project.Panel(p.Panel.ID) == nil || p.Reading == nil {
		return fmt.Errorf("layout sheet: panel %s is not in the project or has not been read", p.Panel.ID)
	}
	return nil
}

// builder makes pages one after the other.
type builder struct {
	in    *Input
	f     *render.Faces
	say   words
	code  string
	pages []*Page
	page  *Page
	em    float64   // size of the text's type, mm
	area  geom.Rect // what is left of the page between header and legend
	head  header    // of the current subject
	marks []mark    // the legend of the current subject
	alike []alike   // strips a rule cannot tell apart
	nicks nickOf
}

func newBuilder(in *Input) *builder {
	return &builder{in: in, f: in.Faces, say: words{sys: in.Project.Units}, code: Code(in.Project), em: body}
}

// job is the name of the project.
func (b *builder) job() string {
	if b.in.Project.Name == "" {
		return "Unnamed project"
	}
	return b.in.Project.Name
}

// open begins the first page of a subject, lying or standing.
func (b *builder) open(lying bool, h header, marks []mark) {
	b.head, b.marks = h, marks
	b.begin(lying, false)
}

// more goes on to a further page of the same subject.
func (b *builder) more() { b.begin(b.page.W > b.page.H, true) }

func (b *builder) begin(lying, again bool) {
	w, h := b.in.Paper.size(lying)
	b.page = &Page{Title: b.head.title, W: w, H: h}
	b.page.ink.faces = b.f
	b.pages = append(b.pages, b.page)
	b.area = geom.R(margin, margin, w-margin, h-margin)
	b.area.Min.Y = b.drawHeader(again)
	b.area.Max.Y = b.drawLegend()
}

// k is the ink of the current page.
func (b *builder) k() *ink { return &b.page.ink }

// left is the height that is still free on the page.
func (b *builder) left() float64 { return b.area.H() }

// finish numbers the pages, which needs to know how many there are.
func (b *builder) finish() {
	st := aligned(style(least), render.Right)
	for i, p := range b.pages {
		p.ink.text(p.W-margin, margin+b.f.CapHeight(st), fmt.Sprintf("%d of %d", i+1, len(b.pages)), st)
	}
}
