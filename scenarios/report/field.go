package report

import (
	"slices"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// field is one quantity of a record T, under the name that JSON and CSV share.
// Either spread or value is set.
type field[T any] struct {
	name   string
	kind   quantity
	spread func(*T) answer.Spread
	value  func(*T) float64
}

// title returns the name with its unit.
func (f field[T]) title(sys units.System) string { return f.name + f.kind.suffix(sys) }

var loadFields = []field[simulate.Load]{
	{name: "wet", kind: mass, spread: func(l *simulate.Load) answer.Spread { return l.Wet }},
	{name: "moisture", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.Moisture }},
	{name: "moisture_out", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.OutMoisture }},
	{name: "residence", kind: days, spread: func(l *simulate.Load) answer.Spread { return l.Residence }},
	{name: "dry_loss", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.DryLoss }},
	{name: "screened_at_moisture", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.ScreenedAt }},
	{name: "chip_recovery", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.ChipRecovery }},
	{name: "failed", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.Failed }},
	{name: "late", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.Late }},
	{name: "unstable", kind: share, spread: func(l *simulate.Load) answer.Spread { return l.Unstable }},
	{name: "cake_per_load", kind: mass, value: func(l *simulate.Load) float64 { return l.CakePerLoad }},
	{name: "batches_per_load", kind: count, spread: func(l *simulate.Load) answer.Spread { return l.BatchesALoad }},
	{name: "chips_per_cake_volume", kind: ratio, value: func(l *simulate.Load) float64 { return l.ChipsPerCakeV }},
}

var yearFields = slices.Concat([]field[simulate.Year]{
	{name: "feed_dry", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.FeedDry }},
	{name: "feed_wet", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.FeedWet }},
	{name: "diverted_dry", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.DivertedDry }},
	{name: "diverted_share", kind: share, spread: func(y *simulate.Year) answer.Spread { return y.DivertedShare }},
	{name: "cake_wait", kind: days, spread: func(y *simulate.Year) answer.Spread { return y.CakeWait }},
	{name: "oldest_cake", kind: days, spread: func(y *simulate.Year) answer.Spread { return y.OldestCake }},
	{name: "cake_delay", kind: days, spread: func(y *simulate.Year) answer.Spread { return y.CakeDelay }},

	{name: "loads", kind: count, spread: func(y *simulate.Year) answer.Spread { return y.Loads }},
	{name: "vessels_in_use_mean", kind: count, spread: func(y *simulate.Year) answer.Spread { return y.VesselsMean }},
	{name: "vessels_in_use_peak", kind: count, spread: func(y *simulate.Year) answer.Spread { return y.VesselsPeak }},
	{name: "vessels_installed", kind: count, value: func(y *simulate.Year) float64 { return float64(y.Installed) }},
	{name: "vessels_needed_peak", kind: count, spread: func(y *simulate.Year) answer.Spread { return y.VesselsNeeded }},
	{name: "vessels_needed_most_hours", kind: count, spread: func(y *simulate.Year) answer.Spread { return y.NeedMost }},
	{name: "handbook_vessels_average", kind: count, value: func(y *simulate.Year) float64 { return y.StaticAverage }},
	{name: "handbook_vessels_peak_month", kind: count, value: func(y *simulate.Year) float64 { return y.StaticPeak }},
	{name: "runs_missing_target", kind: share, value: func(y *simulate.Year) float64 { return y.MissesTarget }},
	{name: "runs_missing_target_unlimited_vessels", kind: share, value: func(y *simulate.Year) float64 { return y.MissesUnlimited }},
	{name: "runs_short_of_vessels", kind: share, value: func(y *simulate.Year) float64 { return y.ShortOfVessels }},

	{name: "chips_bought", kind: volume, spread: func(y *simulate.Year) answer.Spread { return y.ChipsBought }},
	{name: "chips_recovered", kind: volume, spread: func(y *simulate.Year) answer.Spread { return y.ChipsRecovered }},
	{name: "chips_used", kind: volume, spread: func(y *simulate.Year) answer.Spread { return y.ChipsUsed }},
	{name: "truckloads", kind: count, spread: func(y *simulate.Year) answer.Spread { return y.Truckloads }},

	{name: "product", kind: volume, spread: func(y *simulate.Year) answer.Spread { return y.ProductVolume }},
	{name: "product_wet", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.ProductWet }},
	{name: "product_dry", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.ProductDry }},
	{name: "taken", kind: volume, spread: func(y *simulate.Year) answer.Spread { return y.TakenVolume }},
	{name: "demand_not_met", kind: volume, spread: func(y *simulate.Year) answer.Spread { return y.Shortage }},
	{name: "rejects_wet", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.Rejects }},

	{name: "water_removed", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.WaterRemoved }},
	{name: "carbon_dioxide", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.CarbonDioxide }},
	{name: "ammonia", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.Ammonia }},
	{name: "leachate", kind: mass, spread: func(y *simulate.Year) answer.Spread { return y.Leachate }},
}, workFields(func(y *simulate.Year) *simulate.Work { return &y.Work }), airFields(func(y *simulate.Year) *simulate.Air { return y.Air }))

