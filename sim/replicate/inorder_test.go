package replicate

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"testing/synctest"

	"pgregory.net/rapid"
)

// Shows that results are handed on in order, each once and until the taker breaks off, that
// progress counts up one by one before each, and that the lowest failing replication ends
// it with its error, for any number of jobs and workers.
func TestHandedOnInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 60).Draw(t, "n")
		workers := rapid.IntRange(-1, 9).Draw(t, "workers")
		stop := rapid.IntRange(1, 80).Draw(t, "stop") // takes so many
		bad := rapid.SliceOfN(rapid.IntRange(0, 80), 0, 4).Draw(t, "bad")
		lowest, fails := n, map[int]bool{}
		for _, rep := range bad {
			fails[rep] = true
			lowest = min(lowest, rep)
		}
		var calls atomic.Int64
		taken, reported, failed := 0, 0, error(nil)
		for got, err := range InOrder(context.Background(), n, workers, func(_ context.Context, rep int) (int, error) {
			calls.Add(1)
			if rep%3 == 0 {
				runtime.Gosched()
			}
			if fails[rep] {
				return 0, fmt.Errorf("%d", rep)
			}
			return rep * rep, nil
		}, func(done, total int) {
			reported++ // no lock: it is the taker's goroutine
			if done != reported || total != n {
				t.Errorf("progress %d of %d, want %d of %d", done, total, reported, n)
			}
		}) {
			if failed = err; err != nil {
				continue // none is to follow
			}
			if got != taken*taken || reported != taken+1 {
				t.Fatalf("result %d is %d after %d reports", taken, got, reported)
			}
			if taken++; taken == stop {
				break
			}
		}
		want := min(n, stop, lowest)
		if taken != want || calls.Load() < int64(want) {
			t.Fatalf("%d taken in %d calls, want %d", taken, calls.Load(), want)
		}
		if fails := lowest < n && lowest < stop; fails != (failed != nil) || fails && failed.Error() != fmt.Sprint(lowest) {
			t.Fatalf("error %v, the lowest is of %d", failed, lowest)
		}
	})
}

// Shows that no more results wait than a few for each worker: neither behind one that takes
// long, nor for a taker who does. The bubble fails the test if a goroutine is left.
func TestFewWaitForTheirTurn(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		const n, workers = 500, 3
		var begun atomic.Int64
		release := make(chan struct{})
		taken := 0
		go func() {
			synctest.Wait() // until nothing moves any more
			if got := begun.Load(); got > (ahead+2)*workers || got < workers {
				t.Errorf("%d are begun while the first goes on", got)
			}
			close(release)
		}()
		for _, err := range InOrder(t.Context(), n, workers, func(_ context.Context, rep int) (int, error) {
			begun.Add(1)
			if rep == 0 {
				<-release
			}
			return rep, nil
		}, nil) {
			if err != nil {
				t.Fatal(err)
			}
			if taken++; taken%100 == 0 {
				synctest.Wait()
				if got := int(begun.Load()) - taken; got > (ahead+2)*workers {
					t.Errorf("%d are begun and not taken", got)
				}
			}
		}
		if taken != n {
			t.Errorf("%d taken", taken)
		}
	})
}

// Shows that it ends with its context, with the cause, and cancels what is under way when
// the taker breaks off; no goroutine is left.
func TestInOrderEnds(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		cause := errors.New("the user has had enough")
		ctx, cancel := context.WithCancelCause(context.Background())
		waits := func(ctx context.Context, rep int) (int, error) {
			if rep > 5 {
				<-ctx.Done()
				return 0, fmt.Errorf("replication %d: %w", rep, ctx.Err())
			}
			return rep, nil
		}
		taken := 0
		for range InOrder(ctx, 1000, 3, waits, nil) {
			if taken++; taken == 4 {
				break
			}
		}
		taken = 0
		var last error
		for _, err := range InOrder(ctx, 1000, 3, waits, func(done, _ int) {
			if done == 5 {
				cancel(cause)
			}
		}) {
			if last = err; err == nil {
				taken++
			}
		}
		if last != cause || taken < 5 || taken > 6 {
			t.Errorf("%d taken, and then %v", taken, last)
		}
		for _, err := range InOrder(ctx, 1, 1, waits, nil) {
			if err != nil && err != cause {
				t.Errorf("with a context that has ended: %v", err)
			}
		}
	})
}

// Shows that a panic in a job is an error that says where.
func TestPanicInOrder(t *testing.T) {
	var last error
	for _, last = range InOrder(context.Background(), 9, 2, func(_ context.Context, rep int) (int, error) {
		if rep == 3 {
			panic("planted")
		}
		return rep, nil
	}, nil) {
	}
	if last == nil || !strings.HasPrefix(last.Error(), "replication 3: panic: planted\n") || !strings.Contains(last.Error(), "inorder_test.go") {
		t.Errorf("error %v", last)
	}
}
