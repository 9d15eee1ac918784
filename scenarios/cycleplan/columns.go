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
	doc.Val("wet", doc.Mass, func(l *Load) float64 { return l.Wet }).Means("load as it goes into the vessel, as weighed", doc.Wet),
	doc.Val("dry", doc.Mass, func(l *Load) float64 { return l.Dry }).Means("solids of the load as it goes into the vessel", doc.Dry),
	doc.Val("load", doc.Volume, func(l *Load) float64 { return l.Volume }).Means("room that the load takes in the vessel"),
	doc.Val("cake_dry", doc.Mass, func(l *Load) float64 { return l.CakeDry }).Means("solids of cake in the load", doc.Dry),
	doc.Val("chips_to_cake", doc.Ratio, func(l *Load) float64 { return l.ChipsToCake }).Means("chips to cake by loose volume"),
	doc.Val("recovered_share", doc.Share, func(l *Load) float64 { return l.RecoveredShare }).Means("part of the chips that comes from the screen"),
	doc.Val("moisture", doc.Share, func(l *Load) float64 { return l.Moisture }).Means("water of the wet mass"),
	doc.Val("free_air_space", doc.Share, func(l *Load) float64 { return l.FreeAirSpace }).Means("part of the volume that is air between particles"),
	doc.Val("air_reaches", doc.Share, func(l *Load) float64 { return l.Reached }).Means("part of the load that air reaches"),
	doc.Val("carbon_to_nitrogen", doc.Ratio, func(l *Load) float64 { return l.CarbonToNitrogen }).Means("carbon to nitrogen by mass"),
	doc.Val("stay_aimed_at", doc.Hours, func(l *Load) float64 { return l.Aimed }).Means("residence in the vessel that the file asks for"),
	doc.Val("stay", doc.Hours, func(l *Load) float64 { return l.Stay }).Means("residence in the vessel, drying left out"),
	doc.Val("cured", doc.Hours, func(l *Load) float64 { return l.Cured }).Means("time on the curing pad"),
	doc.Val("readily_degradable_left", doc.Share, func(l *Load) float64 { return l.ReadilyLeft }).Means("part of the readily degradable solids loaded that is left at the screen"),
	doc.Val("readily_degradable_allowed", doc.Share, func(l *Load) float64 { return l.ReadilyAsked }).Means("most of the readily degradable solids loaded that may be left at the screen"),
	doc.Val("volatile_solids_destroyed", doc.Share, (*Load).VolatileDestroyed).Means("part of the volatile solids loaded that is oxidised"),
	doc.Val("cake_volatile_solids_destroyed", doc.Share, (*Load).CakeDestroyed).Means("part of the volatile solids of the cake that is oxidised"),
	doc.Val("moisture_out", doc.Share, func(l *Load) float64 { return l.MoistureOut }).Means("water of the wet mass when the vessel is tipped"),
	doc.Val("screened_at_moisture", doc.Share, func(l *Load) float64 { return l.MoistureScreened }).Means("water of the wet mass at the screen"),
	doc.Val("water_added", doc.Mass, func(l *Load) float64 { return l.WaterAdded }).Means("water given to the lot when it is put up to cure", doc.Substance),
}, doc.Lift(func(l *Load) *Ammonia { return &l.Ammonia }, ammoniaColumns...))

