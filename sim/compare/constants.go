package compare

import "math"

// KimNelsonConstant returns h² of [KimNelson] for k options, the number of
// replications before the first look and a confidence:
//
//	h² = (first − 1) · [ (2(1 − confidence)/(k − 1))^(−2/(first − 1)) − 1 ]
//
// (Kim and Nelson 2001, with their c = 1; from memory). It holds with common
// random numbers.
func KimNelsonConstant(k, first int, confidence float64) float64 {
	nu := float64(first - 1)
	return nu * (math.Pow(2*(1-confidence)/float64(k-1), -2/nu) - 1)
}
