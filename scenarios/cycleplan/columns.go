package cycleplan

import (
	"math"
	"slices"
	"strconv"

	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/dryness"
)

var loadColumns = slices.Concat([]doc.Col[Load]{
	doc.Val("wet", doc.Mass, func(l *Load) float64 { return l.Wet }),
	doc.Val("dry", doc.Mass, func(l *Load) float64 { return l.Dry }),
	doc.Val("load", doc.Volume, func(l *Load) float64 { return l.Volume }),
	doc.Val("cake_dry", doc.Mass, func(l *Load) float64 { return l.CakeDry }),
	doc.Val("chips_to_cake", doc.Ratio, func(l *Load) float64 { return l.ChipsToCake }),
	doc.Val("recovered_share", doc.Share, func(l *Load) float64 { return l.RecoveredShare }),
	doc.Val("moisture", doc.Share, func(l *Load) float64 { return l.Moisture }),
	doc.Val("free_air_space", doc.Share, func(l *Load) float64 { return l.FreeAirSpace }),
	doc.Val("air_reaches", doc.Share, func(l *Load) float64 { return l.Reached }),
	doc.Val("carbon_to_nitrogen", doc.Ratio, func(l *Load) float64 { return l.CarbonToNitrogen }),
	doc.Val("stay_aimed_at", doc.Hours, func(l *Load) float64 { return l.Aimed }),
	doc.Val("stay", doc.Hours, func(l *Load) float64 { return l.Stay }),
	doc.Val("cured", doc.Hours, func(l *Load) float64 { return l.Cured }),
	doc.Val("readily_degradable_left", doc.Share, func(l *Load) float64 { return l.ReadilyLeft }),
	doc.Val("readily_degradable_allowed", doc.Share, func(l *Load) float64 { return l.ReadilyAsked }),
	doc.Val("volatile_solids_destroyed", doc.Share, (*Load).VolatileDestroyed),
	doc.Val("cake_volatile_solids_destroyed", doc.Share, (*Load).CakeDestroyed),
	doc.Val("moisture_out", doc.Share, func(l *Load) float64 { return l.MoistureOut }),
	doc.Val("screened_at_moisture", doc.Share, func(l *Load) float64 { return l.MoistureScreened }),
	doc.Val("water_added", doc.Mass, func(l *Load) float64 { return l.WaterAdded }),
}, doc.Lift(func(l *Load) *Ammonia { return &l.Ammonia }, ammoniaColumns...))

var stageColumns = []doc.Col[Stage]{
	doc.Val("dry_in", doc.Mass, func(s *Stage) float64 { return s.DryIn }),
	doc.Val("dry_loss", doc.Mass, func(s *Stage) float64 { return s.DryLoss }),
	doc.Val("volatile_solids_in", doc.Mass, func(s *Stage) float64 { return s.Volatile.In }),
	doc.Val("volatile_solids_lost", doc.Mass, func(s *Stage) float64 { return s.Volatile.Lost }),
	doc.Val("cake_volatile_solids_in", doc.Mass, func(s *Stage) float64 { return s.Cake.In }),
	doc.Val("cake_volatile_solids_lost", doc.Mass, func(s *Stage) float64 { return s.Cake.Lost }),
	doc.Val("water_evaporated", doc.Mass, func(s *Stage) float64 { return s.Vapour }),
	doc.Val("condensate", doc.Mass, func(s *Stage) float64 { return s.Condensate }),
	doc.Val("leachate", doc.Mass, func(s *Stage) float64 { return s.Leachate }),
	doc.Val("ammonia", doc.Mass, func(s *Stage) float64 { return s.Ammonia }),
	doc.Val("air", doc.Volume, func(s *Stage) float64 { return s.Air }),
	doc.Val("air_mean", doc.AirFlow, func(s *Stage) float64 { return s.AirMean }),
	doc.Val("air_peak", doc.AirFlow, func(s *Stage) float64 { return s.AirPeak }),
	doc.Val("air_mean_per_dry", doc.AirPerDry, func(s *Stage) float64 { return s.MeanPerDry }),
	doc.Val("air_peak_per_dry", doc.AirPerDry, func(s *Stage) float64 { return s.PeakPerDry }),
	doc.Val("blower", doc.EnergyKWh, func(s *Stage) float64 { return s.Blower }),
	doc.Val("peak_temperature", doc.Degrees, func(s *Stage) float64 { return s.PeakTemperature }),
	doc.Val("least_oxygen", doc.Percent, func(s *Stage) float64 { return s.LeastOxygen }),
	doc.Val("heat_set_free", doc.Energy, func(s *Stage) float64 { return s.Energy.Generated }),
	doc.Val("heat_stored", doc.Energy, func(s *Stage) float64 { return s.Energy.Stored }),
	doc.Val("heat_through_walls", doc.Energy, func(s *Stage) float64 { return s.Energy.Wall }),
	doc.Val("heat_warming_air", doc.Energy, func(s *Stage) float64 { return s.Energy.AirDry }),
	doc.Val("heat_evaporating", doc.Energy, func(s *Stage) float64 { return s.Energy.AirLatent }),
	doc.Val("heat_carried_off", doc.Energy, func(s *Stage) float64 { return s.Energy.Carried }),
	doc.Val("heat_residual", doc.Share, func(s *Stage) float64 { return s.EnergyResidual }),
	doc.Val("mass_residual", doc.Share, func(s *Stage) float64 { return s.MassResidual }),
}