var stageColumns = []doc.Col[Stage]{
	doc.Val("dry_in", doc.Mass, func(s *Stage) float64 { return s.DryIn }).Means("solids at the beginning", doc.Dry),
	doc.Val("dry_loss", doc.Mass, func(s *Stage) float64 { return s.DryLoss }).Means("solids oxidised", doc.Dry),
	doc.Val("volatile_solids_in", doc.Mass, func(s *Stage) float64 { return s.Volatile.In }).Means("volatile solids at the beginning", doc.Dry),
	doc.Val("volatile_solids_lost", doc.Mass, func(s *Stage) float64 { return s.Volatile.Lost }).Means("volatile solids oxidised", doc.Dry),
	doc.Val("cake_volatile_solids_in", doc.Mass, func(s *Stage) float64 { return s.Cake.In }).Means("volatile solids of the cake at the beginning", doc.Dry),
	doc.Val("cake_volatile_solids_lost", doc.Mass, func(s *Stage) float64 { return s.Cake.Lost }).Means("volatile solids of the cake oxidised", doc.Dry),
	doc.Val("water_evaporated", doc.Mass, func(s *Stage) float64 { return s.Vapour }).Means("water that left with the air", doc.Substance),
	doc.Val("condensate", doc.Mass, func(s *Stage) float64 { return s.Condensate }).Means("water that condensed and ran back", doc.Substance),
	doc.Val("leachate", doc.Mass, func(s *Stage) float64 { return s.Leachate }).Means("water that drained", doc.Substance),
	doc.Val("ammonia", doc.Mass, func(s *Stage) float64 { return s.Ammonia }).Means("ammonia given off since the load began", doc.Substance),
	doc.Val("air", doc.Volume, func(s *Stage) float64 { return s.Air }).Means("air blown through, in all"),
	doc.Val("air_mean", doc.AirFlow, func(s *Stage) float64 { return s.AirMean }).Means("air blown through, mean of the time"),
	doc.Val("air_peak", doc.AirFlow, func(s *Stage) float64 { return s.AirPeak }).Means("most air at one time"),
	doc.Val("air_mean_per_dry", doc.AirPerDry, func(s *Stage) float64 { return s.MeanPerDry }).Means("mean air on each dry mass at the beginning", doc.Dry),
	doc.Val("air_peak_per_dry", doc.AirPerDry, func(s *Stage) float64 { return s.PeakPerDry }).Means("most air on each dry mass at the beginning", doc.Dry),
	doc.Val("blower", doc.EnergyKWh, func(s *Stage) float64 { return s.Blower }).Means("electricity of the blower since the load began"),
	doc.Val("peak_temperature", doc.Degrees, func(s *Stage) float64 { return s.PeakTemperature }).Means("highest temperature"),
	doc.Val("least_oxygen", doc.Percent, func(s *Stage) float64 { return s.LeastOxygen }).Means("least oxygen in the pores, by volume"),
	doc.Val("heat_set_free", doc.Energy, func(s *Stage) float64 { return s.Energy.Generated }).Means("heat of oxidation"),
	doc.Val("heat_stored", doc.Energy, func(s *Stage) float64 { return s.Energy.Stored }).Means("heat left in the load at the end above that at the beginning"),
	doc.Val("heat_through_walls", doc.Energy, func(s *Stage) float64 { return s.Energy.Wall }).Means("heat lost through walls or surface"),
	doc.Val("heat_warming_air", doc.Energy, func(s *Stage) float64 { return s.Energy.AirDry }).Means("heat that warmed air"),
	doc.Val("heat_evaporating", doc.Energy, func(s *Stage) float64 { return s.Energy.AirLatent }).Means("heat that evaporated water"),
	doc.Val("heat_carried_off", doc.Energy, func(s *Stage) float64 { return s.Energy.Carried }).Means("heat that left with gas and water"),
	doc.Val("heat_residual", doc.Share, func(s *Stage) float64 { return s.EnergyResidual }).Means("what the heat account is off by, of the heat set free"),
	doc.Val("mass_residual", doc.Share, func(s *Stage) float64 { return s.MassResidual }).Means("what the mass account is off by, of the load"),
}

var biofilterColumns = []doc.Col[Biofilter]{
	doc.Val("vessels", doc.Count, func(b *Biofilter) float64 { return float64(b.Vessels) }),
	doc.Val("air_mean", doc.AirFlow, func(b *Biofilter) float64 { return b.Mean }).Means("air blown through, mean of the time"),
	doc.Val("air_peak_staggered", doc.AirFlow, func(b *Biofilter) float64 { return b.Staggered }),
	doc.Val("air_peak_at_once", doc.AirFlow, func(b *Biofilter) float64 { return b.AtOnce }),
	doc.Val("loading", doc.BedLoading, func(b *Biofilter) float64 { return b.Loading }),
	doc.Val("depth", doc.Length, func(b *Biofilter) float64 { return b.Depth }),
	doc.Val("area", doc.Area, func(b *Biofilter) float64 { return b.Area }),
	doc.Val("residence_s", doc.Count, func(b *Biofilter) float64 { return b.Residence }),
}

