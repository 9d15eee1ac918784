package simulate

import (
	"loamcast/facility/material"
	"loamcast/facility/plant"
)

// flows are the mean yearly flows along every path.
func (t *tally) flows() {
	var paths []plant.Path
	var flows []material.Components
	years := 0.0
	t.Each(func(r *Replication) {
		if paths == nil {
			paths, flows = r.Usual.Paths, make([]material.Components, len(r.Usual.Paths))
		}
		for _, y := range r.Usual.Years {
			for i := range flows {
				flows[i] = flows[i].Plus(y.Balance.Flows[i])
			}
			years++
		}
	})
	t.Last(func() {
		for i, path := range paths {
			c := flows[i].Times(1 / years)
			t.answer.Flows = append(t.answer.Flows, Flow{
				Kind: path.Flow, Name: path.Name, From: path.From, To: path.To,
				Wet: c.Total, Dry: c.Fixed + c.Volatile, Carbon: c.Carbon, Nitrogen: c.Nitrogen,
				Water: c.Water, Fixed: c.Fixed, VolatileSolids: c.Volatile,
			})
		}
	})
}

// residual is the largest of a mass balance, relative to throughput, and where it was.
type residual struct {
	worst float64
	at    string
}

func (r *residual) see(worst float64, at string) {
	if !(worst <= r.worst) {
		r.worst, r.at = worst, at
	}
}

// balance is the mass balance of all runs.
func (t *tally) balance() {
	var in, out, change, left material.Components
	var usual, free residual
	years := 0.0
	t.Each(func(r *Replication) {
		usual.see(r.Usual.Worst, r.Usual.WorstAt)
		free.see(r.Free.Worst, r.Free.WorstAt)
		for _, y := range r.Usual.Years {
			in, out = in.Plus(y.Balance.In), out.Plus(y.Balance.Out)
			change, left = change.Plus(y.Balance.Change), left.Plus(y.Balance.Residual)
			years++
		}
	})
	t.Last(func() {
		usual.see(free.worst, free.at)
		b := &t.answer.Balance
		*b = Balance{Worst: usual.worst, WorstAt: usual.at, Bound: material.Tolerance}
		for i, name := range material.ComponentNames {
			b.Components = append(b.Components, ComponentBalance{
				Name: name,
				In:   in.Each()[i] / years, Out: out.Each()[i] / years,
				Change: change.Each()[i] / years, Residual: left.Each()[i] / years,
			})
		}
	})
}
