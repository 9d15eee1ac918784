package document

import (
	"testing"

	"loamcast/scenarios/units"
)

// Amounts are said to three digits of the size that they are compared by, in
// millions from a million on; in tables all thousands are there.
func TestAmounts(t *testing.T) {
	for _, c := range []struct {
		part Part
		want string
	}{
		{AmountOf(1_304_000), "1.3 million USD"},
		{AmountOf(-2_618_000), "-2.62 million USD"},
		{AmountOf(340_499), "340,000 USD"},
		{AmountOf(999_600), "1,000,000 USD"},
		{AmountOf(0), "0 USD"},
		{AmountOf(0.4), "0.4 USD"},
		{Amount{Value: -7_312, Like: 11_710}, "-7,300 USD"},
		{Amount{Value: 222_222, Like: 333_333, Bare: true}, "222,000"},
		{Amount{Value: -20, Like: 3e6, Bare: true}, "0"},
		{AmountRange(2_612_000, 3_478_000, 2.9e6), "2.61 to 3.48 million USD"},
		{AmountRange(810_000, 1_080_000, 9e5), "810,000 to 1,080,000 USD"},
		{Thousands(-499), "0"},
		{Thousands(85_500), "86"},
		{Thousands(1_304_499), "1,304"},
		{Thousands(-12_005_000), "-12,005"},
	} {
		if got := PlainSpaces(c.part.In(units.US)); got != c.want {
			t.Errorf("%+v is %q, want %q", c.part, got, c.want)
		}
	}
}

// A share is written without claiming certainty that is not there.
func TestWholePercent(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.002: "under 1 %", 0.034: "3 %", 0.9951: "over 99 %", 1: "100 %"} {
		if got := PlainSpaces(WholePercent(share)); got != want {
			t.Errorf("%g is %q, want %q", share, got, want)
		}
	}
}

// A chance that is estimated is never told as certain, whatever was rounded away.
func TestEstimated(t *testing.T) {
	for chance, want := range map[float64]string{0: "under 1 %", 0.78: "78 %", 0.9999: "over 99 %", 1: "over 99 %"} {
		if got := PlainSpaces(Estimated(chance)); got != want {
			t.Errorf("%g is %q, want %q", chance, got, want)
		}
	}
}
