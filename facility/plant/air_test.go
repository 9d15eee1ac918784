package plant

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/process"
	"loamcast/sim/random"
)

// The air of the site adds up: over a year of constant climate the mean flow is
// that of the loads, one after the other, and the hours over the limit grow
// as the limit falls.
func TestSiteAirAddsUp(t *testing.T) {
	m := noisy(t)
	m.Years, m.WarmUp = 2, 0
	m.Active.Site.Temperature = repeat12(15)
	over := math.Inf(1)
	for _, limit := range []float64{300, 1000, 3000} { // m3/h
		m.Air = Air{Blowers: limit}
		p := plantOf(t, m)
		rec := mustRun(t, m, random.Key{Seed: 2})
		air := total(rec, func(m *Month) float64 { return m.Air.Volume })
		hours := total(rec, func(m *Month) float64 { return m.Air.HoursOver })
		if hours >= over {
			t.Errorf("limit %g m3/h: %g hours over it, %g with less air", limit, hours, over)
		}
		over = hours

		// One average load, from start to release.
		loads := total(rec, func(m *Month) float64 { return m.Release.Loads })
		stay := total(rec, func(m *Month) float64 { return m.Release.Residence }) / loads
		mix, _ := p.typicalLoad()
		var course process.Response
		if err := p.kinds[0].courses.Of(&course, &mix, time.June); err != nil {
			t.Fatal(err)
		}
		each, _ := course.Air(stay * 24)
		if got := air / loads; math.Abs(got/each-1) > 0.2 {
			t.Errorf("limit %g: %.0f m3 of air a load, a load of fresh chips takes %.0f", limit, got, each)
		}
		if peak := total(rec, func(m *Month) float64 { return m.Air.Peak }) / 24; peak <= air/(2*365*24) {
			t.Errorf("limit %g: mean of the months' peaks %.0f m3/h is not above the mean", limit, peak)
		}
	}
	m.Air = Air{}
	if rec := mustRun(t, m, random.Key{Seed: 2}); total(rec, func(m *Month) float64 { return m.Air.Volume }) != 0 {
		t.Error("air is followed although nothing limits it")
	}
}
