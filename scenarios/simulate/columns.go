package simulate

import (
	"math"
	"slices"
	"time"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Columns of the records in files.

var loadColumns = []doc.Col[Load]{
	doc.Spr("wet", doc.Mass, func(l *Load) answer.Spread { return l.Wet }).Means("a load as it goes into the vessel, as weighed", doc.Wet),
	doc.Spr("moisture", doc.Share, func(l *Load) answer.Spread { return l.Moisture }),
	doc.Spr("moisture_out", doc.Share, func(l *Load) answer.Spread { return l.OutMoisture }),
	doc.Spr("residence", doc.Days, func(l *Load) answer.Spread { return l.Residence }),
	doc.Spr("dry_loss", doc.Share, func(l *Load) answer.Spread { return l.DryLoss }),
	doc.Spr("volatile_solids_destroyed", doc.Share, func(l *Load) answer.Spread { return l.VolatileDestroyed }),
	doc.Spr("cake_volatile_solids_destroyed", doc.Share, func(l *Load) answer.Spread { return l.CakeDestroyed }),
	doc.Spr("screened_at_moisture", doc.Share, func(l *Load) answer.Spread { return l.ScreenedAt }),
	doc.Spr("chip_recovery", doc.Share, func(l *Load) answer.Spread { return l.ChipRecovery }),
	doc.Spr("failed", doc.Share, func(l *Load) answer.Spread { return l.Failed }),
	doc.Spr("late", doc.Share, func(l *Load) answer.Spread { return l.Late }),
	doc.Spr("unstable", doc.Share, func(l *Load) answer.Spread { return l.Unstable }),
	doc.Val("cake_per_load", doc.Mass, func(l *Load) float64 { return l.CakePerLoad }),
	doc.Spr("batches_per_load", doc.Count, func(l *Load) answer.Spread { return l.BatchesALoad }),
	doc.Val("chips_per_cake_volume", doc.Ratio, func(l *Load) float64 { return l.ChipsPerCakeV }),
}

var yearColumns = slices.Concat([]doc.Col[Year]{
	doc.Key("year", func(y *Year) any { return y.Label }).Means("year of the horizon, by its calendar year or by the two that it falls in"),
	doc.Any("from", func(y *Year) any { return y.From }).Means("first day of the year"),
	doc.Spr("feed_dry", doc.Mass, func(y *Year) answer.Spread { return y.FeedDry }).Means("solids that came in, cake and feedstocks together", doc.Dry),
	doc.Spr("feed_wet", doc.Mass, func(y *Year) answer.Spread { return y.FeedWet }).Means("what came in as it was weighed, cake and feedstocks together", doc.Wet),
	doc.Spr("diverted_dry", doc.Mass, func(y *Year) answer.Spread { return y.DivertedDry }).Means("solids hauled away untreated, because they found no room or their load failed", doc.Dry),
	doc.Spr("diverted_share", doc.Share, func(y *Year) answer.Spread { return y.DivertedShare }).Means("part of the dry solids that came in which was hauled away untreated"),
	doc.Spr("cake_wait", doc.Days, func(y *Year) answer.Spread { return y.CakeWait }).Means("mean time from a kilogram's arrival until it is mixed"),
	doc.Spr("oldest_cake", doc.Days, func(y *Year) answer.Spread { return y.OldestCake }).Means("longest time that any cake was held"),
	doc.Spr("cake_delay", doc.Days, func(y *Year) answer.Spread { return y.CakeDelay }).Means("mean time that cake was held for something that was short, collecting and nights left out"),
	doc.Spr("holding_peak_dry", doc.Mass, func(y *Year) answer.Spread { return y.HoldingPeak }).Means("most solids held before mixing at one time", doc.Dry),
	doc.Spr("holding_peak_share", doc.Share, func(y *Year) answer.Spread { return y.HoldingShare }).Means("most of the room in the holding that was filled at one time"),

	doc.Spr("loads", doc.Count, func(y *Year) answer.Spread { return y.Loads }).Means("vessels filled"),
	doc.Spr("vessels_in_use_mean", doc.Count, func(y *Year) answer.Spread { return y.VesselsMean }).Means("vessels with a load in them or being turned round, mean over the time"),
	doc.Spr("vessels_in_use_peak", doc.Count, func(y *Year) answer.Spread { return y.VesselsPeak }).Means("most vessels in use at one time"),
	doc.Val("vessels_installed", doc.Count, func(y *Year) float64 { return float64(y.Installed) }).Means("vessels that the plant has at the end of the time, in the median run"),
	doc.Spr("vessels_needed_peak", doc.Count, func(y *Year) answer.Spread { return y.VesselsNeeded }).Means("most vessels that would be in use at one time if none were ever missing"),
	doc.Spr("vessels_needed_most_hours", doc.Count, func(y *Year) answer.Spread { return y.NeedMost }).Means("vessels enough for 95 % of the hours if none were ever missing"),
	doc.Val("handbook_vessels_average", doc.Count, func(y *Year) float64 { return y.StaticAverage }).Means("vessels by handbook arithmetic: mean production times residence over what a load holds"),
	doc.Val("handbook_vessels_peak_month", doc.Count, func(y *Year) float64 { return y.StaticPeak }).Means("vessels by handbook arithmetic in the month of highest production"),
	doc.Val("runs_missing_target", doc.Share, func(y *Year) float64 { return y.MissesTarget }).Means("part of the runs in which the year misses the service target"),
	doc.Val("runs_missing_target_unlimited_vessels", doc.Share, func(y *Year) float64 { return y.MissesUnlimited }).Means("part of the runs in which the year would miss the service target with a vessel for every load"),
	doc.Val("runs_short_of_vessels", doc.Share, func(y *Year) float64 { return y.ShortOfVessels }).Means("part of the runs in which more vessels would be in use at some time than there are"),

	doc.Spr("chips_bought", doc.Volume, func(y *Year) answer.Spread { return y.ChipsBought }).Means("fresh wood chips delivered, loose"),
	doc.Spr("chips_recovered", doc.Volume, func(y *Year) answer.Spread { return y.ChipsRecovered }).Means("chips that the screen gave back, with the fines that cling to them, loose"),
	doc.Spr("chips_used", doc.Volume, func(y *Year) answer.Spread { return y.ChipsUsed }).Means("chips that went into the mixer, fresh and recovered, loose"),
	doc.Spr("truckloads", doc.Count, func(y *Year) answer.Spread { return y.Truckloads }).Means("truckloads delivered"),

	doc.Spr("product", doc.Volume, func(y *Year) answer.Spread { return y.ProductVolume }).Means("screened compost made, loose"),
	doc.Spr("product_wet", doc.Mass, func(y *Year) answer.Spread { return y.ProductWet }).Means("screened compost made, as weighed", doc.Wet),
	doc.Spr("product_dry", doc.Mass, func(y *Year) answer.Spread { return y.ProductDry }).Means("solids of the screened compost made", doc.Dry),
	doc.Spr("taken", doc.Volume, func(y *Year) answer.Spread { return y.TakenVolume }).Means("compost that left the plant, loose"),
	doc.Spr("demand_not_met", doc.Volume, func(y *Year) answer.Spread { return y.Shortage }).Means("compost that was wanted when there was none, loose"),
	doc.Spr("rejects_wet", doc.Mass, func(y *Year) answer.Spread { return y.Rejects }).Means("what the screen throws out, as weighed", doc.Wet),

	doc.Spr("water_removed", doc.Mass, func(y *Year) answer.Spread { return y.WaterRemoved }).Means("water evaporated from vessels and curing lots", doc.Substance),
	doc.Spr("carbon_dioxide", doc.Mass, func(y *Year) answer.Spread { return y.CarbonDioxide }).Means("carbon dioxide given off by vessels and curing lots", doc.Substance),
	doc.Spr("ammonia", doc.Mass, func(y *Year) answer.Spread { return y.Ammonia }).Means("ammonia given off by vessels and curing lots", doc.Substance),
	doc.Spr("leachate", doc.Mass, func(y *Year) answer.Spread { return y.Leachate }).Means("water that drained from vessels and curing lots", doc.Substance),
	doc.Spr("water_added", doc.Mass, func(y *Year) answer.Spread { return y.WaterAdded }).Means("water given to lots when they were put up to cure", doc.Substance),
	doc.Spr("lots_rewetted", doc.Share, func(y *Year) answer.Spread { return y.Rewetted }).Means("part of the lots that were given water when put up to cure"),
}, doc.Lift(func(y *Year) *Nitrogen { return &y.Nitrogen }, nitrogenColumns...), doc.Lift(func(y *Year) *Work { return &y.Work }, workColumns...), airColumns(func(y *Year) *Air { return y.Air }))

var monthColumns = slices.Concat([]doc.Col[Month]{
	doc.ByMonth(func(m *Month) (int, time.Month) { return m.Year, m.Month }),
	doc.Spr("feed_dry", doc.Mass, func(m *Month) answer.Spread { return m.FeedDry }).Means("solids that came in, cake and feedstocks together", doc.Dry),
	doc.Spr("diverted_dry", doc.Mass, func(m *Month) answer.Spread { return m.DivertedDry }).Means("solids hauled away untreated, because they found no room or their load failed", doc.Dry),
	doc.Spr("oldest_cake", doc.Days, func(m *Month) answer.Spread { return m.OldestCake }).Means("longest time that any cake was held"),
	doc.Spr("holding_peak_dry", doc.Mass, func(m *Month) answer.Spread { return m.HoldingPeak }).Means("most solids held before mixing at one time", doc.Dry),
	doc.Spr("holding_peak_share", doc.Share, func(m *Month) answer.Spread { return m.HoldingShare }).Means("most of the room in the holding that was filled at one time"),
	doc.Spr("vessels_in_use_mean", doc.Count, func(m *Month) answer.Spread { return m.VesselsMean }).Means("vessels with a load in them or being turned round, mean over the time"),
	doc.Spr("vessels_in_use_peak", doc.Count, func(m *Month) answer.Spread { return m.VesselsPeak }).Means("most vessels in use at one time"),
	doc.Val("vessels_installed", doc.Count, func(m *Month) float64 { return float64(m.Installed) }).Means("vessels that the plant has at the end of the time, in the median run"),
	doc.Spr("vessels_needed_peak", doc.Count, func(m *Month) answer.Spread { return m.VesselsNeeded }).Means("most vessels that would be in use at one time if none were ever missing"),
	doc.Spr("chips_bought", doc.Volume, func(m *Month) answer.Spread { return m.ChipsBought }).Means("fresh wood chips delivered, loose"),
	doc.Spr("chips_recovered", doc.Volume, func(m *Month) answer.Spread { return m.ChipsRecover }).Means("chips that the screen gave back, with the fines that cling to them, loose"),
	doc.Spr("chips_used", doc.Volume, func(m *Month) answer.Spread { return m.ChipsUsed }).Means("chips that went into the mixer, fresh and recovered, loose"),
	doc.Spr("truckloads", doc.Count, func(m *Month) answer.Spread { return m.Truckloads }).Means("truckloads delivered"),
	doc.Spr("chips_store_peak", doc.Volume, func(m *Month) answer.Spread { return m.ChipsStorePeak }).Means("most fresh chips in store at one time, loose"),
	doc.Spr("product", doc.Volume, func(m *Month) answer.Spread { return m.ProductVolume }).Means("screened compost made, loose"),
	doc.Spr("taken", doc.Volume, func(m *Month) answer.Spread { return m.Taken }).Means("compost that left the plant, loose"),
	doc.Spr("product_store_peak", doc.Volume, func(m *Month) answer.Spread { return m.ProductStorePeak }).Means("most screened compost in store at one time, loose"),
	doc.Spr("curing_pad_peak", doc.Volume, func(m *Month) answer.Spread { return m.PadPeak }).Means("most room taken on the curing pad at one time"),
}, doc.Lift(func(m *Month) *Work { return &m.Work }, workColumns...), airColumns(func(m *Month) *Air { return m.Air }))

func (a *Answer) yearColumns() []doc.Col[Year] {
	return slices.Concat(yearColumns, contractColumns(a, func(y *Year) *Contract { return &y.Contract }), broughtApart(a, func(y *Year) *Brought { return &y.Brought }))
}

func (a *Answer) monthColumns() []doc.Col[Month] {
	return slices.Concat(monthColumns, contractColumns(a, func(m *Month) *Contract { return &m.Contract }), broughtApart(a, func(m *Month) *Brought { return &m.Brought }))
}

// broughtApart are the columns of a file with feedstocks, and of one with wood of the
// plant's own.
func broughtApart[T any](a *Answer, of func(*T) *Brought) []doc.Col[T] {
	var cols []doc.Col[Brought]
	if len(a.Feedstocks) > 0 {
		cols = append(cols, doc.Spr("cake_dry", doc.Mass, func(b *Brought) answer.Spread { return b.CakeDry }).Means("solids of the cake that came in, feedstocks left out", doc.Dry),
			doc.Spr("cake_wet", doc.Mass, func(b *Brought) answer.Spread { return b.CakeWet }).Means("cake that came in as weighed, feedstocks left out", doc.Wet),
			doc.Spr("feedstocks_dry", doc.Mass, func(b *Brought) answer.Spread { return b.FeedstockDry }).Means("solids of the feedstocks that came in beside cake", doc.Dry),
			doc.Spr("feedstocks_wet", doc.Mass, func(b *Brought) answer.Spread { return b.FeedstockWet }).Means("feedstocks that came in beside cake, as weighed", doc.Wet))
	}
	if a.OwnChips {
		cols = append(cols, doc.Spr("chips_own", doc.Volume, func(b *Brought) answer.Spread { return b.OwnChips }).Means("chips from wood of the plant's own, loose"))
	}
	return doc.Lift(of, cols...)
}

var workColumns = []doc.Col[Work]{
	doc.Spr("operator_hours", doc.Count, func(w *Work) answer.Spread { return w.OperatorHours }).Means("hours worked by operators"),
	doc.Spr("loader_hours", doc.Count, func(w *Work) answer.Spread { return w.LoaderHours }).Means("hours worked by loaders"),
	doc.Spr("vessel_moves", doc.Count, func(w *Work) answer.Spread { return w.Moves }).Means("times that a vessel was carried"),
	doc.Spr("machine_energy", doc.Energy, func(w *Work) answer.Spread { return w.MachineEnergy }).Means("electricity of mixers, screens and other machines"),
	doc.Spr("blower_energy", doc.Energy, func(w *Work) answer.Spread { return w.BlowerEnergy }).Means("electricity of the blowers"),
	doc.Spr("biofilter_media", doc.Volume, func(w *Work) answer.Spread { return w.MediaVolume }).Means("wood chips that went into the bed of the biofilter, loose"),
	doc.Spr("product_store_full_hours", doc.Count, func(w *Work) answer.Spread { return w.StoreFull }).Means("hours in which a lot could not be screened because the product store was full"),
}

// airColumns are those of the site's air, not numbers where it is not followed.
func airColumns[T any](of func(*T) *Air) []doc.Col[T] {
	followed := func(r *T) *Air {
		if air := of(r); air != nil {
			return air
		}
		return &Air{notFollowed, notFollowed, notFollowed}
	}
	return doc.Lift(followed,
		doc.Spr("air_mean", doc.AirFlow, func(a *Air) answer.Spread { return a.Mean }).Means("air that all vessels together ask for, mean over the time"),
		doc.Spr("air_peak", doc.AirFlow, func(a *Air) answer.Spread { return a.Peak }).Means("most air that all vessels together asked for at one time"),
		doc.Spr("hours_over_air_limit", doc.Count, func(a *Air) answer.Spread { return a.HoursOver }).Means("hours in which vessels asked for more air than blowers and biofilter give"))
}

var notFollowed = answer.Spread{Mean: math.NaN(), P10: math.NaN(), P50: math.NaN(), P90: math.NaN()}

var resourceColumns = []doc.Col[ResourceYear]{
	doc.Spr("scheduled_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Scheduled }).Means("hours for which machines or crews were there to work, summed over the units"),
	doc.Spr("at_work_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Busy }).Means("hours for which machines or crews worked, summed over the units"),
	doc.Spr("overtime_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Overtime }).Means("hours worked after closing time, summed over the units"),
	doc.Spr("out_of_order_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Down }).Means("hours for which machines were out of order, summed over the units"),
	doc.Spr("use", doc.Share, func(y *ResourceYear) answer.Spread { return y.Use }).Means("hours at work over hours scheduled"),
	doc.Spr("use_peak_month", doc.Share, func(y *ResourceYear) answer.Spread { return y.PeakUse }).Means("hours at work over hours scheduled in the busiest month"),
}

var broughtColumns = []doc.Col[CapacityYear]{
	doc.Spr("arrived_dry", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.Arrived }).Means("solids that came in, mean over the year", doc.Dry),
	doc.Spr("arrived_dry_peak_month", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.ArrivedPeak }).Means("solids that came in, in the highest month", doc.Dry),
	doc.Spr("mixed_dry", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.Carried }).Means("solids that were mixed, mean over the year", doc.Dry),
	doc.Spr("mixed_dry_peak_month", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.CarriedPeak }).Means("solids that were mixed, in the highest month", doc.Dry),
}

var stageColumns = []doc.Col[Stage]{
	doc.Key("stage", func(s *Stage) any { return s.Name }).Means("part of the plant that may limit what it passes on"),
	doc.Val("sustains_dry", doc.MassPerDay, func(s *Stage) float64 { return s.Sustains }).Means("production that the stage passes on for ever, by arithmetic without queues and chance", doc.Dry),
	doc.Val("headroom", doc.Share, func(s *Stage) float64 { return s.Headroom }).Means("what the stage sustains over what arrives, less one; below nothing it is passed"),
}

var triggerColumns = []doc.Col[Triggered]{
	doc.Key("change", func(t *Triggered) any { return t.Change }).Means("change of the plant that waits for a sign"),
	doc.Any("decided_median", func(t *Triggered) any {
		if !t.Decided.Valid() {
			return nil
		}
		return t.Decided
	}).Means("day on which it was decided, in the median of the runs in which it was"),
	doc.Val("runs", doc.Share, func(t *Triggered) float64 { return t.Share }).Means("part of the runs in which it came about"),
}

var flowColumns = []doc.Col[Flow]{
	doc.Key("name", func(f *Flow) any { return f.Name }).Means("what flows"),
	doc.Key("from", func(f *Flow) any { return f.From }).Means("store that it comes from; outside is beyond the fence"),
	doc.Key("to", func(f *Flow) any { return f.To }).Means("store that it goes to; outside is beyond the fence"),
	doc.Val("wet", doc.Mass, func(f *Flow) float64 { return f.Wet }).Means("all that flows, water included, mean of a year", doc.Wet),
	doc.Val("dry", doc.Mass, func(f *Flow) float64 { return f.Dry }).Means("solids that flow, fixed and volatile, mean of a year", doc.Dry),
	doc.Val("water", doc.Mass, func(f *Flow) float64 { return f.Water }).Means("water that flows, mean of a year", doc.Substance),
	doc.Val("fixed_solids", doc.Mass, func(f *Flow) float64 { return f.Fixed }).Means("ash that flows, mean of a year", doc.Dry),
	doc.Val("volatile_solids", doc.Mass, func(f *Flow) float64 { return f.VolatileSolids }).Means("volatile solids that flow, mean of a year", doc.Dry),
	doc.Val("carbon", doc.Mass, func(f *Flow) float64 { return f.Carbon }).Means("carbon that flows, mean of a year", doc.Substance),
	doc.Val("nitrogen", doc.Mass, func(f *Flow) float64 { return f.Nitrogen }).Means("nitrogen that flows, mean of a year", doc.Substance),
}

var componentColumns = []doc.Col[ComponentBalance]{
	doc.Key("component", func(b *ComponentBalance) any { return b.Name }).Means("component of what goes through the plant"),
	doc.Val("in", doc.Mass, func(b *ComponentBalance) float64 { return b.In }).Means("what came through the fence, mean of a year", doc.Substance),
	doc.Val("out", doc.Mass, func(b *ComponentBalance) float64 { return b.Out }).Means("what left through the fence, mean of a year", doc.Substance),
	doc.Val("change", doc.Mass, func(b *ComponentBalance) float64 { return b.Change }).Means("what is more in store at the end, mean of a year", doc.Substance),
	doc.Val("residual", doc.Mass, func(b *ComponentBalance) float64 { return b.Residual }).Means("what the account is off by, mean of a year", doc.Substance),
}
