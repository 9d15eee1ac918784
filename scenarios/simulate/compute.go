package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
)

// begin returns a tally for an answer about so many replications of a plant, with all of its
// parts but what the vessels are in.
func begin(b answer.Basis, p *plant.Plant, runs, exact int) *tally {
	t := newTally(b, p, runs, exact)
	a := t.answer
	a.MindsWet, a.Hauls, a.OwnChips = p.Drying.On(), p.Contracted(), p.Chips.ComeBySelf()
	a.AirLimit, _ = p.Air.Limit()
	a.ByNitrogen = p.Chemistry.Microbes.Counted()
	for y := range a.Years {
		t.year(y)
		t.need(y)
	}
	for m := range a.Months {
		t.month(m)
	}
	t.load()
	t.failedBy()
	t.balance()
	t.flows()
	t.waits()
	t.resources()
	t.capacities()
	t.triggered()
	t.dryness()
	t.amendments()
	t.classes()
	return t
}

const (
	hoursPerDay = 24
	kJPerKWh    = 3600
)

// year is about year y, but for what [tally.need] says.
func (t *tally) year(y int) {
	out, months, target := &t.answer.Years[y], inYear(y), t.answer.Target
	total := func(into *answer.Spread, of field) { t.sum(into, months, of) }
	out.From = t.plant.Start.AddYears(y)
	out.Label = t.answer.YearName(out.From)
	static := t.plant.StaticNeed(float64(y) + 0.5)
	out.StaticAverage, out.StaticPeak = static.Average, static.PeakMonth

	total(&out.FeedDry, func(m *plant.Month) float64 { return m.Feed.Dry })
	total(&out.FeedWet, func(m *plant.Month) float64 { return m.Feed.Wet })
	t.brought(&out.Brought, months)
	total(&out.DivertedDry, (*plant.Month).Untreated)
	t.spread(&out.DivertedShare, func(rec *plant.Record) float64 { return plant.UntreatedShare(months(rec)) })
	t.contract(&out.Contract, months)
	t.share(&out.MissesTarget, func(r *Replication) bool { return target.Missed(months(r.Usual)) })
	t.share(&out.MissesUnlimited, func(r *Replication) bool { return r.Free.Years[y].Misses })
	t.ratio(&out.CakeWait, months, func(m *plant.Month) float64 { return m.Holding.Waited },
		func(m *plant.Month) float64 { return m.Mixing.CakeDry })
	t.most(&out.OldestCake, months, func(m *plant.Month) float64 { return m.Holding.Oldest })
	t.spread(&out.CakeDelay, func(rec *plant.Record) float64 { return plant.CakeDelay(months(rec)) })
	t.most(&out.HoldingPeak, months, func(m *plant.Month) float64 { return m.Holding.Peak })
	t.most(&out.HoldingShare, months, func(m *plant.Month) float64 { return m.Holding.Fullest })
	t.failing(&out.Failing, months)

	total(&out.Loads, func(m *plant.Month) float64 { return m.Loads.Filled })
	t.spread(&out.VesselsMean, func(rec *plant.Record) float64 { return rec.Years[y].VesselsMean })
	t.spread(&out.VesselsPeak, func(rec *plant.Record) float64 { return float64(rec.Years[y].VesselsPeak) })
	t.median(&out.Installed, func(rec *plant.Record) float64 { return float64(rec.Years[y].Installed) })

	total(&out.ChipsBought, func(m *plant.Month) float64 { return m.Chips.Bought })
	total(&out.ChipsRecovered, func(m *plant.Month) float64 { return m.Chips.Recovered })
	total(&out.ChipsUsed, func(m *plant.Month) float64 { return m.Chips.Used })
	total(&out.Truckloads, func(m *plant.Month) float64 { return m.Chips.Truckloads })

	total(&out.ProductVolume, func(m *plant.Month) float64 { return m.Product.Volume })
	total(&out.ProductWet, func(m *plant.Month) float64 { return m.Product.Wet })
	total(&out.ProductDry, func(m *plant.Month) float64 { return m.Product.Dry })
	total(&out.TakenVolume, func(m *plant.Month) float64 { return m.Product.TakenVolume })
	total(&out.Shortage, func(m *plant.Month) float64 { return m.Product.Shortage })
	total(&out.Rejects, func(m *plant.Month) float64 { return m.Screen.RejectsWet })

	total(&out.WaterRemoved, func(m *plant.Month) float64 { return m.Losses.Vapour })
	total(&out.CarbonDioxide, func(m *plant.Month) float64 { return m.Losses.CarbonDioxide })
	total(&out.Ammonia, func(m *plant.Month) float64 { return m.Losses.Ammonia })
	total(&out.Leachate, func(m *plant.Month) float64 { return m.Losses.Leachate })
	total(&out.WaterAdded, func(m *plant.Month) float64 { return m.Curing.Water })
	t.ratio(&out.Rewetted, months, func(m *plant.Month) float64 { return m.Curing.Rewetted },
		func(m *plant.Month) float64 { return m.Release.Loads - m.Release.Failed })
	t.nitrogen(y)
	t.work(&out.Work, months)
	out.Air = t.air(months)
}

// brought parts what came in in some months.
func (t *tally) brought(out *Brought, months span) {
	t.sum(&out.CakeDry, months, func(m *plant.Month) float64 { return m.Feed.CakeDry() })
	t.sum(&out.CakeWet, months, func(m *plant.Month) float64 { return m.Feed.CakeWet() })
	t.sum(&out.FeedstockDry, months, func(m *plant.Month) float64 { return m.Feed.FeedstockDry })
	t.sum(&out.FeedstockWet, months, func(m *plant.Month) float64 { return m.Feed.FeedstockWet })
	t.sum(&out.OwnChips, months, func(m *plant.Month) float64 { return m.Chips.Own })
}

