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
