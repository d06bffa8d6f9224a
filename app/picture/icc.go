package picture

import (
	"math"
	"strings"
	"unicode/utf16"

	"heartside/model/say"
)

// mostProfile bounds a colour profile, bytes. Those of cameras and telephones
// take less than 4 kB, those of printers up to some MB.
const mostProfile = 4 << 20

var errNoMatrix = say.Later("the profile has no matrix and curves")

// profile is a colour profile of the kind with a matrix and three curves
// (ICC.1:2022, annex F.3): what cameras, telephones and screens use; or a grey
// one, with a curve alone.
type profile struct {
	name  string
	space string          // of the pixels: "RGB ", "GRAY", "CMYK"
	toXYZ [3][3]float64   // from light to XYZ under D50
	light [3][256]float64 // of coded values, 0 to 1
}

// parseProfile reads a profile. Where it is of another kind the error is not
// nil, and name and space are still filled in.
func parseProfile(p []byte) (profile, error) {
	var out profile
	if len(p) < 132 || string(p[36:40]) != "acsp" {
		return out, say.Error("not a colour profile")
	}
	out.space = string(p[16:20])
	out.name = clean(description(tag(p, "desc")))
	if out.name == "" {
		out.name = "unnamed"
	}
	if out.space == "GRAY" {
		curve, err := parseCurve(tag(p, "kTRC"))
		if err != nil {
			return out, err
		}
		for c := range 3 {
			if err := out.tabulate(c, curve); err != nil {
				return out, err
			}
		}
		return out, nil
	}
	if out.space != "RGB " || string(p[20:24]) != "XYZ " {
		return out, errNoMatrix
	}
	// With tables beside the matrix, the tables are meant.
	if tag(p, "A2B0") != nil || tag(p, "A2B1") != nil {
		return out, errNoMatrix
	}
	for c, name := range []string{"r", "g", "b"} {
		xyz := tag(p, name+"XYZ")
		if len(xyz) < 20 || string(xyz[:4]) != "XYZ " {
			return out, errNoMatrix
		}
		for i := range 3 {
			out.toXYZ[i][c] = fixed(xyz[8+4*i:])
		}
		curve, err := parseCurve(tag(p, name+"TRC"))
		if err != nil {
			return out, err
		}
		if err := out.tabulate(c, curve); err != nil {
			return out, err
		}
	}
	return out, nil
}

func (p *profile) tabulate(c int, curve func(float64) float64) error {
	for v := range p.light[c] {
		l := curve(float64(v) / 255)
		if math.IsNaN(l) {
			return errNoMatrix
		}
		p.light[c][v] = min(max(l, 0), 1)
	}
	return nil
}

// tag returns the data of a tag, or nil.
func tag(p []byte, name string) []byte {
	n := int64(be.Uint32(p[128:]))
	for i := int64(0); i < min(n, 200); i++ {
		at := 132 + 12*i
		if at+12 > int64(len(p)) {
			return nil
		}
		e := p[at : at+12]
		if string(e[:4]) == name {
			off, size := int64(be.Uint32(e[4:])), int64(be.Uint32(e[8:]))
			if off+size > int64(len(p)) || size < 8 {
				return nil
			}
			return p[off : off+size]
		}
	}
	return nil
}

// fixed reads a number of type s15Fixed16.
func fixed(p []byte) float64 { return float64(int32(be.Uint32(p))) / 65536 }

// description reads a profile's name, of either version of the format.
func description(d []byte) string {
	switch {
	case len(d) > 12 && string(d[:4]) == "desc":
		n := int64(be.Uint32(d[8:]))
		return string(d[12 : 12+min(n, int64(len(d)-12))])
	case len(d) >= 28 && string(d[:4]) == "mluc" && be.Uint32(d[8:]) > 0:
		n, off := int64(be.Uint32(d[20:])), int64(be.Uint32(d[24:]))
		if off+n > int64(len(d)) {
			return ""
		}
		var u []uint16
		for i := int64(0); i+1 < n; i += 2 {
			u = append(u, be.Uint16(d[off+i:]))
		}
		return string(utf16.Decode(u))
	}
	return ""
}

// parseCurve reads a tone curve: from coded values to light, both 0 to 1.
func parseCurve(d []byte) (func(float64) float64, error) {
	switch {
	case len(d) >= 12 && string(d[:4]) == "curv":
		n := int(min(be.Uint32(d[8:]), 1<<16))
		if len(d) < 12+2*n {
			return nil, errNoMatrix
		}
		switch n {
		case 0:
			return func(v float64) float64 { return v }, nil
		case 1:
			g := float64(be.Uint16(d[12:])) / 256
			return func(v float64) float64 { return math.Pow(v, g) }, nil
		}
		return func(v float64) float64 {
			at := v * float64(n-1)
			i := min(int(at), n-2)
			a, b := float64(be.Uint16(d[12+2*i:])), float64(be.Uint16(d[14+2*i:]))
			return (a + (b-a)*(at-float64(i))) / 65535
		}, nil
	case len(d) >= 12 && string(d[:4]) == "para":
		return parametric(d)
	}
	return nil, errNoMatrix
}

// parametric reads a curve given by a formula (ICC.1:2022, table 68).
func parametric(d []byte) (func(float64) float64, error) {
	kind := int(be.Uint16(d[8:]))
	counts := [...]int{1, 3, 4, 5, 7}
	if kind >= len(counts) || len(d) < 12+4*counts[kind] {
		return nil, errNoMatrix
	}
	k := [7]float64{}
	for i := range counts[kind] {
		k[i] = fixed(d[12+4*i:])
	}
	g, a, b, c, e, f := k[0], k[1], k[2], k[3], k[5], k[6]
	from := k[4]
	switch kind {
	case 0:
		a, b, c, from, e, f = 1, 0, 0, 0, 0, 0
	case 1, 2: // below the zero of the power the curve is flat at c
		if a == 0 {
			return nil, errNoMatrix
		}
		flat := 0.0
		if kind == 2 {
			flat = c
		}
		from, c, e, f = -b/a, 0, flat, flat
	}
	return func(v float64) float64 {
		if v >= from {
			return math.Pow(max(0, a*v+b), g) + e
		}
		return c*v + f
	}, nil
}

// clean makes a name out of a file fit to be shown.
func clean(s string) string {
	var out []rune
	for _, r := range s {
		if r == 0 || len(out) == 80 {
			break
		}
		if r >= ' ' && r != 0x7f && r != '\ufffd' && r < 0xe000 {
			out = append(out, r)
		}
	}
	return strings.TrimSpace(string(out))
}
