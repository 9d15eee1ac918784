package compare

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// RinottConstant returns the h by which [Rinott]'s second stage is sized, for k
// options, 2 or more, with first replications each to begin with, 2 or more, and
// a confidence above 1/k and below 1. It solves
//
//	∫ [ ∫ Φ( h / √(ν(1/x + 1/y)) ) f(x) dx ]^(k−1) f(y) dy = confidence
//
// where ν = first − 1 and f is the density of chi squared with ν degrees of
// freedom (Rinott 1978; from memory).
func RinottConstant(k, first int, confidence float64) float64 {
	nodes, weights := chiRule(first - 1)
	excess := func(h float64) float64 { // of the chance over the confidence
		var outer float64
		for i, v := range nodes {
			var inner float64
			for j, w := range nodes {
				// With x = w² and y = v², h/√(ν(1/x + 1/y)) is this.
				inner += weights[j] * normalCDF(h*w*v/math.Sqrt(float64(first-1)*(w*w+v*v)))
			}
			outer += weights[i] * math.Pow(inner, float64(k-1))
		}
		return outer - confidence
	}
	high := 1.0
	for excess(high) < 0 {
		high *= 2
	}
	return root(excess, 0, high)
}

// root returns where a rising function crosses zero, between low, where it is
// below, and high, where it is not, to nine digits: false position, in the
// Illinois variant, which halves the value at an end that stays for a second time.
func root(f func(float64) float64, low, high float64) float64 {
	below, above := f(low), f(high)
	side := 0
	for range 100 {
		x := high - above*(high-low)/(above-below)
		y := f(x)
		if math.Abs(y) < 1e-12 || high-low < 1e-9*high {
			return x
		}
		if y < 0 {
			if low, below = x, y; side < 0 {
				above /= 2
			}
			side = -1
		} else {
			if high, above = x, y; side > 0 {
				below /= 2
			}
			side = 1
		}
	}
	return high
}

// chiRule returns nodes and weights, of sum one, that average a function over the
// chi distribution with ν degrees of freedom. Its density, unlike that of chi
// squared, is smooth at zero for every ν.
func chiRule(nu int) (nodes, weights []float64) {
	const points, tail = 96, 1e-13
	squared := distuv.ChiSquared{K: float64(nu)}
	nodes, weights = make([]float64, points), make([]float64, points)
	quad.Legendre{}.FixedLocations(nodes, weights, math.Sqrt(squared.Quantile(tail)), math.Sqrt(squared.Quantile(1-tail)))
	var sum float64
	for i, w := range nodes {
		weights[i] *= squared.Prob(w*w) * 2 * w
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return nodes, weights
}

// KimNelsonConstant returns h² of [KimNelson], for arguments as those of
// [RinottConstant]:
//
//	h² = (first − 1) · [ (2(1 − confidence)/(k − 1))^(−2/(first − 1)) − 1 ]
//
// (Kim and Nelson 2001, with their c = 1; from memory). It holds with common
// random numbers.
func KimNelsonConstant(k, first int, confidence float64) float64 {
	nu := float64(first - 1)
	return nu * (math.Pow(2*(1-confidence)/float64(k-1), -2/nu) - 1)
}

func normalCDF(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
