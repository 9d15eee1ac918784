package sim

import (
	"context"
	"errors"
	"hash/fnv"
	"math"
	"slices"
	"strings"
	"testing"

	"loamcast/sim/calendar"
)

var testStart = calendar.Date{Year: 2031, Month: 4, Day: 17}

func newTestKernel(t testing.TB) *Kernel {
	k := NewKernel(testStart, 3)
	t.Cleanup(k.Close)
	return k
}

func mustRun(t testing.TB, k *Kernel, until Time) {
	t.Helper()
	if err := k.Run(context.Background(), until); err != nil {
		t.Fatal(err)
	}
}

// Shows the order of execution: time, then priority, then first in, first out,
// also for events added to the instant that is being executed.
func TestOrderWithinAnInstant(t *testing.T) {
	k := newTestKernel(t)
	var got []string
	say := func(s string) func() { return func() { got = append(got, s) } }
	k.At(10, "", say("normal 1"))
	k.AtPriority(10, Late, "", say("late"))
	k.AtPriority(10, Early, "", func() {
		got = append(got, "early")
		k.At(10, "", say("normal 3"))
		k.AtPriority(10, Early, "", say("early added"))
		k.AtPriority(10, Late+1, "", say("last"))
	})
	k.At(10, "", say("normal 2"))
	k.At(5, "", say("before"))
	mustRun(t, k, 11)
	want := []string{"before", "early", "early added", "normal 1", "normal 2", "normal 3", "late", "last"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Shows that Run leaves out the events at its end, and that a later Run has them.
func TestRunExcludesItsEnd(t *testing.T) {
	k := newTestKernel(t)
	var at []Time
	note := func() { at = append(at, k.Now()) }
	for _, when := range []Time{0, 99, 100, 101} {
		k.At(when, "note", note)
	}
	mustRun(t, k, 100)
	if !slices.Equal(at, []Time{0, 99}) || k.Now() != 100 {
		t.Errorf("events at %v, now %d, want [0 99] and 100", at, k.Now())
	}
	k.At(100, "note", note) // the present instant is not the past
	mustRun(t, k, 102)
	if !slices.Equal(at, []Time{0, 99, 100, 100, 101}) {
		t.Errorf("events at %v", at)
	}
	if k.Executed() != 5 {
		t.Errorf("executed %d, want 5", k.Executed())
	}
}

// Shows that an event asked for between two runs happens in the second of them, though
// those that were pending come after it.
func TestEarlierEventBetweenRuns(t *testing.T) {
	k := newTestKernel(t)
	var at []Time
	note := func() { at = append(at, k.Now()) }
	k.At(50, "note", note)
	mustRun(t, k, 10)
	k.At(20, "note", note)
	mustRun(t, k, 30)
	if !slices.Equal(at, []Time{20}) {
		t.Errorf("events at %v in the second run, want [20]", at)
	}
	mustRun(t, k, 60)
	if !slices.Equal(at, []Time{20, 50}) {
		t.Errorf("events at %v, want [20 50]", at)
	}
}

// Shows that a cancelled event does not happen, and that a handle kept long
// after its event can't harm another one.
func TestCancel(t *testing.T) {
	k := newTestKernel(t)
	happened := 0
	kept := k.At(1, "kept", func() { happened++ })
	dropped := k.At(2, "dropped", func() { t.Error("cancelled event executed") })
	dropped.Cancel()
	k.At(2, "canceller", func() {})
	same := k.At(2, "same instant", func() { t.Error("event cancelled at its own instant executed") })
	k.AtPriority(2, Early, "cancel", func() { same.Cancel() })
	mustRun(t, k, 3)
	if kept.Pending() || dropped.Pending() || same.Pending() {
		t.Error("an event is pending after the run")
	}
	for range 1000 {
		k.After(1, "later", func() { happened++ })
		kept.Cancel()
	}
	mustRun(t, k, 5)
	if happened != 1001 {
		t.Errorf("%d events happened, want 1001", happened)
	}
}

// Shows that each misuse stops the run with an error that says where.
func TestMistakesFail(t *testing.T) {
	cause := errors.New("planted")
	for _, tc := range []struct {
		name string
		do   func(k *Kernel)
		is   error
		says string
	}{
		{"past", func(k *Kernel) { k.At(k.Now()-1, "x", func() {}) }, ErrPast, `"x" at second 3599`},
		{"negative delay", func(k *Kernel) { k.After(-5, "x", func() {}) }, ErrPast, "3595"},
		{"out of range", func(k *Kernel) { k.At(math.MaxInt64, "x", func() {}) }, ErrRange, "range"},
		{"overflowing delay", func(k *Kernel) { k.After(math.MaxInt64, "x", func() {}) }, ErrPast, "past"},
		{"fail", func(k *Kernel) { k.Fail(cause) }, cause, "planted"},
		{"fail without reason", func(k *Kernel) { k.Fail(nil) }, nil, "without a reason"},
		{"panic", func(*Kernel) { panic("planted") }, nil, "panic: planted"},
		{"panic with error", func(*Kernel) { panic(cause) }, cause, "panic: planted"},
		{"not a number", func(k *Kernel) { k.After(DurationOf(math.NaN()), "x", func() {}) }, nil, "NaN seconds"},
		{"negative length", func(k *Kernel) { k.After(DurationOf(-1), "x", func() {}) }, nil, "-1 seconds"},
		{"infinite length", func(k *Kernel) { k.After(DurationOf(math.Inf(1)), "x", func() {}) }, nil, "+Inf seconds"},
		{"run within run", func(k *Kernel) { _ = k.Run(context.Background(), k.Now()+1) }, ErrRunning, "running"},
		{"close within run", func(k *Kernel) { k.Close() }, ErrClosed, "closed"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			k := newTestKernel(t)
			k.At(3600, "mix batch", func() { tc.do(k) })
			k.At(3600, "same instant", func() { t.Error("went on in the failed instant") })
			k.At(3601, "later", func() { t.Error("went on after the failure") })
			err := k.Run(context.Background(), 7200)
			var re *RunError
			if !errors.As(err, &re) {
				t.Fatalf("got %v, want a RunError", err)
			}
			if re.Replication != 3 || re.At != 3600 || re.Date != "2031-04-17 01:00" {
				t.Errorf("error is placed at %d, %d, %q", re.Replication, re.At, re.Date)
			}
			if tc.name != "close within run" { // that is noticed when the event is over
				if want := "replication 3, 2031-04-17 01:00, event mix batch: "; !strings.HasPrefix(err.Error(), want) {
					t.Errorf("%q does not begin with %q", err, want)
				}
			}
			if tc.is != nil && !errors.Is(err, tc.is) {
				t.Errorf("%v is not %v", err, tc.is)
			}
			if !strings.Contains(err.Error(), tc.says) {
				t.Errorf("%q does not say %q", err, tc.says)
			}
			if again := k.Run(context.Background(), 9000); again != err {
				t.Errorf("a second run returned %v", again)
			}
		})
	}
}

// Shows that mistakes made outside a run surface when it is run.
func TestMistakesOutsideARun(t *testing.T) {
	k := newTestKernel(t)
	if e := k.After(-1, "x", func() {}); e.Pending() {
		t.Error("refused event is pending")
	}
	if err := k.Run(context.Background(), 10); !errors.Is(err, ErrPast) {
		t.Errorf("got %v", err)
	}

	k = newTestKernel(t)
	mustRun(t, k, 10)
	if err := k.Run(context.Background(), 9); err == nil || k.Err() != err {
		t.Errorf("running backwards gave %v, Err %v", err, k.Err())
	}

	k = newTestKernel(t)
	e := k.At(1, "dropped", func() { t.Error("executed after Close") })
	k.Close()
	if e.Cancel(); e.Pending() {
		t.Error("an event is pending after Close")
	}
	k.At(1, "x", func() { t.Error("executed after Close") })
	if err := k.Run(context.Background(), 10); !errors.Is(err, ErrClosed) {
		t.Errorf("got %v", err)
	}
}

// Shows that an endless run ends with its context, and says where it was.
func TestContextEndsRun(t *testing.T) {
	k := newTestKernel(t)
	ctx, cancel := context.WithCancelCause(context.Background())
	cause := errors.New("stopped by the user")
	n := 0
	var tick func()
	tick = func() {
		if n++; n == 1000 {
			cancel(cause)
		}
		k.After(0, "tick", tick)
	}
	k.After(60, "tick", tick)
	err := k.Run(ctx, 100)
	var re *RunError
	if !errors.Is(err, cause) || !errors.As(err, &re) || re.At != 60 {
		t.Errorf("got %v", err)
	}
	if n > 1000+contextStride {
		t.Errorf("%d events before the run stopped", n)
	}
}

// Shows that the fingerprint is FNV-1a of time, priority and name as documented,
// by the standard library's implementation.
func TestFingerprint(t *testing.T) {
	k := newTestKernel(t)
	k.RecordFingerprint()
	k.AtPriority(258, Early, "first", func() {})
	k.At(70_000, "zweites", func() {})
	k.At(70_000, "cancelled", func() {}).Cancel()
	mustRun(t, k, 100_000)

	h := fnv.New64a()
	word := func(v int64) {
		var b [8]byte
		for i := range b {
			b[i] = byte(uint64(v) >> (8 * i))
		}
		h.Write(b[:])
	}
	word(258)
	word(-100)
	h.Write([]byte("first"))
	word(70_000)
	word(0)
	h.Write([]byte("zweites"))
	if k.Fingerprint() != h.Sum64() {
		t.Errorf("fingerprint %x, want %x", k.Fingerprint(), h.Sum64())
	}
}

// Shows rounding to the nearest second.
func TestDurationOf(t *testing.T) {
	for _, tc := range []struct {
		seconds float64
		want    Duration
	}{
		{0, 0}, {0.4, 0}, {math.Nextafter(0.5, 0), 0}, {0.5, 1}, {1.5, 2}, {59.6, Minute}, {86_400, Day},
		{1<<52 - 0.5, 1 << 52}, {1<<53 - 1, 1<<53 - 1}, {1 << 53, 1 << 53},
	} {
		if got := DurationOf(tc.seconds); got != tc.want {
			t.Errorf("DurationOf(%v) = %d, want %d", tc.seconds, got, tc.want)
		}
	}
	if Day.Hours() != 24 || (90*Minute).Days() != 0.0625 || Time(0).Add(Day).Sub(100) != Day-100 {
		t.Error("conversion is wrong")
	}
}

// Shows that events cost no memory once the kernel is under way, however many days
// they are spread over: neither those of the agenda nor those of the engine.
func TestEventsLeaveNoGarbage(t *testing.T) {
	k := newTestKernel(t)
	var tick func()
	tick = func() { k.After(7*Hour, "tick", tick) }
	tick()
	year := func() { mustRun(t, k, k.Now().Add(365*Day)) }
	year()
	before := k.Executed()
	const runs = 5
	perYear := testing.AllocsPerRun(runs, year)
	events := float64(k.Executed()-before) / (runs + 1)
	// A day takes two: the engine's queue boxes what is put in and what is taken out.
	if want := 2.0*365 + 10; !(events > 1000 && perYear <= want) {
		t.Errorf("%.0f allocations in a year of %.0f events, want at most %.0f", perYear, events, want)
	}
}
