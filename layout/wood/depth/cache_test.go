//go:build !race

package depth

import (
	"encoding/gob"
	"fmt"
	"os"
	"strconv"
	"testing"
)

type cached struct {
	Name, Cut string
	Board     Board
	Pith      []Pith
	Heart     float64
	Sawn      [2][]uint8
	Below     [2][3][]uint8
	W, H      int
}

func cachedModel(t *testing.T, seed uint64, level int) *truth {
	name := fmt.Sprintf("/tmp/h8/cache/%d-%d.gob", seed, level)
	if f, err := os.Open(name); err == nil {
		defer f.Close()
		var c cached
		if err := gob.NewDecoder(f).Decode(&c); err != nil {
			t.Fatal(err)
		}
		return c.truth()
	}
	w := modelled(t, seed, level)
	c := cachedOf(w)
	os.MkdirAll("/tmp/h8/cache", 0o755)
	f, _ := os.Create(name)
	gob.NewEncoder(f).Encode(c)
	f.Close()
	return w
}

func TestSweep(t *testing.T) {
	n := 60
	if v, err := strconv.Atoi(os.Getenv("HEARTSIDE_MORE")); err == nil {
		n = v
	}
	var ws []*truth
	for i := range n {
		ws = append(ws, cachedModel(t, uint64(1000+i), 1+i%4))
	}
	by := table(t, ws, func(*truth, row) {})
	gate(t, by)
}
