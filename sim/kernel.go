package sim

import (
	"context"
	"errors"
	"fmt"
	"runtime"

	"github.com/fschuetz04/simgo"

	"loamcast/sim/calendar"
)

// Errors that stop a run. They arrive wrapped in a [RunError].
var (
	// ErrPast marks an event asked for before the present instant.
	ErrPast = errors.New("event scheduled in the past")
	// ErrRange marks an event asked for beyond the clock's range, 2^53 s.
	ErrRange = errors.New("event scheduled beyond the clock's range")
	// ErrClosed marks the use of a kernel after Close.
	ErrClosed = errors.New("kernel is closed")
	// ErrRunning marks a Run called from within an event of the same kernel.
	ErrRunning = errors.New("kernel is already running")
)

// contextStride is the number of events between two looks at the context.
const contextStride = 256

// Kernel runs the events of one replication in order of time, then priority,
// then the order in which they were asked for.
//
// Make one with [NewKernel], use it from one goroutine, and [Kernel.Close] it.
type Kernel struct {
	engine      *simgo.Simulation
	call        simgo.Event  // of the engine at an instant: what all such calls are copies of
	spare       *simgo.Event // a call that is over, to be used again
	clock       calendar.Clock
	replication int

	now     Time
	agenda  agenda
	awaited Time   // the instant at which the engine is to call, or never
	until   Time   // the end of the present run
	current string // name of the event being executed

	ctx      context.Context
	running  bool
	closed   bool
	err      *RunError
	executed uint64
	trace    trace
}

// NewKernel returns a kernel whose Time 0 is midnight at the beginning of the
// civil date start. The replication number only labels errors.
func NewKernel(start calendar.Date, replication int) *Kernel {
	k := &Kernel{
		engine:      simgo.NewSimulation(),
		clock:       calendar.Clock{Start: start},
		replication: replication,
		awaited:     never,
	}
	k.call = newCall(k.engine, func(call *simgo.Event) {
		k.runStretch()
		k.spare = call
	})
	return k
}

// Now returns the present instant.
func (k *Kernel) Now() Time { return k.now }

// Clock returns the conversion between seconds of the run and civil dates.
func (k *Kernel) Clock() calendar.Clock { return k.clock }

// Executed returns the number of events executed so far.
func (k *Kernel) Executed() uint64 { return k.executed }

// At schedules fn at instant t with [Normal] priority. The name says what
// happens, for errors and the fingerprint.
//
// An instant in the past or out of range, or a closed kernel, fails the run
// (see [Kernel.Fail]); the event returned is then never executed.
func (k *Kernel) At(t Time, name string, fn func()) Event {
	return k.AtPriority(t, Normal, name, fn)
}

// After schedules fn a span d from now, with [Normal] priority.
// A negative d fails the run as [Kernel.At] does.
func (k *Kernel) After(d Duration, name string, fn func()) Event {
	return k.AtPriority(k.now.Add(d), Normal, name, fn)
}

// AtPriority schedules fn at instant t. Events of one instant are executed in
// order of priority, lowest first, and among equals first in, first out. An
// event may schedule another at its own instant: it is executed before time
// moves on, in its place among those still to come.
func (k *Kernel) AtPriority(t Time, p Priority, name string, fn func()) Event {
	if err := k.refusal(t); err != nil {
		k.Fail(fmt.Errorf("%q at second %d: %w", name, int64(t), err))
		return Event{at: t}
	}
	return k.agenda.add(t, p, name, fn)
}

// refusal says why an event at t can't be scheduled, or nil.
func (k *Kernel) refusal(t Time) error {
	switch {
	case k.closed:
		return ErrClosed
	case t < k.now:
		return ErrPast
	case t > maxTime:
		return ErrRange
	}
	return nil
}

// never is an instant after all others.
const never = maxTime + 1

// engage asks the engine for a call at the instant of the next event, unless it
// will call by then. Only the next, from where the agenda goes on by itself to the end
// of the stretch: an event of the engine costs some ten times what the agenda does, and two
// allocations, and most that are cancelled never come to be the next.
//
// It is the only place that schedules an engine event. The delay is the difference
// of two whole numbers of at most 2^53, so it is finite, not negative, and exact when
// added again.
func (k *Kernel) engage() {
	e := k.agenda.first()
	if e == nil || e.at >= k.awaited {
		return
	}
	k.awaited = e.at
	call := k.spare // not the one that is under way: that is spare when it is over
	if call == nil {
		call = new(simgo.Event)
	}
	k.spare = nil
	*call = k.call
	call.TriggerDelayed(float64(e.at) - k.engine.Now())
}