var biofilterColumns = []doc.Col[Biofilter]{
	doc.Val("vessels", doc.Count, func(b *Biofilter) float64 { return float64(b.Vessels) }),
	doc.Val("air_mean", doc.AirFlow, func(b *Biofilter) float64 { return b.Mean }),
	doc.Val("air_peak_staggered", doc.AirFlow, func(b *Biofilter) float64 { return b.Staggered }),
	doc.Val("air_peak_at_once", doc.AirFlow, func(b *Biofilter) float64 { return b.AtOnce }),
	doc.Val("loading", doc.BedLoading, func(b *Biofilter) float64 { return b.Loading }),
	doc.Val("depth", doc.Length, func(b *Biofilter) float64 { return b.Depth }),
	doc.Val("area", doc.Area, func(b *Biofilter) float64 { return b.Area }),
	doc.Val("residence_s", doc.Count, func(b *Biofilter) float64 { return b.Residence }),
}

var rowColumns = []doc.Col[Row]{
	doc.Val("hour", doc.Count, func(r *Row) float64 { return r.Hours }),
	doc.Val("temperature", doc.Degrees, func(r *Row) float64 { return r.Temperature }),
	doc.Val("moisture", doc.Share, func(r *Row) float64 { return r.Moisture }),
	doc.Val("dry_solids_left", doc.Share, func(r *Row) float64 { return r.DryLeft }),
	doc.Val("air_mean", doc.AirFlow, func(r *Row) float64 { return r.Flow }),
	doc.Val("least_oxygen", doc.Percent, func(r *Row) float64 { return r.Oxygen }),
	doc.Val("oxygen_uptake_mg_per_g_vs_h", doc.Count, func(r *Row) float64 { return r.Uptake }),
	doc.Val("water_removed", doc.Mass, func(r *Row) float64 { return r.Water }),
	doc.Val("ammonia", doc.Mass, func(r *Row) float64 { return r.Ammonia }),
	doc.Val("blower", doc.EnergyKWh, func(r *Row) float64 { return r.Blower }),
}

// rows is a table of rows of its own, as a CSV file alone.
func (l *Load) rows(file string, list []Row) doc.Table {
	cols := []doc.Col[Row]{
		doc.Any("place", func(r *Row) any { return r.place() }),
		doc.Any("segment", func(r *Row) any { return r.Segment }),
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: file}, list, append(cols, rowColumns...)...)
}

