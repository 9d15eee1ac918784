package sim

import "slices"

// Priority orders the events of one instant: the lowest is executed first.
type Priority int16

// Priorities with a name. Any other value may be used between and beyond them.
const (
	Early  Priority = -100
	Normal Priority = 0
	Late   Priority = 100
)

// Event is something that will happen at an instant, unless cancelled. It is a handle,
// to be passed by value; that of no event at all is its zero value.
type Event struct {
	at   Time
	rank rank
	of   *agenda
	slot int32 // where the agenda keeps what it does
}

// Time returns the instant for which the event was scheduled.
func (e Event) Time() Time { return e.at }

// Pending reports whether the event is still to be executed.
func (e Event) Pending() bool {
	if e.of == nil || int(e.slot) >= len(e.of.slots) { // of no event, or of a kernel that is closed
		return false
	}
	return e.of.slots[e.slot].rank == e.rank
}

// Cancel keeps a pending event from being executed and releases what its
// function refers to. On an event executed or cancelled it does nothing, so an
// event may be held, and cancelled, for as long as one likes.
//
// A cancelled event stays in the agenda (some 60 bytes) until its time comes.
func (e Event) Cancel() {
	if e.Pending() {
		e.of.slots[e.slot].empty()
	}
}

// rank orders the events of one instant: by priority in its highest 16 bits, with the sign
// turned over so that negative ones come first, then by the number of the event, from 1 on.
// One number is compared faster than two, and no two of the 2^48 events that a run may have
// share it.
type rank uint64

const numberBits, signBit = 48, 1 << 15

func newRank(p Priority, number uint64) rank {
	return rank(uint64(uint16(p)^signBit)<<numberBits | number)
}

func (r rank) priority() Priority { return Priority(uint16(r>>numberBits) ^ signBit) }

// slot is where the agenda keeps what an event does. When that is over, executed or
// cancelled, another event gets it: there are tens of thousands of events in a run, and
// a few dozen at a time.
type slot struct {
	rank rank // of the event that has it; 0 for none
	name string
	fn   func()
}

func (s *slot) empty() { s.rank, s.fn = 0, nil }

// agenda holds the pending events in the order of their execution: the next few in a
// row, and those after them in a binary heap. A plant has some dozens, and what it adds
// mostly comes soon, so that an event finds its place in the row in a few steps and leaves
// it in none.
type agenda struct {
	next  []entry // the last of them first
	later []entry // a heap; none is to be executed before one of next
	added uint64  // number of events so far
	slots []slot
	spare []int32 // slots that no entry refers to, by their place
}

// mostNext is how many events stand in a row at most, half of which go to the heap when
// it is full, and refill how many come from there when it is empty.
const mostNext, refill = 48, 16

// entry is an event's place in the order, beside the event, so that comparing two
// does not fetch either. It names its slot by number: without pointers entries are moved
// as they are, and the collector need not look at them.
type entry struct {
	at   Time
	rank rank
	slot int32
}

func (e *entry) before(f *entry) bool { return e.at < f.at || e.at == f.at && e.rank < f.rank }

// add files a new event.
func (a *agenda) add(t Time, p Priority, name string, fn func()) Event {
	a.added++
	r, i := newRank(p, a.added), a.blank()
	a.slots[i] = slot{r, name, fn}
	a.file(entry{at: t, rank: r, slot: i})
	return Event{at: t, rank: r, of: a, slot: i}
}

// blank returns the place of a slot that no event has.
func (a *agenda) blank() int32 {
	last := len(a.spare) - 1
	if last < 0 {
		a.slots = append(a.slots, slot{})
		return int32(len(a.slots) - 1)
	}
	i := a.spare[last]
	a.spare = a.spare[:last]
	return i
}

// file puts an entry in its place in the row, if none of the heap comes before it.
func (a *agenda) file(e entry) {
	if len(a.later) > 0 && (len(a.next) == 0 || !e.before(&a.next[0])) {
		a.push(e)
		return
	}
	row := append(a.next, e)
	i := len(row) - 1
	for ; i > 0 && row[i-1].before(&e); i-- {
		row[i] = row[i-1]
	}
	row[i] = e
	if len(row) > mostNext {
		for _, e := range row[:mostNext/2] {
			a.push(e)
		}
		row = row[:copy(row, row[mostNext/2:])]
	}
	a.next = row
}

// first returns the place of the event to be executed next, or nil. Cancelled ones
// that stand before it are dropped.
func (a *agenda) first() *entry {
	for {
		for n := len(a.next); n > 0; n-- {
			if e := &a.next[n-1]; a.slots[e.slot].rank == e.rank {
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

// drop takes the first entry out of the row, whose slot no event has.
func (a *agenda) drop() {
	last := len(a.next) - 1
	a.spare = append(a.spare, a.next[last].slot)
	a.next = a.next[:last]
}

// take takes out the event that first has returned, and returns what it does. From now on
// it is not pending any more.
func (a *agenda) take() (name string, fn func()) {
	s := &a.slots[a.next[len(a.next)-1].slot]
	name, fn = s.name, s.fn
	s.empty()
	a.drop()
	return name, fn
}

func (a *agenda) push(e entry) {
	h := append(a.later, e)
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
	a.later = h
}

// pop takes the first entry out of the heap.
func (a *agenda) pop() entry {
	first, last := a.later[0], len(a.later)-1
	e := a.later[last]
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
