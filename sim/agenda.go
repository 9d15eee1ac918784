package sim

import "slices"

// Priority orders the events of one instant: the lowest is executed first.
type Priority int

// Priorities with a name. Any other value may be used between and beyond them.
const (
	Early  Priority = -100
	Normal Priority = 0
	Late   Priority = 100
)

// Event is something that will happen at an instant, unless cancelled.
type Event struct {
	at       Time
	priority Priority
	name     string
	fn       func() // nil once executed or cancelled
}

// Time returns the instant for which the event was scheduled.
func (e *Event) Time() Time { return e.at }

// Pending reports whether the event is still to be executed.
func (e *Event) Pending() bool { return e.fn != nil }

// Cancel keeps a pending event from being executed and releases what its
// function refers to. On an event executed or cancelled it does nothing, so an
// event may be held, and cancelled, for as long as one likes.
//
// A cancelled event's instant stays in the engine's queue (about 200 bytes)
// until its time comes.
func (e *Event) Cancel() { e.fn = nil }

// slabSize is the number of events allocated together. A slab lives as long as
// any of its events is held; 64 events are 3 kB.
const slabSize = 64

// agenda holds the pending events, in one bucket for each distinct instant.
type agenda struct {
	buckets map[Time]*bucket
	spare   []*bucket // emptied buckets, to use again
	slab    []Event   // events allocated but not yet given out
}

func newAgenda() agenda {
	return agenda{buckets: make(map[Time]*bucket)}
}

// add files a new event, and reports whether it is the first of its instant.
func (a *agenda) add(t Time, p Priority, name string, fn func()) (e *Event, isNew bool) {
	if len(a.slab) == 0 {
		a.slab = make([]Event, slabSize)
	}
	e = &a.slab[0]
	a.slab = a.slab[1:]
	*e = Event{at: t, priority: p, name: name, fn: fn}

	b := a.buckets[t]
	if b == nil {
		isNew = true
		b = a.bucket()
		a.buckets[t] = b
	}
	b.add(e)
	return e, isNew
}

// bucket returns an empty bucket.
func (a *agenda) bucket() *bucket {
	n := len(a.spare)
	if n == 0 {
		return new(bucket)
	}
	b := a.spare[n-1]
	a.spare = a.spare[:n-1]
	return b
}

// at returns the bucket of an instant that add has reported as new.
func (a *agenda) at(t Time) *bucket { return a.buckets[t] }

// drop forgets the exhausted bucket b of instant t.
func (a *agenda) drop(t Time, b *bucket) {
	delete(a.buckets, t)
	b.events, b.head = b.events[:0], 0
	a.spare = append(a.spare, b)
}

// bucket holds the events of one instant, in the order of their execution.
type bucket struct {
	events []*Event
	head   int // events before head have been handed out and are nil
}

// add files e behind the events of its priority. Most events of an instant have
// the same priority, so the search from the end is short.
func (b *bucket) add(e *Event) {
	i := len(b.events)
	for i > b.head && b.events[i-1].priority > e.priority {
		i--
	}
	b.events = slices.Insert(b.events, i, e)
}

// next hands out the first event that was not cancelled, or nil.
func (b *bucket) next() *Event {
	for b.head < len(b.events) {
		e := b.events[b.head]
		b.events[b.head] = nil
		b.head++
		if e.Pending() {
			return e
		}
	}
	return nil
}
