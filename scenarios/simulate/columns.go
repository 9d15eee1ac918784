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
	doc.Spr("wet", doc.Mass, func(l *Load) answer.Spread { return l.Wet }),
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
	doc.Key("year", func(y *Year) any { return y.Label }),
	doc.Any("from", func(y *Year) any { return y.From }),
	doc.Spr("feed_dry", doc.Mass, func(y *Year) answer.Spread { return y.FeedDry }),
	doc.Spr("feed_wet", doc.Mass, func(y *Year) answer.Spread { return y.FeedWet }),
	doc.Spr("diverted_dry", doc.Mass, func(y *Year) answer.Spread { return y.DivertedDry }),
	doc.Spr("diverted_share", doc.Share, func(y *Year) answer.Spread { return y.DivertedShare }),
	doc.Spr("cake_wait", doc.Days, func(y *Year) answer.Spread { return y.CakeWait }),
	doc.Spr("oldest_cake", doc.Days, func(y *Year) answer.Spread { return y.OldestCake }),
	doc.Spr("cake_delay", doc.Days, func(y *Year) answer.Spread { return y.CakeDelay }),
	doc.Spr("holding_peak_dry", doc.Mass, func(y *Year) answer.Spread { return y.HoldingPeak }),
	doc.Spr("holding_peak_share", doc.Share, func(y *Year) answer.Spread { return y.HoldingShare }),

	doc.Spr("loads", doc.Count, func(y *Year) answer.Spread { return y.Loads }),
	doc.Spr("vessels_in_use_mean", doc.Count, func(y *Year) answer.Spread { return y.VesselsMean }),
	doc.Spr("vessels_in_use_peak", doc.Count, func(y *Year) answer.Spread { return y.VesselsPeak }),
	doc.Val("vessels_installed", doc.Count, func(y *Year) float64 { return float64(y.Installed) }),
	doc.Spr("vessels_needed_peak", doc.Count, func(y *Year) answer.Spread { return y.VesselsNeeded }),
	doc.Spr("vessels_needed_most_hours", doc.Count, func(y *Year) answer.Spread { return y.NeedMost }),
	doc.Val("handbook_vessels_average", doc.Count, func(y *Year) float64 { return y.StaticAverage }),
	doc.Val("handbook_vessels_peak_month", doc.Count, func(y *Year) float64 { return y.StaticPeak }),
	doc.Val("runs_missing_target", doc.Share, func(y *Year) float64 { return y.MissesTarget }),
	doc.Val("runs_missing_target_unlimited_vessels", doc.Share, func(y *Year) float64 { return y.MissesUnlimited }),
	doc.Val("runs_short_of_vessels", doc.Share, func(y *Year) float64 { return y.ShortOfVessels }),

	doc.Spr("chips_bought", doc.Volume, func(y *Year) answer.Spread { return y.ChipsBought }),
	doc.Spr("chips_recovered", doc.Volume, func(y *Year) answer.Spread { return y.ChipsRecovered }),
	doc.Spr("chips_used", doc.Volume, func(y *Year) answer.Spread { return y.ChipsUsed }),
	doc.Spr("truckloads", doc.Count, func(y *Year) answer.Spread { return y.Truckloads }),

	doc.Spr("product", doc.Volume, func(y *Year) answer.Spread { return y.ProductVolume }),
	doc.Spr("product_wet", doc.Mass, func(y *Year) answer.Spread { return y.ProductWet }),
	doc.Spr("product_dry", doc.Mass, func(y *Year) answer.Spread { return y.ProductDry }),
	doc.Spr("taken", doc.Volume, func(y *Year) answer.Spread { return y.TakenVolume }),
	doc.Spr("demand_not_met", doc.Volume, func(y *Year) answer.Spread { return y.Shortage }),
	doc.Spr("rejects_wet", doc.Mass, func(y *Year) answer.Spread { return y.Rejects }),

	doc.Spr("water_removed", doc.Mass, func(y *Year) answer.Spread { return y.WaterRemoved }),
	doc.Spr("carbon_dioxide", doc.Mass, func(y *Year) answer.Spread { return y.CarbonDioxide }),
	doc.Spr("ammonia", doc.Mass, func(y *Year) answer.Spread { return y.Ammonia }),
	doc.Spr("leachate", doc.Mass, func(y *Year) answer.Spread { return y.Leachate }),
	doc.Spr("water_added", doc.Mass, func(y *Year) answer.Spread { return y.WaterAdded }),
	doc.Spr("lots_rewetted", doc.Share, func(y *Year) answer.Spread { return y.Rewetted }),
}, doc.Lift(func(y *Year) *Nitrogen { return &y.Nitrogen }, nitrogenColumns...), doc.Lift(func(y *Year) *Work { return &y.Work }, workColumns...), airColumns(func(y *Year) *Air { return y.Air }))