var rowColumns = []doc.Col[Row]{
	doc.Val("hour", doc.Count, func(r *Row) float64 { return r.Hours }).Means("hours since the load was put on air"),
	doc.Val("temperature", doc.Degrees, func(r *Row) float64 { return r.Temperature }).Means("temperature of the load"),
	doc.Val("moisture", doc.Share, func(r *Row) float64 { return r.Moisture }).Means("water of the wet mass"),
	doc.Val("dry_solids_left", doc.Share, func(r *Row) float64 { return r.DryLeft }).Means("part of the solids loaded that is left"),
	doc.Val("air_mean", doc.AirFlow, func(r *Row) float64 { return r.Flow }).Means("air blown through, mean of the time"),
	doc.Val("least_oxygen", doc.Percent, func(r *Row) float64 { return r.Oxygen }).Means("least oxygen in the pores, by volume"),
	doc.Val("oxygen_uptake_mg_per_g_vs_h", doc.Count, func(r *Row) float64 { return r.Uptake }).Means("oxygen taken up, mg an hour on each gram of volatile solids"),
	doc.Val("water_removed", doc.Mass, func(r *Row) float64 { return r.Water }).Means("water evaporated and drained since the load began", doc.Substance),
	doc.Val("ammonia", doc.Mass, func(r *Row) float64 { return r.Ammonia }).Means("ammonia given off since the load began", doc.Substance),
	doc.Val("blower", doc.EnergyKWh, func(r *Row) float64 { return r.Blower }).Means("electricity of the blower since the load began"),
}

// rows is a table of rows of its own, as a CSV file alone.
func (l *Load) rows(file string, list []Row) doc.Table {
	cols := []doc.Col[Row]{
		doc.Any("place", func(r *Row) any { return r.place() }).Means("where the load lies, vessel or pad"),
		doc.Any("segment", func(r *Row) any { return r.Segment }).Means("part of the temperature program"),
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: file}, list, append(cols, rowColumns...)...)
}

// loads is the table of all that is known of each load; the samples are left to
// CSV.
func (a *Answer) loads() doc.Table {
	cols := []doc.Col[Load]{
		doc.Key("month", func(l *Load) any { return int(l.Month) }).Means("month of the year in which the load is put on air, from 1 to 12"),
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
			place := doc.Any("place", func(r *Row) any { return r.place() }).Means("where the load lies, vessel or pad")
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
		doc.Any("hour", func(x *Criterion) any { return x.Met.hour() }).Means("hours since the load was put on air"),
		doc.Any("on_pad", func(x *Criterion) any { return x.OnPad }),
		doc.Val("longest_in_a_row_h", doc.Count, func(x *Criterion) float64 { return x.Longest }))
}

// monthly is the table of loads as a CSV file: each with its criteria, and what
// the vessel does.
func (a *Answer) monthly() doc.Table {
	cols := append([]doc.Col[Load]{doc.Key("month", func(l *Load) any { return int(l.Month) }).Means("month of the year in which the load is put on air, from 1 to 12")}, loadColumns...)
	moment := func(name, means string, of func(*Load) Moment) {
		cols = append(cols, doc.Val(name, doc.Hours, func(l *Load) float64 {
			if m := of(l); m.OK {
				return m.Hours
			}
			return math.NaN() // an empty cell
		}).Means(means))
	}
	moment("passes_landmark", "when the load first passes the highest temperature that a criterion names, from when it is put on air; empty if it does not", func(l *Load) Moment { return l.Passes })
	for i := range a.Loads[0].Criteria {
		moment("criterion_"+strconv.Itoa(i+1)+"_met", "when this criterion is met, from when the load is put on air; empty if it is not: "+a.Loads[0].Criteria[i].Name, func(l *Load) Moment { return l.Criteria[i].Met })
	}
	for _, c := range doc.Lift(func(l *Load) *Stage { return &l.Vessel }, stageColumns...) {
		c.Name, c.Meaning = "vessel_"+c.Name, "in the vessel: "+c.Meaning
		cols = append(cols, c)
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "cycle-months"}, a.Loads, cols...)
}
