package sim

import (
	"fmt"
	"math"

	"loamcast/sim/stats"
)

// StockConfig describes a stock.
type StockConfig struct {
	Name     string  // prefix of the names of its events
	Capacity float64 // above 0; math.Inf(1) for no limit
	Initial  float64 // level at the start, 0 to Capacity
}

// Stock is a store of something continuous between empty and full. It is changed
// by amounts put in and taken out at once, and by a steady net rate of flow.
//
// Puts that don't fit, and gets that find too little, wait in two queues, each
// first in first out: a small one never overtakes a big one before it. Those
// who wait to take are served before those who wait to put.
//
// The level under a flow is exact at any instant. What a flow brings about (full,
// empty, enough for the next in a queue, a level watched for) happens on the first
// whole second at or after it is reached. A full stock refuses what flows in,
// an empty one owes what flows out; both are counted, and neither changes the
// level, so that always
//
//	level = initial + In() − Out().
type Stock struct {
	k        *Kernel
	cfg      StockConfig
	level    float64
	rate     float64 // net inflow per second
	asOf     Time    // instant of level
	in, out  float64
	refused  float64 // flow that found the stock full
	owed     float64 // flow that found the stock empty
	puts     []transfer
	gets     []transfer
	watches  []*Watch
	settling bool
	wake     *Event
	wakeName string
	measured *stats.TimeWeighted
}

// transfer is a put or a get that waits.
type transfer struct {
	amount float64
	done   func()
}

// NewStock returns a stock at its initial level. A capacity that is not above
// zero, or an initial level that does not fit, fails the run.
func NewStock(k *Kernel, cfg StockConfig) *Stock {
	if !(cfg.Capacity > 0) || !(cfg.Initial >= 0 && cfg.Initial <= cfg.Capacity) || math.IsInf(cfg.Initial, 0) {
		k.Fail(fmt.Errorf("stock %s: capacity %v, initial level %v", cfg.Name, cfg.Capacity, cfg.Initial))
		cfg.Capacity, cfg.Initial = math.Inf(1), 0
	}
	return &Stock{
		k:        k,
		cfg:      cfg,
		level:    cfg.Initial,
		asOf:     k.now,
		wakeName: cfg.Name + " level",
		measured: stats.NewTimeWeighted(int64(k.now), cfg.Initial),
	}
}

// Put adds an amount once it fits, and calls done (which may be nil) when it has:
// at once, in the middle of this call, if nobody waits before it. An amount that
// is negative, not a number or above the capacity fails the run.
func (s *Stock) Put(amount float64, done func()) {
	if !s.plausible("put", amount) {
		return
	}
	s.puts = append(s.puts, transfer{amount, done})
	s.settle()
}

// Get takes an amount once there is enough, and calls done (which may be nil)
// when it has, by the same rules as [Stock.Put].
func (s *Stock) Get(amount float64, done func()) {
	if !s.plausible("get", amount) {
		return
	}
	s.gets = append(s.gets, transfer{amount, done})
	s.settle()
}

// TryPut adds an amount if it fits now and nobody waits to put, and reports
// whether it did.
func (s *Stock) TryPut(amount float64) bool {
	if !s.plausible("put", amount) || len(s.puts) > 0 || amount > s.Room() {
		return false
	}
	s.put(amount)
	s.settle()
	return true
}

// TryGet takes an amount if there is enough now and nobody waits to get, and
// reports whether it did.
func (s *Stock) TryGet(amount float64) bool {
	if !s.plausible("get", amount) || len(s.gets) > 0 || amount > s.Level() {
		return false
	}
	s.get(amount)
	s.settle()
	return true
}

// plausible fails the run for an amount that could never be moved.
func (s *Stock) plausible(what string, amount float64) bool {
	if amount >= 0 && amount <= s.cfg.Capacity && !math.IsInf(amount, 0) {
		return true
	}
	s.k.Fail(fmt.Errorf("stock %s: %s of %v, capacity %v", s.cfg.Name, what, amount, s.cfg.Capacity))
	return false
}

// SetRate sets the net flow from now on, per second: in if positive, out if
// negative. A rate that is not a finite number fails the run.
func (s *Stock) SetRate(perSecond float64) {
	if math.IsNaN(perSecond) || math.IsInf(perSecond, 0) {
		s.k.Fail(fmt.Errorf("stock %s: rate %v", s.cfg.Name, perSecond))
		return
	}
	s.advance()
	s.rate = perSecond
	s.settle()
}

// SetCapacity changes the capacity from now on. If the level is above it, what
// is there stays, and nothing can be put until it fits. A capacity that is not
// above zero, or below what somebody waits to move, fails the run.
func (s *Stock) SetCapacity(capacity float64) {
	need := 0.0
	for _, queue := range [][]transfer{s.puts, s.gets} {
		for _, tr := range queue {
			need = max(need, tr.amount)
		}
	}
	if !(capacity > 0 && capacity >= need) {
		s.k.Fail(fmt.Errorf("stock %s: capacity %v, with %v waiting to be moved", s.cfg.Name, capacity, need))
		return
	}
	s.advance()
	s.cfg.Capacity = capacity
	s.settle()
}

// advance brings the level to the present instant under the flow since asOf.
func (s *Stock) advance() {
	if s.asOf == s.k.now {
		return
	}
	from := s.asOf
	s.asOf = s.k.now
	flow := s.rate * float64(s.k.now-from)
	switch {
	case flow > 0:
		s.flowIn(from, flow)
	case flow < 0:
		s.flowOut(from, -flow)
	default:
		s.measured.Set(int64(s.k.now), s.level)
	}
}

// flowIn books a flow since an instant, as far as it fits.
func (s *Stock) flowIn(from Time, amount float64) {
	taken := min(amount, max(s.cfg.Capacity-s.level, 0))
	s.in += taken
	s.refused += amount - taken
	s.ramp(from, taken, min(s.level+taken, max(s.cfg.Capacity, s.level)))
}

// flowOut books a flow since an instant, as far as there is something.
func (s *Stock) flowOut(from Time, amount float64) {
	given := min(amount, s.level)
	s.out += given
	s.owed += amount - given
	s.ramp(from, given, s.level-given)
}

// ramp measures a level that moves by an amount from an instant on until it
// stops at its end, within the span up to now.
func (s *Stock) ramp(from Time, amount, end float64) {
	stop := from + Time(math.Ceil(amount/math.Abs(s.rate)))
	if stop < s.k.now {
		s.measured.RampTo(int64(stop), end)
		s.measured.Set(int64(s.k.now), end)
	} else {
		s.measured.RampTo(int64(s.k.now), end)
	}
	s.level = end
}

// put adds an amount that fits at the present instant.
func (s *Stock) put(amount float64) {
	s.in += amount
	s.level = min(s.level+amount, s.cfg.Capacity)
	s.measured.Set(int64(s.k.now), s.level)
}

// get takes an amount that is there at the present instant.
func (s *Stock) get(amount float64) {
	s.out += amount
	s.level -= amount
	s.measured.Set(int64(s.k.now), s.level)
}
