package simulate

import (
	"math"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Nitrogen is what a year loses of it as ammonia, and what the biofilter gets from
// the vessels. What leaves from the pad passes no biofilter.
type Nitrogen struct {
	Lost            answer.Spread // of the nitrogen loaded, in vessels and curing
	ToBiofilter     answer.Spread // kg a day, mean
	ToBiofilterPeak answer.Spread // kg a day, in the month of the most
	PerBed          answer.Spread // kg a day and m2 of the file's bed in that month; not numbers without one
}

// nitrogen is that of year y.
func (t *tally) nitrogen(y int) {
	out, months := &t.answer.Years[y].Nitrogen, inYear(y)
	daily := func(months []plant.Month) float64 {
		return plant.Sum(months, func(m *plant.Month) float64 { return m.Losses.VesselAmmonia }) / plant.Sum(months, daysIn)
	}
	peak := func(rec *plant.Record) float64 {
		top, all := 0.0, months(rec)
		for i := range all {
			top = max(top, daily(all[i:i+1]))
		}
		return top
	}
	t.spread(&out.Lost, func(rec *plant.Record) float64 {
		loaded := 0.0
		for i, path := range rec.Paths {
			if path.Flow == plant.MixLoaded {
				loaded += rec.Years[y].Balance.Flows[i].Nitrogen
			}
		}
		return perUnit(plant.Sum(months(rec), func(m *plant.Month) float64 { return m.Losses.Ammonia })*material.NitrogenPerNH3, loaded)
	})
	t.spread(&out.ToBiofilter, func(rec *plant.Record) float64 { return daily(months(rec)) })
	t.spread(&out.ToBiofilterPeak, peak)
	out.PerBed = notFollowed
	if bed := t.plant.Air.Area; bed > 0 {
		t.spread(&out.PerBed, func(rec *plant.Record) float64 { return peak(rec) / bed })
	}
}

var nitrogenColumns = []doc.Col[Nitrogen]{
	doc.Spr("nitrogen_lost", doc.Share, func(n *Nitrogen) answer.Spread { return n.Lost }).Means("part of the nitrogen loaded that is given off as ammonia"),
	doc.Spr("ammonia_to_biofilter_per_day", doc.ScaleMass, func(n *Nitrogen) answer.Spread { return n.ToBiofilter }).Means("ammonia in the air of the vessels, mean over the year", doc.Substance),
	doc.Spr("ammonia_to_biofilter_per_day_peak_month", doc.ScaleMass, func(n *Nitrogen) answer.Spread { return n.ToBiofilterPeak }).Means("ammonia in the air of the vessels, mean of a day in the highest month", doc.Substance),
	doc.Spr("ammonia_to_biofilter_per_bed_and_day_peak_month", doc.MassPerArea, func(n *Nitrogen) answer.Spread { return n.PerBed }).Means("ammonia on each unit of area of the biofilter, mean of a day in the highest month", doc.Substance),
}

// nitrogen tells what leaves as ammonia in the last year, where it is reckoned from
// the nitrogen.
func (a *Answer) nitrogen(d *doc.Document) {
	if !a.ByNitrogen {
		return
	}
	y := a.last()
	text := doc.Say("in %s %s of the nitrogen loaded leaves with it; the biofilter gets %s of ammonia a day from the vessels, %s in the month of the most",
		y.Label, doc.Bracketed{Spread: y.Nitrogen.Lost, Quantity: doc.Share}, doc.Show(y.Nitrogen.ToBiofilter.P50, doc.ScaleMass), doc.Show(y.Nitrogen.ToBiofilterPeak.P50, doc.ScaleMass))
	if !math.IsNaN(y.Nitrogen.PerBed.P50) {
		text = text.Then(" (%s of its bed)", doc.Show(y.Nitrogen.PerBed.P50, doc.MassPerArea))
	}
	d.Spared(spareAmmonia, "Ammonia", "%s", text)
}

// water tells what dry lots got in the last year.
func (a *Answer) water(d *doc.Document) {
	if y := a.last(); y.WaterAdded.P50 > 0 {
		d.Labelled("Water", "in %s %s is added to %s of the lots, too dry as they are put up to cure",
			y.Label, doc.Show(y.WaterAdded.P50, doc.Mass), doc.With(y.Rewetted.P50, doc.Share, 0))
	}
}
