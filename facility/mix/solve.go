package mix

import (
	"fmt"
	"math"
)

// tolerance is how far, relative to its value, a target may be missed on the
// volume model and still count as met. It covers the rounding of the solver.
const tolerance = 1e-6

// Solve finds the mix. The error is for a design that makes no sense (see
// Validate) or a solver that fails; a design without a mix that meets every
// target is no error, but a Result with status NearestMiss.
//
// Among mixes of equal cost it takes the one with the least volume.
func (d Design) Solve() (Result, error) {
	if err := d.Validate(); err != nil {
		return Result{}, err
	}
	if d.Objective == MostCake {
		return d.mostCake()
	}
	return d.leastCost()
}

func (d Design) leastCost() (Result, error) {
	p := newProblem(d)
	found, err := p.search(LeastCost)
	if best, ok := p.best(found); ok {
		best.Settled = best.Settled && err == nil
		return best, nil
	}
	if err != nil {
		return Result{}, fmt.Errorf("mix: %w", err)
	}
	return Result{}, ErrNoConvergence
}

// shave keeps the cake of a most-cake design a trace below its most, so that
// the least-cost program that follows has room to move.
const shave = 1e-9

// mostCake finds the most cake, then the least cost at that cake.
func (d Design) mostCake() (Result, error) {
	p := newProblem(d)
	found, err := p.search(MostCake)
	if err != nil && len(found) == 0 {
		return Result{}, fmt.Errorf("mix: %w", err)
	}
	most := 0.0
	for _, c := range found {
		if r := p.result(c); r.Status == Met {
			most = max(most, r.Cake)
		}
	}
	if most < settled*p.batch {
		return d.nearestComposition()
	}
	fixed := d
	fixed.Objective, fixed.Cake = LeastCost, most*(1-shave)
	return fixed.leastCost()
}

// nearestComposition answers a most-cake design whose only mix is an empty
// batch. What matters then is the composition: it is found for 1 kg of cake,
// with as much as one likes of each material on hand, and made as large as the
// mixer, the scale and the materials allow.
func (d Design) nearestComposition() (Result, error) {
	free := d
	free.Objective, free.Cake, free.Volume, free.Weight = LeastCost, 1, 0, 0
	free.Materials = make([]Material, len(d.Materials))
	for i, m := range d.Materials {
		if m.Available > 0 {
			m.Available = Unlimited
		}
		m.Cost = max(0, m.Cost)
		free.Materials[i] = m
	}
	r, err := free.leastCost()
	if err != nil {
		return Result{}, err
	}
	size := math.Inf(1)
	limit := func(most, used float64) {
		if most > 0 && used > 0 {
			size = min(size, most/used)
		}
	}
	limit(d.Volume, r.Volume)
	limit(d.Weight, r.Weight)
	limit(d.Cake, r.Cake)
	for i, m := range d.Materials {
		limit(m.Available, r.Mass[i])
	}
	p := newProblem(d)
	y := make([]float64, len(p.units))
	for i, j := range p.order {
		y[i] = r.Mass[j] * size / p.batch
	}
	return p.result(candidate{y: y, rounds: r.Rounds, settled: r.Settled}), nil
}

// best returns the cheapest answer that meets every target, or else the one
// that misses least.
func (p *problem) best(found []candidate) (Result, bool) {
	var best Result
	var penalty float64
	have := false
	for _, c := range found {
		r, miss := p.result(c), p.penalty(c.y)
		if !c.settled && r.Status != Met {
			continue
		}
		if !have || p.better(r, best, miss, penalty) {
			best, penalty, have = r, miss, true
		}
	}
	return best, have
}

// better compares by status, then by cost or by penalty, then by volume.
func (p *problem) better(a, b Result, penaltyA, penaltyB float64) bool {
	if a.Status != b.Status {
		return a.Status == Met
	}
	x, y, scale := a.Cost, b.Cost, p.money*p.batch
	if a.Status == NearestMiss {
		x, y, scale = penaltyA, penaltyB, 1
	}
	if math.Abs(x-y) > tolerance*scale {
		return x < y
	}
	return a.Volume < b.Volume
}

// penalty returns what the elastic program minimises, with the true volume of
// the mix spread over its masses in place of a tangent.
func (p *problem) penalty(y []float64) float64 {
	mix := p.blend(y)
	perKg := p.Bulk.Volume(mix) / mix.Total()
	spread := func(v float64) []float64 { return p.each(func(unit) float64 { return v / mix.Total() }) }
	t := tangent{volume: p.each(func(unit) float64 { return perKg }), solid: p.each(func(u unit) float64 { return u.solid })}
	if p.Bulk.Structure.Between {
		air, solid := p.Bulk.Air(mix)
		t.air, t.solid = spread(air), spread(solid)
	}
	total := 0.0
	for _, r := range p.requirements(t) {
		value := 0.0
		for i, c := range r.coef {
			value += c * y[i]
		}
		total += p.Weights[r.target] * max(0, r.least-value) / r.whole
	}
	return total
}
