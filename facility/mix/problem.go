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

// problem is a design ready to be linearised. Its materials, less those of
// which nothing is on hand, stand in an order of their own, so that the order
// of the caller's list changes nothing. Masses are in units of batch kg, so
// that the size of a batch changes nothing either.
type problem struct {
	Design
	units  []unit
	order  []int // place in Design.Materials, by unit
	batch  float64
	onHand float64 // cake, kg
	money  float64 // largest cost per kg, 1 if all are free
	rays   [][][]float64
}

func newProblem(d Design) *problem {
	p := &problem{Design: d, batch: d.Cake}
	for i, m := range d.Materials {
		if m.Available > 0 {
			p.order = append(p.order, i)
		}
	}
	slices.SortFunc(p.order, func(a, b int) int {
		x, y := d.Materials[a], d.Materials[b]
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Name, y.Name))
	})
	for _, i := range p.order {
		m := d.Materials[i]
		one := m.Composition.Times(1 / m.Composition.Total())
		p.units = append(p.units, unit{
			Material: m, one: one, delivered: 1 / m.BulkDensity, solid: d.Bulk.SolidVolume(&one),
		})
		p.money = max(p.money, math.Abs(m.Cost))
		if m.Kind == Cake {
			p.onHand += m.Available
		}
	}
	if p.money == 0 {
		p.money = 1
	}
	if p.batch == 0 {
		p.batch = p.mostCake()
	}
	p.rays = p.shine()
	return p
}

// mostCake bounds the cake that one batch can hold, kg, whatever else is in
// it: by weight, by the volume of its solids and water, and by what is on hand.
func (p *problem) mostCake() float64 {
	most := p.onHand
	if p.Weight > 0 {
		most = min(most, p.Weight)
	}
	for _, u := range p.units {
		if u.Kind == Cake && p.Volume > 0 {
			most = min(most, p.Volume/u.solid)
		}
	}
	return most
}

// blend returns the parcel of the given masses, in the unit of y.
func (p *problem) blend(y []float64) material.Parcel {
	var mix material.Parcel
	for i, u := range p.units {
		mix.Add(u.one.Times(y[i]))
	}
	return mix
}
