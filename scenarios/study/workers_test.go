package study

import (
	"context"
	"errors"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"loamcast/sim/replicate"
)

// No more runs go on at a time than there are workers, whoever asks, all of them come
// about, and one that gives way begins only when nobody else waits.
func TestWorkersAreShared(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		w := newWorkers(2)
		var mu sync.Mutex
		var begun []string
		busy, most := 0, 0
		run := func(ctx context.Context, name string) {
			if err := w.begin(ctx); err != nil {
				t.Error(err)
				return
			}
			defer w.end()
			mu.Lock()
			begun = append(begun, name)
			busy++
			most = max(most, busy)
			mu.Unlock()
			time.Sleep(time.Minute)
			mu.Lock()
			busy--
			mu.Unlock()
		}
		later := context.WithValue(t.Context(), givesWay{}, true)
		for _, name := range []string{"a", "b", "c later", "d later", "e", "f", "g"} {
			ctx := t.Context()
			if strings.HasSuffix(name, "later") {
				ctx = later
			}
			go run(ctx, name)
			synctest.Wait() // it has begun, or waits
		}
		time.Sleep(time.Hour)
		synctest.Wait()         // all of it has been done, and may be looked at
		slices.Sort(begun[2:4]) // two begin at the same instant
		slices.Sort(begun[4:6])
		if want := []string{"a", "b", "e", "f", "c later", "g", "d later"}; !slices.Equal(begun, want) {
			t.Errorf("begun in the order %q, not %q", begun, want)
		}
		if most != 2 || busy != 0 || w.free != 2 {
			t.Errorf("%d at a time, %d busy and %d free at the end", most, busy, w.free)
		}
	})
}

// Who no longer waits does not keep a worker, neither while it waits nor when its turn
// came at that very moment.
func TestWorkersAreNotLost(t *testing.T) {
	w := newWorkers(1)
	if err := w.begin(t.Context()); err != nil {
		t.Fatal(err)
	}
	gone := errors.New("gone")
	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(gone)
	if err := w.begin(ctx); !errors.Is(err, gone) {
		t.Errorf("waited with %v", err)
	}
	w.end()
	for range 1000 {
		w := newWorkers(1)
		if err := w.begin(t.Context()); err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancelCause(t.Context())
		var both sync.WaitGroup
		both.Go(func() {
			if w.begin(ctx) == nil {
				w.end()
			}
		})
		both.Go(func() { cancel(gone) })
		w.end()
		both.Wait()
		if w.free != 1 || len(w.waiting[0]) != 0 {
			t.Fatalf("%d free, %d wait", w.free, len(w.waiting[0]))
		}
	}
}

// A part begun beside others brings its value or its error, a panic too, whatever the
// number of workers; with one it is not begun before it is waited for.
func TestBeside(t *testing.T) {
	wrong := errors.New("wrong")
	for _, n := range []int{0, 1, 2} {
		s := &Study{Workers: n}
		value := Beside(t.Context(), s, func(context.Context) (int, error) { return 7, nil })
		failed := Beside(t.Context(), s, func(context.Context) (int, error) { return 7, wrong })
		panicked := Beside(t.Context(), s, func(context.Context) (int, error) { panic("no") })
		if got, err := value(); got != 7 || err != nil {
			t.Errorf("%d workers: %d, %v", n, got, err)
		}
		if got, err := failed(); got != 0 || !errors.Is(err, wrong) {
			t.Errorf("%d workers: %d, %v", n, got, err)
		}
		var told *replicate.PanicError
		if _, err := panicked(); !errors.As(err, &told) {
			t.Errorf("%d workers: a panic is %v", n, err)
		}
		synctest.Test(t, func(t *testing.T) {
			begun := false
			wait := Beside(t.Context(), s, func(context.Context) (int, error) { begun = true; return 0, nil })
			synctest.Wait()
			if begun != (n != 1) {
				t.Errorf("%d workers: begun before it is waited for: %v", n, begun)
			}
			if _, err := wait(); err != nil || !begun {
				t.Errorf("%d workers: begun %v, %v", n, begun, err)
			}
		})
	}
}
