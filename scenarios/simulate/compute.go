package simulate

import (
	"math"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
)

// Runs are what Compute reduces.
type Runs struct {
	answer.Basis
	Plant   *plant.Plant
	Records []*plant.Record // the plant as it is, by replication
	// Free are the same replications with a vessel for every load.
	Free []*Free
}

// Compute reduces the records of all replications to the answer.
func Compute(r Runs) *Answer {
	a := &Answer{
		Basis:      r.Basis.Replicated(len(r.Records)),
		Load:       r.load(),
		FailedBy:   r.failedBy(),
		Balance:    r.balance(),
		Flows:      r.flows(),
		Waits:      r.waits(),
		Resources:  r.resources(),
		Capacities: r.capacities(),
		Triggered:  r.triggered(),
		Dryness:    r.dryness(),
		MindsWet:   r.Plant.Drying.On(),
		Hauls:      r.Plant.Contracted(),
		OwnChips:   r.Plant.Chips.ComeBySelf(),
	}
	a.AirLimit, _ = r.Plant.Air.Limit()
	a.ByNitrogen = r.Plant.Chemistry.Microbes.Counted()
	for y := range r.Records[0].Years {
		a.Years = append(a.Years, r.year(y))
	}
	a.Amendments = r.amendments(a.Years)
	a.Classes = r.classes(a.Years)
	for m := range r.Records[0].Months {
		a.Months = append(a.Months, r.month(m))
	}
	return a
}

// spread reduces one number per record.
func spread[R any](records []*R, of func(*R) float64) answer.Spread {
	xs := make([]float64, len(records))
	for i, rec := range records {
		xs[i] = of(rec)
	}
	return answer.SpreadOf(xs)
}

type field func(*plant.Month) float64

func most(months []plant.Month, of field) float64 {
	top := 0.0
	for i := range months {
		top = max(top, of(&months[i]))
	}
	return top
}

func perUnit(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

const (
	hoursPerDay = 24
	kJPerKWh    = 3600
)

// inYear picks the months of year y of the horizon.
func inYear(y int) span {
	return func(rec *plant.Record) []plant.Month {
		return rec.Months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]
	}
}

