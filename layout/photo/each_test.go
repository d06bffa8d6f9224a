package photo

import (
	"context"
	"errors"
	"sync/atomic"
	"testing"
)

func TestEachDoesAllOnce(t *testing.T) {
	var done [100]atomic.Int32
	if err := Each(context.Background(), len(done), func(i int) { done[i].Add(1) }); err != nil {
		t.Fatal(err)
	}
	for i := range done {
		if n := done[i].Load(); n != 1 {
			t.Errorf("number %d is done %d times", i, n)
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := Each(ctx, 5, func(int) { t.Error("done after the end") }); !errors.Is(err, context.Canceled) {
		t.Errorf("ended: %v", err)
	}
}
