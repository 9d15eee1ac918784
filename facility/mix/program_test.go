package mix

import (
	"errors"
	"fmt"
	"testing"
)

// Shows the wrapper on programs worked by hand: scaling, senses, dependent and
// empty rows, unused variables, no answer and no bound.
func TestMinimise(t *testing.T) {
	rows := []struct {
		name string
		p    program
		x    []float64
		err  error
	}{
		{"corner", program{cost: []float64{-3, -5}, rows: []row{
			{coef: []float64{1, 0}, sense: atMost, bound: 4},
			{coef: []float64{0, 2}, sense: atMost, bound: 12},
			{coef: []float64{3, 2}, sense: atMost, bound: 18},
		}}, []float64{2, 6}, nil},
		{"at least", program{cost: []float64{2, 3}, rows: []row{
			{coef: []float64{1, 1}, sense: atLeast, bound: 10},
			{coef: []float64{1, 0}, sense: atMost, bound: 4},
		}}, []float64{4, 6}, nil},
		{"badly scaled", program{cost: []float64{2e6, 3e-4}, rows: []row{
			{coef: []float64{1e7, 1e-3}, sense: atLeast, bound: 10},
			{coef: []float64{1e7, 0}, sense: atMost, bound: 4},
		}}, []float64{4e-7, 6000}, nil},
		{"negative bound", program{cost: []float64{1, 1}, rows: []row{
			{coef: []float64{-1, -1}, sense: atMost, bound: -5},
			{coef: []float64{1, -1}, sense: exactly, bound: 1},
		}}, []float64{3, 2}, nil},
		{"dependent rows", program{cost: []float64{1, 2, 0}, rows: []row{
			{coef: []float64{1, 1, 0}, sense: exactly, bound: 3},
			{coef: []float64{0, 1, 0}, sense: exactly, bound: 1},
			{coef: []float64{2, 3, 0}, sense: exactly, bound: 7},
			{coef: []float64{0, 0, 0}, sense: atMost, bound: 1},
		}}, []float64{2, 1, 0}, nil},
		{"no rows", program{cost: []float64{1, 0}}, []float64{0, 0}, nil},
		{"contradicting equalities", program{cost: []float64{1, 1}, rows: []row{
			{coef: []float64{1, 1}, sense: exactly, bound: 3},
			{coef: []float64{2, 2}, sense: exactly, bound: 7},
		}}, nil, errInfeasible},
		{"contradicting bounds", program{cost: []float64{1}, rows: []row{
			{coef: []float64{1}, sense: atMost, bound: 1},
			{coef: []float64{1}, sense: atLeast, bound: 2},
		}}, nil, errInfeasible},
		{"empty row asks", program{cost: []float64{1}, rows: []row{
			{coef: []float64{0}, sense: atLeast, bound: 1},
		}}, nil, errInfeasible},
		{"no bound", program{cost: []float64{-1}, rows: []row{
			{coef: []float64{1}, sense: atLeast, bound: 1},
		}}, nil, errUnbounded},
		{"no bound, unused", program{cost: []float64{1, -1}, rows: []row{
			{coef: []float64{1, 0}, sense: atMost, bound: 1},
		}}, nil, errUnbounded},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			x, value, err := row.p.minimise()
			if !errors.Is(err, row.err) {
				t.Fatalf("error %v, want %v", err, row.err)
			}
			want := 0.0
			for j := range row.x {
				near(t, fmt.Sprint("x", j), x[j], row.x[j], 1e-9*(1+row.x[j]))
				want += row.p.cost[j] * row.x[j]
			}
			near(t, "optimum", value, want, 1e-7*(1+largest([]float64{want})))
		})
	}
}

// Shows that the method does not run in circles on a program known to make the
// plain simplex method do so (Beale 1955, from memory).
func TestMinimiseDoesNotCycle(t *testing.T) {
	p := program{cost: []float64{-0.75, 150, -0.02, 6}, rows: []row{
		{coef: []float64{0.25, -60, -0.04, 9}, sense: atMost},
		{coef: []float64{0.5, -90, -0.02, 3}, sense: atMost},
		{coef: []float64{0, 0, 1, 0}, sense: atMost, bound: 1},
	}}
	_, value, err := p.minimise()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "optimum", value, -0.05, 1e-9)
}

// Shows that a program ends for which rounding makes the solver go round for ever. Found
// by chance, in a random design; that it has no solution follows from the sum of
// violations, which the solver finds without going round.
func TestSolverThatGoesRoundIsEnded(t *testing.T) {
	atLeastNothing := func(coef ...float64) row { return row{coef: coef, sense: atLeast} }
	p := program{
		cost: []float64{1.0000003788279797, 1.0000003788279797, 2.0861028057571728e-07, 4.9357142858756375e-08},
		rows: []row{
			atLeastNothing(0.47181259119641766, 0.47181259119641766, 0.1749371825088774, -0.08735626678304534),
			atLeastNothing(-0.3468992345854095, -0.3468992345854095, -0.050023825897869245, 0.2122696233940535),
			atLeastNothing(0.3926937975392765, 0.3926937975392765, 0.18966321497800362, -0.09379802138010303),
			atLeastNothing(-0.3817710944957513, -0.3817710944957513, -0.16935106262388022, 0.16360161364821502),
			atLeastNothing(1.9374346953320685, 1.9374346953320685, 0.61756551476017, -0.6172843832284799),
			{coef: []float64{0, 0, 0, 1}, sense: exactly, bound: 1},
			atLeastNothing(-0.4057918421146444, -0.4057918421146444, 0.1285838935188854, 0.6007121022451322),
			atLeastNothing(0.12053357204954566, 0.12053357204954566, 0.08147383774841781, 0.061826609863008246),
			atLeastNothing(-0.2239665086341269, -0.2239665086341269, 0.0692878933897939, 0.3281733901364103),
			atLeastNothing(0.00230197767514946, 0.00230197767514946, 0.0006173493205153417, -0.0009871428571547986),
		},
	}
	s, err := p.standard()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.simplex(s.costs(firstPenalty)); !errors.Is(err, errEndless) {
		t.Errorf("the solver ends with %v, want %v", err, errEndless)
	}
	if _, _, err := p.minimise(); !errors.Is(err, errInfeasible) {
		t.Errorf("it ends with %v, want %v", err, errInfeasible)
	}
}
