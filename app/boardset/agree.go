package boardset

import (
	"context"

	"heartside/app/intake"
	"heartside/layout/photo"
	"heartside/layout/wood"
)

// Laid is a way in which the second face may have been photographed. The two
// add up: both is upside down.
type Laid struct{ Ends, Edges bool }

// Ways are all of them, the right one first.
func Ways() [4]Laid { return [4]Laid{{}, {Ends: true}, {Edges: true}, {Ends: true, Edges: true}} }

// Turned returns the mask of a face laid another way.
func Turned(m *photo.Mask, w Laid) *photo.Mask {
	out := *m
	out.Pix = make([]photo.Label, len(m.Pix))
	for j := 0; j < m.H; j++ {
		for i := 0; i < m.W; i++ {
			x, y := i, j
			if w.Ends {
				x = m.W - 1 - i
			}
			if w.Edges {
				y = m.H - 1 - j
			}
			out.Pix[j*m.W+i] = m.At(x, y)
		}
	}
	return &out
}

// Masks splits both faces of a board as the program does, with the true
// corners.
func (b *Board) Masks(ctx context.Context) (out [2]*photo.Mask, err error) {
	for i, n := range [2]string{"1", "2"} {
		f, err := b.Face(n)
		if err != nil {
			return out, err
		}
		s, err := intake.Look(ctx, f.Img, intake.Ask{Length: b.Length, Width: b.Width, Corners: &f.Corners}, func(intake.Step) {})
		if err != nil {
			return out, err
		}
		out[i] = s.Split.Mask
	}
	return out, nil
}

// Log is what the two faces tell when the second is laid a way.
func (b *Board) Log(ctx context.Context, m [2]*photo.Mask, w Laid) (*wood.Log, *wood.Fit, error) {
	f := wood.Faces{
		Length: b.Length, Width: b.Width, Thickness: b.Thickness,
		Side: [2]wood.Face{wood.FromMask(m[0]), wood.FromMask(Turned(m[1], w))},
	}
	fit, err := wood.Compare(ctx, f)
	if err != nil {
		return nil, nil, err
	}
	l, err := wood.Read(ctx, f)
	return l, fit, err
}
