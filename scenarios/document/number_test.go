package document

import (
	"testing"

	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// Numbers have the digits asked for and no minus before nothing, and count their
// units; from 1,000 on they have separators and four significant digits.
func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		part Part
		want string
	}{
		{Fixed(-0.004, Count, 2), "0.00"},
		{Fixed(-0.006, Count, 2), "-0.01"},
		{Fixed(12_346, Count, 0), "12,350"},
		{With(2, Days, 0), "2 days"},
		{Show(0.25, Share), "25 %"},
		{Bare(1_234_600, Mass), "1,235"},
	} {
		if got := PlainSpaces(c.part.In(units.SI)); got != c.want {
			t.Errorf("%+v is %q, want %q", c.part, got, c.want)
		}
	}
}

// A share has tenths near nothing and near everything, and a chance that no
// replication showed is below the end of its interval, not nothing.
func TestChances(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.002: "0.2 %", 0.05: "5 %", 0.996: "99.6 %", 0.9996: "100 %", 1: "100 %"} {
		if got := PlainSpaces(ShareText(share)); got != want {
			t.Errorf("%g is %q, want %q", share, got, want)
		}
	}
	for _, c := range []struct {
		chance stats.Interval
		want   string
	}{
		{stats.Interval{Estimate: 0, High: 0.03}, "less than 3 %"},
		{stats.Interval{Estimate: 0.12, Low: 0.05, High: 0.2}, "12 %"},
	} {
		if got := PlainSpaces(Chance(c.chance)); got != c.want {
			t.Errorf("%+v is %q, want %q", c.chance, got, c.want)
		}
	}
}
