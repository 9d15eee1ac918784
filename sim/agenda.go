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

// Event is something that will happen at an instant, unless cancelled. It is a handle,
// to be passed by value; that of no event at all is its zero value.
type Event struct {
	at    Time
	order uint64
	slot  *slot
}

// Time returns the instant for which the event was scheduled.
func (e Event) Time() Time { return e.at }

// Pending reports whether the event is still to be executed.
func (e Event) Pending() bool { return e.slot != nil && e.slot.order == e.order }

// Cancel keeps a pending event from being executed and releases what its
// function refers to. On an event executed or cancelled it does nothing, so an
// event may be held, and cancelled, for as long as one likes.
//
// A cancelled event stays in the agenda (some 80 bytes) until its time comes.
func (e Event) Cancel() {
	if e.Pending() {
		e.slot.empty()
	}
}

// slot is where the agenda keeps what an event does. When that is over, executed or
// cancelled, another event gets it: there are tens of thousands of events in a run, and
// a few dozen at a time.
type slot struct {
	order uint64 // of the event that has it; 0 for none
	name  string
	fn    func()
}

func (s *slot) empty() { s.order, s.fn = 0, nil }

// agenda holds the pending events in the order of their execution: the next few in a
// row, and those after them in a binary heap. A plant has some dozens, and what it adds
// mostly comes soon, so that an event finds its place in the row in a few steps and leaves
// it in none.
type agenda struct {
	next  []entry // the last of them first
	later []entry // a heap; none is to be executed before one of next
	added uint64  // number of events so far
	spare []*slot // that no entry refers to
}

// mostNext is how many events stand in a row at most, half of which go to the heap when
// it is full, and refill how many come from there when it is empty.
const mostNext, refill = 48, 16

// entry is an event's place in the order, beside the event, so that comparing two
// does not fetch either.
type entry struct {
	at       Time
	priority Priority
	order    uint64 // in which events were asked for, from 1 on
	slot     *slot
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
func (a *agenda) add(t Time, p Priority, name string, fn func()) Event {
	a.added++
	s := a.blank()
	s.order, s.name, s.fn = a.added, name, fn
	a.file(entry{at: t, priority: p, order: a.added, slot: s})
	return Event{at: t, order: a.added, slot: s}
}

// blank returns a slot that no event has.
func (a *agenda) blank() *slot {
	last := len(a.spare) - 1
	if last < 0 {
		return new(slot)
	}
	s := a.spare[last]
	a.spare = a.spare[:last]
	return s
}

// file puts an entry in its place in the row, if none of the heap comes before it.
func (a *agenda) file(e entry) {
	if len(a.later) > 0 && (len(a.next) == 0 || !e.before(&a.next[0])) {
		a.push(e)
		return
	}
	a.next = append(a.next, e)
	row := a.next
	i := len(row) - 1
	for ; i > 0 && row[i-1].before(&e); i-- {
		row[i] = row[i-1]
	}
	row[i] = e
	if len(row) > mostNext {
		for _, e := range row[:mostNext/2] {
			a.push(e)
		}
		a.next = row[:copy(row, row[mostNext/2:])]
		clear(row[len(a.next):])
	}
}

// first returns the place of the event to be executed next, or nil. Cancelled ones
// that stand before it are dropped.
func (a *agenda) first() *entry {
	for {
		for n := len(a.next); n > 0; n-- {
			if e := &a.next[n-1]; e.slot.order == e.order {
				return e
			}
			a.drop()
		}
		if len(a.later) == 0 {
			return nil
		}
		for len(a.later) > 0 && len(a.next) < refill {
			a.next = append(a.next, a.pop())
		}
		slices.Reverse(a.next)
	}
}

// drop takes the first entry out of the row. Its slot is empty.
func (a *agenda) drop() {
	last := len(a.next) - 1
	a.spare = append(a.spare, a.next[last].slot)
	a.next[last] = entry{}
	a.next = a.next[:last]
}

// take takes out the event that first has returned, and returns what it does. From now on
// it is not pending any more.
func (a *agenda) take() (name string, fn func()) {
	s := a.next[len(a.next)-1].slot
	name, fn = s.name, s.fn
	s.empty()
	a.drop()
	return name, fn
}

func (a *agenda) push(e entry) {
	a.later = append(a.later, e)
	h := a.later
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

// pop takes the first entry out of the heap.
func (a *agenda) pop() entry {
	first, last := a.later[0], len(a.later)-1
	e := a.later[last]
	a.later[last] = entry{}
	h := a.later[:last]
	a.later = h
	if last == 0 {
		return first
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
	return first
}
