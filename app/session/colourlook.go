package session

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"math"

	"heartside/app/intake"
	"heartside/layout/colour"
	"heartside/layout/face"
	"heartside/layout/geom"
	"heartside/layout/photo"
	"heartside/layout/photo/light"
	"heartside/model"
	"heartside/model/say"
)

// look is how a squared photograph looks in the colours of its face. It is not
// changed once made.
type look struct {
	spec  lookSpec
	field *colour.Field
	small *photo.Squared
	// Mean colours of heart and sap on the face's own zones, nil where there
	// is none; not known unless own.
	heart, sap *colour.Lab
	own        bool
	left       float64 // how unlike the light still is, see light.Field; 0 not evened
	note       string  // why it was not evened, where it should have been
}

// lookSpec is what a look depends on beside the squared photograph.
type lookSpec struct {
	face          model.Face // not changed
	length, width float64
	known         bool   // the zones are those of the face
	split         bool   // and they are split from this photograph
	digest        string // of everything
	tint          string // of what changes pixels; "" where the picture stays as it is
}

// specOf returns the look that a face of a board, 0 or 1, asks for. A face is
// evened by zones that were split from its photograph: zones taped or drawn may
// lie too far off to tell light from wood.
func specOf(b *model.Board, i int) lookSpec {
	f := b.Faces[i]
	s := lookSpec{face: f, length: b.Length, width: b.Width, known: looked(&f)}
	s.split = s.known && f.Split != nil
	h := sha256.New()
	var p []byte
	num := func(decimals int, v ...float64) {
		for _, x := range v {
			p = binary.LittleEndian.AppendUint64(p, math.Float64bits(filed(x, decimals)))
		}
	}
	if f.White != nil {
		p = append(p, 'w')
		num(6, f.White[:]...)
	}
	if s.known {
		p = append(p, 'z', byte(KindOf(f.Base)))
		if s.split {
			p = append(p, 's')
		}
		ring := func(r geom.Polygon) {
			num(0, float64(len(r)))
			for _, q := range r {
				num(3, q.X, q.Y)
			}
		}
		ring(f.Outline)
		for _, z := range f.Zones {
			p = append(p, byte(KindOf(z.Kind)))
			ring(z.Polygon)
		}
	}
	h.Write(p)
	s.digest = hex.EncodeToString(h.Sum(nil)[:12])
	if s.split || f.White != nil {
		s.tint = s.digest
	}
	return s
}

// pixels returns the squared photograph in white light that is even, how
// unlike it still is, and why it was not evened where that is so. It is the
// photograph itself where nothing is to change.
func (s *lookSpec) pixels(ctx context.Context, sq *photo.Squared) (out *photo.Squared, left float64, note string, err error) {
	out = sq
	if w := s.face.White; w != nil {
		if out, err = (light.Balance{R: w[0], G: w[1], B: w[2]}).Apply(ctx, out); err != nil {
			return nil, 0, "", err
		}
	}
	if !s.split {
		return out, 0, "", nil
	}
	mask, err := intake.MaskOf(&s.face, s.length, s.width)
	if err == nil {
		var even *photo.Squared
		var f light.Field
		if even, f, err = light.Even(ctx, out, mask); err == nil {
			return even, f.Left, "", nil
		}
	}
	if ctx.Err() != nil {
		return nil, 0, "", ctx.Err()
	}
	return out, 0, err.Error(), nil
}

// see takes the colours of a picture that pixels gave.
func (s *lookSpec) see(even *photo.Squared, left float64, note string) *look {
	l := &look{spec: *s, own: true, left: left, note: note, field: coded(even.Field(fieldStep))}
	l.small = &photo.Squared{Pix: even.Level(smallPx), Length: even.Length, Width: even.Width}
	l.small.PxPerMM = float64(l.small.Pix.Rect.Dx()) / even.Length
	if s.known {
		f := faceOf(&s.face)
		f.Field = l.field
		l.heart, l.sap = face.MeanColours(&f)
	}
	return l
}

// coded returns a field that takes a quarter of the room: boards are many. The
// readings see the same colours after the look was kept on disk.
func coded(f *colour.Field) *colour.Field {
	out := &colour.Field{Step: f.Step, NX: f.NX, NY: f.NY, Coded: make([]colour.Coded, len(f.Lab))}
	for i, c := range f.Lab {
		out.Coded[i] = c.Code()
	}
	return out
}

// mostLeft is how unlike the light on wood may stay, as a share, before the
// colours want a look: wood itself varies by a tenth or so (engineering
// choice).
const mostLeft = 0.2

// ColourDoubts say what the maker should know of the colours of a face, 1 or
// 2, that are shown and read; nothing while they are being read.
func (s *Session) ColourDoubts(board string, face int) []string {
	var out []string
	l, _ := s.seen(board, face)
	if l == nil {
		return nil
	}
	if l.left > mostLeft {
		out = append(out, say.F("the light on the photograph differs by %.0f %% after it was evened: take it again in even shade, or judge colours on the wood", 100*l.left))
	}
	if l.note != "" {
		out = append(out, say.F("the light could not be evened: %s", l.note))
	}
	return out
}

// seen returns the look of a face, 1 or 2, that is shown now, nil where there
// is none. While that of new zones is made it is the one before.
func (s *Session) seen(board string, face int) (*look, *shot) {
	b := s.Project().Board(board)
	if b == nil || face < 1 || face > 2 {
		return nil, nil
	}
	v, sh, _ := s.pics.sight(b, face-1)
	return v.look, sh
}

// Small returns a small picture of a face, 1 or 2, in the colours it is read
// in; nil where there is none or it is still being read.
func (s *Session) Small(board string, face int) *photo.Squared {
	if l, _ := s.seen(board, face); l != nil {
		return l.small
	}
	return nil
}

// Picture returns the squared photograph of a board's face, 1 or 2, in white
// and even light; nil where there is none, it is missing, or it is still being
// read: OnChange tells when it is there.
func (s *Session) Picture(board string, face int) *photo.Squared {
	l, sh := s.seen(board, face)
	if l == nil || sh.err != nil {
		return nil
	}
	return s.pics.picture(sh, l.spec)
}

// PictureAt returns the picture of a face, 1 or 2, that is fine enough to be
// drawn at pxPerMM, or the small one while that is being read.
func (s *Session) PictureAt(board string, face int, pxPerMM float64) *photo.Squared {
	small := s.Small(board, face)
	if small != nil && pxPerMM <= fineEnough(smallPx) {
		return small
	}
	if pxPerMM <= fineEnough(picturePx) {
		s.pics.fine.memory.dropUnseen(leftFine)
	} else if l, sh := s.seen(board, face); l != nil && sh.err == nil {
		if pic := s.pics.finer(sh, l.spec); pic != nil {
			return pic
		}
	}
	if pic := s.Picture(board, face); pic != nil {
		return pic
	}
	return small
}

// Untouched returns the squared photograph of a face, 1 or 2, with the light
// it was taken in; nil as with Picture.
func (s *Session) Untouched(board string, face int) *photo.Squared {
	l, sh := s.seen(board, face)
	if l == nil || sh.err != nil {
		return nil
	}
	spec := l.spec
	spec.tint, spec.split, spec.face.White = "", false, nil
	return s.pics.picture(sh, spec)
}