var monthColumns = slices.Concat([]doc.Col[Month]{
	doc.ByMonth(func(m *Month) (int, time.Month) { return m.Year, m.Month }),
	doc.Spr("feed_dry", doc.Mass, func(m *Month) answer.Spread { return m.FeedDry }),
	doc.Spr("diverted_dry", doc.Mass, func(m *Month) answer.Spread { return m.DivertedDry }),
	doc.Spr("oldest_cake", doc.Days, func(m *Month) answer.Spread { return m.OldestCake }),
	doc.Spr("holding_peak_dry", doc.Mass, func(m *Month) answer.Spread { return m.HoldingPeak }),
	doc.Spr("holding_peak_share", doc.Share, func(m *Month) answer.Spread { return m.HoldingShare }),
	doc.Spr("vessels_in_use_mean", doc.Count, func(m *Month) answer.Spread { return m.VesselsMean }),
	doc.Spr("vessels_in_use_peak", doc.Count, func(m *Month) answer.Spread { return m.VesselsPeak }),
	doc.Val("vessels_installed", doc.Count, func(m *Month) float64 { return float64(m.Installed) }),
	doc.Spr("vessels_needed_peak", doc.Count, func(m *Month) answer.Spread { return m.VesselsNeeded }),
	doc.Spr("chips_bought", doc.Volume, func(m *Month) answer.Spread { return m.ChipsBought }),
	doc.Spr("chips_recovered", doc.Volume, func(m *Month) answer.Spread { return m.ChipsRecover }),
	doc.Spr("chips_used", doc.Volume, func(m *Month) answer.Spread { return m.ChipsUsed }),
	doc.Spr("truckloads", doc.Count, func(m *Month) answer.Spread { return m.Truckloads }),
	doc.Spr("chips_store_peak", doc.Volume, func(m *Month) answer.Spread { return m.ChipsStorePeak }),
	doc.Spr("product", doc.Volume, func(m *Month) answer.Spread { return m.ProductVolume }),
	doc.Spr("taken", doc.Volume, func(m *Month) answer.Spread { return m.Taken }),
	doc.Spr("product_store_peak", doc.Volume, func(m *Month) answer.Spread { return m.ProductStorePeak }),
	doc.Spr("curing_pad_peak", doc.Volume, func(m *Month) answer.Spread { return m.PadPeak }),
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
		cols = append(cols, doc.Spr("cake_dry", doc.Mass, func(b *Brought) answer.Spread { return b.CakeDry }),
			doc.Spr("cake_wet", doc.Mass, func(b *Brought) answer.Spread { return b.CakeWet }),
			doc.Spr("feedstocks_dry", doc.Mass, func(b *Brought) answer.Spread { return b.FeedstockDry }),
			doc.Spr("feedstocks_wet", doc.Mass, func(b *Brought) answer.Spread { return b.FeedstockWet }))
	}
	if a.OwnChips {
		cols = append(cols, doc.Spr("chips_own", doc.Volume, func(b *Brought) answer.Spread { return b.OwnChips }))
	}
	return doc.Lift(of, cols...)
}

