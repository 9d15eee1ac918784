package money

import "math"

// SeriesPresentWorth returns the worth now of 1 at the end of each of n ≥ 0 years,
// at an interest rate i > −1 per year: in the usual notation of compound interest
// (P/A, i, n) = [1 − (1+i)^−n]/i, or n at i = 0 (any engineering economy text, such
// as Newnan, Eschenbach and Lavelle, Engineering Economic Analysis, from memory).
// Powers are taken as exponentials of logarithms, so that rates near zero lose no
// digits.
func SeriesPresentWorth(i float64, n int) float64 {
	if i == 0 {
		return float64(n)
	}
	return -math.Expm1(-float64(n)*math.Log1p(i)) / i
}

// grow returns (1+rate)^years.
func grow(rate, years float64) float64 { return math.Exp(years * math.Log1p(rate)) }
