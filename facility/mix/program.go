package mix

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

type sense int

const (
	atLeast sense = iota
	atMost
	exactly
)

// row is one linear constraint: coef·x (sense) bound.
type row struct {
	coef  []float64
	sense sense
	bound float64
}

// program is a linear program: the least cost·x with x ≥ 0 and all rows met.
type program struct {
	cost []float64
	rows []row
}

var (
	errInfeasible = errors.New("no solution meets every constraint")
	errUnbounded  = errors.New("the objective has no bound")
)

const (
	// feasible is the largest sum of violations, after scaling, at which a
	// program still counts as feasible.
	feasible = 1e-8
	// nudge relaxes each inequality by its own tiny amount. Almost all rows of
	// a mix go through the origin, and the simplex method stalls where many
	// constraints meet in one point.
	nudge      = 1e-10
	reduced    = 1e-10 // tolerance on reduced costs
	negligible = 1e-13 // a coefficient that is noise

	firstPenalty = 1e3
)

// minimise solves p. It returns errInfeasible, errUnbounded or an error that
// tells how the solver failed.
func (p program) minimise() (x []float64, value float64, err error) {
	s, err := p.standard()
	if err != nil {
		return nil, 0, err
	}
	if len(s.right) == 0 {
		return s.restore(nil), 0, nil
	}
	y, err := s.solve()
	if err != nil {
		return nil, 0, err
	}
	x = s.restore(y)
	for j, c := range p.cost {
		value += c * x[j]
	}
	return x, value, nil
}

// solve minimises cost with a penalty on the artificial variables. If they
// stay above 0 it finds out whether they must; if not, the penalty grows.
func (s *standard) solve() ([]float64, error) {
	y, err := s.simplex(s.costs(firstPenalty))
	if s.artificial == s.columns || (err == nil && s.violation(y) <= feasible) {
		return y, err
	}
	phase := make([]float64, s.columns)
	for j := s.artificial; j < s.columns; j++ {
		phase[j] = 1
	}
	if y, err = s.simplex(phase); err != nil {
		return nil, err
	}
	if s.violation(y) > feasible {
		return nil, errInfeasible
	}
	for penalty := 1e2 * firstPenalty; penalty <= 1e8; penalty *= 1e2 {
		y, err = s.simplex(s.costs(penalty))
		if err == nil && s.violation(y) <= feasible {
			return y, nil
		}
	}
	if err == nil {
		err = errors.New("constraints cannot be held against the objective")
	}
	return nil, err
}

func (s *standard) costs(penalty float64) []float64 {
	c := make([]float64, s.columns)
	copy(c, s.cost)
	for j := s.artificial; j < s.columns; j++ {
		c[j] = penalty
	}
	return c
}

func (s *standard) violation(y []float64) float64 {
	sum := 0.0
	for _, v := range y[s.artificial:] {
		sum += v
	}
	return sum
}

// simplex runs gonum's solver from the basis of slack and artificial variables. The solver
// panics on some ill-conditioned input, and on some that has no solution rounding makes it
// go round for ever; both become an error.
func (s *standard) simplex(cost []float64) (y []float64, err error) {
	defer func() {
		switch r := recover(); {
		case r == errEndless:
			y, err = nil, errEndless
		case r != nil:
			y, err = nil, fmt.Errorf("simplex: %v", r)
		}
	}()
	a := mat.NewDense(len(s.right), s.columns, s.matrix)
	relaxed := make([]float64, len(s.right))
	for i, b := range s.right {
		relaxed[i] = b + s.nudges[i]
	}
	_, y, err = lp.Simplex(cost, &looked{Matrix: a, left: mostLooks}, relaxed, reduced, s.basis)
	switch {
	case errors.Is(err, lp.ErrUnbounded):
		return nil, errUnbounded
	case err != nil:
		return nil, err
	}
	return s.polish(a, y), nil
}

// looked is a matrix that lets itself be looked at so often and no more. The solver looks
// at a column of it in every turn, and there is no other way to end it.
type looked struct {
	mat.Matrix
	left int
}

// mostLooks are some ten thousand turns; a design takes some tens.
const mostLooks = 200_000

var errEndless = errors.New("simplex: it goes round for ever")

func (m *looked) At(i, j int) float64 {
	if m.left--; m.left < 0 {
		panic(errEndless)
	}
	return m.Matrix.At(i, j)
}

// polish takes the nudges out again: it solves for the basic variables with
// the true right-hand side. Where the basis cannot be read from y, y stands.
func (s *standard) polish(a *mat.Dense, y []float64) []float64 {
	m := len(s.right)
	basis := make([]int, 0, m)
	for j, v := range y {
		if v > negligible {
			basis = append(basis, j)
		}
	}
	if len(basis) != m {
		return y
	}
	square := mat.NewDense(m, m, nil)
	for k, j := range basis {
		for i := range m {
			square.Set(i, k, a.At(i, j))
		}
	}
	var exact mat.VecDense
	if exact.SolveVec(square, mat.NewVecDense(m, s.right)) != nil {
		return y
	}
	out := make([]float64, len(y))
	for k, j := range basis {
		v := exact.AtVec(k)
		if v < -feasible || math.IsNaN(v) {
			return y
		}
		out[j] = max(0, v)
	}
	return out
}
