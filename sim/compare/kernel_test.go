package compare

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
	"loamcast/sim/replicate"
	"loamcast/sim/stats"
)

// station is a small simulation to choose among: customers come at random, once
// in 2.6 days on average, and stay about 14 days each in one of its places.
type station struct {
	places int
	stay   float64 // days, on average
}

// run simulates two years on the kernel and returns the mean wait in days.
func (st station) run(ctx context.Context, seed uint64, rep int) (float64, error) {
	const day, gap = 86_400, 2.6
	k := sim.NewKernel(calendar.Date{Year: 2030, Month: 1, Day: 1}, rep)
	defer k.Close()
	places := sim.NewServer(k, sim.ServerConfig{Name: "places", Capacity: st.places})
	key := random.Key{Seed: seed, Replication: rep}
	gaps := key.Stream("gaps")
	customer := uint64(0)
	var waits []float64
	var next func()
	next = func() {
		k.After(sim.DurationOf(day*random.Exponential{Expected: gap}.Draw(gaps)), "arrival", func() {
			customer++
			stay := random.LognormalMeanCV{Expected: st.stay, CV: 0.2}.Draw(key.Stream("stay", customer))
			came := k.Now()
			places.Submit(sim.Job{Service: sim.DurationOf(day * stay), Started: func() {
				waits = append(waits, float64(k.Now().Sub(came))/day)
			}})
			next()
		})
	}
	next()
	err := k.Run(ctx, 730*day)
	return stat.Mean(waits, nil), err
}

// stations returns options that share their luck, or have their own.
func stations(seed uint64, common bool, of ...station) []Option {
	options := make([]Option, len(of))
	for i, st := range of {
		luck := seed
		if !common {
			luck += uint64(i)
		}
		options[i] = func(ctx context.Context, rep int) (float64, error) { return st.run(ctx, luck, rep) }
	}
	return options
}

// Shows on a simulation what common random numbers are for. Two lengths of stay are
// compared by their waits in 60 replications: with common luck the difference has
// less than a fifth of the variance that separate luck gives, which is no other
// than the sum of both options' variances; the 95 % interval is less than half as
// long; and both intervals tell the same.
func TestCommonRandomNumbersOnKernel(t *testing.T) {
	const replications = 60
	var intervals [2]stats.Interval
	var ratios [2]float64
	for i, common := range []bool{false, true} {
		var waits [2][]float64
		for j, option := range stations(1, common, station{7, 14}, station{7, 13.3}) {
			waits[j] = must(replicate.Run(t.Context(), replications, 0, option, nil))
		}
		intervals[i] = must(stats.PairedMean(waits[0], waits[1], 0.95))
		ratios[i] = (stat.Variance(waits[0], nil) + stat.Variance(waits[1], nil)) / stat.Variance(minus(waits[0], waits[1]), nil)
		t.Logf("common luck %v: %.3f ± %.3f days, variance ratio %.2f",
			common, intervals[i].Estimate, intervals[i].HalfWidth(), ratios[i])
	}
	if ratios[1] < 5 || math.Abs(ratios[0]-1) > 0.3 {
		t.Errorf("variance ratio %v with common, %v with separate luck", ratios[1], ratios[0])
	}
	separate, common := intervals[0], intervals[1]
	if common.HalfWidth() > separate.HalfWidth()/2 {
		t.Errorf("half-width %v with common, %v with separate luck", common.HalfWidth(), separate.HalfWidth())
	}
	if gap := math.Abs(separate.Estimate - common.Estimate); gap > separate.HalfWidth()+common.HalfWidth() {
		t.Errorf("differences %+v and %+v do not agree", separate, common)
	}
}

// Shows the same of a choice: with common luck elimination finds the plan of
// shortest wait in less than half of the runs.
func TestKimNelsonOnKernel(t *testing.T) {
	zone := Zone{Confidence: 0.95, Indifference: 0.15}
	setup := Setup{First: 20, Most: 10_000}
	var runs [2]int
	for i, common := range []bool{false, true} {
		plans := stations(1, common, station{7, 14}, station{7, 13.7}, station{7, 13.4})
		s := must(KimNelson(t.Context(), plans, setup, zone))
		t.Logf("common luck %v: option %d after %d runs, dropped after %v", common, s.Best, runsOf(s), s.Dropped)
		if s.Best != 2 || !s.Reached {
			t.Errorf("chose %d, reached %v", s.Best, s.Reached)
		}
		runs[i] = runsOf(s)
	}
	if runs[1] > runs[0]/2 {
		t.Errorf("%d runs with common luck, %d with separate", runs[1], runs[0])
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
