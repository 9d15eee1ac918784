package study

import (
	"context"
	"runtime"
	"slices"
	"sync"

	"loamcast/sim/replicate"
)

// workers lets as many runs of a study go on at a time as it has workers, whichever
// questions ask for them: those that give way begin when nobody else waits.
type workers struct {
	mu      sync.Mutex
	free    int
	waiting [2][]chan struct{} // who waits, first come first served; those that give way last
}

func newWorkers(n int) *workers {
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	return &workers{free: n}
}

// begin waits for a worker, or for the end of ctx.
func (w *workers) begin(ctx context.Context) error {
	w.mu.Lock()
	if w.free > 0 {
		w.free--
		w.mu.Unlock()
		return nil
	}
	line, turn := &w.waiting[rank(ctx)], make(chan struct{}, 1)
	*line = append(*line, turn)
	w.mu.Unlock()
	select {
	case <-turn:
		return nil
	case <-ctx.Done():
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	if at := slices.Index(*line, turn); at >= 0 {
		*line = slices.Delete(*line, at, at+1)
	} else {
		w.pass() // it was this one's turn already
	}
	return context.Cause(ctx)
}

// end gives a worker back.
func (w *workers) end() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.pass()
}

// pass gives a worker to who waits.
func (w *workers) pass() {
	for i := range w.waiting {
		if line := &w.waiting[i]; len(*line) > 0 {
			(*line)[0] <- struct{}{}
			*line = slices.Delete(*line, 0, 1)
			return
		}
	}
	w.free++
}

// givesWay marks the context of runs that give way.
type givesWay struct{}

func rank(ctx context.Context) int {
	if ctx.Value(givesWay{}) != nil {
		return 1
	}
	return 0
}

// Beside begins a part of an answer that nothing else waits for yet, and returns how to
// wait for it, which its caller must do. Its runs give way to others, so that they take
// the workers that the others leave idle, as where one run can be laid only when the one
// before is known. With one worker, nothing is idle: it begins when it is waited for.
func Beside[T any](ctx context.Context, s *Study, part func(context.Context) (T, error)) (wait func() (T, error)) {
	// A panic there becomes an error, as in a run.
	whole := func(ctx context.Context) (T, error) {
		found, err := replicate.Run(ctx, 1, 1, func(ctx context.Context, _ int) (T, error) { return part(ctx) }, nil)
		if err != nil {
			var none T
			return none, err
		}
		return found[0], nil
	}
	if s.Workers == 1 {
		return func() (T, error) { return whole(ctx) }
	}
	type outcome struct {
		value T
		err   error
	}
	done := make(chan outcome, 1)
	go func() {
		value, err := whole(context.WithValue(ctx, givesWay{}, true))
		done <- outcome{value, err}
	}()
	return func() (T, error) {
		o := <-done
		return o.value, o.err
	}
}
