package chipplan

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/facility/plant"
	"loamcast/sim"
	"loamcast/sim/random"
)

// invented is a history of so many fiscal years of 365 days after one to settle.
func invented(years int, truckload float64, use func() float64, lead func() float64) *history {
	h := &history{truckload: truckload}
	total := 0.0
	for range (years + 1) * daysPerYear {
		u := use()
		h.use = append(h.use, u)
		total += u
	}
	for y := 1; y <= years+1; y++ {
		h.begins = append(h.begins, y*daysPerYear)
	}
	for range int(total/truckload) + 2 {
		h.leads = append(h.leads, lead())
	}
	return h
}

func constant(v float64) func() float64 { return func() float64 { return v } }

// With constant use and lead time, the least reorder point that never runs
// short is the use during the lead time, by hand: 5 m3 a day for 6 days are 30
// m3. An order is placed when the day's chips are taken, what comes is used from
// the next day on, and so the six days' use must be on hand.
func TestReorderPointByHand(t *testing.T) {
	for _, c := range []struct{ use, lead float64 }{{5, 6}, {10, 3}, {2, 11}, {7, 1}} {
		h := invented(2, 100, constant(c.use), constant(c.lead))
		hand := c.use * c.lead
		enough := Rule{Reorder: hand, OrderUpTo: hand + 20*c.use*10}
		if h.try(enough, make([]float64, len(h.use))).short[0] {
			t.Errorf("use %g, lead %g: %g m3 are not enough", c.use, c.lead, hand)
		}
		enough.Reorder -= c.use
		enough.OrderUpTo -= c.use
		if !h.try(enough, make([]float64, len(h.use))).short[0] {
			t.Errorf("use %g, lead %g: a day's use less than %g m3 is enough", c.use, c.lead, hand)
		}
	}
}

// The mean stock and the number of orders of the same case, by hand: 5 m3 a day
// with lead time 6 days, ordered at 30 m3 up to 130 m3, are 100 m3 every 20
// days. At the ends of the days it stands at 30 on the day of the order, falls
// to 0 on the sixth after it and is at 95 on the seventh: a sawtooth from 95 to
// 0 with a mean of 47.5 m3.
func TestSawtoothByHand(t *testing.T) {
	h := invented(4, 100, constant(5), constant(6))
	o := h.try(Rule{Reorder: 30, OrderUpTo: 130}, make([]float64, len(h.use)))
	if math.Abs(o.meanStock-47.5) > 0.25 || math.Abs(o.orders-18.25) > 0.26 {
		t.Errorf("mean stock %g m3, %g orders a year", o.meanStock, o.orders)
	}
}

// The textbook's safety stock: with normal use of mean μ and standard deviation
// σ a day and a lead time of L days, the reorder point μL + zσ√L runs short in
// one cycle with chance 1 − Φ(z) (Silver, Pyke and Thomas, Inventory and
// Production Management, from memory). As stock is looked at once a day, the
// order comes half a day's use late on average, which is added. 18.25 cycles a
// year and a limit of 5 % a year make 1 − 0.95^(1/18.25) a cycle.
func TestSafetyStockOfTextbook(t *testing.T) {
	const mean, sd, lead, truckload = 5.0, 2.0, 9.0, 100.0
	s := &shelf{streams: 1, store: 400, truckload: truckload}
	for rep := range 400 {
		r := rand.New(rand.NewPCG(1, uint64(rep)))
		normal := func() float64 { return max(0, mean+sd*r.NormFloat64()) }
		s.histories = append(s.histories, invented(2, truckload, normal, constant(lead)))
	}
	const limit = 0.05
	perCycle := 1 - math.Pow(1-limit, truckload/(mean*daysPerYear))
	z := distuv.UnitNormal.Quantile(1 - perCycle)
	textbook := mean*lead + z*sd*math.Sqrt(lead) + mean/2

	found := math.NaN()
	for r := 40.0; r < 90; r += 0.5 {
		if s.trial(Rule{r, r + truckload}).Inventory.Estimate <= limit {
			found = r
			break
		}
	}
	t.Logf("reorder point %g m3, textbook %.1f m3", found, textbook)
	if !(math.Abs(found-textbook) < 0.04*textbook) {
		t.Errorf("reorder point %g m3, textbook %.1f m3", found, textbook)
	}
}

