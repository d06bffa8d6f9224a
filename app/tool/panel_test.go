package tool

import (
	"math"
	"testing"

	"heartside/layout/geom"
	"heartside/model"
)

func (b *bench) order() string {
	var out string
	for _, s := range b.Project().Panel("top").Strips {
		out += s.ID + " "
	}
	return out
}

// Strips of 90 mm from the front: their middles stand at py 217.5, 172.5,
// 127.5, 82.5 and 37.5.
func TestOrderStripsInThePanel(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to float64
		held     func(Event) Event
		want     string
	}{
		{"two back", 217.5, 127.5, nil, "A2 B1 A1 4 5 "},
		{"one forward", 172.5, 217.5, nil, "A2 A1 B1 4 5 "},
		{"an empty place to the front", 37.5, 230, nil, "5 A1 A2 B1 4 "},
		{"beyond the front", 37.5, 250, nil, "5 A1 A2 B1 4 "},
		{"beyond the back", 217.5, 5, nil, "A2 B1 4 5 A1 "},
		{"just over the glue line", 217.5, 194.9, nil, "A2 A1 B1 4 5 "},
		{"swap", 217.5, 127.5, control, "B1 A2 A1 4 5 "},
		{"swap with an empty place", 217.5, 37.5, control, "5 A2 B1 4 A1 "},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			ev := gesture(geom.Pt(300, c.from), geom.Pt(303, c.to), c.held)
			s := b.play(Arrange{}, ev[0], ev[2], ev[3])
			b.wantOne(s, start)
			if got := b.order(); got != c.want {
				t.Errorf("order %s, want %s", got, c.want)
			}
		})
	}
}

func TestStripDroppedWhereItWas(t *testing.T) {
	for name, ev := range map[string][]Event{
		"out and back":               {press(300, 217.5), drag(300, 127.5), drag(300, 210), release(300, 210)},
		"swap with itself":           {press(300, 217.5), control(drag(300, 127.5)), control(drag(300, 210)), release(300, 210)},
		"over a board and back":      {press(300, 217.5), drag(300, 340), drag(300, 210), release(300, 210)},
		"empty place along":          {press(300, 82.5), drag(400, 82.5), release(400, 82.5)},
		"within the slack":           {press(300, 217.5), drag(302, 219.5), release(302, 219.5)},
		"escape":                     {press(300, 217.5), drag(300, 127.5), typed(Escape), drag(300, 37.5), release(300, 37.5)},
		"escape over a board":        {press(300, 217.5), drag(300, 340), typed(Escape), drag(300, 350), release(300, 350)},
		"escape before it moves":     {press(300, 217.5), typed(Escape), drag(300, 127.5), release(300, 127.5)},
		"another key, then escape":   {press(300, 217.5), drag(300, 127.5), typed(Enter), typed(Escape), release(300, 127.5)},
		"slid and back":              {press(300, 217.5), drag(360, 217.5), drag(300, 217.5), release(300, 217.5)},
		"slid, then escape":          {press(300, 217.5), drag(360, 217.5), typed(Escape), drag(380, 217.5), release(380, 217.5)},
		"moved, then escape":         {press(300, 370), drag(350, 360), typed(Escape), drag(360, 350), release(360, 350)},
		"moved and back":             {press(300, 370), drag(350, 360), drag(300, 370), release(300, 370)},
		"swept, then escape":         {press(300, 320), drag(700, 320), typed(Escape), drag(800, 320), release(800, 320)},
		"to a board, then escape":    {press(300, 82.5), drag(600, 340), typed(Escape), drag(610, 340), release(610, 340)},
		"to the folded and escape":   {press(300, 370), drag(500, 610), typed(Escape), drag(500, 605), release(500, 605)},
		"a click":                    {press(300, 370), release(300, 370)},
		"release without a press":    {release(300, 370), drag(400, 370)},
		"drag from the board's edge": {press(300, 406), drag(400, 406), release(400, 406)},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t)
			start := b.Project()
			if s := b.play(Arrange{}, ev...); s != (Arrange{}) {
				t.Errorf("still %T", s)
			}
			b.still(start)
		})
	}
}

