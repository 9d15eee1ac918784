package mix

import "math"

// standard is a program as the simplex method wants it: matrix·y = right with
// y ≥ 0 and right ≥ 0. Its columns are the scaled variables of the program,
// then slack and surplus variables, then artificial ones.
type standard struct {
	matrix     []float64 // row by row
	right      []float64
	nudges     []float64
	cost       []float64 // without penalties
	columns    int
	artificial int   // first artificial column
	basis      []int // a feasible start: slack or artificial, by row

	kept  []int     // columns of the program that are in the matrix
	scale []float64 // x = scale·y, by kept column
	width int       // number of variables of the program
}

// standard scales the rows and columns of p, leaves out empty and dependent
// rows and unused variables, and adds the slack and artificial variables.
func (p program) standard() (*standard, error) {
	rows, err := p.reducedRows()
	if err != nil {
		return nil, err
	}
	s := &standard{width: len(p.cost)}
	if err := s.keepColumns(p, rows); err != nil {
		return nil, err
	}
	scaled := s.scaled(rows)
	s.layOut(scaled)
	return s, nil
}

// reducedRows returns the rows that say something: no empty rows and no
// equality that follows from others.
func (p program) reducedRows() ([]row, error) {
	var rows []row
	var echelon [][]float64 // independent equalities, eliminated
	for _, r := range p.rows {
		if largest(r.coef) <= negligible {
			if violates(r.sense, 0, r.bound) {
				return nil, errInfeasible
			}
			continue
		}
		if r.sense == exactly {
			rest := eliminate(echelon, append(append([]float64(nil), r.coef...), r.bound))
			n := len(r.coef)
			if largest(rest[:n]) <= 1e-11*largest(r.coef) {
				if math.Abs(rest[n]) > feasible*(1+math.Abs(r.bound)) {
					return nil, errInfeasible
				}
				continue
			}
			echelon = append(echelon, rest)
		}
		rows = append(rows, r)
	}
	return rows, nil
}

// eliminate subtracts multiples of the rows before until v is 0 at each of
// their pivots.
func eliminate(before [][]float64, v []float64) []float64 {
	for _, b := range before {
		pivot := 0
		for j := range len(b) - 1 {
			if math.Abs(b[j]) > math.Abs(b[pivot]) {
				pivot = j
			}
		}
		f := v[pivot] / b[pivot]
		for j := range v {
			v[j] -= f * b[j]
		}
		v[pivot] = 0
	}
	return v
}

func violates(s sense, value, bound float64) bool {
	switch s {
	case atLeast:
		return value < bound-feasible
	case atMost:
		return value > bound+feasible
	}
	return math.Abs(value-bound) > feasible
}

// keepColumns finds the variables that occur in a row. One that does not stays
// at 0, unless more of it would pay for ever.
func (s *standard) keepColumns(p program, rows []row) error {
	for j, c := range p.cost {
		used := false
		for _, r := range rows {
			used = used || math.Abs(r.coef[j]) > negligible
		}
		if used {
			s.kept = append(s.kept, j)
			s.cost = append(s.cost, c)
		} else if c < 0 {
			return errUnbounded
		}
	}
	return nil
}

// scaled returns the rows, over the kept columns, with every row and column
// brought near 1 by powers of two, so that scaling rounds nothing.
func (s *standard) scaled(rows []row) []row {
	out := make([]row, len(rows))
	for i, r := range rows {
		coef := make([]float64, len(s.kept))
		for k, j := range s.kept {
			coef[k] = r.coef[j]
		}
		out[i] = row{coef: coef, sense: r.sense, bound: r.bound}
	}
	s.scale = make([]float64, len(s.kept))
	for k := range s.scale {
		s.scale[k] = 1
	}
	for range 3 {
		for i := range out {
			f := powerOfTwo(largest(out[i].coef))
			for k := range out[i].coef {
				out[i].coef[k] /= f
			}
			out[i].bound /= f
		}
		for k := range s.kept {
			top := 0.0
			for i := range out {
				top = max(top, math.Abs(out[i].coef[k]))
			}
			f := powerOfTwo(top)
			for i := range out {
				out[i].coef[k] /= f
			}
			s.scale[k] /= f
		}
	}
	for k := range s.cost {
		s.cost[k] *= s.scale[k]
	}
	return out
}

// layOut writes the matrix with its slack, surplus and artificial columns.
func (s *standard) layOut(rows []row) {
	slacks, artificials := 0, 0
	for i := range rows {
		r := &rows[i]
		if r.bound < 0 || (r.bound == 0 && r.sense == atLeast) {
			r.turn()
		}
		if r.sense != exactly {
			slacks++
		}
		if r.sense != atMost {
			artificials++
		}
	}
	n := len(s.kept)
	s.artificial = n + slacks
	s.columns = n + slacks + artificials
	s.cost = append(s.cost, make([]float64, s.columns-n)...)
	s.matrix = make([]float64, len(rows)*s.columns)
	s.right = make([]float64, len(rows))
	s.nudges = make([]float64, len(rows))
	s.basis = make([]int, len(rows))

	slack, artificial := n, s.artificial
	for i, r := range rows {
		line := s.matrix[i*s.columns : (i+1)*s.columns]
		copy(line, r.coef)
		s.right[i] = r.bound
		spread := math.Mod(float64(i+1)*math.Phi, 1)
		switch r.sense {
		case atMost:
			line[slack] = 1
			s.basis[i] = slack
			s.nudges[i] = nudge * (1 + spread)
			slack++
		case atLeast:
			line[slack] = -1
			s.nudges[i] = -min(nudge*(1+spread), r.bound)
			slack++
			fallthrough
		case exactly:
			line[artificial] = 1
			s.basis[i] = artificial
			artificial++
		}
	}
}

// turn multiplies a row by −1.
func (r *row) turn() {
	for k := range r.coef {
		r.coef[k] = -r.coef[k]
	}
	r.bound = -r.bound
	switch r.sense {
	case atLeast:
		r.sense = atMost
	case atMost:
		r.sense = atLeast
	}
}

// restore returns the program's variables for a solution of s.
func (s *standard) restore(y []float64) []float64 {
	x := make([]float64, s.width)
	for k, j := range s.kept {
		if k < len(y) {
			x[j] = y[k] * s.scale[k]
		}
	}
	return x
}

func largest(v []float64) float64 {
	top := 0.0
	for _, x := range v {
		top = max(top, math.Abs(x))
	}
	return top
}

// powerOfTwo returns the power of two nearest below v, 1 for 0.
func powerOfTwo(v float64) float64 {
	if v == 0 {
		return 1
	}
	_, e := math.Frexp(v)
	return math.Ldexp(1, e-1)
}
