package mix

import (
	"cmp"
	"slices"

	"loamcast/facility/material"
)

// Step is one line of a loading card: what to add, and what the scale and the
// mixer show after it.
type Step struct {
	Material         int // place in Design.Materials
	Name             string
	Add              float64 // kg
	Scale            float64 // running reading, kg
	Volume           float64 // of all that is in, mixed, m3
	Moisture         float64
	CarbonToNitrogen float64
	FreeAirSpace     float64
}

// LoadingCard returns the steps of loading r in the order of Kind: bulking
// agent first, then cake. Materials of one kind go in the order of the list;
// what is not used has no step.
func (d Design) LoadingCard(r Result) []Step {
	order := make([]int, 0, len(d.Materials))
	for i := range d.Materials {
		if r.Mass[i] > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(d.Materials[a].Kind, d.Materials[b].Kind)
	})
	steps := make([]Step, 0, len(order))
	var in material.Parcel
	for _, i := range order {
		m := d.Materials[i]
		in.Add(m.Composition.Times(r.Mass[i] / m.Composition.Total()))
		steps = append(steps, Step{
			Material: i, Name: m.Name, Add: r.Mass[i], Scale: in.Total(), Volume: d.Bulk.Volume(in),
			Moisture: in.Moisture(), CarbonToNitrogen: in.CarbonToNitrogen(), FreeAirSpace: d.Bulk.FreeAirSpace(in),
		})
	}
	return steps
}

// Vessel is what a mix is filled into. 0 is no limit.
type Vessel struct {
	Volume  float64 // useful, m3
	Payload float64 // of the truck that carries it, kg wet
}
