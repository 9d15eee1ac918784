package sim

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/random"
)

func newTestStock(t *testing.T, capacity, initial float64) (*Kernel, *Stock, *log) {
	k := newTestKernel(t)
	return k, NewStock(k, StockConfig{Name: "stock", Capacity: capacity, Initial: initial}), &log{k: k}
}

// logs returns a callback that logs a line.
func (l *log) logs(what string) func() { return func() { l.say(what) } }

// Shows blocking on both sides, first in first out: a small amount does not
// overtake a big one, and takers go before putters.
func TestStockBlocking(t *testing.T) {
	k, s, l := newTestStock(t, 10, 4)
	s.Get(6, l.logs("got 6"))
	s.Get(1, l.logs("got 1"))
	if s.TryGet(1) {
		t.Error("TryGet overtook those who wait")
	}
	k.At(1, "put", func() { s.Put(5, l.logs("put 5")) })
	k.At(2, "put", func() { s.Put(9, l.logs("put 9")); s.Put(1, l.logs("put 1")) })
	k.At(3, "try", func() {
		if s.TryPut(0.5) {
			t.Error("TryPut overtook those who wait")
		}
		if s.WaitingPuts() != 2 || s.WaitingGets() != 0 {
			t.Errorf("%d puts and %d gets wait", s.WaitingPuts(), s.WaitingGets())
		}
	})
	k.At(4, "get", func() { s.Get(2, l.logs("got 2")) })
	mustRun(t, k, 10)
	l.check(t, "1 put 5", "1 got 6", "1 got 1", "4 got 2", "4 put 9", "4 put 1")
	if s.Level() != 10 || s.In() != 15 || s.Out() != 9 {
		t.Errorf("level %v, in %v, out %v", s.Level(), s.In(), s.Out())
	}
	if !s.TryGet(10) || s.TryGet(1) || !s.TryPut(10) || s.TryPut(1) {
		t.Error("TryGet or TryPut is wrong")
	}
}

// Shows the instants that a steady flow brings about: full, empty, a level
// watched for, and enough for those who wait, each on the first whole second at
// or after it; and that what a full or empty stock can't take or give is counted.
func TestStockFlow(t *testing.T) {
	k, s, l := newTestStock(t, 100, 10)
	s.SetRate(0.3) // 7 at no whole second: 20 is reached after 33.33 s, 100 after 300 s
	s.WhenAtLeast(20, l.logs("20"))
	s.WhenAtLeast(100, l.logs("full"))
	s.Get(40, l.logs("got 40")) // after 100 s
	cancelled := s.WhenAtLeast(50, l.logs("never"))
	cancelled.Cancel()
	mustRun(t, k, 450)
	// At 100 s, 40 are taken and 0 is left; full after another 333.3 s.
	l.check(t, "34 20", "100 got 40", "434 full")
	if got := s.Refused(); math.Abs(got-(16+2.0/3)*0.3) > 1e-9 {
		t.Errorf("refused %v", got)
	}

	s.WhenAtMost(0, l.logs("empty"))
	s.WhenAtMost(99, l.logs("99"))
	s.Put(50, l.logs("put 50")) // when at 50
	s.SetRate(-2)
	mustRun(t, k, 600)
	l.check(t, "34 20", "100 got 40", "434 full", "451 99", "475 put 50", "525 empty")
	if s.Owed() != 150 || s.Level() != 0 {
		t.Errorf("owed %v at level %v", s.Owed(), s.Level())
	}
	if math.Abs(10+s.In()-s.Out()) > 1e-9 {
		t.Errorf("in %v, out %v", s.In(), s.Out())
	}
	if k.Executed() != 6 {
		t.Errorf("%d events, want one for each thing that happened", k.Executed())
	}
}

// Shows that the level between events counts in full: a straight fill to 100 in
// 100 s, 50 s at the top, and a straight fall have the area of a trapezium.
func TestStockMeasured(t *testing.T) {
	k, s, _ := newTestStock(t, 100, 0)
	s.Measured().Watch(50)
	s.SetRate(1)
	k.At(150, "turn", func() { s.SetRate(-2) })
	mustRun(t, k, 250)
	m := s.Measured()
	if got := m.Area(250); got != 5000+5000+2500 {
		t.Errorf("area %v", got)
	}
	if got := m.TimeAbove(50, 250); got != 50+50+25 {
		t.Errorf("above 50 for %v s", got)
	}
	if m.Max() != 100 || m.Min() != 0 {
		t.Errorf("from %v to %v", m.Min(), m.Max())
	}
}

