package arrange
import ("testing";"context";"fmt";"time")
func TestDump(t *testing.T) {
	p := tabletop(12)
	opt := Options{Allowances: allowances, Machines: machines}
	for _, w := range NewFinder(nil,p,nil,opt).reading.Warnings { fmt.Println(w.Kind, w.Side, w.Strips, w.Why, w.Measure, w.Weight); for _,u:=range w.Under {fmt.Println("   under",u.Kind,u.Strips)} }
	t0:=time.Now()
	for _, x := range All(context.Background(), nil, p, nil, opt) {
		fmt.Println("==", x.Warning.Kind, x.Warning.Strips)
		for _, f := range x.Fixes { fmt.Println("  ", f.Cost, f.Size, f.Steps, f.How, f.Meets, f.Makes, f.After) }
	}
	fmt.Println(time.Since(t0))
}
