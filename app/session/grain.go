package session

import (
	"context"
	"sync"

	looks "heartside/layout/arrange/look"
	"heartside/layout/face"
	"heartside/layout/figure"
	"heartside/layout/geom"
	"heartside/model"
)

// grainKey is all that the map of a face's grain depends on.
type grainKey struct {
	picture pictureKey
	tint    string
	lines   string
	length  float64
	width   float64
}

// grainBook keeps the maps of faces whose grain was asked for. It is safe for
// use by several goroutines.
type grainBook struct {
	mu  sync.Mutex
	got map[grainKey]*figure.Map
}

// mostGrain bounds the maps kept; one takes some kilobytes.
const mostGrain = 1000

// grainTask is a face whose grain is to be read.
type grainTask struct {
	board *face.Board
	face  int // 0 or 1
	key   grainKey
	order order
	spec  *lookSpec // nil: no photograph
	lines [][]geom.Point
}

// grainTasks lists what is known of the grain of boards: their place in the log
// at once, the maps still to be read.
func (s *Session) grainTasks(v *view, ids map[string]bool) (map[*face.Board]looks.Grain, []grainTask) {
	out := map[*face.Board]looks.Grain{}
	var todo []grainTask
	for _, b := range v.project.Boards {
		if !ids[b.ID] {
			continue
		}
		fb := v.boards[b.ID]
		g := looks.Grain{}
		if b.Log != nil {
			g.Log, g.Order = b.Log.Name, b.Log.Order
		}
		out[fb] = g
		for i := range b.Faces {
			if t := s.grainTask(b, i); t.spec != nil || len(t.lines) > 0 {
				t.board = fb
				todo = append(todo, t)
			}
		}
	}
	return out, todo
}

// grainTask is what is known of the grain of face index i of a board.
func (s *Session) grainTask(b *model.Board, i int) grainTask {
	t := grainTask{face: i, lines: b.Faces[i].Grain, key: grainKey{length: b.Length, width: b.Width}}
	for _, l := range t.lines {
		t.key.lines += geom.Polygon(l).String() + ";"
	}
	if look, sh, _ := s.pics.sight(b, i); look.look != nil && sh != nil && sh.err == nil {
		spec := look.look.spec
		t.spec, t.order = &spec, order{sh, sh.key, s.pics.from}
		t.key.picture, t.key.tint = sh.key, spec.tint
	}
	return t
}

// GrainMap returns how the grain of a face, 1 or 2, runs as its photograph and
// the lines drawn on it say, nil where neither does. Where that is still to be
// worked out, read does it, on any goroutine; ask again after it.
func (s *Session) GrainMap(board string, face int) (m *figure.Map, read func(context.Context)) {
	b := s.hist.Current().Board(board)
	if b == nil || face < 1 || face > 2 {
		return nil, nil
	}
	t := s.grainTask(b, face-1)
	if t.spec == nil && len(t.lines) == 0 {
		return nil, nil
	}
	if m, ok := s.grain.known(t.key); ok {
		return m, nil
	}
	book, sh := s.grain, s.pics.shelf
	return nil, func(ctx context.Context) { book.one(ctx, sh, &t) }
}

// GrainPhotographed reports whether the photograph of a face says how its
// grain runs.
func (s *Session) GrainPhotographed(board string, face int) bool {
	b := s.hist.Current().Board(board)
	return b != nil && face >= 1 && face <= 2 && s.grainTask(b, face-1).spec != nil
}

// read reads the grain of the faces, two at a time. What cannot be read stays
// unknown.
func (b *grainBook) read(ctx context.Context, sh *shelf, grain map[*face.Board]looks.Grain, todo []grainTask) {
	maps := make([]*figure.Map, len(todo))
	var wait sync.WaitGroup
	gate := make(chan struct{}, 2)
	for i := range todo {
		wait.Add(1)
		gate <- struct{}{}
		go func() {
			defer func() { <-gate; wait.Done() }()
			maps[i] = b.one(ctx, sh, &todo[i])
		}()
	}
	wait.Wait()
	for i := range todo {
		g := grain[todo[i].board]
		g.Maps[todo[i].face] = maps[i]
		grain[todo[i].board] = g
	}
}

func (b *grainBook) one(ctx context.Context, sh *shelf, t *grainTask) *figure.Map {
	if m, ok := b.known(t.key); ok || ctx.Err() != nil {
		return m
	}
	m := b.pictured(ctx, sh, t)
	if len(t.lines) > 0 {
		if drawn, err := figure.FromLines(t.lines, t.key.length, t.key.width, 0); err == nil {
			m = m.With(drawn)
		}
	}
	if ctx.Err() != nil {
		return nil // not all of it was read
	}
	b.keep(t.key, m)
	return m
}

// pictured is the map of the photograph alone, which holds whatever is drawn.
func (b *grainBook) pictured(ctx context.Context, sh *shelf, t *grainTask) *figure.Map {
	if t.spec == nil {
		return nil
	}
	key := t.key
	key.lines = ""
	if m, ok := b.known(key); ok {
		return m
	}
	pic, _, _, err := sh.picture(ctx, t.order, t.spec, false)
	if err != nil {
		return nil
	}
	m, _ := figure.FromImage(ctx, pic.Pix, key.length, key.width, 0)
	if ctx.Err() != nil {
		return nil
	}
	b.keep(key, m)
	return m
}

func (b *grainBook) known(key grainKey) (*figure.Map, bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	m, ok := b.got[key]
	return m, ok
}

func (b *grainBook) keep(key grainKey, m *figure.Map) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.got == nil || len(b.got) >= mostGrain {
		b.got = map[grainKey]*figure.Map{}
	}
	b.got[key] = m
}

// boardsOf are the boards that strips are cut from.
func boardsOf(lists ...[]face.Strip) map[string]bool {
	out := map[string]bool{}
	for _, l := range lists {
		for i := range l {
			if l[i].Board != nil {
				out[l[i].Board.ID] = true
			}
		}
	}
	return out
}
