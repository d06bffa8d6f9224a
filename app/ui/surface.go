package ui

import (
	"image"
	"sync"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"heartside/app/scene"
	"heartside/app/session"
	"heartside/app/tool"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/model"
	"heartside/model/say"
)

// surface is the drawing surface: panel, board in hand, lanes. It shows what
// scene makes of the session and gives what happens on it to the tool in hand.
type surface struct {
	widget.BaseWidget
	w        *Window
	raster   *canvas.Raster
	painter  *scene.Painter
	textures *scene.Textures
	built    *scene.Scene // nil: to be built anew
	pixels   float64      // device pixels a unit, as last painted
	views    scene.Views
	state    tool.State
	show     showing
	pointer  pointing
	focused  bool
	pointed  int // the warning pointed at, -1 none
	roll     rolls
	seen     [2]string // panel and board the views belong to
	reading  grainReading
}

// showing is how the surface shows things.
type showing struct {
	hatch  bool
	before bool
	back   bool // the panel is seen from its back
	sketch tool.Sketch
	told   string // how the strip under way lies on its board
	hover  scene.Hit
	zoning bool // zones are edited
	kind   model.ZoneKind
	brush  float64 // radius, mm; 0 corner by corner
	grain  bool    // lines along the grain are drawn
	along  bool    // the grain is shown as it is read
	depth  bool    // panel and board are seen with a part of the stock off
	done   float64 // that part, 0 sawn to 1 finished
}

// pointing is what is known of pointer and keys.
type pointing struct {
	button tool.Button
	at     geom.Point
	down   geom.Point
	mods   tool.Mods
	last   time.Time // of the last press
	space  bool
}

var (
	_ fyne.Widget        = (*surface)(nil)
	_ fyne.Focusable     = (*surface)(nil)
	_ fyne.Draggable     = (*surface)(nil)
	_ fyne.Scrollable    = (*surface)(nil)
	_ fyne.Shortcutable  = (*surface)(nil)
	_ desktop.Mouseable  = (*surface)(nil)
	_ desktop.Hoverable  = (*surface)(nil)
	_ desktop.Keyable    = (*surface)(nil)
	_ desktop.Cursorable = (*surface)(nil)
)

func newSurface(w *Window) *surface {
	s := &surface{w: w, painter: scene.NewPainter(w.faces), pixels: 1, state: tool.Arrange{}, pointed: -1}
	s.show.hover.Zone = -1
	s.show.kind = model.Sap
	s.textures = newTextures(func() { s.w.post(s.stale) })
	s.raster = canvas.NewRaster(s.paint)
	s.ExtendBaseWidget(s)
	return s
}

// newTextures returns a store whose pictures are made two at a time in the
// background.
func newTextures(ready func()) *scene.Textures {
	slots := make(chan struct{}, 2)
	var once sync.Mutex // one message at a time is enough to draw again
	start := func(job func()) {
		go func() {
			slots <- struct{}{}
			defer func() { <-slots }()
			job()
		}()
	}
	return scene.NewTextures(start, func() {
		once.Lock()
		defer once.Unlock()
		ready()
	})
}

// forget drops what belonged to the project shown until now.
func (s *surface) forget() {
	s.textures = newTextures(func() { s.w.post(s.stale) })
	s.views = scene.Views{Split: s.views.Split}
	s.state = tool.Arrange{}
	s.show.sketch, s.show.zoning, s.show.grain, s.show.before, s.show.back, s.show.depth, s.pointed = tool.Sketch{}, false, false, false, false, false, -1
	s.roll = rolls{}
	s.stale()
}

// stale has the surface drawn again.
func (s *surface) stale() {
	s.built = nil
	s.raster.Refresh()
}

// restyled paints everything again in other colours or sizes.
func (s *surface) restyled() {
	s.painter.Reset()
	s.stale()
}

// scene returns what is on screen, built where something changed.
func (s *surface) scene() *scene.Scene {
	if s.built == nil {
		s.built = scene.Build(s.input())
	}
	return s.built
}

// paint is called by the toolkit, in device pixels, when a frame is due.
func (s *surface) paint(w, h int) image.Image {
	if size := s.Size(); size.Width > 0 {
		if p := float64(w) / float64(size.Width); p != s.pixels && p > 0 {
			s.pixels, s.built = p, nil
		}
	}
	img, _ := s.painter.Paint(s.scene(), w, h)
	s.rehint()
	s.w.trace.places(s.w)
	return img
}

// unitsPerMM is the size of a millimetre of wood on the screen at true size.
// The toolkit's unit is meant to be 1/120 inch on a screen that tells its
// size, as the driver takes it.
func (s *surface) unitsPerMM() float64 { return 120 / 25.4 }

// CreateRenderer implements fyne.Widget.
func (s *surface) CreateRenderer() fyne.WidgetRenderer {
	return &surfaceRenderer{s}
}

type surfaceRenderer struct{ s *surface }

func (r *surfaceRenderer) Layout(size fyne.Size) {
	r.s.built = nil
	r.s.raster.Resize(size)
}
func (r *surfaceRenderer) MinSize() fyne.Size           { return fyne.NewSize(200, 160) }
func (r *surfaceRenderer) Refresh()                     { r.s.stale() }
func (r *surfaceRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.s.raster} }
func (r *surfaceRenderer) Destroy()                     {}

// AccessibilityLabel says what is on the surface.
func (s *surface) AccessibilityLabel() string {
	n := s.w.panel()
	if n == nil {
		return say.T("Drawing surface, no panel")
	}
	label := say.F("Panel %s", n.ID)
	if r := s.w.ses.Reading(n.ID); r != nil {
		label += say.F(", light share %s", session.Percent(r.Show.Light.Value))
	}
	if _, st, ok := s.w.strip(); ok {
		label += say.F(", strip %s in hand", s.w.ses.Number(n.ID, st.ID))
	}
	return label
}

// AccessibilityRole implements fyne.Accessible.
func (s *surface) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// Cursor implements desktop.Cursorable.
func (s *surface) Cursor() desktop.Cursor {
	switch {
	case s.show.zoning || s.show.grain:
		return desktop.CrosshairCursor
	case s.state.Busy():
		return desktop.DefaultCursor
	}
	switch s.show.hover.Part {
	case scene.PanelStrip, scene.PanelPlace, scene.BoardStrip, scene.RotateHandle, scene.Lane, scene.MarkWedge, scene.PlaneArrow:
		return desktop.PointerCursor
	case scene.BoardFace:
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

// lastStrip keeps how a strip lay, for its roll.
func lastStrip(p *face.Panel, id string) (face.Strip, bool) {
	if p != nil {
		for i := range p.Strips {
			if p.Strips[i].ID == id {
				return p.Strips[i], true
			}
		}
	}
	return face.Strip{}, false
}
