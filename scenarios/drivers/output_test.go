package drivers_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamcast/scenarios/drivers"
)

// The time of the first miss, by hand.
func TestFirstMissed(t *testing.T) {
	for _, c := range []struct {
		name   string
		shares []float64
		limit  float64
		at     float64
		missed bool
	}{
		{"halfway", []float64{0, 0, 0.02, 0.5}, 0.01, 2.5, true},
		{"from where it was", []float64{0, 0.01, 0.05}, 0.02, 2.25, true},
		{"in the first year", []float64{0.04, 0.5}, 0.01, 0.25, true},
		{"at the limit is not missed", []float64{0, 0.01, 0.01}, 0.01, 3, false},
		{"never", []float64{0, 0, 0}, 0.01, 3, false},
		{"recovers", []float64{0, 0.03, 0, 0.03}, 0.01, 1 + 1.0/3, true},
		{"nothing is allowed", []float64{0, 0, 0.3}, 0, 2, true},
		{"no year", nil, 0.01, 0, false},
	} {
		at, missed := drivers.FirstMissed(c.shares, c.limit)
		if math.Abs(at-c.at) > 1e-12 || missed != c.missed {
			t.Errorf("%s: %g, %v; by hand %g, %v", c.name, at, missed, c.at, c.missed)
		}
	}
}

// The whole part of the time is the first year above the limit, and with more that
// leaves untreated up to then the time is never later, and grows without jumps:
// where a share changes by little around the limit, so does the time.
func TestFirstMissedProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shares := rapid.SliceOfN(rapid.Float64Range(0, 0.1), 1, 20).Draw(t, "shares")
		limit := rapid.Float64Range(0.001, 0.099).Draw(t, "limit")
		at, missed := drivers.FirstMissed(shares, limit)
		first := slices.IndexFunc(shares, func(s float64) bool { return s > limit })
		if missed != (first >= 0) || missed && (at < float64(first) || at > float64(first+1)) || !missed && at != float64(len(shares)) {
			t.Fatalf("%g, %v; the first year above is %d", at, missed, first)
		}
		year := rapid.IntRange(0, len(shares)-1).Draw(t, "year")
		worse := slices.Clone(shares)
		worse[year] += rapid.Float64Range(0, 0.1).Draw(t, "more")
		if later, _ := drivers.FirstMissed(worse, limit); later > at+1e-9 {
			t.Fatalf("with more untreated it is %g, after %g", later, at)
		}
		below, above := slices.Clone(shares), slices.Clone(shares)
		below[year], above[year] = limit-1e-9, limit+1e-9
		a, _ := drivers.FirstMissed(below, limit)
		b, _ := drivers.FirstMissed(above, limit)
		if year+1 < len(shares) && shares[year+1] > limit+0.001 && (year == 0 || shares[year-1] < limit-0.001) && first >= year-1 && math.Abs(a-b) > 1e-4 {
			t.Fatalf("around the limit the time jumps from %g to %g", a, b)
		}
	})
}

// Names are read as they are written.
func TestParseOutput(t *testing.T) {
	for _, o := range []drivers.Output{drivers.VesselYear, drivers.ChipsBought, drivers.PresentWorth} {
		if got, err := drivers.ParseOutput(o.String()); got != o || err != nil {
			t.Errorf("%v is read as %v, %v", o, got, err)
		}
	}
	if _, err := drivers.ParseOutput("money"); err == nil {
		t.Error("money is read")
	}
}
