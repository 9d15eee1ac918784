package sensitivity

import "gonum.org/v1/gonum/stat"

// terms are what a row of a [Decomposition], or a sum of rows, adds to the
// estimates. They lie in one piece of memory, since the bootstrap adds up millions
// of them: two for the variance, then two for each input.
type terms []float64

func newTerms(dims int) terms { return make(terms, 2+2*dims) }

// set fills in the terms of a row: the values at its points a, b and c(i), and the
// mean of all. The mean is taken off first, so that no digits are lost to a large
// one.
func (t terms) set(a, b float64, cs []float64, mean float64) {
	t[0] = (a - mean) + (b - mean)
	t[1] = (a-mean)*(a-mean) + (b-mean)*(b-mean)
	for i, c := range cs {
		t[2+2*i] = (b - c) * (b - c) // all inputs but i differ
		t[3+2*i] = (a - c) * (a - c) // only input i differs
	}
}

// variance is that of the values at the points a and b of so many rows. Equal
// values, but for rounding, have none.
func (t terms) variance(rows int) float64 {
	sum, squares, n := t[0], t[1], float64(2*rows)
	deviations := squares - sum*sum/n
	if deviations <= 1e-12*squares {
		return 0
	}
	return deviations / (n - 1)
}

// shares returns the first-order and the total share of input i.
func (t terms) shares(i, rows int) (first, total float64) {
	v := t.variance(rows)
	if v == 0 {
		return 0, 0
	}
	scale := 2 * v * float64(rows)
	return 1 - t[2+2*i]/scale, t[3+2*i] / scale
}

// terms returns the mean over the points a and b, and the terms of each row.
func (dec *Decomposition) terms(values []float64) (mean float64, rows []terms) {
	width := dec.dims + 2
	var ends []float64
	for row := range dec.rows {
		ends = append(ends, values[row*width], values[row*width+1])
	}
	mean = stat.Mean(ends, nil)
	for row := range dec.rows {
		t, fs := newTerms(dec.dims), values[row*width:(row+1)*width]
		t.set(fs[0], fs[1], fs[2:], mean)
		rows = append(rows, t)
	}
	return mean, rows
}
