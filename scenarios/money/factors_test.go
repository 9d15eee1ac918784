package money

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Shows the factors against the compound interest tables of Newnan, Eschenbach
// and Lavelle, Engineering Economic Analysis (from memory), to the last digit
// printed there.
func TestFactorsAgainstTextbookTables(t *testing.T) {
	factors := []func(float64, int) float64{
		CompoundAmount, SinglePresentWorth, SeriesPresentWorth, CapitalRecovery,
		SeriesCompoundAmount, SinkingFund, GradientPresentWorth, GradientSeries,
	}
	names := []string{"F/P", "P/F", "P/A", "A/P", "F/A", "A/F", "P/G", "A/G"}
	for _, row := range []struct {
		i    float64
		n    int
		want [8]string // as printed
	}{
		{0.03, 20, [8]string{"1.806", "0.5537", "14.877", "0.0672", "26.870", "0.0372", "126.799", "8.523"}},
		{0.05, 20, [8]string{"2.653", "0.3769", "12.462", "0.0802", "33.066", "0.0302", "98.488", "7.903"}},
		{0.06, 5, [8]string{"1.338", "0.7473", "4.212", "0.2374", "5.637", "0.1774", "7.9345", "1.884"}},
		{0.08, 10, [8]string{"2.159", "0.4632", "6.710", "0.1490", "14.487", "0.0690", "25.977", "3.871"}},
		{0.10, 10, [8]string{"2.594", "0.3855", "6.145", "0.1627", "15.937", "0.0627", "22.891", "3.725"}},
		{0.12, 15, [8]string{"5.474", "0.1827", "6.811", "0.1468", "37.280", "0.0268", "33.920", "4.980"}},
	} {
		for k, factor := range factors {
			decimals := len(row.want[k]) - 1 - strings.Index(row.want[k], ".")
			near(t, names[k], factor(row.i, row.n), parse(t, row.want[k]), 0.5001*math.Pow10(-decimals))
		}
	}
}

// Shows every factor equal to that of an independent library (name and version
// in the file) within 1e-9, at rates from −2 to 25 % and 1 to 50 years.
func TestFactorsAgainstIndependentLibrary(t *testing.T) {
	factors := []func(float64, int) float64{
		CompoundAmount, SinglePresentWorth, SeriesPresentWorth, CapitalRecovery,
		SeriesCompoundAmount, SinkingFund, GradientPresentWorth,
	}
	rows := readTable(t, "factors.csv")
	if len(rows) != 132 {
		t.Fatalf("%d rows, want 132", len(rows))
	}
	worst := 0.0
	for _, row := range rows {
		i, n := parse(t, row[0]), int(parse(t, row[1]))
		for k, factor := range factors {
			got, want := factor(i, n), parse(t, row[2+k])
			off := math.Abs(got-want) / max(1, math.Abs(want))
			worst = max(worst, off)
			if !(off <= 1e-9) {
				t.Errorf("factor %d at %g, %d: got %.15g, want %.15g", k, i, n, got, want)
			}
		}
	}
	t.Logf("%d factors, worst deviation %.1e", len(rows)*len(factors), worst)
}

// Shows each factor equal to the sum that defines it, also at and near a rate of
// zero, where closed forms lose digits.
func TestFactorsAreTheirSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-1e-9, 1e-9), rapid.Float64Range(-0.2, 0.5)).Draw(t, "i")
		g := rapid.OneOf(rapid.Just(i), rapid.Float64Range(-0.1, 0.1)).Draw(t, "g")
		n := rapid.IntRange(1, 40).Draw(t, "n")
		level, gradient, geometric := 0.0, 0.0, 0.0
		for k := 1; k <= n; k++ {
			paid := math.Pow(1+i, -float64(k))
			level += paid
			gradient += float64(k-1) * paid
			geometric += math.Pow(1+g, float64(k-1)) * paid
		}
		nearly(t, "P/A", SeriesPresentWorth(i, n), level)
		nearly(t, "P/G", GradientPresentWorth(i, n), gradient)
		nearly(t, "P/A,g", GeometricPresentWorth(i, g, n), geometric)
		nearly(t, "A/P", CapitalRecovery(i, n)*level, 1)
		nearly(t, "F/A", SeriesCompoundAmount(i, n)*SinglePresentWorth(i, n), level)
		nearly(t, "A/F", SinkingFund(i, n), CapitalRecovery(i, n)-i)
		nearly(t, "A/G", GradientSeries(i, n)*level, gradient)
	})
}
