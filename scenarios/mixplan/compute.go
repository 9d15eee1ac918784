package mixplan

import (
	"math"

	"loamcast/facility/mix"
	"loamcast/facility/recycle"
)

// answerOf lays out what a design shows.
func answerOf(d *designed) *Answer {
	a := &Answer{
		CakeSolids: d.CakeSolids,
		Design:     d.batch(),
		AsRun:      d.batchOf(d.asRun, d.Model.Recipe.ChipsIn(d.Month)),
		Binding:    d.result.Binding,
		Misses:     d.result.Misses,
		Settled:    d.settled(),
	}
	if d.wishes.Priced {
		a.AsRun.price(d.asRun.Volumes.Fresh*d.wishes.ChipsPrice + d.asRun.Volumes.Cake*d.amendmentCost)
	}
	for _, i := range d.result.UsedUp {
		if d.design.Materials[i].Kind != mix.Cake {
			a.UsedUp = append(a.UsedUp, d.design.Materials[i].Name)
		}
	}
	a.Materials = d.materials()
	a.Card = d.card(a.Design.Batches)
	a.Properties = d.properties()
	for _, p := range a.Properties {
		a.Notes = append(a.Notes, p.notes(d.Model.Bulk.Structure.Depth > 0)...)
	}
	return a
}

// settled reports whether neither search, of the steady design and of its mix,
// had to stop short.
func (d *designed) settled() bool { return d.stays && d.result.Settled }

// scale turns the masses of the result into those of a full vessel.
func (d *designed) scale() float64 { return d.steady.Load.Total() / d.result.Weight }

// batch describes the design in a vessel.
func (d *designed) batch() Batch {
	r := d.result
	b := d.batchOf(d.steady, r.ChipsToCake)
	b.Moisture, b.CarbonToNitrogen, b.FreeAirSpace, b.BulkDensity = r.Moisture, r.CarbonToNitrogen, r.FreeAirSpace, r.BulkDensity
	if d.wishes.Priced {
		b.price(r.Cost * d.scale())
	}
	return b
}

func (b *Batch) price(cost float64) {
	b.Priced, b.Cost, b.CostPerDry = true, cost, cost/b.CakeDry
}

func (d *designed) batchOf(s *recycle.Steady, chipsToCake float64) Batch {
	screened := s.Journey.End()
	recovered := max(0, s.Volumes.Recovered) // a difference, which rounding may leave below nothing
	n, byPayload := d.Batches(s.Load)
	return Batch{
		Unmet:       s.Journey.Unmet(),
		ChipsToCake: chipsToCake, Batches: n, ByPayload: byPayload,
		Load: s.Load.Total(), LoadVolume: s.Volumes.Load,
		Cake: s.Parts.Cake.Total(), CakeDry: s.Parts.Cake.Dry(), CakeVolume: s.Volumes.Cake,
		FreshVolume: s.Volumes.Fresh, RecoveredVolume: recovered,
		RecoveredShare: recovered / (s.Volumes.Fresh + recovered),
		Moisture:       s.Load.Moisture(), CarbonToNitrogen: s.Load.CarbonToNitrogen(),
		FreeAirSpace: d.Model.Bulk.FreeAirSpace(s.Load), BulkDensity: d.Model.Bulk.Density(s.Load),
		ScreenedAt: screened.Moisture(), Recovery: s.Split.CoarseRecovery(),
	}
}

// materials lists what the design had on hand.
func (d *designed) materials() []Material {
	list := make([]Material, len(d.design.Materials))
	scale := d.scale()
	for i, m := range d.design.Materials {
		p := m.Composition
		list[i] = Material{
			Name: m.Name, Amendment: m.Kind == mix.Amendment, Moisture: p.Moisture(), CarbonToNitrogen: p.CarbonToNitrogen(),
			Nitrogen: p.Nitrogen() / p.Dry(), BulkDensity: m.BulkDensity,
			Used: d.result.Mass[i] * scale / m.BulkDensity, Available: m.Available / m.BulkDensity,
		}
	}
	return list
}

