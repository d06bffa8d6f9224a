package trace

import (
	"testing"

	"heartside/layout/photo"
)

func BenchmarkPolygons(b *testing.B) {
	for _, c := range []struct {
		name string
		m    *photo.Mask
	}{{"wandering", blobs(3, 2400, 300, 1)}, {"speckled", speckled(2400, 300)}} {
		b.Run(c.name, func(b *testing.B) {
			n := 0
			for b.Loop() {
				zones, _, err := Polygons(c.m, Defaults())
				if err != nil {
					b.Fatal(err)
				}
				n = 0
				for _, z := range zones {
					n += len(z.Polygon)
				}
			}
			b.ReportMetric(float64(n), "points")
		})
	}
}

// speckled is a face with ragged borders and one cell in a hundred wrong.
func speckled(length, width float64) *photo.Mask {
	m, n := blobs(3, length, width, 1), noise(9, int(length), int(width), 100)
	for k, l := range n.Pix {
		if l == photo.Sap {
			m.Pix[k] = photo.Sap
		}
	}
	return m
}

func BenchmarkRasterise(b *testing.B) {
	zones, base, err := Polygons(blobs(3, 2400, 300, 1), Defaults())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Rasterise(zones, base, 2400, 300, 1); err != nil {
			b.Fatal(err)
		}
	}
}
