package plant

import (
	"math"
	"testing"

	"loamcast/sim"
	"loamcast/sim/random"
)

// With constant inputs and no calendar the plant gives the handbook's
// arithmetic: vessels in use = fills per day × (residence + turnaround). The
// identity is exact for any stationary system (Little 1961); the tolerance of
// 1 % covers the ends of the horizon and the hours of loading.
func TestConstantInputsGiveStaticArithmetic(t *testing.T) {
	for _, base := range []float64{200, 400, 600} { // kg dry/day
		m := model()
		m.Feed.Base = base
		m.Years = 10
		// No season either: in a cold month a load may stay until it complies.
		m.Active.Site.Temperature = repeat12(15)
		rec := mustRun(t, m, random.Key{Seed: 1})
		days := total(rec, func(m *Month) float64 { return m.Days })
		fills := total(rec, func(m *Month) float64 { return m.Loads.Filled }) / days
		stay := (m.Vessels.Residence + m.Vessels.Turnaround).Days()
		inUse := 0.0
		for _, y := range rec.Years {
			inUse += y.VesselsMean / float64(len(rec.Years))
		}
		if want := fills * stay; math.Abs(inUse/want-1) > 0.01 {
			t.Errorf("%g kg/day: %.4f vessels in use, fills × stay gives %.4f", base, inUse, want)
		} else {
			t.Logf("%g kg/day: %.4f vessels in use, fills × stay gives %.4f (%+.2f %%)", base, inUse, want, 100*(inUse/want-1))
		}
		// Nothing is lost on the way to the vessels, so fills times the cake in
		// a load is the production.
		cake := total(rec, func(m *Month) float64 { return m.Mixing.CakeDry }) / total(rec, func(m *Month) float64 { return m.Loads.Filled })
		if got := fills * cake; math.Abs(got/base-1) > 0.01 {
			t.Errorf("%g kg/day: %.1f kg/day of cake go into vessels", base, got)
		}
	}
}

// Little's law holds on every station, noise and shifts included: the integral
// of the level equals the sum of the stays.
func TestLittlesLawOnEveryStation(t *testing.T) {
	rec := mustRun(t, noisy(t), random.Key{Seed: 7})
	if len(rec.Stations) < 8 {
		t.Fatalf("only %d stations are metered", len(rec.Stations))
	}
	for _, s := range rec.Stations {
		if s.Arrived == 0 {
			t.Errorf("%s: nothing arrived", s.Name)
			continue
		}
		integral := s.MeanLevel * s.Seconds
		// Instants are whole seconds, so a stay may be off by a second.
		if tolerance := 1e-6*integral + 2*s.Arrived; math.Abs(integral-s.Stays) > tolerance {
			t.Errorf("%s: level integrates to %.6g, stays sum to %.6g", s.Name, integral, s.Stays)
		}
	}
}

// noisy returns the plant with everything varying and a day shift.
func noisy(t testing.TB) Model {
	m := model()
	m.Feed.Noise = random.AR1Lognormal{CV: 0.2, Correlation: 0.6}
	m.Feed.SolidsCV = 0.04
	m.Feed.Month = [12]float64{.9, .9, .93, .95, .96, 1, 1.12, 1.22, 1.22, 1.06, .9, .88}
	m.Feed.Weekday = [7]float64{.75, 1.1, 1.1, 1.1, 1.1, 1.1, .75}
	m.Chips.LeadCV = 0.3
	m.Chips.Moisture = [12]float64{.46, .46, .43, .40, .37, .34, .32, .32, .35, .39, .43, .46}
	m.Mixer.BatchTime = 25 * sim.Minute
	hours := dayShift(t, &m)
	m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = hours, hours, hours
	return m
}