// The wood slides under the place: drawn 50 units, 100 mm, to the right, a
// strip that lies as it grew is cut 100 mm nearer the marked end, one turned
// end for end 100 mm farther from it. At 30 degrees that is 100 cos 30 along
// and 100 sin 30 across.
func TestSlideAlongThePanel(t *testing.T) {
	slant := model.PlaceStrip{Panel: "top", Strip: "A1", Board: "A", X: 200, Y: 10, Angle: 30}
	for _, c := range []struct {
		name  string
		id    string
		y     float64
		first []model.Edit
		want  lies
	}{
		{"as it grew", "A1", 217.5, nil, lies{"A", -60, 10, 0}},
		{"turned", "A2", 172.5, nil, lies{"A", 1200, 10, 0}},
		{"face 2 up", "B1", 127.5, nil, lies{"B", -70, 20, 0}},
		{"slanting", "A1", 217.5, []model.Edit{slant}, lies{"A", 200 - 50*math.Sqrt(3), -40, 30}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t, c.first...)
			start := b.Project()
			s := b.play(Arrange{}, gesture(geom.Pt(300, c.y), geom.Pt(350, c.y), nil)...)
			b.wantOne(s, start)
			b.wantLies(c.id, c.want)
		})
	}
}

// A strip slides along its board only once it is drawn clearly sideways: 10
// units and twice as far as up or down. What is less than that changes nothing.
func TestASlideIsMeant(t *testing.T) {
	for name, to := range map[string]geom.Point{
		"8 units sideways":   geom.Pt(308, 217.5),
		"slanting, 30 by 20": geom.Pt(330, 197.5),
		"slanting, back":     geom.Pt(270, 234),
	} {
		b := newBench(t)
		start := b.Project()
		s := b.play(Arrange{}, press(300, 217.5), drag(to.X, to.Y), release(to.X, to.Y))
		if b.still(start); s.Busy() {
			t.Errorf("%s: %T", name, s)
		}
	}
	// 12 units are 24 mm at 2 mm a unit: from 40 to 16.
	b := newBench(t)
	start := b.Project()
	s := b.play(Arrange{}, press(300, 217.5), drag(306, 217.5), drag(312, 221), release(312, 221))
	b.wantOne(s, start)
	b.wantLies("A1", lies{"A", 16, 10, 0})
}

// With Shift the strip is shifted instead, from the shift it had.
func TestShiftAlongThePanel(t *testing.T) {
	b := newBench(t, model.ShiftStrip{Panel: "top", Strip: "A1", Shift: 12})
	start := b.Project()
	s := b.play(Arrange{}, press(300, 217.5), drag(330, 217.5), shift(drag(400, 217.5)), shift(drag(350, 215)), shift(release(350, 215)))
	b.wantOne(s, start)
	if m := b.strip("A1"); m.Shift != 112 || m.X != 40 || m.Y != 10 {
		t.Errorf("shift %v at %v, %v", m.Shift, m.X, m.Y)
	}
}

// What has been sawn stays where it was cut; the reason is said.
func TestASawnStripIsNotMoved(t *testing.T) {
	for name, ev := range map[string][]Event{
		"on its board": gesture(geom.Pt(300, 370), geom.Pt(350, 360), nil),
		"slid":         gesture(geom.Pt(300, 217.5), geom.Pt(350, 217.5), nil),
		"to another":   gesture(geom.Pt(300, 370), geom.Pt(500, 603), nil),
	} {
		b := newBench(t, model.SetStage{Panel: "top", Strip: "A1", Stage: model.Sawn})
		start := b.Project()
		s := b.play(Arrange{}, ev...)
		if b.still(start); s.Busy() || b.sketch.Say == "" {
			t.Errorf("%s: %T, says %q", name, s, b.sketch.Say)
		}
	}
	b := newBench(t, model.SetStage{Panel: "top", Strip: "A1", Stage: model.Sawn})
	b.play(Arrange{}, press(300, 217.5), drag(300, 172.5), release(300, 172.5))
	if got := b.order(); got != "A2 A1 B1 4 5 " {
		t.Errorf("its order is free, yet %s", got)
	}
}
