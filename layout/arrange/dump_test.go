package arrange
import ("testing";"context";"fmt";"time";"math/rand/v2";"heartside/layout/face";"heartside/layout/geom")
func messy(n int, seed uint64) *face.Panel {
	p := tabletop(n)
	rng := rand.New(rand.NewPCG(seed, 1))
	for i := range p.Strips {
		b := walnut(fmt.Sprint("B", i), 1280, 108)
		b.Planes = face.Planes(1+rng.IntN(2))
		for f := range b.Faces {
			if rng.IntN(3) > 0 {
				w := 15+20*rng.Float64()
				b.Faces[f].Zones = append(b.Faces[f].Zones, face.Zone{Kind: face.Sap, Polygon: geom.Polygon{{X: 0, Y: 0}, {X: 1280, Y: 0}, {X: 1280, Y: w}, {X: 900, Y: w + 3}, {X: 500, Y: w - 2}, {X: 0, Y: w + 1}}})
			}
			if rng.IntN(4) == 0 {
				x, y := 1200*rng.Float64(), 100*rng.Float64()
				b.Faces[f].Zones = append(b.Faces[f].Zones, face.Zone{Kind: face.Flaw, Polygon: geom.R(x, y, x+20, y+14).Polygon()})
			}
		}
		p.Strips[i].Board = b
	}
	return p
}
func TestDump(t *testing.T) {
	opt := Options{Allowances: allowances, Machines: machines}
	opt.Allowances.FlawMargin = 5
	for seed := uint64(0); seed < 6; seed++ {
	p := messy(12, seed)
	t0:=time.Now()
	all := All(context.Background(), nil, p, nil, opt)
	d := time.Since(t0)
	for _, x := range all {
		fmt.Println("==", x.Warning.Kind, x.Warning.Strips, x.Warning.Why)
		for i, f := range x.Fixes { if i < 2 {fmt.Println("  ", f.Cost, f.Size, f.Steps, f.How, f.Meets, f.Makes)} }
	}
	fmt.Println(d)
	}
}
