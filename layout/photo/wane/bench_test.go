package wane

import (
	"context"
	"testing"
)

func BenchmarkTrace(b *testing.B) {
	s := scene{length: 2400, width: 420, seed: 3, waves: 24, heart: walnut, sap: pale, sapWide: 28, ground: concrete}
	pic, around := s.flat(80)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Trace(context.Background(), pic, around); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFrame(b *testing.B) {
	s := scene{length: 2400, width: 420, seed: 3, waves: 24, heart: walnut, sap: pale, sapWide: 28, ground: concrete}
	c := camera{w: 2000, h: 1500, focal: 1700, away: 2300}
	img := s.photograph(c.w, c.h, c.corners(s.length, s.width))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Frame(context.Background(), img, s.length, 0, Camera{}); err != nil {
			b.Fatal(err)
		}
	}
}
