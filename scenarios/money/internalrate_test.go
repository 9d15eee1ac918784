package money

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Shows the rates of return of series whose rates are known.
func TestInternalRates(t *testing.T) {
	for _, c := range []struct {
		name     string
		payments []Payment
		want     []float64
	}{
		// The first is quoted after Gitman, Principles of Managerial Finance, in the
		// documentation of the library of testdata/money (read): 0.28095.
		{"four returns", yearEnds(-100, 39, 59, 55, 20), []float64{0.2809484211599611}},
		// Derived: x = 1/(1+r) solves the polynomial with these factors.
		{"loan turned round", yearEnds(100, -110), []float64{0.10}},
		{"less comes back", yearEnds(-100, 0, 81), []float64{-0.10}},
		{"no interest", yearEnds(-300, 100, 100, 100), []float64{0}},
		{"10 and 20 %", yearEnds(-1000, 2300, -1320), []float64{0.10, 0.20}},
		{"0, 100 and 200 %", yearEnds(-1, 6, -11, 6), []float64{0, 1, 2}},
		{"10 % twice", yearEnds(-100, 220, -121), []float64{0.10}},
		{"10 % three times", yearEnds(-1000, 3300, -3630, 1331), []float64{0.10}},
		{"never zero", yearEnds(10, -15, 10), nil},
		{"only paid", yearEnds(-10, -15, 0), nil},
		{"nothing", nil, nil},
		{"all zero", yearEnds(0, 0), nil},
		{"all at once", []Payment{{3, 50}, {3, -20}}, nil},
		{"one instant cancels", []Payment{{0, -100}, {1, 0.1}, {1, 0.2}, {1, -0.3}, {2, 121}}, []float64{0.10}},
		{"out of order, in half years", []Payment{{1.5, 133.1}, {0, -100}}, []float64{math.Pow(1.331, 1/1.5) - 1}},
		{"before the start", []Payment{{-1, -100}, {0, 107}}, []float64{0.07}},
		{"a fortune in a day", []Payment{{0, -1}, {1. / 365, 1.01}}, []float64{math.Pow(1.01, 365) - 1}},
		{"nearly all lost", yearEnds(-1e9, 1), []float64{-1 + 1e-9}},
	} {
		got := InternalRates(c.payments).All
		if len(got) != len(c.want) {
			t.Errorf("%s: got rates %v, want %v", c.name, got, c.want)
			continue
		}
		for i, want := range c.want {
			tol := 1e-12 * max(1, math.Abs(want))
			if len(c.want) == 1 && (c.name == "10 % twice" || c.name == "10 % three times") {
				tol = 1e-4 // a zero that touches is known to the root of rounding, or its third root
			}
			near(t, c.name, got[i], want, tol)
		}
	}
}

// Shows what is said when there is no single rate.
func TestInternalRateWarning(t *testing.T) {
	one := InternalRates(yearEnds(-100, 110))
	if rate, ok := one.Sole(); !ok || math.Abs(rate-0.1) > 1e-12 || one.Warning() != "" {
		t.Errorf("one rate: %v %v, warning %q", rate, ok, one.Warning())
	}
	for _, c := range []struct {
		payments []Payment
		want     string
	}{
		{yearEnds(10, -15, 10), "no rate of return: the present worth is never zero"},
		{yearEnds(-1000, 2300, -1320), "2 rates of return (10 %, 20 %), so that none of them is a measure; compare present worths"},
	} {
		r := InternalRates(c.payments)
		if _, ok := r.Sole(); ok || r.Warning() != c.want {
			t.Errorf("got %v, %q, want %q", ok, r.Warning(), c.want)
		}
	}
}

// Shows present worths within 1e-9 of an independent library's, and its rate of
// return, wherever it finds one, among ours within 1e-9.
func TestSeriesAgainstIndependentLibrary(t *testing.T) {
	rows := readTable(t, "series.csv")
	if len(rows) != 200 {
		t.Fatalf("%d rows, want 200", len(rows))
	}
	rates := 0
	for line, row := range rows {
		payments := yearEnds(amounts(t, row[3])...)
		nearly(t, "present worth", PresentWorth(payments, parse(t, row[0])), parse(t, row[1]))
		want := parse(t, row[2])
		if !(want > -1) || math.IsInf(want, 0) {
			continue // its iteration fails, or runs below −1 where no rate has a meaning
		}
		rates++
		found := InternalRates(payments).All
		if !slices.ContainsFunc(found, func(r float64) bool { return math.Abs(r-want) <= 1e-9 }) {
			t.Errorf("row %d: rates %v, want %.15g", line, found, want)
		}
	}
	t.Logf("%d rates of return compared", rates)
	if rates < 150 {
		t.Errorf("only %d rates of return to compare with", rates)
	}
}

