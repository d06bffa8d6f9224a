package session

import (
	"context"
	"runtime/debug"
	"slices"
	"sync"
)

// task is work on a picture. A task that is still waiting gives way to a later
// one of the same name.
type task struct {
	name   taskName
	urgent bool          // before all that are not
	work   func() func() // elsewhere; what it returns is run by the session
	drop   func()        // by the session, instead of work
}

// taskName is what a task is about.
type taskName struct {
	board string
	face  int
	what  memoryKey // zero for the look of the committed face
	px    float64   // of a picture for the screen
}

// queue does tasks in the background, at most abreast at once, and brings what
// they give to the session together.
type queue struct {
	ctx  context.Context
	post func(func())

	mu     sync.Mutex
	tasks  []*task
	busy   int
	did    int // since memory was given back
	done   []func()
	posted bool
}

func newQueue(ctx context.Context, post func(func())) *queue { return &queue{ctx: ctx, post: post} }

// add takes on a task. Without a post it is done at once.
func (q *queue) add(t *task, after func()) {
	if q.post == nil {
		t.work()()
		return
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	if i := slices.IndexFunc(q.tasks, func(o *task) bool { return o.name == t.name }); i >= 0 {
		q.tasks[i].drop()
		q.tasks = slices.Delete(q.tasks, i, i+1)
	}
	if t.urgent {
		at := slices.IndexFunc(q.tasks, func(o *task) bool { return !o.urgent })
		if at < 0 {
			at = len(q.tasks)
		}
		q.tasks = slices.Insert(q.tasks, at, t)
	} else {
		q.tasks = append(q.tasks, t)
	}
	if q.busy < abreast {
		q.busy++
		go q.run(after)
	}
}

// manyTasks is after how many tasks the memory they took meanwhile is given
// back: opening a project or a stack of photographs, not an edit. Engineering
// choice.
const manyTasks = 24

// run does tasks until there are none.
func (q *queue) run(after func()) {
	for {
		q.mu.Lock()
		if len(q.tasks) == 0 || q.ctx.Err() != nil {
			q.busy--
			many := q.busy == 0 && q.did >= manyTasks
			if many {
				q.did = 0
			}
			q.mu.Unlock()
			if many {
				debug.FreeOSMemory() // else the heap stays as large as it was
			}
			return
		}
		q.did++
		t := q.tasks[0]
		q.tasks = slices.Delete(q.tasks, 0, 1)
		q.mu.Unlock()
		q.give(t.work(), after)
	}
}

// give has the session take in what a task gave, with what others gave by
// then, and call after.
func (q *queue) give(f, after func()) {
	q.mu.Lock()
	q.done = append(q.done, f)
	first := !q.posted
	q.posted = true
	q.mu.Unlock()
	if !first {
		return
	}
	q.post(func() {
		q.mu.Lock()
		done := q.done
		q.done, q.posted = nil, false
		q.mu.Unlock()
		if q.ctx.Err() != nil {
			return
		}
		for _, f := range done {
			f()
		}
		after()
	})
}