// Shows that a level touched only between a put and a get of one instant is
// noticed, and that capacity can fall below the level.
func TestStockMoments(t *testing.T) {
	k, s, l := newTestStock(t, 100, 0)
	s.Get(60, nil)
	s.WhenAtLeast(60, l.logs("60"))
	s.Put(60, nil)
	s.Put(80, nil)
	k.At(5, "smaller", func() { s.SetCapacity(50); s.Put(10, l.logs("put")) })
	k.At(6, "flow", func() { s.SetRate(1) }) // over the brim: all refused
	k.At(9, "get", func() { s.SetRate(0); s.Get(35, nil) })
	k.At(10, "get", func() { s.Get(10, nil) })
	mustRun(t, k, 20)
	l.check(t, "0 60", "10 put")
	if s.Level() != 45 || s.Refused() != 3 || s.Room() != 5 {
		t.Errorf("level %v, refused %v, room %v", s.Level(), s.Refused(), s.Room())
	}
}

// Shows that nonsense is refused as a failure of the run.
func TestStockRefusals(t *testing.T) {
	nan := math.NaN()
	for _, tc := range []struct {
		says string
		do   func(*Kernel, *Stock)
	}{
		{"put of -1", func(_ *Kernel, s *Stock) { s.Put(-1, nil) }},
		{"put of 101", func(_ *Kernel, s *Stock) { s.Put(101, nil) }},
		{"put of NaN", func(_ *Kernel, s *Stock) { s.TryPut(nan) }},
		{"get of NaN", func(_ *Kernel, s *Stock) { s.Get(nan, nil) }},
		{"get of +Inf", func(_ *Kernel, s *Stock) { s.TryGet(math.Inf(1)) }},
		{"rate NaN", func(_ *Kernel, s *Stock) { s.SetRate(nan) }},
		{"rate +Inf", func(_ *Kernel, s *Stock) { s.SetRate(math.Inf(1)) }},
		{"watch for level NaN", func(_ *Kernel, s *Stock) { s.WhenAtLeast(nan, nil) }},
		{"capacity 5, with 9 waiting", func(_ *Kernel, s *Stock) { s.Get(9, nil); s.SetCapacity(5) }},
		{"capacity 0, initial", func(k *Kernel, _ *Stock) { NewStock(k, StockConfig{}) }},
		{"initial level 2", func(k *Kernel, _ *Stock) { NewStock(k, StockConfig{Capacity: 1, Initial: 2}) }},
		{"initial level NaN", func(k *Kernel, _ *Stock) { NewStock(k, StockConfig{Capacity: 1, Initial: nan}) }},
	} {
		k, s, _ := newTestStock(t, 100, 0)
		tc.do(k, s)
		if err := k.Err(); err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%s: error %v", tc.says, err)
		}
	}
}

// Shows, for any mixture of puts, gets and flows: nothing is lost or made, the
// level stays between empty and full, and nobody waits who could move.
func TestStockConservation(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := NewKernel(testStart, 0)
		defer k.Close()
		initial := rapid.Float64Range(0, 100).Draw(rt, "initial")
		s := NewStock(k, StockConfig{Name: "stock", Capacity: 100, Initial: initial})
		r := random.Key{Seed: rapid.Uint64().Draw(rt, "seed")}.Stream("moves")
		var put, got, flow float64
		check := func() {
			level := s.Level()
			if level < 0 || level > 100 {
				rt.Fatalf("level %v", level)
			}
			if lost := initial + s.In() - s.Out() - level; math.Abs(lost) > 1e-9 {
				rt.Fatalf("lost %v", lost)
			}
			if s.WaitingGets() > 0 && s.gets[0].amount <= level || s.WaitingPuts() > 0 && s.puts[0].amount <= s.Room() {
				rt.Fatalf("somebody waits without need at level %v", level)
			}
		}
		rate, since := 0.0, Time(0)
		for range 80 {
			amount := 60 * r.Float64()
			do := []func(){
				func() { s.Put(amount, func() { put += amount }) },
				func() { s.Get(amount, func() { got += amount }) },
				func() {
					flow += rate * float64(k.Now()-since)
					rate, since = (amount-30)/20, k.Now()
					s.SetRate(rate)
				},
				func() {
					if s.TryPut(amount) {
						put += amount
					}
				},
				func() {
					if s.TryGet(amount) {
						got += amount
					}
				},
			}[r.IntN(5)]
			k.At(Time(r.IntN(500)), "move", do)
		}
		for second := range Time(600) {
			k.AtPriority(second, Late, "check", check)
		}
		if err := k.Run(t.Context(), 600); err != nil {
			rt.Fatal(err)
		}
		flow += rate * float64(600-since)
		// In and out of the outside world, told apart from the stock's own books.
		if lost := initial + put - got + flow - s.Refused() + s.Owed() - s.Level(); math.Abs(lost) > 1e-9 {
			rt.Fatalf("lost %v", lost)
		}
	})
}
