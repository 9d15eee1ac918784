package mix

import (
	"cmp"
	"math"
	"slices"

	"loamcast/facility/material"
)

// unit is 1 kg of a material.
type unit struct {
	Material
	one       material.Parcel
	delivered float64 // m3
	solid     float64 // m3 without air
}

// problem is a design ready to be linearised. Its materials stand in an order
// of their own, so that the order of the caller's list changes nothing. Masses
// are in units of batch kg, so that the size of a batch changes nothing
// either.
type problem struct {
	Design
	units []unit
	order []int // place in Design.Materials, by unit
	batch float64
	money float64 // largest cost per kg, 1 if all are free
	cake  material.Parcel
	seeds [][]float64
}

func newProblem(d Design) *problem {
	p := &problem{Design: d, batch: d.Cake, money: 0}
	p.order = make([]int, len(d.Materials))
	for i := range p.order {
		p.order[i] = i
	}
	slices.SortFunc(p.order, func(a, b int) int {
		x, y := d.Materials[a], d.Materials[b]
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Name, y.Name))
	})
	for _, i := range p.order {
		m := d.Materials[i]
		one := m.Composition.Times(1 / m.Composition.Total())
		p.units = append(p.units, unit{
			Material: m, one: one, delivered: 1 / m.BulkDensity, solid: d.Bulk.SolidVolume(one),
		})
		p.money = max(p.money, math.Abs(m.Cost))
	}
	if p.money == 0 {
		p.money = 1
	}
	if p.batch == 0 {
		p.batch = p.mostCake()
	}
	p.seeds = p.plantSeeds()
	return p
}

// mostCake bounds the cake that one batch can hold, kg, whatever else is in
// it: by weight, by the volume of its solids and water, and by what is on hand.
func (p *problem) mostCake() float64 {
	most, onHand := math.Inf(1), 0.0
	if p.Weight > 0 {
		most = p.Weight
	}
	for _, u := range p.units {
		if u.Kind != Cake {
			continue
		}
		onHand += u.Available
		if p.Volume > 0 {
			most = min(most, p.Volume/u.solid)
		}
	}
	return min(most, onHand)
}

// plantSeeds returns mixes, in kg per kg, from which each branch picks a start:
// cake with some of one other material, and with some of all.
func (p *problem) plantSeeds() [][]float64 {
	others := 0
	base := make([]float64, len(p.units))
	for i, u := range p.units {
		if u.Kind == Cake {
			base[i] = 1
		} else {
			others++
		}
	}
	seeds := [][]float64{base}
	add := func(share func(i int) float64) {
		for _, amount := range []float64{0.05, 0.1, 0.2, 0.3, 0.45, 0.7, 1, 2, 5} {
			seed := slices.Clone(base)
			for i, u := range p.units {
				if u.Kind != Cake {
					seed[i] = amount * share(i)
				}
			}
			seeds = append(seeds, seed)
		}
	}
	for j, u := range p.units {
		if u.Kind != Cake {
			add(func(i int) float64 {
				if i == j {
					return 1
				}
				return 0
			})
		}
	}
	if others > 1 {
		add(func(int) float64 { return 1 / float64(others) })
	}
	return seeds
}

// seed returns the seed that lies deepest inside a branch.
func (p *problem) seed(br material.Branch) []float64 {
	best, depth := p.seeds[0], math.Inf(-1)
	for _, s := range p.seeds {
		mix := p.blend(s)
		_, margins := p.Bulk.OnBranch(mix, br)
		if d := slices.Min(margins[:]) / mix.Total(); d > depth {
			best, depth = s, d
		}
	}
	return slices.Clone(best)
}

// blend returns the parcel of the given masses, in the unit of y.
func (p *problem) blend(y []float64) material.Parcel {
	var mix material.Parcel
	for i, u := range p.units {
		mix.Add(u.one.Times(y[i]))
	}
	return mix
}

// tangent is a branch of the volume model linearised at one mix: volume and
// margins per kg of each material. Both are proportional to the batch, so that
// the tangent goes through the origin.
type tangent struct {
	volume  []float64
	margins [material.NumMargins][]float64
}

// step is the part of the batch by which a mass is changed to find a slope.
const step = 1e-5

func (p *problem) tangent(br material.Branch, y []float64) tangent {
	var t tangent
	t.volume = make([]float64, len(p.units))
	for k := range t.margins {
		t.margins[k] = make([]float64, len(p.units))
	}
	mix := p.blend(y)
	h := step * mix.Total()
	for i, u := range p.units {
		up, upMargins := p.Bulk.OnBranch(mix.Plus(u.one.Times(h)), br)
		down, downMargins := p.Bulk.OnBranch(mix.Minus(u.one.Times(h)), br)
		t.volume[i] = (up - down) / (2 * h)
		for k := range t.margins {
			t.margins[k][i] = (upMargins[k] - downMargins[k]) / (2 * h)
		}
	}
	return t
}
