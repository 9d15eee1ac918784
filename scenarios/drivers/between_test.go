package drivers

import (
	"testing"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// The ends of a range have as many decimals as its width needs for two digits, and no
// more, whatever the digits of the ends.
func TestBetween(t *testing.T) {
	none := doc.Quantity{Dim: units.Dimensionless, ToBase: 1}
	for _, c := range []struct {
		low, high float64
		want      string
	}{
		{-0.65843, 0.65843, "-0.7 to 0.7"},
		{1.3642, 2.0619, "1.36 to 2.06"},
		{75.268, 83.333, "75.3 to 83.3"},
		{812.6, 1312.4, "813 to 1,312"},
		{3, 3, "3 to 3"},
	} {
		if got := (between{low: c.low, high: c.high, quantity: none}).In(units.SI); got != c.want {
			t.Errorf("%g to %g: %q, want %q", c.low, c.high, got, c.want)
		}
	}
	share, rate := doc.Share, doc.AnnualRate
	for want, b := range map[string]between{
		"-1.0 to 0.5 %":           {low: -0.01, high: 0.005, quantity: share},
		"-1.0 to 0.5 points":      {low: -0.01, high: 0.005, quantity: share, points: true},
		"-0.7 to 0.7 points/year": {low: -0.007, high: 0.007, quantity: rate, points: true},
	} {
		if got := doc.PlainSpaces(b.In(units.SI)); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A sentence gives an effect two digits, and no more decimals than the table does, unless
// nothing would be left of it.
func TestSizeAsInTheTable(t *testing.T) {
	for _, c := range []struct {
		effect float64
		want   string
	}{
		{13.26, "13 years"}, {4.18, "4.2 years"}, {0.357, "0.4 years"}, {0.052, "0.1 years"}, {0.0312, "0.031 years"}, {0, "0 years"},
	} {
		got := doc.PlainSpaces(size{c.effect, VesselYear.quantity(), VesselYear.decimals()}.In(units.SI))
		if got != c.want {
			t.Errorf("%g is told as %q, not %q", c.effect, got, c.want)
		}
	}
}
