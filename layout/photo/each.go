package photo

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// mostWorkers bounds how many cores work on a photograph takes.
const mostWorkers = 4

// Each runs f for every number below n, some at a time, and waits for all of
// them. It stops early when ctx ends and gives its error. What f does for one
// number must not rest on another, so that the answer is the same on any number
// of cores.
func Each(ctx context.Context, n int, f func(i int)) error {
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
