package ui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"

	"heartside/layout/geom"
	"heartside/model"
)

// longStack is a project of n boards, each with a photograph and a found split
// on both faces.
func longStack(n int) *model.Project {
	p := model.NewProject()
	c := boardCorners()
	for i := range n {
		b := model.NewBoard(fmt.Sprintf("B%d", i+1), "walnut-black", 1800+float64(i%7)*100, 150+float64(i%5)*12, 27)
		for f := range b.Faces {
			b.Faces[f] = model.Face{Photo: fmt.Sprintf("b%d-%d.jpg", i+1, f+1), Corners: &c, Known: true, Base: model.Heart,
				Split: &model.Split{By: model.SplitFound, Sure: 0.5 + 0.5*float64(i%3)/2},
				Zones: []model.Zone{{Kind: model.Sap, Polygon: geom.Polygon{{}, {X: b.Length}, {X: b.Length, Y: 30}, {Y: 20}}}}}
		}
		p.Boards = append(p.Boards, b)
	}
	return p
}

// The rack of 200 boards from the press of its key to what can be drawn.
func BenchmarkRackOpens200(b *testing.B) {
	project := longStack(200)
	for b.Loop() {
		b.StopTimer()
		s := open(b, project, 100)
		b.StartTimer()
		s.act("rack")
		b.StopTimer()
		s.stop()
		s.ses.Close()
		b.StartTimer()
	}
}

// What a change of the project costs while the rack of 200 boards is up.
func BenchmarkRackChanges200(b *testing.B) {
	s := open(b, longStack(200), 100)
	s.act("rack")
	s.q.drain()
	i := 0
	for b.Loop() {
		i++
		s.rack.faces.take(i%200, 1)
		s.changed()
		s.q.drain()
	}
}

// Scrolling by a wheel's notch through 200 boards.
func BenchmarkRackScrolls200(b *testing.B) {
	s := open(b, longStack(200), 100)
	s.act("rack")
	s.q.drain()
	i := 0
	for b.Loop() {
		i++
		s.rack.faces.scroll.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: map[bool]float32{true: -25, false: 25}[i%200 < 100]}})
		s.q.drain()
	}
}
