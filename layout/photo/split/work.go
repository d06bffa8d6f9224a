package split

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// mostWorkers bounds how many cores a split takes.
const mostWorkers = 4

// each runs f for every number below n, some at a time, and waits for all of
// them. It stops early when ctx ends. What f does for one number does not rest
// on another, so that the answer is the same on any number of cores.
func each(ctx context.Context, n int, f func(i int)) error {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, mostWorkers, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				f(i)
			}
		})
	}
	all.Wait()
	return ctx.Err()
}