func (r Runs) year(y int) Year {
	records := r.Records
	months := inYear(y)
	total := func(of field) answer.Spread { return r.sum(months, of) }
	share := func(rec *plant.Record) float64 { return plant.UntreatedShare(months(rec)) }
	misses := func(rec *plant.Record) float64 {
		if r.Target.Missed(months(rec)) {
			return 1
		}
		return 0
	}
	first := records[0].Years[y]
	static := r.Plant.StaticNeed(float64(y) + 0.5)
	out := Year{
		Label:     r.YearName(first.From),
		From:      first.From,
		Installed: installed(records, func(rec *plant.Record) float64 { return float64(rec.Years[y].Installed) }),

		FeedDry:       total(func(m *plant.Month) float64 { return m.Feed.Dry }),
		FeedWet:       total(func(m *plant.Month) float64 { return m.Feed.Wet }),
		Brought:       r.brought(months),
		DivertedDry:   total((*plant.Month).Untreated),
		DivertedShare: spread(records, share),
		Contract:      r.contract(months),
		MissesTarget:  spread(records, misses).Mean,
		MissesUnlimited: spread(r.Free, func(f *Free) float64 {
			if f.Years[y].Misses {
				return 1
			}
			return 0
		}).Mean,
		CakeWait: spread(records, func(rec *plant.Record) float64 {
			return perUnit(plant.Sum(months(rec), func(m *plant.Month) float64 { return m.Holding.Waited }),
				plant.Sum(months(rec), func(m *plant.Month) float64 { return m.Mixing.CakeDry }))
		}),
		OldestCake:   r.most(months, func(m *plant.Month) float64 { return m.Holding.Oldest }),
		CakeDelay:    spread(records, func(rec *plant.Record) float64 { return plant.CakeDelay(months(rec)) }),
		HoldingPeak:  r.most(months, func(m *plant.Month) float64 { return m.Holding.Peak }),
		HoldingShare: r.most(months, func(m *plant.Month) float64 { return m.Holding.Fullest }),

		Loads:          total(func(m *plant.Month) float64 { return m.Loads.Filled }),
		VesselsMean:    spread(records, func(rec *plant.Record) float64 { return rec.Years[y].VesselsMean }),
		VesselsPeak:    spread(records, func(rec *plant.Record) float64 { return float64(rec.Years[y].VesselsPeak) }),
		VesselsNeeded:  r.needed(y, func(f *Free) float64 { return float64(f.Years[y].Peak) }),
		NeedMost:       r.needed(y, func(f *Free) float64 { return float64(f.Years[y].Cover) }),
		StaticAverage:  static.Average,
		StaticPeak:     static.PeakMonth,
		ShortOfVessels: r.shortOfVessels(y),
		OtherShort:     r.otherShort(y),
		Failing:        r.failing(y),

		ChipsBought:    total(func(m *plant.Month) float64 { return m.Chips.Bought }),
		ChipsRecovered: total(func(m *plant.Month) float64 { return m.Chips.Recovered }),
		ChipsUsed:      total(func(m *plant.Month) float64 { return m.Chips.Used }),
		Truckloads:     total(func(m *plant.Month) float64 { return m.Chips.Truckloads }),

		ProductVolume: total(func(m *plant.Month) float64 { return m.Product.Volume }),
		ProductWet:    total(func(m *plant.Month) float64 { return m.Product.Wet }),
		ProductDry:    total(func(m *plant.Month) float64 { return m.Product.Dry }),
		TakenVolume:   total(func(m *plant.Month) float64 { return m.Product.TakenVolume }),
		Shortage:      total(func(m *plant.Month) float64 { return m.Product.Shortage }),
		Rejects:       total(func(m *plant.Month) float64 { return m.Screen.RejectsWet }),

		WaterRemoved:  total(func(m *plant.Month) float64 { return m.Losses.Vapour }),
		CarbonDioxide: total(func(m *plant.Month) float64 { return m.Losses.CarbonDioxide }),
		Ammonia:       total(func(m *plant.Month) float64 { return m.Losses.Ammonia }),
		Leachate:      total(func(m *plant.Month) float64 { return m.Losses.Leachate }),
		WaterAdded:    total(func(m *plant.Month) float64 { return m.Curing.Water }),
		Rewetted: spread(records, func(rec *plant.Record) float64 {
			return perUnit(plant.Sum(months(rec), func(m *plant.Month) float64 { return m.Curing.Rewetted }),
				plant.Sum(months(rec), func(m *plant.Month) float64 { return m.Release.Loads - m.Release.Failed }))
		}),
		Nitrogen: r.nitrogen(y),

		Work: r.work(months),
		Air:  r.air(months),
	}
	if out.OtherShort {
		out.ShortOfVessels = math.NaN()
	}
	return out
}

// brought parts what came in in some months.
func (r Runs) brought(months func(*plant.Record) []plant.Month) Brought {
	return Brought{
		CakeDry:      r.sum(months, func(m *plant.Month) float64 { return m.Feed.CakeDry() }),
		CakeWet:      r.sum(months, func(m *plant.Month) float64 { return m.Feed.CakeWet() }),
		FeedstockDry: r.sum(months, func(m *plant.Month) float64 { return m.Feed.FeedstockDry }),
		FeedstockWet: r.sum(months, func(m *plant.Month) float64 { return m.Feed.FeedstockWet }),
		OwnChips:     r.sum(months, func(m *plant.Month) float64 { return m.Chips.Own }),
	}
}

// installed returns the number of vessels of the median replication: triggers
// may add them at different times, or never.
func installed(records []*plant.Record, of func(*plant.Record) float64) int {
	return int(spread(records, of).P50)
}

// shortOfVessels returns the share of the replications that at some time of year
// y would have more loads in vessels than there are vessels.
func (r Runs) shortOfVessels(y int) float64 {
	short := 0
	for i, free := range r.Free {
		if free.Years[y].Peak > r.Records[i].Years[y].Installed {
			short++
		}
	}
	return float64(short) / float64(len(r.Free))
}

