package sim

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
// A cancelled event stays in the agenda (some 80 bytes) until its time comes.
func (e *Event) Cancel() { e.fn = nil }

// slabSize is the number of events allocated together. A slab lives as long as
// any of its events is held; 64 events are 3 kB.
const slabSize = 64

// agenda holds the pending events in the order of their execution, as a binary
// heap.
type agenda struct {
	entries []entry
	added   uint64  // number of events so far
	slab    []Event // events allocated but not yet given out
}

// entry is an event's place in the order, beside the event, so that comparing two
// does not fetch either.
type entry struct {
	at       Time
	priority Priority
	order    uint64 // in which events were asked for
	event    *Event
}

func (e *entry) before(f *entry) bool {
	if e.at != f.at {
		return e.at < f.at
	}
	if e.priority != f.priority {
		return e.priority < f.priority
	}
	return e.order < f.order
}

// add files a new event.
func (a *agenda) add(t Time, p Priority, name string, fn func()) *Event {
	if len(a.slab) == 0 {
		a.slab = make([]Event, slabSize)
	}
	e := &a.slab[0]
	a.slab = a.slab[1:]
	*e = Event{at: t, priority: p, name: name, fn: fn}

	a.added++
	a.push(entry{at: t, priority: p, order: a.added, event: e})
	return e
}

// first returns the event to be executed next, or nil. Cancelled ones that stand
// before it are dropped.
func (a *agenda) first() *Event {
	for len(a.entries) > 0 {
		if e := a.entries[0].event; e.Pending() {
			return e
		}
		a.pop()
	}
	return nil
}

func (a *agenda) push(e entry) {
	a.entries = append(a.entries, e)
	h := a.entries
	i := len(h) - 1
	for i > 0 {
		parent := (i - 1) / 2
		if !e.before(&h[parent]) {
			break
		}
		h[i] = h[parent]
		i = parent
	}
	h[i] = e
}

// pop takes out the first entry.
func (a *agenda) pop() {
	last := len(a.entries) - 1
	e := a.entries[last]
	a.entries[last] = entry{}
	h := a.entries[:last]
	a.entries = h
	if last == 0 {
		return
	}
	i := 0
	for {
		child := 2*i + 1
		if child >= last {
			break
		}
		if child+1 < last && h[child+1].before(&h[child]) {
			child++
		}
		if !h[child].before(&e) {
			break
		}
		h[i] = h[child]
		i = child
	}
	h[i] = e
}
