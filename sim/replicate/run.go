package replicate

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync"
)

// Run calls job for the replications 0 to n−1, on as many goroutines as workers
// says, or on one per usable core when it is 0 or less. It returns the results
// in the order of the replications.
//
// The first error, by number of replication and not by the clock, is returned,
// with no results. To know it for sure Run lets the replications before a failed
// one finish, cancels those after it and begins no more. A panic in a job is an
// error like another. When ctx ends, so does Run, with the cause, unless a job
// failed for a reason of its own.
//
// If progress is not nil it is called after each replication with the number
// done so far, never by two goroutines at once. It should be quick.
func Run[T any](
	ctx context.Context,
	n, workers int,
	job func(ctx context.Context, rep int) (T, error),
	progress func(done, total int),
) ([]T, error) {
	if n < 0 {
		return nil, fmt.Errorf("replicate: %d replications", n)
	}
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	r := &runner[T]{
		parent:   ctx,
		job:      job,
		progress: progress,
		results:  make([]T, n),
		cancels:  make([]context.CancelFunc, n),
		failed:   n,
	}
	var wg sync.WaitGroup
	for range min(workers, n) {
		wg.Go(r.work)
	}
	wg.Wait()
	switch {
	case r.err != nil && !(ctx.Err() != nil && errors.Is(r.err, ctx.Err())):
		return nil, r.err
	case r.done < n:
		return nil, context.Cause(ctx)
	}
	return r.results, nil
}

// runner is the state that the workers of one Run share.
type runner[T any] struct {
	parent   context.Context
	job      func(ctx context.Context, rep int) (T, error)
	progress func(done, total int)
	results  []T // each worker writes its own replications only

	mu      sync.Mutex // guards what follows, and calls to progress
	next    int
	done    int
	cancels []context.CancelFunc // of the replications under way, else nil
	failed  int                  // lowest replication that failed, or n
	err     error
}

// work takes replications until there are none left to begin.
func (r *runner[T]) work() {
	for {
		ctx, rep, ok := r.begin()
		if !ok {
			return
		}
		result, err := guarded(ctx, rep, r.job)
		r.end(rep, result, err)
	}
}

// begin hands out the next replication. They are handed out in order, so every
// replication before a failed one has begun by the time it fails.
func (r *runner[T]) begin() (ctx context.Context, rep int, ok bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.next >= r.failed || r.parent.Err() != nil {
		return nil, 0, false
	}
	rep = r.next
	r.next++
	ctx, cancel := context.WithCancel(r.parent)
	r.cancels[rep] = cancel
	return ctx, rep, true
}

// guarded runs a job and turns a panic into an error.
func guarded[T any](ctx context.Context, rep int, job func(context.Context, int) (T, error)) (result T, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("replication %d: %w", rep, NewPanicError(v))
		}
	}()
	return job(ctx, rep)
}

// end books the outcome of a replication.
func (r *runner[T]) end(rep int, result T, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.cancels[rep]()
	r.cancels[rep] = nil
	if err != nil {
		r.fail(rep, err)
		return
	}
	r.results[rep] = result
	r.done++
	if r.progress != nil {
		r.progress(r.done, len(r.results))
	}
}

// fail keeps the error of the lowest replication and cancels all later ones.
func (r *runner[T]) fail(rep int, err error) {
	if rep >= r.failed {
		return
	}
	r.failed, r.err = rep, err
	for _, cancel := range r.cancels[rep+1 : r.next] {
		if cancel != nil {
			cancel()
		}
	}
}
