package sheet

import (
	"slices"

	"heartside/app/render"
	"heartside/layout/geom"
	"heartside/model/say"
)

// Document is a finished layout sheet.
type Document struct {
	Title string
	Pages []*Page
	in    Input
	faces *render.Faces
}

// Page is one page, its size in mm.
type Page struct {
	Title string // "Panel top", "Board A"
	Kind  Kind   // what it is for
	Panel string // the id of the panel it is about, "" none
	Board string // the id of the board it is about, "" none
	Again bool   // it goes on from the page before
	W, H  float64

	ink     ink
	ratio   float64    // how many mm of wood a mm of the drawing is, 0 nothing is to scale
	ratioAt geom.Point // where the legend says so
}

// Draw draws the page on a canvas that counts in mm from the page's top left
// corner.
func (p *Page) Draw(c render.Canvas) { p.ink.calls.Replay(c) }

// Build composes the sheet of a project in the order of the bench: a page for
// every panel, one for every board something is cut from, labels for the ends,
// one on gluing up and building in each panel; then strips for joints, pages for
// a client and for the yard. Each has further pages where it says more than
// goes on one.
func Build(in Input) (*Document, error) {
	if in.Project == nil || in.Faces == nil {
		return nil, say.Error("layout sheet: there is no project or no typeface to set it in")
	}
	paper, err := ParsePaper(string(in.Paper))
	if err != nil {
		return nil, say.Errorf("layout sheet: %w", err)
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
			return nil, say.Error("layout sheet: there is nothing to print on the pages chosen; choose others")
		}
		return nil, say.Error("layout sheet: the project holds no panel and no board anything is cut from; add a panel first")
	}
	b.finish()
	return &Document{Title: b.job(), Pages: b.pages, in: in, faces: in.Faces}, nil
}

// write makes the pages that were chosen.
func (b *builder) write() {
	in := b.in
	panels := func(wanted bool, k Kind, f func(*Panel)) {
		for i := range in.Panels {
			if wanted {
				b.kind, b.ofPanel, b.ofBoard = k, in.Panels[i].Panel.ID, ""
				f(&in.Panels[i])
			}
		}
	}
	panels(in.Pages.Panel, KindPanel, b.panel)
	for _, board := range in.Boards {
		if in.Pages.Boards {
			b.kind, b.ofPanel, b.ofBoard = KindBoards, "", board.ID
			b.board(board)
		}
	}
	b.kind, b.ofPanel, b.ofBoard = KindLabels, "", ""
	if in.Pages.Labels {
		b.labels()
	}
	panels(in.Pages.Fit, KindFit, b.fit)
	panels(in.Pages.Joints, KindJoints, b.joints)
	panels(in.Pages.Client, KindClient, b.client)
	b.kind, b.ofPanel, b.ofBoard = KindYard, "", ""
	if in.Pages.Yard {
		b.yard()
	}
	b.kind = KindRecord
	if in.Pages.Record {
		b.record()
	}
	b.kind = KindSources
	if in.Pages.Sources {
		b.sourcesPage()
	}
}

// readable reports what keeps a panel from being drawn.
func (b *builder) readable(p *Panel) error {
	if b.in.Project.Panel(p.Panel.ID) == nil || p.Reading == nil {
		return say.Errorf("layout sheet: panel %s is not in the project or has not been read", p.Panel.ID)
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
	lacks bool // a letter stands as its number somewhere

	kind             Kind // of the current subject
	ofPanel, ofBoard string
}

func newBuilder(in *Input) *builder {
	return &builder{in: in, f: in.Faces, say: words{sys: in.Project.Units}, code: Code(in.Project), em: body, lacks: lacks(in)}
}

// job is the name of the project.
func (b *builder) job() string {
	if b.in.Project.Name == "" {
		return say.T("Unnamed project")
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
	b.page = &Page{Title: b.head.title, Kind: b.kind, Panel: b.ofPanel, Board: b.ofBoard, Again: again, W: w, H: h}
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
		p.ink.text(p.W-margin, margin+b.f.CapHeight(st), say.F("%d of %d", i+1, len(b.pages)), st)
		if p.ratio > 0 && p.ratioAt != (geom.Point{}) {
			p.ink.text(p.ratioAt.X, p.ratioAt.Y, ratioText(p.ratio), style(least))
		}
	}
}
