package intake

import (
	"context"
	"errors"
	"sync"

	"heartside/layout/geom"
	"heartside/model/say"
)

// Job is a photograph of a face to be read.
type Job struct {
	Place         Place
	Name          string         // of the picture, as the project knows it
	Length, Width float64        // of the board, mm; see Ask
	Corners       *[4]geom.Point // the maker's; nil: to be found
	Waney         bool           // the long edges are not sawn
}

// Step is how far a job is.
type Step int

// Steps of a job, in their order. The last three end it.
const (
	Waiting Step = iota
	Opening
	Finding
	Squaring
	Splitting
	Tracing
	Done
	Failed
	Stopped
)

// stepWords are what the screen says of a step.
var stepWords = [...]string{
	say.Mark("waiting"), say.Mark("opening the picture"), say.Mark("finding the corners"), say.Mark("squaring"),
	say.Mark("splitting heart from sap"), say.Mark("drawing the zones"), say.Mark("read"), say.Mark("could not be read"), say.Mark("stopped"),
}

func (s Step) String() string { return say.Of(stepWords[s]) }

// Ended reports whether nothing more will come of the job.
func (s Step) Ended() bool { return s >= Done }

// Progress is how much of a job is done at a step, 0 to 1. The shares are those
// of the time the steps take on a picture of 12 million pixels.
func (s Step) Progress() float64 {
	return [...]float64{0, 0.02, 0.25, 0.45, 0.6, 0.95, 1, 1, 1}[s]
}

// News says that a job has come to a step.
type News struct {
	Job     Job
	Step    Step
	Reading *Reading // with Done
	Err     error    // with Failed
}

// ReadFunc reads the photograph of a job and tells its steps.
type ReadFunc func(ctx context.Context, j Job, tell func(Step)) (*Reading, error)

// Work does the jobs, at most abreast at once, in their order, and returns
// when all have ended. tell hears of every step of every job, never of two at
// the same time; it is called on the goroutines that work. A job whose context
// ends, or a panic in the reading of a picture, ends that job only.
func Work(ctx context.Context, jobs []Job, abreast int, read ReadFunc, tell func(News)) {
	var mu sync.Mutex
	say := func(n News) {
		mu.Lock()
		defer mu.Unlock()
		tell(n)
	}
	next := make(chan Job)
	var wait sync.WaitGroup
	for range max(1, min(abreast, len(jobs))) {
		wait.Go(func() {
			for j := range next {
				say(one(ctx, j, read, func(s Step) { say(News{Job: j, Step: s}) }))
			}
		})
	}
	for _, j := range jobs {
		next <- j
	}
	close(next)
	wait.Wait()
}

// one does one job.
func one(ctx context.Context, j Job, read ReadFunc, tell func(Step)) (n News) {
	n = News{Job: j, Step: Stopped}
	if ctx.Err() != nil {
		return n
	}
	defer func() {
		if v := recover(); v != nil {
			n.Step, n.Reading, n.Err = Failed, nil, say.Errorf("reading %s went wrong inside (%v); give its corners by hand, or enter the board with a tape", j.Name, v)
		}
	}()
	r, err := read(ctx, j, tell)
	switch {
	case ctx.Err() != nil || errors.Is(err, context.Canceled):
	case err != nil:
		n.Step, n.Err = Failed, err
	default:
		n.Step, n.Reading = Done, r
	}
	return n
}