// newCall returns a pending event of the engine with a handler, to be copied for each
// call and never scheduled itself.
//
// The engine gives every event that it makes a finalizer, which aborts it from the
// collector's goroutine; to set and clear one costs more than all else about an event,
// and workers wait for each other to do it. A copy has none, and is plain memory that
// may be written anew when its call is over. This is sound as an event of version
// 0.7.0 is no more than its fields (the engine that it schedules itself with, its
// state, and its handlers, which are only read) and the engine holds it by its address
// from when it is scheduled, once, to when it is processed. The tests of the kernel
// notice if a later version does otherwise.
func newCall(engine *simgo.Simulation, handler simgo.Handler) simgo.Event {
	ev := engine.Event()
	runtime.SetFinalizer(ev, nil)
	ev.AddHandler(handler)
	return *ev
}

// Run executes the events with time before until, in order, and leaves the
// clock at until. An event at until itself stays pending: a later Run with a
// later until takes it up.
//
// Run stops early, and returns a *[RunError], when an event panics or calls
// [Kernel.Fail], when ctx ends (looked at every few hundred events), or when
// until is before now. A failed kernel is closed, and returns the same error
// from then on.
func (k *Kernel) Run(ctx context.Context, until Time) (err error) {
	if k.running {
		k.Fail(ErrRunning)
		return k.err
	}
	k.running, k.ctx = true, ctx
	defer func() {
		k.running, k.ctx = false, nil
		if v := recover(); v != nil {
			k.Fail(newPanicError(v))
		}
		k.current = ""
		if k.err != nil {
			k.Close()
			err = k.err
		}
	}()

	switch {
	case k.closed:
		k.Fail(ErrClosed)
	case until < k.now || until > maxTime:
		k.Fail(fmt.Errorf("can't run until second %d from second %d", int64(until), int64(k.now)))
	default:
		k.look()
	}
	if k.err != nil {
		return k.err
	}
	k.until = until
	k.engage()
	k.engine.RunUntil(float64(until))
	if k.closed {
		k.Fail(ErrClosed)
	}
	if k.err == nil {
		k.now = until
	}
	return nil
}

// stretch is how far the agenda goes on by itself: four weeks, so that what the engine
// takes is next to nothing.
const stretch = Time(28 * Day)

// runStretch executes the agenda from the instant that the engine has reached to the end
// of that stretch, or of the run. Once the run is stopped it returns at once, so that the
// engine can drain; so it does when called at an instant that an earlier one has
// taken the place of.
func (k *Kernel) runStretch() {
	if k.stopped() || Time(k.engine.Now()) != k.awaited {
		return
	}
	end := min((k.awaited/stretch+1)*stretch, k.until)
	k.awaited = never
	for e := k.agenda.first(); e != nil && e.at < end; e = k.agenda.first() {
		k.now = e.at
		if k.trace != 0 {
			k.trace.record(e, k.agenda.slots[e.slot].name)
		}
		k.execute(k.agenda.take())
		if k.stopped() {
			return
		}
	}
	k.engage()
}

func (k *Kernel) execute(name string, fn func()) {
	k.current = name
	k.executed++
	fn()
	k.current = ""
	if k.executed%contextStride == 0 {
		k.look()
	}
}

// look fails the run when its context has ended.
func (k *Kernel) look() {
	if k.ctx.Err() != nil {
		k.Fail(context.Cause(k.ctx))
	}
}

func (k *Kernel) stopped() bool { return k.err != nil || k.closed }

// Fail stops the run when the present event returns; [Kernel.Run] then returns
// a *[RunError] that wraps err with the replication, the date and the event.
// Called outside a run, it makes the next Run fail. The first error stays.
func (k *Kernel) Fail(err error) {
	if k.err != nil {
		return
	}
	if err == nil {
		err = errors.New("failed without a reason")
	}
	k.err = &RunError{
		Replication: k.replication,
		At:          k.now,
		Date:        k.clock.Stamp(int64(k.now)),
		Event:       k.current,
		Err:         err,
	}
}

// Err returns the *[RunError] that stopped the kernel, or nil.
func (k *Kernel) Err() error {
	if k.err == nil {
		return nil
	}
	return k.err
}

// Close drops all pending events and what they refer to. It may be called more
// than once. A kernel closed by one of its own events stops with [ErrClosed].
func (k *Kernel) Close() {
	k.closed = true
	*k.engine = simgo.Simulation{}
	k.agenda = agenda{}
}