// failing says whether it is loads that do not comply which are too much.
func (t *tally) failing(out *bool, months span) {
	var left capability.Untreated
	t.Each(func(r *Replication) { left.Add(months(r.Usual)) })
	t.Last(func() { *out = left.Failing(t.answer.Target) })
}

// month is about month i of the horizon, but for what [tally.need] says.
func (t *tally) month(i int) {
	out, only := &t.answer.Months[i], inMonth(i)
	of := func(into *answer.Spread, f field) { t.sum(into, only, f) }
	from := t.plant.Start.AddMonths(i)
	out.Year, out.Month = from.Year, from.Month
	of(&out.FeedDry, func(m *plant.Month) float64 { return m.Feed.Dry })
	t.brought(&out.Brought, only)
	of(&out.DivertedDry, (*plant.Month).Untreated)
	t.contract(&out.Contract, only)
	of(&out.VesselsMean, func(m *plant.Month) float64 { return m.Vessels.Mean })
	of(&out.VesselsPeak, func(m *plant.Month) float64 { return m.Vessels.Peak })
	t.median(&out.Installed, func(rec *plant.Record) float64 { return rec.Months[i].Vessels.Installed })
	of(&out.ChipsBought, func(m *plant.Month) float64 { return m.Chips.Bought })
	of(&out.ChipsRecover, func(m *plant.Month) float64 { return m.Chips.Recovered })
	of(&out.ChipsUsed, func(m *plant.Month) float64 { return m.Chips.Used })
	of(&out.Truckloads, func(m *plant.Month) float64 { return m.Chips.Truckloads })
	of(&out.ChipsStorePeak, func(m *plant.Month) float64 { return m.Chips.StorePeak })
	of(&out.ProductVolume, func(m *plant.Month) float64 { return m.Product.Volume })
	of(&out.Taken, func(m *plant.Month) float64 { return m.Product.TakenVolume })
	of(&out.ProductStorePeak, func(m *plant.Month) float64 { return m.Product.StorePeak })
	of(&out.PadPeak, func(m *plant.Month) float64 { return m.Curing.PadPeak })
	of(&out.OldestCake, func(m *plant.Month) float64 { return m.Holding.Oldest })
	of(&out.HoldingPeak, func(m *plant.Month) float64 { return m.Holding.Peak })
	of(&out.HoldingShare, func(m *plant.Month) float64 { return m.Holding.Fullest })
	t.work(&out.Work, only)
	out.Air = t.air(only)
}

// load describes the typical load: means over all loads of a replication,
// spread over the replications.
func (t *tally) load() {
	out := &t.answer.Load
	mean := func(into *answer.Spread, of, per field) { t.ratio(into, horizon, of, per) }
	loads := func(m *plant.Month) float64 { return m.Loads.Filled }
	released := func(m *plant.Month) float64 { return m.Release.Loads }
	screened := func(m *plant.Month) float64 { return m.Screen.Lots }
	mean(&out.Wet, func(m *plant.Month) float64 { return m.Loads.Wet }, loads)
	mean(&out.Moisture, func(m *plant.Month) float64 { return m.Loads.Moisture }, loads)
	mean(&out.OutMoisture, func(m *plant.Month) float64 { return m.Release.Moisture }, released)
	mean(&out.Residence, func(m *plant.Month) float64 { return m.Release.Residence }, released)
	mean(&out.DryLoss, func(m *plant.Month) float64 { return m.Losses.Oxidised },
		func(m *plant.Month) float64 { return m.Loads.Dry })
	mean(&out.VolatileDestroyed, func(m *plant.Month) float64 { return m.Losses.Oxidised },
		func(m *plant.Month) float64 { return m.Loads.Volatile })
	mean(&out.CakeDestroyed, func(m *plant.Month) float64 { return m.Losses.OxidisedCake },
		func(m *plant.Month) float64 { return m.Loads.CakeVolatile })
	mean(&out.ScreenedAt, func(m *plant.Month) float64 { return m.Screen.Moisture }, screened)
	mean(&out.ChipRecovery, func(m *plant.Month) float64 { return m.Screen.CoarseRecovered },
		func(m *plant.Month) float64 { return m.Screen.CoarseFed })
	mean(&out.Failed, func(m *plant.Month) float64 { return m.Release.Failed }, released)
	mean(&out.Late, func(m *plant.Month) float64 { return m.Release.Late }, released)
	mean(&out.Unstable, func(m *plant.Month) float64 { return m.Curing.Unstable }, released)
	mean(&out.BatchesALoad, func(m *plant.Month) float64 { return m.Mixing.Batches }, loads)
	out.CakePerLoad, out.ChipsPerCakeV = t.plant.StaticNeed(0).LoadCakeDry, t.plant.Recipe.MeanChips()
}

// failedBy splits the failed loads by the criterion that they missed first.
func (t *tally) failedBy() {
	criteria := t.plant.Active.Criteria
	failed := make([]float64, len(criteria))
	t.Each(func(r *Replication) {
		for i := range failed {
			failed[i] += r.Usual.FailedBy[i]
		}
	})
	t.Last(func() {
		all := 0.0
		for _, n := range failed {
			all += n
		}
		for i, n := range failed {
			if n > 0 {
				t.answer.FailedBy = append(t.answer.FailedBy, Cause{Name: criteria[i].Name, Share: n / all})
			}
		}
	})
}