// needed is what shows the need of vessels in year y, which is not known where
// loads pile up in them.
func (r Runs) needed(y int, of func(*Free) float64) answer.Spread {
	if r.otherShort(y) {
		nan := math.NaN()
		return answer.Spread{Mean: nan, P10: nan, P50: nan, P90: nan}
	}
	return spread(r.Free, of)
}

// pileUp is the part of the residence aimed at for which loads that are due wait in
// their vessels, in the mean of a year, if these stand full for want of something
// else.
const pileUp = 0.25

// failing reports whether it is loads that do not comply which are too much.
func (r Runs) failing(y int) bool {
	months := inYear(y)
	var years [][]plant.Month
	for _, rec := range r.Records {
		years = append(years, months(rec))
	}
	return capability.Shortage(years, r.Target).Failing
}

// otherShort reports whether loads pile up in vessels in the median replication.
func (r Runs) otherShort(y int) bool {
	waited := spread(r.Free, func(f *Free) float64 { return f.Years[y].DueWaited })
	return waited.P50 > pileUp*r.Plant.Vessels.Residence.Days()
}

func (r Runs) month(i int) Month {
	only := func(rec *plant.Record) []plant.Month { return rec.Months[i : i+1] }
	of := func(f field) answer.Spread { return r.sum(only, f) }
	first := r.Records[0].Months[i]
	return Month{
		Year:             first.Year,
		Month:            first.Month,
		FeedDry:          of(func(m *plant.Month) float64 { return m.Feed.Dry }),
		Brought:          r.brought(only),
		DivertedDry:      of((*plant.Month).Untreated),
		Contract:         r.contract(only),
		VesselsMean:      of(func(m *plant.Month) float64 { return m.Vessels.Mean }),
		VesselsPeak:      of(func(m *plant.Month) float64 { return m.Vessels.Peak }),
		VesselsNeeded:    r.needed(i/calendar.MonthsPerYear, func(f *Free) float64 { return f.Peaks[i] }),
		Installed:        installed(r.Records, func(rec *plant.Record) float64 { return rec.Months[i].Vessels.Installed }),
		ChipsBought:      of(func(m *plant.Month) float64 { return m.Chips.Bought }),
		ChipsRecover:     of(func(m *plant.Month) float64 { return m.Chips.Recovered }),
		ChipsUsed:        of(func(m *plant.Month) float64 { return m.Chips.Used }),
		Truckloads:       of(func(m *plant.Month) float64 { return m.Chips.Truckloads }),
		ChipsStorePeak:   of(func(m *plant.Month) float64 { return m.Chips.StorePeak }),
		ProductVolume:    of(func(m *plant.Month) float64 { return m.Product.Volume }),
		Taken:            of(func(m *plant.Month) float64 { return m.Product.TakenVolume }),
		ProductStorePeak: of(func(m *plant.Month) float64 { return m.Product.StorePeak }),
		PadPeak:          of(func(m *plant.Month) float64 { return m.Curing.PadPeak }),
		OldestCake:       of(func(m *plant.Month) float64 { return m.Holding.Oldest }),
		HoldingPeak:      of(func(m *plant.Month) float64 { return m.Holding.Peak }),
		HoldingShare:     of(func(m *plant.Month) float64 { return m.Holding.Fullest }),
		Work:             r.work(only),
		Air:              r.air(only),
	}
}