// card returns the loading card of one of n equal batches.
func (d *designed) card(n int) []Step {
	one := d.result
	one.Mass = make([]float64, len(d.result.Mass))
	for i, kg := range d.result.Mass {
		one.Mass[i] = kg * d.scale() / float64(n)
	}
	steps := d.design.LoadingCard(one)
	card := make([]Step, len(steps))
	for i, s := range steps {
		card[i] = Step{
			Name: s.Name, Loose: s.Add / d.design.Materials[s.Material].BulkDensity, Add: s.Add, Scale: s.Scale,
			Volume: s.Volume, Moisture: s.Moisture, CarbonRatio: s.CarbonToNitrogen, AirSpace: s.FreeAirSpace,
		}
	}
	return card
}

// properties sets the mix against its targets.
func (d *designed) properties() []Property {
	t, r, run := d.wishes.Targets, d.result, d.batchOf(d.asRun, d.Model.Recipe.ChipsIn(d.Month))
	moisture := mix.Window{Low: 1 - t.Solids.High, High: 1 - t.Solids.Low}
	if t.Solids.High == 0 {
		moisture.Low = 0
	}
	if t.Solids.Low == 0 {
		moisture.High = 0
	}
	list := []Property{
		{Name: Moisture, Window: moisture, Design: r.Moisture, AsRun: run.Moisture},
		{Name: CarbonToNitrogen, Window: t.CarbonToNitrogen, Design: r.CarbonToNitrogen, AsRun: run.CarbonToNitrogen},
		{Name: FreeAirSpace, Window: mix.Window{Low: t.FreeAirSpace}, Design: r.FreeAirSpace, AsRun: run.FreeAirSpace},
		{Name: BulkDensity, Window: mix.Window{High: t.BulkDensity}, Design: r.BulkDensity, AsRun: run.BulkDensity},
		{Name: ChipsToCake, Window: t.ChipsToCake, Design: r.ChipsToCake, AsRun: run.ChipsToCake},
	}
	for i := range list {
		list[i].judge(r.Binding)
	}
	return list
}

// judge fills in how the design stands to the window.
func (p *Property) judge(binding []mix.Target) {
	p.Margin = math.Inf(1)
	if p.Window.Low > 0 {
		p.Asked, p.Margin = true, p.Design-p.Window.Low
	}
	if p.Window.High > 0 {
		p.Asked, p.Margin = true, min(p.Margin, p.Window.High-p.Design)
	}
	for _, t := range binding {
		p.Binds = p.Binds || QualityOf(t) == p.Name
	}
}

// QualityOf returns the quality that a target on the mix is about.
func QualityOf(t mix.Target) Quality {
	switch t {
	case mix.SolidsLow, mix.SolidsHigh:
		return Moisture
	case mix.CarbonToNitrogenLow, mix.CarbonToNitrogenHigh:
		return CarbonToNitrogen
	case mix.FreeAirSpaceLow:
		return FreeAirSpace
	case mix.BulkDensityHigh:
		return BulkDensity
	}
	return ChipsToCake
}

// published names the qualities as package mix does.
var published = map[Quality]mix.Quantity{
	Moisture: mix.MoistureContent, CarbonToNitrogen: mix.CarbonNitrogen, FreeAirSpace: mix.FreeAirSpace,
	BulkDensity: mix.BulkDensity, ChipsToCake: mix.ChipsToCakeRatio,
}

// notes returns the published ranges, other than the narrow preferred ones,
// that the design leaves. What is measured of a heap as it is filled says nothing of
// one that has settled.
func (p Property) notes(settled bool) []Note {
	var list []Note
	for _, r := range mix.Outside(mix.OfMix, published[p.Name], p.Design) {
		if !r.Preferred && !(r.AsFilled && settled) {
			list = append(list, Note{p.Name, p.Design, mix.Window{Low: r.Low, High: r.High}, r.Source})
		}
	}
	return list
}
