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

// SeriesPresentWorth returns (P/A, i, n) = [1 − (1+i)^−n]/i, or n at i = 0.
func SeriesPresentWorth(i float64, n int) float64 {
	if i == 0 {
		return float64(n)
	}
	return -math.Expm1(-float64(n)*math.Log1p(i)) / i
}

// grow returns (1+rate)^years.
func grow(rate, years float64) float64 { return math.Exp(years * math.Log1p(rate)) }
