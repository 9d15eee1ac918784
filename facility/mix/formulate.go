package mix

import (
	"math"
	"slices"
)

// Objectives of lower rank are added with these factors: they choose among
// answers that are equal in what counts, and cost less than any tolerance.
const (
	byVolume = 1e-7
	byCost   = 1e-5
	// offBranch is how many times worse than any miss it is to leave the branch.
	offBranch = 100
)

// program writes the linear program at a tangent. With elastic, each target
// may be missed at a price, and the price is what is minimised.
func (p *problem) program(t tangent, objective Objective, elastic bool) program {
	q := program{}
	for i, u := range p.units {
		price := u.Cost/p.money + byVolume*1000*t.volume[i]
		switch {
		case elastic:
			price *= byCost
		case objective == MostCake:
			price = -cakeMassOf(u)
		}
		q.cost = append(q.cost, price)
	}
	for _, r := range p.requirements(t) {
		line := row{coef: r.coef, sense: atLeast, bound: r.least}
		if elastic {
			q.slack(&line, r.whole, p.Weights[r.target])
		}
		q.rows = append(q.rows, line)
	}
	q.takeCake(p, objective, elastic)
	for i, u := range p.units {
		if !math.IsInf(u.Available, 1) {
			q.bound(i, atMost, u.Available/p.batch)
		}
		if u.Least > 0 {
			q.bound(i, atLeast, u.Least/p.batch)
		}
	}
	for _, m := range t.margins {
		line := row{coef: m, sense: atLeast}
		if elastic {
			q.slack(&line, largest(m), offBranch*slices.Max(p.Weights[:]))
		}
		q.rows = append(q.rows, line)
	}
	q.pad()
	return q
}

// slack lets a row be missed: by 1 for its whole, at a weight.
func (q *program) slack(line *row, whole, weight float64) {
	line.coef = append(line.coef, make([]float64, len(q.cost)-len(line.coef))...)
	line.coef = append(line.coef, whole)
	q.cost = append(q.cost, weight)
}

// takeCake asks for the cake of the design, as far as there is any. A design
// for most cake is free up to a limit; its nearest miss is a matter of
// proportions, found for a little cake so that nothing runs out.
func (q *program) takeCake(p *problem, objective Objective, elastic bool) {
	const little = 1e-3
	line := row{coef: p.each(cakeMassOf), sense: exactly}
	switch {
	case objective == LeastCost:
		line.bound = min(p.Cake, p.onHand) / p.batch
	case elastic:
		line.bound = little
	case p.Cake > 0:
		line.sense, line.bound = atMost, p.Cake/p.batch
	default:
		return
	}
	q.rows = append(q.rows, line)
}

// bound limits one variable.
func (q *program) bound(j int, s sense, value float64) {
	coef := make([]float64, j+1)
	coef[j] = 1
	q.rows = append(q.rows, row{coef: coef, sense: s, bound: value})
}

// stayNear keeps each mass within reach of where it was.
func (q *program) stayNear(y, reach []float64) {
	for i, r := range reach {
		q.bound(i, atMost, y[i]+r)
		if y[i] > r {
			q.bound(i, atLeast, y[i]-r)
		}
	}
	q.pad()
}

// pad fills every row with zeros up to the number of variables.
func (q *program) pad() {
	for i := range q.rows {
		r := &q.rows[i]
		r.coef = append(r.coef, make([]float64, len(q.cost)-len(r.coef))...)
	}
}
