package main

import (
	"bufio"
	"io"
	"strconv"
	"strings"
	"sync"
)

// watch follows what the program says of itself.
type watch struct {
	mu    sync.Mutex
	state map[string]string // of the last state line
	loads int
	load  map[string]string // of the last line about goroutines and memory
	page  string
	asks  []string // questions since they were last looked at
	place map[string][2]int
	worst []string // what looks like a crash
	ready bool
	lines []string // the last ones
}

func newWatch() *watch {
	return &watch{state: map[string]string{}, load: map[string]string{}, place: map[string][2]int{}}
}

// follow reads until the program ends.
func (w *watch) follow(from io.Reader) {
	sc := bufio.NewScanner(from)
	sc.Buffer(nil, 1<<20)
	for sc.Scan() {
		w.heard(sc.Text())
	}
}

// heard takes in a line.
func (w *watch) heard(line string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.lines = append(w.lines[max(0, len(w.lines)-mostLines+1):], line)
	rest, ours := strings.CutPrefix(line, "trace: ")
	if !ours {
		if len(w.worst) > 0 && len(w.worst) < 200 || strings.HasPrefix(line, "panic:") || strings.HasPrefix(line, "fatal error:") || strings.Contains(line, "runtime error") {
			w.worst = append(w.worst, line)
		}
		return
	}
	kind, rest, _ := strings.Cut(rest, " ")
	switch kind {
	case "ready":
		w.ready = true
	case "state":
		w.state = pairs(rest)
	case "load":
		w.load = pairs(rest)
		w.loads++
	case "page":
		w.page = rest
	case "asks":
		w.asks = append(w.asks, rest)
	case "place":
		f := strings.Fields(rest)
		if len(f) < 4 {
			delete(w.place, strings.TrimSpace(rest))
			return
		}
		x, errX := strconv.Atoi(f[2])
		y, errY := strconv.Atoi(f[3])
		if errX == nil && errY == nil {
			w.place[f[0]+" "+f[1]] = [2]int{x, y}
		}
	}
}

// pairs reads words such as undo=2.
func pairs(text string) map[string]string {
	out := map[string]string{}
	for _, f := range strings.Fields(text) {
		if k, v, ok := strings.Cut(f, "="); ok {
			out[k] = v
		}
	}
	return out
}

func (w *watch) get(key string) string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.state[key]
}

// level returns the last goroutines and bytes of heap, and how often they were
// told.
func (w *watch) level() (goroutines, heap, told int) {
	w.mu.Lock()
	defer w.mu.Unlock()
	goroutines, _ = strconv.Atoi(w.load["goroutines"])
	heap, _ = strconv.Atoi(w.load["heap"])
	return goroutines, heap, w.loads
}

// asked returns the questions asked since it was called last.
func (w *watch) asked() []string {
	w.mu.Lock()
	defer w.mu.Unlock()
	out := w.asks
	w.asks = nil
	return out
}

func (w *watch) places() [][2]int {
	w.mu.Lock()
	defer w.mu.Unlock()
	keys := sorted(w.place)
	out := make([][2]int, 0, len(keys))
	for _, k := range keys {
		out = append(out, w.place[k])
	}
	return out
}

// mostLines is how much of what the program said is kept to be told of a failure.
const mostLines = 40

func (w *watch) tail() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return strings.Join(w.lines, "\n")
}

func (w *watch) isReady() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.ready
}

func (w *watch) onPage() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.page
}

func (w *watch) crash() string {
	w.mu.Lock()
	defer w.mu.Unlock()
	return strings.Join(w.worst, "\n")
}
