package outline

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// mostWorkers bounds how many cores a search takes.
const mostWorkers = 4

// share runs f for every number below n, some at a time, and waits for all of
// them. It stops early when ctx ends.
func share(ctx context.Context, n int, f func(i int)) error {
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
