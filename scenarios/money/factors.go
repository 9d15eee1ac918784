package money

import "math"

// The factors of compound interest in their usual notation, for an interest
// rate i > −1 per year and n ≥ 0 years; (P/A, i, n) reads "find P, given A".
// P is an amount now, F one at the end of year n, A a level amount at the end of
// each year, G the yearly rise of an amount that is 0 in year 1. The equations
// are those of any engineering economy text (Newnan, Eschenbach and Lavelle,
// Engineering Economic Analysis, from memory). Outside their domain they return
// NaN or an infinity. Powers are taken as exponentials of logarithms, so that
// rates near zero lose no digits.

// CompoundAmount returns (F/P, i, n) = (1+i)^n.
func CompoundAmount(i float64, n int) float64 { return grow(i, float64(n)) }

// SinglePresentWorth returns (P/F, i, n) = (1+i)^−n.
func SinglePresentWorth(i float64, n int) float64 { return grow(i, -float64(n)) }

// SeriesPresentWorth returns (P/A, i, n) = [1 − (1+i)^−n]/i, or n at i = 0.
func SeriesPresentWorth(i float64, n int) float64 {
	if i == 0 {
		return float64(n)
	}
	return -math.Expm1(-float64(n)*math.Log1p(i)) / i
}

// CapitalRecovery returns (A/P, i, n), the level yearly amount that repays 1
// with interest in n years.
func CapitalRecovery(i float64, n int) float64 { return 1 / SeriesPresentWorth(i, n) }

// SeriesCompoundAmount returns (F/A, i, n) = [(1+i)^n − 1]/i, or n at i = 0.
func SeriesCompoundAmount(i float64, n int) float64 {
	if i == 0 {
		return float64(n)
	}
	return math.Expm1(float64(n)*math.Log1p(i)) / i
}

// SinkingFund returns (A/F, i, n), the level yearly saving that grows to 1 in n
// years.
func SinkingFund(i float64, n int) float64 { return 1 / SeriesCompoundAmount(i, n) }

// GradientPresentWorth returns (P/G, i, n) = Σ (k−1)·(1+i)^−k over years 1 to n.
// It is summed as written: the closed form loses all its digits near i = 0.
func GradientPresentWorth(i float64, n int) float64 {
	sum := 0.0
	for k := 2; k <= n; k++ {
		sum += float64(k-1) * grow(i, -float64(k))
	}
	return sum
}

// GradientSeries returns (A/G, i, n), the level amount worth as much as the
// gradient.
func GradientSeries(i float64, n int) float64 {
	return GradientPresentWorth(i, n) * CapitalRecovery(i, n)
}

// GeometricPresentWorth returns (P/A, g, i, n) = Σ (1+g)^(k−1)·(1+i)^−k, the
// worth of an amount that is 1 at the end of year 1 and rises by the share g
// each year. It equals the level factor at the rate (1+i)/(1+g) − 1, over 1+g.
func GeometricPresentWorth(i, g float64, n int) float64 {
	return SeriesPresentWorth((i-g)/(1+g), n) / (1 + g)
}

// grow returns (1+rate)^years.
func grow(rate, years float64) float64 { return math.Exp(years * math.Log1p(rate)) }
