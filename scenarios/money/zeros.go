package money

import (
	"cmp"
	"math"
	"slices"
)

// With x = ln(1+rate) a present worth is a sum of exponentials, f(x) =
// Σ a·exp(−t·x), and rates of return are its zeros. If the amounts a, sorted by
// time t, change sign v times, f has at most v zeros (Descartes' rule for sums
// of exponentials; Pólya and Szegő, Problems and Theorems in Analysis, part V,
// from memory). The proof is the method: take τ between the two times of a
// change of sign. The derivative of f(x)·exp(τ·x) is such a sum again and
// changes sign v − 1 times; find its zeros first. Between neighbours of them
// f(x)·exp(τ·x) is monotone, so that a piece with ends of opposite sign holds
// exactly one zero and one with ends of the same sign none.

const (
	// highestLog bounds ln(1 + rate) on both sides: rates from −1 + 1.3e-14, below
	// which 1 + rate has no digits left, to 8e13.
	highestLog = 32

	// rounding is how near to zero, relative to its terms, a sum may come and
	// count as zero: above the error of its terms (some 1e-14) and far below a
	// cent in a million.
	rounding = 1e-12
)

// ratesOf turns logarithms ln(1 + rate) into rates.
func ratesOf(logs []float64) []float64 {
	for i, x := range logs {
		logs[i] = math.Expm1(x)
	}
	return logs
}

// merge returns the payments sorted by time, with those of one instant added up
// and those that come to nothing left out.
func merge(payments []Payment) []Payment {
	sorted := slices.Clone(payments)
	slices.SortStableFunc(sorted, func(a, b Payment) int { return cmp.Compare(a.At, b.At) })
	var merged []Payment
	for i := 0; i < len(sorted); {
		at, sum, gross := sorted[i].At, 0.0, 0.0
		for first := i; i < len(sorted) && (i == first || sorted[i].At == at); i++ {
			sum += sorted[i].USD
			gross += math.Abs(sorted[i].USD)
		}
		if math.Abs(sum) > rounding*gross {
			merged = append(merged, Payment{At: at, USD: sum})
		}
	}
	return merged
}

// zerosOf returns the x at which Σ USD·exp(−At·x) of merged payments is zero, in
// ascending order. A zero that does not cross counts once.
func zerosOf(p []Payment) []float64 {
	turn := changeOfSign(p)
	if turn == 0 {
		return nil
	}
	edges := []float64{-highestLog}
	edges = append(edges, zerosOf(derivative(p, (p[turn-1].At+p[turn].At)/2))...)
	edges = append(edges, highestLog)

	var zeros []float64
	last := 0 // sign at the edge before
	for i, x := range edges {
		sign := signAt(p, x)
		if last*sign < 0 {
			zeros = append(zeros, bisect(p, edges[i-1], x))
		}
		if sign == 0 && (i == 0 || last != 0) { // two in a row are one flat piece
			zeros = append(zeros, x)
		}
		last = sign
	}
	return zeros
}

// changeOfSign returns the index of the first amount whose sign is not that of
// the amount before it, or 0 if there is none.
func changeOfSign(p []Payment) int {
	for i := 1; i < len(p); i++ {
		if (p[i].USD > 0) != (p[i-1].USD > 0) {
			return i
		}
	}
	return 0
}

// derivative returns the amounts of d/dx Σ USD·exp((τ − At)·x), up to a positive
// factor that keeps them from overflowing when it is applied many times.
func derivative(p []Payment, tau float64) []Payment {
	span := p[len(p)-1].At - p[0].At
	d := make([]Payment, 0, len(p))
	for _, q := range p {
		if usd := q.USD * ((tau - q.At) / span); math.Abs(usd) > 0 {
			d = append(d, Payment{At: q.At, USD: usd})
		}
	}
	return d
}

// scaled returns Σ USD·exp(−At·x) and the sum of the absolute values of its
// terms, both divided by the largest exponential so that nothing overflows.
func scaled(p []Payment, x float64) (sum, gross float64) {
	largest := max(-p[0].At*x, -p[len(p)-1].At*x)
	for _, q := range p {
		term := q.USD * math.Exp(-q.At*x-largest)
		sum += term
		gross += math.Abs(term)
	}
	return sum, gross
}

// signAt returns the sign of the sum at x, 0 if it is zero to rounding.
func signAt(p []Payment, x float64) int {
	sum, gross := scaled(p, x)
	switch {
	case math.Abs(sum) <= rounding*gross:
		return 0
	case sum > 0:
		return 1
	default:
		return -1
	}
}

// bisect returns the zero between low and high, where the sum has opposite
// signs, to the last bit.
func bisect(p []Payment, low, high float64) float64 {
	sumLow, _ := scaled(p, low)
	for {
		mid := low + (high-low)/2
		if mid == low || mid == high {
			return mid
		}
		sum, _ := scaled(p, mid)
		if (sum > 0) == (sumLow > 0) {
			low = mid
		} else {
			high = mid
		}
	}
}