// loads is the table of all that is known of each load; the samples are left to
// CSV.
func (a *Answer) loads() doc.Table {
	cols := []doc.Col[Load]{
		doc.Key("month", func(l *Load) any { return int(l.Month) }),
		doc.Any("curing_month", func(l *Load) any { return int(l.CuringMonth) }),
		doc.Any("complies", func(l *Load) any { return l.Complies }),
		doc.Any("held_for", func(l *Load) any { return l.HeldFor }),
		doc.Any("stable", func(l *Load) any { return l.Stable }),
		doc.Any("settles", func(l *Load) any { return l.settles() }),
		doc.Any("passes_landmark_hour", func(l *Load) any { return l.Passes.hour() }),
	}
	cols = append(cols, loadColumns...)
	cols = append(cols,
		doc.Val("dried_in_vessel", doc.Hours, func(l *Load) float64 { return l.DriedInVessel }),
		doc.Val("dried_on_pad", doc.Hours, func(l *Load) float64 { return l.DriedOnPad }))
	cols = append(cols, dryness.Columns(func(l *Load) plant.Remedy { return l.Remedy })...)
	cols = append(cols,
		doc.In("criteria", func(l *Load) any { return l.criteria() }),
		doc.Any("causes", func(l *Load) any {
			causes := make([]doc.Text, len(l.Findings))
			for i, f := range l.Findings {
				causes[i] = finding(f)
			}
			return causes
		}),
		doc.In("vessel", func(l *Load) any { return doc.RecordOf(&l.Vessel, stageColumns...) }),
		doc.In("pad", func(l *Load) any { return doc.RecordOf(&l.Curing, stageColumns...) }),
		doc.In("heat", func(l *Load) any { return doc.RecordOf(&l.Heat, heatColumns...) }),
		doc.In("biofilter", func(l *Load) any { return doc.RecordOf(&l.Biofilter, biofilterColumns...) }),
		doc.In("days", func(l *Load) any {
			place := doc.Any("place", func(r *Row) any { return r.place() })
			return doc.TableOf(doc.Table{In: doc.Files}, l.Days, append([]doc.Col[Row]{place}, rowColumns...)...)
		}))
	return doc.TableOf(doc.Table{In: doc.Files, Name: "loads"}, a.Loads, cols...)
}

// hour is when something happens, nil if it does not.
func (m Moment) hour() any {
	if !m.OK {
		return nil
	}
	return m.Hours
}

// criteria is the table of what a load must meet.
func (l *Load) criteria() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files}, l.Criteria,
		doc.Any("name", func(x *Criterion) any { return x.Name }),
		doc.Any("asks", func(x *Criterion) any { return requirement(x.Criterion) }),
		doc.Any("met", func(x *Criterion) any { return x.Met.OK }),
		doc.Any("hour", func(x *Criterion) any { return x.Met.hour() }),
		doc.Any("on_pad", func(x *Criterion) any { return x.OnPad }),
		doc.Val("longest_in_a_row_h", doc.Count, func(x *Criterion) float64 { return x.Longest }))
}

// monthly is the table of loads as a CSV file: each with its criteria, and what
// the vessel does.
func (a *Answer) monthly() doc.Table {
	cols := append([]doc.Col[Load]{doc.Key("month", func(l *Load) any { return int(l.Month) })}, loadColumns...)
	moment := func(name string, of func(*Load) Moment) {
		cols = append(cols, doc.Val(name, doc.Hours, func(l *Load) float64 {
			if m := of(l); m.OK {
				return m.Hours
			}
			return math.NaN() // an empty cell
		}))
	}
	moment("passes_landmark", func(l *Load) Moment { return l.Passes })
	for i := range a.Loads[0].Criteria {
		moment("criterion_"+strconv.Itoa(i+1)+"_met", func(l *Load) Moment { return l.Criteria[i].Met })
	}
	for _, c := range doc.Lift(func(l *Load) *Stage { return &l.Vessel }, stageColumns...) {
		c.Name = "vessel_" + c.Name
		cols = append(cols, c)
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "cycle-months"}, a.Loads, cols...)
}
