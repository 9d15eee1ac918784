package money

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// factors are those that the package rests on, in the notation of textbooks.
var factors = []struct {
	name   string
	column int // in the tables below
	value  func(i float64, n int) float64
}{
	{"F/P", 0, func(i float64, n int) float64 { return grow(i, float64(n)) }},
	{"P/F", 1, func(i float64, n int) float64 { return grow(i, -float64(n)) }},
	{"P/A", 2, SeriesPresentWorth},
	{"A/P", 3, func(i float64, n int) float64 { return 1 / SeriesPresentWorth(i, n) }},
}

// Shows the factors against the compound interest tables of Newnan, Eschenbach
// and Lavelle, Engineering Economic Analysis (from memory), to the last digit
// printed there.
func TestFactorsAgainstTextbookTables(t *testing.T) {
	for _, row := range []struct {
		i    float64
		n    int
		want [4]string // as printed
	}{
		{0.03, 20, [4]string{"1.806", "0.5537", "14.877", "0.0672"}},
		{0.05, 20, [4]string{"2.653", "0.3769", "12.462", "0.0802"}},
		{0.06, 5, [4]string{"1.338", "0.7473", "4.212", "0.2374"}},
		{0.08, 10, [4]string{"2.159", "0.4632", "6.710", "0.1490"}},
		{0.10, 10, [4]string{"2.594", "0.3855", "6.145", "0.1627"}},
		{0.12, 15, [4]string{"5.474", "0.1827", "6.811", "0.1468"}},
	} {
		for _, f := range factors {
			printed := row.want[f.column]
			decimals := len(printed) - 1 - strings.Index(printed, ".")
			near(t, f.name, f.value(row.i, row.n), parse(t, printed), 0.5001*math.Pow10(-decimals))
		}
	}
}

// Shows every factor equal to that of an independent library (name and version
// in the file) within 1e-9, at rates from −2 to 25 % and 1 to 50 years.
func TestFactorsAgainstIndependentLibrary(t *testing.T) {
	rows := readTable(t, "factors.csv")
	if len(rows) != 132 {
		t.Fatalf("%d rows, want 132", len(rows))
	}
	for _, row := range rows {
		i, n := parse(t, row[0]), int(parse(t, row[1]))
		for _, f := range factors {
			nearly(t, f.name, f.value(i, n), parse(t, row[2+f.column]))
		}
	}
}

// Shows the present worth of a series equal to an independent library's (name and
// version in the file) within 1e-9, and nothing at the rate of return that the
// library finds.
func TestSeriesAgainstIndependentLibrary(t *testing.T) {
	rows := readTable(t, "series.csv")
	if len(rows) != 200 {
		t.Fatalf("%d rows, want 200", len(rows))
	}
	found := 0
	for _, row := range rows {
		flows := yearEnds(amounts(t, row[3])...)
		nearly(t, "present worth", plain(parse(t, row[0])).PresentWorth(flows), parse(t, row[1]))
		irr := parse(t, row[2])
		if !(irr > -0.5) || math.IsInf(irr, 0) {
			continue // its iteration fails, or ends where worths are beyond all measure
		}
		found++
		near(t, "present worth at the rate of return", plain(irr).PresentWorth(flows), 0, 1e-9*gross(flows, plain(irr)))
	}
	if found < 150 {
		t.Errorf("only %d rates of return to compare with", found)
	}
}

// Shows the worth of a level series equal to the sum that defines it, also at and
// near a rate of zero, where the closed form loses digits.
func TestSeriesIsItsSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-1e-9, 1e-9), rapid.Float64Range(-0.2, 0.5)).Draw(t, "i")
		n := rapid.IntRange(1, 40).Draw(t, "n")
		level := 0.0
		for k := 1; k <= n; k++ {
			level += math.Pow(1+i, -float64(k))
		}
		nearly(t, "P/A", SeriesPresentWorth(i, n), level)
	})
}
