package sensitivity

import "gonum.org/v1/gonum/stat"

// terms are what a row of a [Decomposition], or a sum of rows, adds to the
// estimates.
type terms struct {
	ends    float64   // f(a) + f(b), both less the mean of all
	squares float64   // of the same two
	apart   []float64 // (f(b) − f(c(i)))²: all inputs but i differ
	alone   []float64 // (f(a) − f(c(i)))²: only input i differs
}

func newTerms(dims int) terms {
	return terms{apart: make([]float64, dims), alone: make([]float64, dims)}
}

// terms returns the mean over the points a and b, and the terms of each row.
// The mean is taken off first, so that no digits are lost to a large one.
func (dec *Decomposition) terms(values []float64) (mean float64, rows []terms) {
	width := dec.dims + 2
	var ends []float64
	for row := range dec.rows {
		ends = append(ends, values[row*width], values[row*width+1])
	}
	mean = stat.Mean(ends, nil)
	for row := range dec.rows {
		fs := values[row*width : (row+1)*width]
		a, b := fs[0]-mean, fs[1]-mean
		t := newTerms(dec.dims)
		t.ends, t.squares = a+b, a*a+b*b
		for d, c := range fs[2:] {
			t.apart[d] = (fs[1] - c) * (fs[1] - c)
			t.alone[d] = (fs[0] - c) * (fs[0] - c)
		}
		rows = append(rows, t)
	}
	return mean, rows
}

func (t *terms) add(row terms) {
	t.ends += row.ends
	t.squares += row.squares
	for d := range t.apart {
		t.apart[d] += row.apart[d]
		t.alone[d] += row.alone[d]
	}
}

func (t *terms) clear() {
	t.ends, t.squares = 0, 0
	clear(t.apart)
	clear(t.alone)
}

// variance is that of the values at the points a and b of so many rows. Equal
// values, but for rounding, have none.
func (t *terms) variance(rows int) float64 {
	n := float64(2 * rows)
	deviations := t.squares - t.ends*t.ends/n
	if deviations <= 1e-12*t.squares {
		return 0
	}
	return deviations / (n - 1)
}

// shares returns the first-order and the total share of each input.
func (t *terms) shares(rows int) (first, total []float64) {
	first, total = make([]float64, len(t.apart)), make([]float64, len(t.alone))
	v := t.variance(rows)
	if v == 0 {
		return first, total
	}
	for d := range first {
		first[d] = 1 - t.apart[d]/(2*v*float64(rows))
		total[d] = t.alone[d] / (2 * v * float64(rows))
	}
	return first, total
}
