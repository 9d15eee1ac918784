package replicate

import (
	"context"
	"errors"
	"iter"
	"runtime"
	"sync"
)

// ahead is how many results of each worker may wait for their turn.
const ahead = 4

// InOrder is [Run] for results of which not all are to be held: it hands them on one by
// one, in the order of the replications, to who ranges over it, while workers go on with
// those that follow. When many wait for their turn, since one before them is not there yet
// or who takes them is slow, no further replications are begun.
//
// The first error, by number of replication and not by the clock, comes last and without a
// result. What is under way is then cancelled, as it is when who takes the results breaks
// off. Progress is told of each before it is handed on.
func InOrder[T any](
	ctx context.Context,
	n, workers int,
	job func(ctx context.Context, rep int) (T, error),
	progress func(done, total int),
) iter.Seq2[T, error] {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	type outcome struct {
		result T
		err    error
	}
	type task struct {
		rep     int
		outcome chan outcome // has room for it, so that a worker need not wait for its turn
	}
	return func(yield func(T, error) bool) {
		within, cancel := context.WithCancel(ctx)
		tasks, turns := make(chan task), make(chan task, ahead*workers)
		var all sync.WaitGroup
		defer all.Wait()
		defer cancel()
		all.Go(func() {
			defer close(turns)
			defer close(tasks)
			for rep := range n {
				t := task{rep, make(chan outcome, 1)}
				// Whatever gets a turn has a worker, so that its outcome will come.
				for _, list := range []chan task{tasks, turns} {
					select {
					case list <- t:
					case <-within.Done():
						return
					}
				}
			}
		})
		for range min(workers, n) {
			all.Go(func() {
				for t := range tasks {
					result, err := guarded(within, t.rep, job)
					t.outcome <- outcome{result, err}
				}
			})
		}
		done := 0
		for t := range turns {
			o := <-t.outcome
			if o.err != nil {
				if ctx.Err() != nil && errors.Is(o.err, ctx.Err()) {
					break
				}
				yield(o.result, o.err)
				return
			}
			done++
			if progress != nil {
				progress(done, n)
			}
			if !yield(o.result, nil) {
				return
			}
		}
		if done < n {
			var none T
			yield(none, context.Cause(ctx))
		}
	}
}
