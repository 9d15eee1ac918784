package sim

import (
	"fmt"
	"math"
	"slices"

	"loamcast/sim/stats"
)

// Watch waits for a stock to reach a level.
type Watch struct {
	level  float64
	rising bool // at least the level, else at most
	fn     func()
}

// Cancel ends a watch. On one that has been called or cancelled it does nothing.
func (w *Watch) Cancel() { w.fn = nil }

// WhenAtLeast calls fn once, when the level is at or above x: now, in the middle
// of this call, if it is. The level that counts is the one at any moment, also
// between a put and a get of the same instant. A level that is not a number fails
// the run.
func (s *Stock) WhenAtLeast(x float64, fn func()) *Watch { return s.watch(x, true, fn) }

// WhenAtMost calls fn once, when the level is at or below x, as
// [Stock.WhenAtLeast] does.
func (s *Stock) WhenAtMost(x float64, fn func()) *Watch { return s.watch(x, false, fn) }

func (s *Stock) watch(x float64, rising bool, fn func()) *Watch {
	w := &Watch{level: x, rising: rising, fn: fn}
	if math.IsNaN(x) {
		s.k.Fail(fmt.Errorf("stock %s: watch for level %v", s.cfg.Name, x))
		return w
	}
	s.watches = append(s.watches, w)
	s.settle()
	return w
}

// settle lets everything happen that the level allows, then makes sure of being
// called when the flow allows more. Callbacks may use the stock: such a call
// changes its state, and the loop carries on with it.
func (s *Stock) settle() {
	s.advance()
	if s.settling {
		return
	}
	s.settling = true
	for s.step() {
	}
	s.settling = false
	s.sleep()
}

// step does one thing that the level allows, and reports whether there was one.
func (s *Stock) step() bool {
	for i, w := range s.watches {
		if w.fn == nil || w.met(s.level) {
			s.watches = slices.Delete(s.watches, i, i+1)
			call(w.fn)
			return true
		}
	}
	switch {
	case len(s.gets) > 0 && s.gets[0].amount <= s.level:
		tr := takeFirst(&s.gets)
		s.get(tr.amount)
		call(tr.done)
	case len(s.puts) > 0 && s.puts[0].amount <= s.cfg.Capacity-s.level:
		tr := takeFirst(&s.puts)
		s.put(tr.amount)
		call(tr.done)
	default:
		return false
	}
	return true
}

func (w *Watch) met(level float64) bool {
	if w.rising {
		return level >= w.level
	}
	return level <= w.level
}

// takeFirst removes the head of a queue.
func takeFirst(queue *[]transfer) transfer {
	q := *queue
	first := q[0]
	q[0] = transfer{}
	*queue = q[1:]
	return first
}

// sleep asks to be woken when the flow next brings something about.
func (s *Stock) sleep() {
	next := s.nextChange()
	if s.wake != nil && s.wake.Pending() {
		if s.wake.Time() == next {
			return
		}
		s.wake.Cancel()
	}
	if next <= maxTime {
		s.wake = s.k.At(next, s.wakeName, s.settle)
	}
}

// never is later than any instant of a run.
const never Time = math.MaxInt64

// nextChange is the first whole second at which the flow meets a watch, or lets
// the head of a queue move.
func (s *Stock) nextChange() Time {
	if s.rate == 0 {
		return never
	}
	next := never
	rising := s.rate > 0
	for _, w := range s.watches {
		if w.rising == rising && w.fn != nil {
			next = min(next, s.reaches(w.level))
		}
	}
	if rising && len(s.gets) > 0 {
		next = min(next, s.reaches(s.gets[0].amount))
	}
	if !rising && len(s.puts) > 0 {
		next = min(next, s.reaches(s.cfg.Capacity-s.puts[0].amount))
	}
	return next
}

// reaches is the first whole second at which the flow takes the level to x, which
// it has not yet. Rounding may leave the level a hair short there; then it is
// looked at again a second later.
func (s *Stock) reaches(x float64) Time {
	if x < 0 || x > s.cfg.Capacity {
		return never
	}
	seconds := math.Ceil((x - s.level) / s.rate)
	if !(seconds < float64(maxTime-s.k.now)) {
		return never
	}
	return s.k.now + max(Time(seconds), 1)
}

// Level returns the level at the present instant.
func (s *Stock) Level() float64 {
	s.advance()
	return s.level
}

// Room returns what could be put in at the present instant, or 0 when the level
// is above a lowered capacity.
func (s *Stock) Room() float64 { return max(s.cfg.Capacity-s.Level(), 0) }

// Rate returns the net flow that was set, per second.
func (s *Stock) Rate() float64 { return s.rate }

// Capacity returns the capacity.
func (s *Stock) Capacity() float64 { return s.cfg.Capacity }

// In returns all that came in since the start, by puts and by flow.
func (s *Stock) In() float64 {
	s.advance()
	return s.in
}

// Out returns all that went out since the start, by gets and by flow.
func (s *Stock) Out() float64 {
	s.advance()
	return s.out
}

// Refused returns the inflow that found the stock full.
func (s *Stock) Refused() float64 {
	s.advance()
	return s.refused
}

// Owed returns the outflow that found the stock empty.
func (s *Stock) Owed() float64 {
	s.advance()
	return s.owed
}

// WaitingPuts returns the number of puts that wait.
func (s *Stock) WaitingPuts() int { return len(s.puts) }

// WaitingGets returns the number of gets that wait.
func (s *Stock) WaitingGets() int { return len(s.gets) }

// Measured returns the level over time until the present instant.
func (s *Stock) Measured() *stats.TimeWeighted {
	s.advance()
	return s.measured
}
