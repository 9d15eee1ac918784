package process

import (
	"iter"
	"math"
	"slices"
	"sync"
)

// Reading is the mean temperature over a stretch of time, °C and h: two hours in
// common practice, one step in a simulated course.
type Reading struct{ Hours, Temperature float64 }

// Met says whether a criterion is met and, if so, at what hour from the start
// of the history.
type Met struct {
	Hours float64
	OK    bool
}

// Evaluate judges a temperature history, each reading following the one before.
// To judge a vessel and its curing together, append the second history to the
// first.
func (c Criterion) Evaluate(history []Reading) Met { return c.Judge(slices.Values(history)) }

// Judge is Evaluate for histories that follow one another and are read only as
// far as it takes.
func (c Criterion) Judge(histories ...iter.Seq[Reading]) Met {
	t := newTracker(c)
	defer t.done()
	for _, history := range histories {
		t.follow(history)
	}
	return t.met
}

// JudgeOn is Judge for a history of some hours of which it is known that it does not meet
// the criterion, and one that follows it. The former is not read where a first reading that
// does not count breaks the stretch that came before. From the first such reading on, what
// follows is read as far as any reading counts, and not at all if it is nowhere warm
// enough. What warmest is asked for is told of all that follows: a temperature that no
// reading is above, °C, and some hours of it after which none comes to a level.
func (c Criterion) JudgeOn(before iter.Seq[Reading], hours float64, after iter.Seq[Reading], warmest func(level float64) (most, until float64)) Met {
	if c.Kind == Lethality || c.Summed {
		return c.Judge(before, after)
	}
	t := newTracker(c)
	defer t.done()
	begun, broken := false, false
	read, until := 0.0, math.Inf(1)
	for r := range after {
		if !begun {
			if t.counts(r.Temperature) {
				t.follow(before)
			} else {
				t.now = hours
			}
			begun = true
		}
		if !broken && !t.counts(r.Temperature) {
			broken = true
			var most float64
			if most, until = warmest(c.Temperature); c.beyond(most) {
				return Met{}
			}
		}
		if read > until {
			break
		}
		if t.add(r); t.met.OK {
			break
		}
		read += r.Hours
	}
	return t.met
}

// beyond reports whether no history meets the criterion that is nowhere above a
// temperature, °C.
func (c Criterion) beyond(warmest float64) bool {
	switch c.Kind {
	case Hold:
		return warmest < c.Temperature
	case MeanAbove:
		return warmest*c.Hours <= c.Mean*c.Hours+slack
	case HoldWithPeak:
		return warmest <= c.Peak
	}
	return false
}

// slack absorbs rounding when many short steps should add to a whole duration,
// h.
const slack = 1e-6

// tracker follows one criterion through a history.
type tracker struct {
	c    Criterion
	now  float64 // hours of history
	met  Met
	dose float64 // Lethality: fraction of the required exposure

	// The stretch that counts, for the other kinds.
	stretch []piece
	room    *[]piece // that of stretch, once there is one
	head    int      // the piece in which the window starts
	length  float64  // h
	total   float64  // weight·h of the whole stretch
}

// piece is a reading of the stretch: where it starts on the stretch's own
// clock, the weight before it, and its weight per hour.
type piece struct{ start, before, weight float64 }

// stretches are the room of trackers that are done, to use again: a stretch of weeks is
// longer than all else that a standard load needs.
var stretches = sync.Pool{New: func() any { return new([]piece) }}

// done gives the room of the stretch back. What is met stays.
func (t *tracker) done() {
	if t.room != nil {
		*t.room = t.stretch[:0]
		stretches.Put(t.room)
		t.stretch, t.room = nil, nil
	}
}

// newTracker begins a history. Of air a history of temperatures says nothing; who
// knows what air reaches judges that.
func newTracker(c Criterion) *tracker { return &tracker{c: c, met: Met{OK: c.Kind == Aired}} }

// follow adds a history, up to where the criterion is met.
func (t *tracker) follow(history iter.Seq[Reading]) {
	if t.met.OK {
		return
	}
	for r := range history {
		if t.add(r); t.met.OK {
			return
		}
	}
}

