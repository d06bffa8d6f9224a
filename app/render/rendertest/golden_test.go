package rendertest

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"testing"
)

// recorder stands in for a test and keeps whether it failed.
type recorder struct {
	testing.TB
	failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Errorf(string, ...any) { r.failed = true }
func (r *recorder) Fatal(...any)          { r.failed = true; panic(r) }
func (r *recorder) Fatalf(string, ...any) { r.failed = true; panic(r) }

// failing reports whether f fails the test it is given.
func failing(f func(testing.TB)) bool {
	r := &recorder{}
	func() {
		defer func() {
			if p := recover(); p != nil && p != any(r) {
				panic(p)
			}
		}()
		f(r)
	}()
	return r.failed
}

// tree makes a source tree of its own and stands in it.
func tree(t *testing.T) string {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "go.mod"), []byte("module x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	sub := filepath.Join(dir, "a", "b")
	if err := os.MkdirAll(sub, 0o700); err != nil {
		t.Fatal(err)
	}
	t.Chdir(sub)
	return dir
}

func TestGoldenComparesAndUpdates(t *testing.T) {
	dir := tree(t)
	t.Setenv("CI", "")
	t.Setenv("UPDATE_GOLDEN", "")
	if !failing(func(t testing.TB) { Golden(t, "s/one.txt", "a\nb\n") }) {
		t.Error("a missing golden passed")
	}
	t.Setenv("UPDATE_GOLDEN", "1")
	Golden(t, "s/one.txt", "a\nb\n")
	t.Setenv("UPDATE_GOLDEN", "")
	if failing(func(t testing.TB) { Golden(t, "s/one.txt", "a\nb\n") }) {
		t.Error("the same text failed")
	}
	if !failing(func(t testing.TB) { Golden(t, "s/one.txt", "a\nc\n") }) {
		t.Error("another text passed")
	}
	if got, err := os.ReadFile(filepath.Join(dir, "testdata", "failed", "s", "one.txt")); err != nil || string(got) != "a\nc\n" {
		t.Errorf("what failed was kept as %q, %v", got, err)
	}
	t.Setenv("UPDATE_GOLDEN", "1")
	t.Setenv("CI", "true")
	if !failing(func(t testing.TB) { Golden(t, "s/one.txt", "z") }) {
		t.Error("a golden was written anew where CI is set")
	}
}

func TestImageComparesWithTolerance(t *testing.T) {
	tree(t)
	t.Setenv("CI", "")
	grey := func(v uint8, w int) *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, w, 10))
		for i := range img.Pix {
			img.Pix[i] = v
			if i%4 == 3 {
				img.Pix[i] = 255
			}
		}
		return img
	}
	t.Setenv("UPDATE_GOLDEN", "1")
	Image(t, "g.png", grey(100, 10), 0, 0)
	t.Setenv("UPDATE_GOLDEN", "")
	for _, c := range []struct {
		name string
		img  *image.RGBA
		tol  float64
		most int
		want bool
	}{
		{"the same", grey(100, 10), 0, 0, false},
		{"within tolerance", grey(104, 10), 0.05, 0, false},
		{"beyond it", grey(140, 10), 0.05, 0, true},
		{"all pixels may differ", grey(140, 10), 0.05, 100, false},
		{"another size", grey(100, 11), 1, 1000, true},
	} {
		if got := failing(func(t testing.TB) { Image(t, "g.png", c.img, c.tol, c.most) }); got != c.want {
			t.Errorf("%s: failed %v, want %v", c.name, got, c.want)
		}
	}
	// Black to white is 255 of luma alone: the square root of 0.5053 x 255^2 of
	// 35215, 0.966 of the greatest difference.
	a, b := image.NewUniform(color.Black), image.NewUniform(color.White)
	sub := image.Rect(0, 0, 2, 2)
	if n, _ := Differing(cropped{a, sub}, cropped{b, sub}, 0.96); n != 4 {
		t.Errorf("%d of 4 pixels differ", n)
	}
	if n, _ := Differing(cropped{a, sub}, cropped{b, sub}, 0.97); n != 0 {
		t.Errorf("%d pixels differ by more than they do", n)
	}
}

type cropped struct {
	image.Image
	r image.Rectangle
}

func (c cropped) Bounds() image.Rectangle { return c.r }