var workColumns = []doc.Col[Work]{
	doc.Spr("operator_hours", doc.Count, func(w *Work) answer.Spread { return w.OperatorHours }),
	doc.Spr("loader_hours", doc.Count, func(w *Work) answer.Spread { return w.LoaderHours }),
	doc.Spr("vessel_moves", doc.Count, func(w *Work) answer.Spread { return w.Moves }),
	doc.Spr("machine_energy", doc.Energy, func(w *Work) answer.Spread { return w.MachineEnergy }),
	doc.Spr("blower_energy", doc.Energy, func(w *Work) answer.Spread { return w.BlowerEnergy }),
	doc.Spr("biofilter_media", doc.Volume, func(w *Work) answer.Spread { return w.MediaVolume }),
	doc.Spr("product_store_full_hours", doc.Count, func(w *Work) answer.Spread { return w.StoreFull }),
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
		doc.Spr("air_mean", doc.AirFlow, func(a *Air) answer.Spread { return a.Mean }),
		doc.Spr("air_peak", doc.AirFlow, func(a *Air) answer.Spread { return a.Peak }),
		doc.Spr("hours_over_air_limit", doc.Count, func(a *Air) answer.Spread { return a.HoursOver }))
}

var notFollowed = answer.Spread{Mean: math.NaN(), P10: math.NaN(), P50: math.NaN(), P90: math.NaN()}

var resourceColumns = []doc.Col[ResourceYear]{
	doc.Spr("scheduled_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Scheduled }),
	doc.Spr("at_work_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Busy }),
	doc.Spr("overtime_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Overtime }),
	doc.Spr("out_of_order_unit_hours", doc.Count, func(y *ResourceYear) answer.Spread { return y.Down }),
	doc.Spr("use", doc.Share, func(y *ResourceYear) answer.Spread { return y.Use }),
	doc.Spr("use_peak_month", doc.Share, func(y *ResourceYear) answer.Spread { return y.PeakUse }),
}

var broughtColumns = []doc.Col[CapacityYear]{
	doc.Spr("arrived_dry", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.Arrived }),
	doc.Spr("arrived_dry_peak_month", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.ArrivedPeak }),
	doc.Spr("mixed_dry", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.Carried }),
	doc.Spr("mixed_dry_peak_month", doc.MassPerDay, func(y *CapacityYear) answer.Spread { return y.CarriedPeak }),
}

var stageColumns = []doc.Col[Stage]{
	doc.Key("stage", func(s *Stage) any { return s.Name }),
	doc.Val("sustains_dry", doc.MassPerDay, func(s *Stage) float64 { return s.Sustains }),
	doc.Val("headroom", doc.Share, func(s *Stage) float64 { return s.Headroom }),
}

var triggerColumns = []doc.Col[Triggered]{
	doc.Key("change", func(t *Triggered) any { return t.Change }),
	doc.Any("decided_median", func(t *Triggered) any {
		if !t.Decided.Valid() {
			return nil
		}
		return t.Decided
	}),
	doc.Val("runs", doc.Share, func(t *Triggered) float64 { return t.Share }),
}

var flowColumns = []doc.Col[Flow]{
	doc.Key("name", func(f *Flow) any { return f.Name }),
	doc.Key("from", func(f *Flow) any { return f.From }),
	doc.Key("to", func(f *Flow) any { return f.To }),
	doc.Val("wet", doc.Mass, func(f *Flow) float64 { return f.Wet }),
	doc.Val("dry", doc.Mass, func(f *Flow) float64 { return f.Dry }),
	doc.Val("water", doc.Mass, func(f *Flow) float64 { return f.Water }),
	doc.Val("fixed_solids", doc.Mass, func(f *Flow) float64 { return f.Fixed }),
	doc.Val("volatile_solids", doc.Mass, func(f *Flow) float64 { return f.VolatileSolids }),
	doc.Val("carbon", doc.Mass, func(f *Flow) float64 { return f.Carbon }),
	doc.Val("nitrogen", doc.Mass, func(f *Flow) float64 { return f.Nitrogen }),
}

var componentColumns = []doc.Col[ComponentBalance]{
	doc.Key("component", func(b *ComponentBalance) any { return b.Name }),
	doc.Val("in", doc.Mass, func(b *ComponentBalance) float64 { return b.In }),
	doc.Val("out", doc.Mass, func(b *ComponentBalance) float64 { return b.Out }),
	doc.Val("change", doc.Mass, func(b *ComponentBalance) float64 { return b.Change }),
	doc.Val("residual", doc.Mass, func(b *ComponentBalance) float64 { return b.Residual }),
}
