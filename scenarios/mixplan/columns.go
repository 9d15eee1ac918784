package mixplan

import (
	"math"

	doc "loamcast/scenarios/document"
)

// batchColumns are those of a batch in files. Without prices there is no cost.
var batchColumns = []doc.Col[Batch]{
	doc.Val("chips_to_cake", doc.Ratio, func(b *Batch) float64 { return b.ChipsToCake }).Means("chips to cake by loose volume"),
	doc.Val("batches", doc.Count, func(b *Batch) float64 { return float64(b.Batches) }).Means("batches in which a vessel is filled"),
	doc.Val("load_wet", doc.Mass, func(b *Batch) float64 { return b.Load }).Means("mix in a vessel, as weighed", doc.Wet),
	doc.Val("load", doc.Volume, func(b *Batch) float64 { return b.LoadVolume }).Means("room that the mix takes in a vessel"),
	doc.Val("cake_wet", doc.Mass, func(b *Batch) float64 { return b.Cake }).Means("cake in a vessel, as weighed", doc.Wet),
	doc.Val("cake_dry", doc.Mass, func(b *Batch) float64 { return b.CakeDry }).Means("solids of the cake in a vessel", doc.Dry),
	doc.Val("cake", doc.Volume, func(b *Batch) float64 { return b.CakeVolume }).Means("cake in a vessel, loose"),
	doc.Val("fresh_chips", doc.Volume, func(b *Batch) float64 { return b.FreshVolume }).Means("fresh chips in a vessel, loose"),
	doc.Val("recovered_chips", doc.Volume, func(b *Batch) float64 { return b.RecoveredVolume }).Means("chips from the screen in a vessel, loose"),
	doc.Val("recovered_share", doc.Share, func(b *Batch) float64 { return b.RecoveredShare }).Means("part of the chips that comes from the screen"),
	doc.Val("moisture", doc.Share, func(b *Batch) float64 { return b.Moisture }).Means("water of the wet mass"),
	doc.Val("carbon_to_nitrogen", doc.Ratio, func(b *Batch) float64 { return b.CarbonToNitrogen }).Means("carbon to nitrogen by mass"),
	doc.Val("free_air_space", doc.Share, func(b *Batch) float64 { return b.FreeAirSpace }).Means("part of the volume that is air between particles"),
	doc.Val("bulk_density", doc.Density, func(b *Batch) float64 { return b.BulkDensity }).Means("wet mass of a loose volume", doc.Wet),
	price("cost", doc.Money, func(b *Batch) float64 { return b.Cost }).Means("what the materials of a vessel cost"),
	price("cost_per_dry_cake", doc.MoneyPerDry, func(b *Batch) float64 { return b.CostPerDry }).Means("what the materials cost on each dry mass of cake", doc.Dry),
	doc.Val("screened_at_moisture", doc.Share, func(b *Batch) float64 { return b.ScreenedAt }).Means("water of the wet mass when the lot comes to the screen"),
	doc.Val("chip_recovery", doc.Share, func(b *Batch) float64 { return b.Recovery }).Means("part of the coarse chips that the screen gives back"),
}

// price is a cost, which is not known without prices.
func price(name string, q doc.Quantity, of func(*Batch) float64) doc.Col[Batch] {
	c := doc.Val(name, q, of)
	c.Of = func(b *Batch) any {
		if !b.Priced {
			return nil
		}
		return of(b)
	}
	return c
}

// materialColumns are those of a material in files.
var materialColumns = []doc.Col[Material]{
	doc.Any("name", func(m *Material) any { return m.Name }),
	doc.Val("moisture", doc.Share, func(m *Material) float64 { return m.Moisture }).Means("water of the wet mass"),
	doc.Val("carbon_to_nitrogen", doc.Ratio, func(m *Material) float64 { return m.CarbonToNitrogen }).Means("carbon to nitrogen by mass"),
	doc.Val("nitrogen_of_dry", doc.Share, func(m *Material) float64 { return m.Nitrogen }),
	doc.Val("bulk_density", doc.Density, func(m *Material) float64 { return m.BulkDensity }).Means("wet mass of a loose volume", doc.Wet),
	doc.Val("used", doc.Volume, func(m *Material) float64 { return m.Used }),
	doc.Val("available", doc.Volume, func(m *Material) float64 { return m.Available }),
}

// stepColumns are those of a step of the loading card in files, after its name.
var stepColumns = []doc.Col[Step]{
	doc.Val("add_loose", doc.Volume, func(s *Step) float64 { return s.Loose }).Means("what is added in this step, loose"),
	doc.Val("add", doc.Mass, func(s *Step) float64 { return s.Add }).Means("what is added in this step, as weighed", doc.Wet),
	doc.Val("scale_reading", doc.Mass, func(s *Step) float64 { return s.Scale }).Means("what the scale shows after this step", doc.Wet),
	doc.Val("volume_in_mixer", doc.Volume, func(s *Step) float64 { return s.Volume }).Means("room taken in the mixer after this step"),
	doc.Val("moisture", doc.Share, func(s *Step) float64 { return s.Moisture }).Means("water of the wet mass"),
	doc.Val("carbon_to_nitrogen", doc.Ratio, func(s *Step) float64 { return s.CarbonRatio }).Means("carbon to nitrogen by mass"),
	doc.Val("free_air_space", doc.Share, func(s *Step) float64 { return s.AirSpace }).Means("part of the volume that is air between particles"),
}

// propertyColumns are those of a property in files.
var propertyColumns = []doc.Col[Property]{
	doc.Any("name", func(p *Property) any { return p.Name.String() }),
	doc.Any("asked", func(p *Property) any { return p.Asked }),
	doc.Any("binds", func(p *Property) any { return p.Binds }),
	doc.Any("standing", func(p *Property) any { return p.Standing().String() }),
	measured("at_least", func(p *Property) float64 { return end(p.Window.Low) }),
	measured("at_most", func(p *Property) float64 { return end(p.Window.High) }),
	measured("design", func(p *Property) float64 { return p.Design }),
	measured("margin", func(p *Property) float64 { return p.Margin }),
	measured("as_run", func(p *Property) float64 { return p.AsRun }),
}

// end is that of a window, not a number where none is asked.
func end(v float64) float64 {
	if v == 0 {
		return math.NaN()
	}
	return v
}

// measured is a value of a property.
func measured(name string, of func(*Property) float64) doc.Col[Property] {
	return doc.Any(name, func(p *Property) any { return doc.Measured{Value: of(p), Quantity: p.Name.quantity()} })
}