func (t *tracker) add(r Reading) {
	if !t.met.OK {
		if t.c.Kind == Lethality {
			t.expose(r)
		} else {
			t.extend(r)
		}
	}
	t.now += r.Hours
}

func (t *tracker) expose(r Reading) {
	required := t.c.Required(r.Temperature)
	if left := (1 - t.dose) * required; r.Hours >= left-slack {
		t.met = Met{Hours: t.now + min(left, r.Hours), OK: true}
	}
	t.dose += r.Hours / required
}

// extend adds a reading to the stretch and looks for the first moment at which
// the last c.Hours of the stretch carry enough weight.
func (t *tracker) extend(r Reading) {
	if !t.counts(r.Temperature) {
		if !t.c.Summed {
			t.stretch, t.head, t.length, t.total = t.stretch[:0], 0, 0, 0
		}
		return
	}
	from := t.length
	t.length += r.Hours
	if t.c.Kind != Hold { // which counts hours only
		p := piece{start: from, before: t.total, weight: t.weight(r.Temperature)}
		if t.room == nil {
			t.room = stretches.Get().(*[]piece)
			t.stretch = *t.room
		}
		t.stretch = append(t.stretch, p)
		t.total += r.Hours * p.weight
	}
	if t.length < t.c.Hours-slack {
		return
	}
	at, ok := max(from, min(t.c.Hours, t.length)), true
	if t.c.Kind != Hold {
		at, ok = t.search(at)
	}
	if ok {
		t.met = Met{Hours: t.now + at - from, OK: true}
	}
}

// window is one that ends at a moment of the stretch, and the weight in it.
type window struct{ end, weight float64 }

// search looks for the moment from at to the end of the stretch. The weight
// carried by a window that ends at x is linear in x between the moments at
// which the window's start passes from one piece to the next.
func (t *tracker) search(at float64) (float64, bool) {
	w := window{at, t.carried(at)}
	for !t.enough(w.weight) {
		if w.end >= t.length {
			return 0, false
		}
		next := t.slide(w)
		if t.enough(next.weight) {
			return w.end + (next.end-w.end)*(t.need()-w.weight)/(next.weight-w.weight), true
		}
		w = next
	}
	return w.end, true
}

// slide moves a window to where its start reaches the next piece, or its end that
// of the stretch. A piece takes one slide, or two with rounding: n pieces never
// more than 2·n.
func (t *tracker) slide(w window) window {
	next := t.length
	if t.head+1 < len(t.stretch) {
		next = min(next, t.stretch[t.head+1].start+t.c.Hours)
	}
	if next <= w.end {
		// Rounding has left the start of the window just before the piece that it
		// has reached: without this step the search would never end.
		t.head++
		return w
	}
	return window{next, t.carried(next)}
}

// carried returns the weight in the window that ends at x, a moment in the
// newest piece, and moves head to the piece in which the window starts.
func (t *tracker) carried(x float64) float64 {
	start := max(0, x-t.c.Hours)
	for t.head+1 < len(t.stretch) && t.stretch[t.head+1].start <= start {
		t.head++
	}
	return t.stretch[len(t.stretch)-1].until(x) - t.stretch[t.head].until(start)
}

// until returns the weight of the stretch up to x, a moment in p.
func (p piece) until(x float64) float64 { return p.before + (x-p.start)*p.weight }

// counts says whether a reading belongs to a stretch. The regulations say "or
// more" for a hold and "above" for the period that has a mean.
func (t *tracker) counts(temperature float64) bool {
	if t.c.Kind == MeanAbove {
		return temperature > t.c.Temperature
	}
	return temperature >= t.c.Temperature
}

func (t *tracker) weight(temperature float64) float64 {
	switch {
	case t.c.Kind == MeanAbove:
		return temperature
	case t.c.Kind == HoldWithPeak && temperature > t.c.Peak:
		return 1
	}
	return 0
}

// need returns the weight that a window must carry: °C·h or h.
func (t *tracker) need() float64 {
	switch t.c.Kind {
	case MeanAbove:
		return t.c.Mean * t.c.Hours
	case HoldWithPeak:
		return t.c.PeakHours
	}
	return 0
}

func (t *tracker) enough(weight float64) bool {
	if t.c.Kind == MeanAbove {
		return weight > t.need()+slack
	}
	return weight >= t.need()-slack
}
