package intake

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync/atomic"
	"testing"
)

func jobs(n int) []Job {
	var out []Job
	for i := range n {
		out = append(out, Job{Place: Place{fmt.Sprint("B", i), Face1}, Name: fmt.Sprint(i)})
	}
	return out
}

func TestWorkDoesEveryJobOnce(t *testing.T) {
	var busy, most atomic.Int32
	read := func(_ context.Context, j Job, tell func(Step)) (*Reading, error) {
		n := busy.Add(1)
		defer busy.Add(-1)
		for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
		}
		tell(Opening)
		switch j.Name {
		case "3":
			return nil, errors.New("torn")
		case "4":
			panic("no such corner")
		}
		tell(Splitting)
		return &Reading{SapShare: 0.5}, nil
	}
	steps := map[string][]Step{}
	errs := map[string]error{}
	Work(context.Background(), jobs(7), 2, read, func(n News) {
		steps[n.Job.Name] = append(steps[n.Job.Name], n.Step)
		errs[n.Job.Name] = n.Err
		if (n.Step == Done) != (n.Reading != nil) {
			t.Errorf("job %s at %v has reading %v", n.Job.Name, n.Step, n.Reading)
		}
	})
	for i := range 7 {
		want := []Step{Opening, Splitting, Done}
		if i == 3 || i == 4 {
			want = []Step{Opening, Failed}
		}
		p := fmt.Sprint(i)
		if !slices.Equal(steps[p], want) || (errs[p] != nil) != (i == 3 || i == 4) {
			t.Errorf("job %d went through %v with %v, want %v", i, steps[p], errs[p], want)
		}
	}
	if most.Load() > 2 {
		t.Errorf("%d at once, want 2 at most", most.Load())
	}
}

func TestWorkStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	var done, stopped int
	Work(ctx, jobs(5), 1, func(ctx context.Context, j Job, tell func(Step)) (*Reading, error) {
		if j.Name == "1" {
			stop()
			return nil, fmt.Errorf("given up: %w", ctx.Err())
		}
		return &Reading{}, nil
	}, func(n News) {
		switch n.Step {
		case Done:
			done++
		case Stopped:
			stopped++
		default:
			t.Errorf("%v of job %s: %v", n.Step, n.Job.Name, n.Err)
		}
	})
	if done != 1 || stopped != 4 {
		t.Errorf("%d done and %d stopped, want 1 and 4", done, stopped)
	}
}

func TestStepsRunOn(t *testing.T) {
	for s := Waiting; s < Stopped; s++ {
		if s.Progress() > (s + 1).Progress() {
			t.Errorf("progress falls from %v to %v", s, s+1)
		}
		if s.String() == "" || s.Ended() != (s >= Done) {
			t.Errorf("step %d: %q, ended %v", s, s, s.Ended())
		}
	}
}
