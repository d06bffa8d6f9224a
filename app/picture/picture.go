package picture

import (
	"context"
	"image"
	"io"
	"math"
	"time"

	"heartside/model/say"
)

// Info is what a file says of its picture.
type Info struct {
	Format        string    // "JPEG", "PNG", "WebP", "TIFF" or "HEIC"
	Width, Height int       // upright, pixels
	Orientation   int       // as stored, 1 to 8 as EXIF numbers them; 1 is upright
	Taken         time.Time // by the camera's clock, in UTC where it says no zone; zero: not known
	Focal35       float64   // focal length in mm as of a 35 mm film camera; 0: not known
	Camera        string    // maker and model; "": not known
	Profile       string    // name of the colour profile; "": none, taken as sRGB
	Approximate   bool      // the profile could not be followed: colours may be off
}

// raw is what a format's tables say, before anything is decoded.
type raw struct {
	w, h    int
	turn    int     // orientation to apply to what the decoder gives, 1 to 8; 0: as EXIF says
	turned  int     // orientation the decoder has applied already; 0: none
	profile []byte  // ICC, or nil
	space   string  // a colour space named without a profile: "Display P3"; or ""
	exif    []byte  // the camera's notes, where the format's table was read for them; or nil
	ycc     *matrix // how luma and chroma make colour; nil: as JFIF
}

// format is a way to read pictures.
type format struct {
	look   func(*source, Limits) (raw, error)
	decode func(*source) (image.Image, error)
}

func formatOf(name string) (format, error) {
	switch name {
	case formatJPEG:
		return format{lookJPEG, decodeJPEG}, nil
	case formatPNG:
		return format{lookPNG, decodePNG}, nil
	case formatWebP:
		return format{lookWebP, decodeWebP}, nil
	case formatTIFF:
		return format{lookTIFF, decodeTIFF}, nil
	case formatHEIC:
		if withHEIC {
			return format{lookHEIC, decodeHEIC}, nil
		}
		return format{}, unsupported(say.T("a HEIC picture"), nil)
	}
	return format{}, say.Errorf("picture: no format %q", name)
}

// opened is a file whose tables were read and found within the limits.
type opened struct {
	src *source
	format
	raw
	info Info
	conv *conversion // to sRGB; nil: it is
}

func open(ctx context.Context, r io.Reader, lim Limits) (*opened, error) {
	lim = lim.filled()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s, err := sourceOf(ctx, r, lim)
	if err != nil {
		return nil, err
	}
	name, err := sniff(s)
	if err != nil {
		return nil, err
	}
	o := &opened{src: s}
	if o.format, err = formatOf(name); err != nil {
		return nil, err
	}
	o.info.Format = name
	err = guard(name, func() error {
		o.raw, err = o.look(s, lim)
		return err
	})
	if err != nil {
		return nil, err
	}
	if err := lim.size(name, int64(o.w), int64(o.h)); err != nil {
		return nil, err
	}
	o.notes()
	return o, nil
}

// notes fills info from what the file says beside the pixels.
func (o *opened) notes() {
	e := readExif(o.src, o.info.Format, o.exif)
	if o.turn == 0 {
		o.turn = e.orientation
	}
	if o.turn < 1 || o.turn > 8 {
		o.turn = 1
	}
	i := &o.info
	i.Orientation = o.turn
	if o.turned != 0 {
		i.Orientation = o.turned
	}
	i.Width, i.Height = o.w, o.h
	if o.turn >= 5 {
		i.Width, i.Height = o.h, o.w
	}
	i.Taken, i.Focal35, i.Camera = e.taken, e.focal35, e.camera
	o.conv, i.Profile, i.Approximate = conversionOf(o.profile, o.space)
}

// Stat reads what a file says of its picture and checks it against the limits.
// It decodes nothing: a picture it describes may still be damaged. Errors are
// *Error.
func Stat(r io.Reader, lim Limits) (Info, error) {
	o, err := open(context.Background(), r, lim)
	if err != nil {
		return Info{}, err
	}
	return o.info, nil
}

// Decode reads a picture: upright, opaque over white, in sRGB, its top left
// corner at (0, 0). It is an *image.RGBA, or the *image.YCbCr of a JPEG that
// is all that already. Errors are *Error, or that of ctx; decoding stops early
// when ctx ends, within a HEIC picture not before that is decoded.
func Decode(ctx context.Context, r io.Reader, lim Limits) (image.Image, Info, error) {
	o, img, err := decode(ctx, r, lim)
	if err != nil {
		return nil, Info{}, err
	}
	if m, ok := img.(*image.YCbCr); ok && o.turn == 1 && o.conv == nil && o.ycc == nil && m.Rect.Min == (image.Point{}) {
		return m, o.info, nil
	}
	out, err := upright(ctx, img, o)
	if err != nil {
		return nil, Info{}, err
	}
	return out, o.info, nil
}

// DecodeReduced reads a picture as Decode does, made smaller so that its
// longer side has at most longest pixels; light is averaged over everything
// under a pixel. A picture smaller than that keeps its size.
func DecodeReduced(ctx context.Context, r io.Reader, longest int, lim Limits) (*image.RGBA, Info, error) {
	if longest < 1 {
		return nil, Info{}, say.Errorf("reducing a picture: the longer side is %d pixels, want at least 1", longest)
	}
	o, img, err := decode(ctx, r, lim)
	if err != nil {
		return nil, Info{}, err
	}
	side := max(o.w, o.h)
	if side <= longest {
		out, err := upright(ctx, img, o)
		return out, o.info, err
	}
	scale := float64(longest) / float64(side)
	w := max(1, int(math.Round(float64(o.w)*scale)))
	h := max(1, int(math.Round(float64(o.h)*scale)))
	out, err := reduce(ctx, img, o, w, h)
	if err != nil {
		return nil, Info{}, err
	}
	return out, o.info, nil
}

// decode opens and decodes; the size is that of the tables.
func decode(ctx context.Context, r io.Reader, lim Limits) (*opened, image.Image, error) {
	o, err := open(ctx, r, lim)
	if err != nil {
		return nil, nil, err
	}
	var img image.Image
	name := o.info.Format
	err = guard(name, func() error {
		img, err = o.format.decode(o.src)
		return err
	})
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return nil, nil, err
	}
	if b := img.Bounds(); b.Dx() != o.w || b.Dy() != o.h {
		return nil, nil, damaged(name, say.Error("it holds a picture of another size than it says"))
	}
	return o, img, nil
}
