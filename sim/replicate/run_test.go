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
	"time"

	"pgregory.net/rapid"
)

// Shows that results come in order, each job once, and that progress counts up
// one by one, for any number of jobs and workers.
func TestResultsInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 50).Draw(t, "n")
		workers := rapid.IntRange(-1, 9).Draw(t, "workers")
		var calls atomic.Int64
		reported := 0
		got, err := Run(context.Background(), n, workers, func(_ context.Context, rep int) (int, error) {
			calls.Add(1)
			if rep%3 == 0 {
				runtime.Gosched()
			}
			return rep * rep, nil
		}, func(done, total int) {
			reported++ // no lock: Run promises one at a time
			if done != reported || total != n {
				t.Errorf("progress %d of %d, want %d of %d", done, total, reported, n)
			}
		})
		if err != nil || len(got) != n || int(calls.Load()) != n || reported != n {
			t.Fatalf("%d results, %d calls, %d reports, error %v", len(got), calls.Load(), reported, err)
		}
		for rep, v := range got {
			if v != rep*rep {
				t.Fatalf("result %d is %d", rep, v)
			}
		}
	})
}

// Shows that the error of the lowest failing replication is returned even when a
// later one fails first, and that later ones are cancelled.
func TestLowestErrorWins(t *testing.T) {
	laterFailed, laterBegan := make(chan struct{}), make(chan struct{})
	var cancelled atomic.Bool
	_, err := Run(context.Background(), 100, 4, func(ctx context.Context, rep int) (int, error) {
		switch rep {
		case 1:
			<-laterFailed // fails only after replication 2 has
			time.Sleep(10 * time.Millisecond)
			if ctx.Err() != nil {
				return 0, errors.New("an earlier replication was cancelled")
			}
			return 0, errors.New("one")
		case 2:
			<-laterBegan
			defer close(laterFailed)
			return 0, errors.New("two")
		case 3:
			close(laterBegan)
			<-ctx.Done()
			cancelled.Store(true)
			return 0, ctx.Err()
		}
		return rep, nil
	}, nil)
	if err == nil || err.Error() != "one" {
		t.Errorf("error %v, want one", err)
	}
	if !cancelled.Load() {
		t.Error("a later replication was not cancelled")
	}
}

// Shows the same for any set of failing replications and number of workers.
func TestErrorDoesNotDependOnWorkers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bad := rapid.SliceOfN(rapid.IntRange(0, 29), 1, 6).Draw(t, "bad")
		lowest := 30
		fails := make(map[int]bool)
		for _, rep := range bad {
			fails[rep] = true
			lowest = min(lowest, rep)
		}
		results, err := Run(context.Background(), 30, rapid.IntRange(1, 8).Draw(t, "workers"),
			func(_ context.Context, rep int) (int, error) {
				if fails[rep] {
					return 0, fmt.Errorf("%d", rep)
				}
				return rep, nil
			}, nil)
		if results != nil || err == nil || err.Error() != fmt.Sprint(lowest) {
			t.Fatalf("error %v, want %d", err, lowest)
		}
	})
}

// Shows that Run ends with its context, with the cause, and leaves no goroutine:
// the bubble fails the test if one is left that waits for ever.
func TestContext(t *testing.T) { synctest.Test(t, endsWithItsContext) }

func endsWithItsContext(t *testing.T) {
	cause := errors.New("the user has had enough")
	ctx, cancel := context.WithCancelCause(context.Background())
	var begun atomic.Int64
	_, err := Run(ctx, 1000, 3, func(ctx context.Context, rep int) (int, error) {
		if begun.Add(1) == 8 { // at least one of those that wait below
			cancel(cause)
		}
		if rep > 5 {
			<-ctx.Done()
			return 0, fmt.Errorf("replication %d: %w", rep, ctx.Err())
		}
		return rep, nil
	}, nil)
	if !errors.Is(err, cause) || begun.Load() > 20 {
		t.Errorf("error %v after %d jobs", err, begun.Load())
	}
	if _, err := Run(ctx, 1, 1, func(context.Context, int) (int, error) { return 0, nil }, nil); !errors.Is(err, cause) {
		t.Errorf("with a context that has ended: %v", err)
	}
}

// Shows that a panic outside a kernel is an error that says where.
func TestPanicIsAnError(t *testing.T) {
	_, err := Run(context.Background(), 5, 2, func(_ context.Context, rep int) (int, error) {
		if rep == 3 {
			panic("planted")
		}
		return rep, nil
	}, nil)
	if err == nil || !strings.HasPrefix(err.Error(), "replication 3: panic: planted\n") || !strings.Contains(err.Error(), "run_test.go") {
		t.Errorf("error %v", err)
	}
}

// Shows that a negative number is an error, and that none is none.
func TestNumber(t *testing.T) {
	job := func(context.Context, int) (int, error) { return 0, nil }
	if _, err := Run(context.Background(), -1, 1, job, nil); err == nil {
		t.Error("no error for -1")
	}
	if got, err := Run(context.Background(), 0, 1, job, nil); len(got) != 0 || err != nil {
		t.Errorf("got %v, %v for none", got, err)
	}
}