// Shows that all rates are found, for payments made from rates drawn first: the
// coefficients of Π (1 − x(1+r)) in x = 1/(1+rate).
func TestInternalRatesFindsEveryRate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps := rapid.SliceOfNDistinct(rapid.IntRange(-8, 30), 1, 5, rapid.ID[int]).Draw(t, "rates, in twentieths")
		slices.Sort(steps)
		product := []float64{between(t, "scale", 0.01, 1e6)}
		for _, s := range steps {
			product = append(product, 0)
			for k := len(product) - 1; k > 0; k-- {
				product[k] -= product[k-1] * (1 + float64(s)/20)
			}
		}
		got := InternalRates(yearEnds(product...)).All
		if len(got) != len(steps) {
			t.Fatalf("got %v, want %v/20", got, steps)
		}
		for i, s := range steps {
			near(t, "rate", got[i], float64(s)/20, 1e-6)
		}
	})
}

// Shows for any payments that present worth is linear in the amounts, that each
// rate found zeroes it, that no more are found than the amounts change sign, and
// that one is found wherever the ends of the range have opposite signs.
func TestPresentWorthAndItsRates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		payment := rapid.Custom(func(t *rapid.T) Payment {
			return Payment{At: float64(rapid.IntRange(0, 60).Draw(t, "half years")) / 2, USD: between(t, "usd", -1e6, 1e6)}
		})
		a := rapid.SliceOfN(payment, 1, 40).Draw(t, "a")
		b := rapid.SliceOfN(payment, 0, 10).Draw(t, "b")
		rate, factor := between(t, "rate", -0.5, 1), between(t, "factor", -3, 3)

		both := slices.Clone(a)
		for _, p := range b {
			both = append(both, Payment{At: p.At, USD: factor * p.USD})
		}
		parts := PresentWorth(a, rate) + factor*PresentWorth(b, rate)
		near(t, "linear", PresentWorth(both, rate), parts, 1e-9*(1+gross(both, rate)))
		checkRates(t, a)
	})
}

func checkRates(t failer, payments []Payment) {
	t.Helper()
	found := InternalRates(payments).All
	for i, r := range found {
		if i > 0 && r < found[i-1] {
			t.Errorf("rates %v are not in order", found)
		}
		if r > 1e6 || r < -0.999 {
			continue // powers of 1 + r underflow, or 1 + r has lost its digits
		}
		near(t, "present worth at its rate", PresentWorth(payments, r)/gross(payments, r), 0, 1e-9)
	}
	m := merge(payments)
	changes := 0
	for i := 1; i < len(m); i++ {
		if (m[i].USD > 0) != (m[i-1].USD > 0) {
			changes++
		}
	}
	if len(found) > changes {
		t.Errorf("%d rates %v from %d changes of sign", len(found), found, changes)
	}
	if len(m) > 0 && signAt(m, -highestLog)*signAt(m, highestLog) < 0 && len(found) == 0 {
		t.Errorf("no rate found although the ends differ in sign")
	}
}

func gross(payments []Payment, rate float64) float64 {
	sum := 0.0
	for _, p := range payments {
		sum += math.Abs(p.USD) * grow(rate, -p.At)
	}
	return sum
}

// FuzzInternalRates shows that the search ends on any numbers, and that what it
// finds from finite ones are rates of return.
func FuzzInternalRates(f *testing.F) {
	f.Add(0.0, -1000.0, 1.0, 2300.0, 2.0, -1320.0, 3.0, 1.0)
	f.Add(math.NaN(), 1.0, 0.0, -1.0, 1.0, math.Inf(1), 2.0, math.NaN())
	f.Add(0.0, -1.0, 1e-17, 2.0, 1.0, -3.0, 1e6, 4.0)
	f.Add(0.0, -1e-300, 1.0, 1e300, 2.0, -1e-300, 3.0, 1e300)
	f.Fuzz(func(t *testing.T, t0, a0, t1, a1, t2, a2, t3, a3 float64) {
		payments := []Payment{{t0, a0}, {t1, a1}, {t2, a2}, {t3, a3}}
		InternalRates(payments)
		ordinary := true
		for _, p := range payments {
			size := math.Abs(p.USD)
			ordinary = ordinary && p.At >= 0 && p.At <= 100 && (p.USD == 0 || (size > 1e-6 && size < 1e12))
		}
		if ordinary {
			checkRates(t, payments)
		}
	})
}