var monthFields = slices.Concat([]field[simulate.Month]{
	{name: "feed_dry", kind: mass, spread: func(m *simulate.Month) answer.Spread { return m.FeedDry }},
	{name: "diverted_dry", kind: mass, spread: func(m *simulate.Month) answer.Spread { return m.DivertedDry }},
	{name: "oldest_cake", kind: days, spread: func(m *simulate.Month) answer.Spread { return m.OldestCake }},
	{name: "vessels_in_use_mean", kind: count, spread: func(m *simulate.Month) answer.Spread { return m.VesselsMean }},
	{name: "vessels_in_use_peak", kind: count, spread: func(m *simulate.Month) answer.Spread { return m.VesselsPeak }},
	{name: "vessels_installed", kind: count, value: func(m *simulate.Month) float64 { return float64(m.Installed) }},
	{name: "vessels_needed_peak", kind: count, spread: func(m *simulate.Month) answer.Spread { return m.VesselsNeeded }},
	{name: "chips_bought", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.ChipsBought }},
	{name: "chips_recovered", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.ChipsRecover }},
	{name: "chips_used", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.ChipsUsed }},
	{name: "truckloads", kind: count, spread: func(m *simulate.Month) answer.Spread { return m.Truckloads }},
	{name: "chips_store_peak", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.ChipsStorePeak }},
	{name: "product", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.ProductVolume }},
	{name: "taken", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.Taken }},
	{name: "product_store_peak", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.ProductStorePeak }},
	{name: "curing_pad_peak", kind: volume, spread: func(m *simulate.Month) answer.Spread { return m.PadPeak }},
}, workFields(func(m *simulate.Month) *simulate.Work { return &m.Work }), airFields(func(m *simulate.Month) *simulate.Air { return m.Air }))

var flowFields = []field[simulate.Flow]{
	{name: "wet", kind: mass, value: func(f *simulate.Flow) float64 { return f.Wet }},
	{name: "dry", kind: mass, value: func(f *simulate.Flow) float64 { return f.Dry }},
	{name: "water", kind: mass, value: func(f *simulate.Flow) float64 { return f.Water }},
	{name: "fixed_solids", kind: mass, value: func(f *simulate.Flow) float64 { return f.Fixed }},
	{name: "volatile_solids", kind: mass, value: func(f *simulate.Flow) float64 { return f.VolatileSolids }},
	{name: "carbon", kind: mass, value: func(f *simulate.Flow) float64 { return f.Carbon }},
	{name: "nitrogen", kind: mass, value: func(f *simulate.Flow) float64 { return f.Nitrogen }},
}

var balanceFields = []field[simulate.ComponentBalance]{
	{name: "in", kind: mass, value: func(b *simulate.ComponentBalance) float64 { return b.In }},
	{name: "out", kind: mass, value: func(b *simulate.ComponentBalance) float64 { return b.Out }},
	{name: "change", kind: mass, value: func(b *simulate.ComponentBalance) float64 { return b.Change }},
	{name: "residual", kind: mass, value: func(b *simulate.ComponentBalance) float64 { return b.Residual }},
}