// load describes the typical load: means over all loads of a replication,
// spread over the replications.
func (r Runs) load() Load {
	mean := func(of, per field) answer.Spread {
		return spread(r.Records, func(rec *plant.Record) float64 {
			return perUnit(plant.Sum(rec.Months, of), plant.Sum(rec.Months, per))
		})
	}
	loads := func(m *plant.Month) float64 { return m.Loads.Filled }
	released := func(m *plant.Month) float64 { return m.Release.Loads }
	screened := func(m *plant.Month) float64 { return m.Screen.Lots }
	return Load{
		Wet:         mean(func(m *plant.Month) float64 { return m.Loads.Wet }, loads),
		Moisture:    mean(func(m *plant.Month) float64 { return m.Loads.Moisture }, loads),
		OutMoisture: mean(func(m *plant.Month) float64 { return m.Release.Moisture }, released),
		Residence:   mean(func(m *plant.Month) float64 { return m.Release.Residence }, released),
		DryLoss: mean(func(m *plant.Month) float64 { return m.Losses.Oxidised },
			func(m *plant.Month) float64 { return m.Loads.Dry }),
		VolatileDestroyed: mean(func(m *plant.Month) float64 { return m.Losses.Oxidised },
			func(m *plant.Month) float64 { return m.Loads.Volatile }),
		CakeDestroyed: mean(func(m *plant.Month) float64 { return m.Losses.OxidisedCake },
			func(m *plant.Month) float64 { return m.Loads.CakeVolatile }),
		ScreenedAt: mean(func(m *plant.Month) float64 { return m.Screen.Moisture }, screened),
		ChipRecovery: mean(func(m *plant.Month) float64 { return m.Screen.CoarseRecovered },
			func(m *plant.Month) float64 { return m.Screen.CoarseFed }),
		Failed:        mean(func(m *plant.Month) float64 { return m.Release.Failed }, released),
		Late:          mean(func(m *plant.Month) float64 { return m.Release.Late }, released),
		Unstable:      mean(func(m *plant.Month) float64 { return m.Curing.Unstable }, released),
		BatchesALoad:  mean(func(m *plant.Month) float64 { return m.Mixing.Batches }, loads),
		CakePerLoad:   r.Plant.StaticNeed(0).LoadCakeDry,
		ChipsPerCakeV: r.Plant.Recipe.MeanChips(),
	}
}

// failedBy splits the failed loads by the criterion that they missed first.
func (r Runs) failedBy() []Cause {
	var causes []Cause
	all := 0.0
	for i, c := range r.Plant.Active.Criteria {
		n := 0.0
		for _, rec := range r.Records {
			n += rec.FailedBy[i]
		}
		all += n
		if n > 0 {
			causes = append(causes, Cause{Name: c.Name, Share: n})
		}
	}
	for i := range causes {
		causes[i].Share /= all
	}
	return causes
}

// flows returns the mean yearly flows along every path that carried anything.
func (r Runs) flows() []Flow {
	var out []Flow
	for i, path := range r.Records[0].Paths {
		var c material.Components
		n := 0.0
		for _, rec := range r.Records {
			for _, y := range rec.Years {
				c = c.Plus(y.Balance.Flows[i])
				n++
			}
		}
		c = c.Times(1 / n)
		out = append(out, Flow{
			Kind: path.Flow, Name: path.Name, From: path.From, To: path.To,
			Wet: c.Total, Dry: c.Fixed + c.Volatile, Carbon: c.Carbon, Nitrogen: c.Nitrogen,
			Water: c.Water, Fixed: c.Fixed, VolatileSolids: c.Volatile,
		})
	}
	return out
}

func (r Runs) balance() Balance {
	b := Balance{Bound: material.Tolerance}
	var in, out, change, residual material.Components
	n := 0.0
	worse := func(worst float64, at string) {
		if !(worst <= b.Worst) {
			b.Worst, b.WorstAt = worst, at
		}
	}
	for _, rec := range r.Records {
		worse(rec.Worst, rec.WorstAt)
	}
	for _, free := range r.Free {
		worse(free.Worst, free.WorstAt)
	}
	for _, rec := range r.Records {
		for _, y := range rec.Years {
			in, out = in.Plus(y.Balance.In), out.Plus(y.Balance.Out)
			change, residual = change.Plus(y.Balance.Change), residual.Plus(y.Balance.Residual)
			n++
		}
	}
	for i, name := range material.ComponentNames {
		b.Components = append(b.Components, ComponentBalance{
			Name: name,
			In:   in.Each()[i] / n, Out: out.Each()[i] / n,
			Change: change.Each()[i] / n, Residual: residual.Each()[i] / n,
		})
	}
	return b
}