// The search takes the cheapest rule that keeps the limit: without a cost of
// orders single truckloads, with a high one several at a time; and it says so if
// the store is too small for any.
func TestSearch(t *testing.T) {
	s := &shelf{streams: 1, store: 400, truckload: 60}
	for rep := range 20 {
		r := rand.New(rand.NewPCG(2, uint64(rep)))
		s.histories = append(s.histories, invented(2, 60, func() float64 { return 10 * r.Float64() }, func() float64 { return 4 + 4*r.Float64() }))
	}
	search := func(limit float64) (Trial, bool) {
		t.Helper()
		best, fits, tried, err := s.search(context.Background(), limit)
		if err != nil || tried == 0 {
			t.Fatal(err, tried)
		}
		if best.Inventory.Estimate > limit {
			t.Errorf("chance %g above the limit %g", best.Inventory.Estimate, limit)
		}
		return best, fits
	}
	const limit = 0.3
	plain, fits := search(limit)
	if !fits || plain.Truckloads(60) != 1 {
		t.Errorf("least stock: %+v, fits %v", plain, fits)
	}
	if strict, _ := search(0.001); strict.Reorder <= plain.Reorder {
		t.Errorf("a stricter limit orders at %g, not above %g", strict.Reorder, plain.Reorder)
	}
	s.cost = CostModel{InMoney: true, Capital: 1, Ordering: 10}
	if dear, _ := search(limit); dear.Truckloads(60) < 2 {
		t.Errorf("with dear orders: %+v", dear)
	}
	s.cost = CostModel{InMoney: true, Capital: 1}
	if free, _ := search(limit); free.Rule != plain.Rule || math.Abs(free.Cost-free.MeanStock) > 1e-9 {
		t.Errorf("with orders for nothing: %+v, want %+v", free, plain)
	}
	s.store = 70
	if large, fits := search(limit); fits || large.OrderUpTo <= 70 {
		t.Errorf("in a store that is too small: %+v, fits %v", large, fits)
	}
}

// Every rule that is tried is one that a plant would take.
func TestRulesAreValid(t *testing.T) {
	for _, truckload := range []float64{60, 68.80993721856, 0.1, 76.4554857984} {
		s := &shelf{store: 5.3 * truckload, truckload: truckload}
		rules := s.rules(s.store)
		if len(rules) < 100 {
			t.Errorf("%d rules", len(rules))
		}
		for _, r := range rules {
			if r.OrderUpTo-r.Reorder < truckload || r.OrderUpTo > s.store || r.Reorder < 0 {
				t.Errorf("truckload %g: %+v", truckload, r)
			}
		}
	}
}

// The lead times are the plant's own: their mean and spread come back, and a
// lead time without spread is the same each time.
func TestLeadsFollowThePlant(t *testing.T) {
	h := &history{use: []float64{1e6}, truckload: 100}
	c := plant.Chips{LeadTime: 6 * sim.Day, LeadCV: 0.35}
	key := random.Key{Seed: 3}
	leads := h.withLeads(&c, key, 0).leads
	mean, square := 0.0, 0.0
	for _, l := range leads {
		mean += l / float64(len(leads))
		square += l * l / float64(len(leads))
	}
	if cv := math.Sqrt(square-mean*mean) / mean; math.Abs(mean-6) > 0.1 || math.Abs(cv-0.35) > 0.02 {
		t.Errorf("mean %g days, variation %g", mean, cv)
	}
	if other := h.withLeads(&c, key, 1).leads; other[0] == leads[0] {
		t.Error("another stream has the same lead times")
	}
	c.LeadCV = 0
	for _, l := range h.withLeads(&c, key, 0).leads {
		if l != 6 {
			t.Fatalf("a lead time of %g days", l)
		}
	}
}

// The rules of a store are whole truckloads ordered at every tenth of one, by hand: a store
// of two takes the order of one at 0 to 10 tenths, and that of two at 0. A store of many
// truckloads, as a lead time of a year asks for, is gone through in longer steps, so that
// there are about as many rules as at most, over the whole of it.
func TestRulesOfAStore(t *testing.T) {
	s := &shelf{truckload: 50}
	if got := len(s.rules(100.01)); got != 12 {
		t.Errorf("%d rules of a store of two truckloads, by hand 12", got)
	}
	for _, loads := range []float64{14, 19, 20, 112, 5000} {
		list := s.rules(loads * s.truckload)
		if n := float64(len(list)); n > 1.3*mostRules || n < min(0.2*mostRules, 4*loads*loads) {
			t.Errorf("%d rules of a store of %g truckloads", len(list), loads)
		}
		reorder, order := 0.0, 0.0
		for _, r := range list {
			if r.OrderUpTo > loads*s.truckload {
				t.Fatalf("%+v is beyond a store of %g truckloads", r, loads)
			}
			reorder, order = max(reorder, r.Reorder), max(order, r.OrderUpTo-r.Reorder)
		}
		if least := 0.75 * loads * s.truckload; reorder < least || order < least {
			t.Errorf("a store of %g truckloads: reorder points to %g, orders to %g", loads, reorder, order)
		}
	}
}
