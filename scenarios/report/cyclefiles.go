package report

import (
	"io"
	"math"
	"strconv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
)

var cycleLoadFields = []field[cycleplan.Load]{
	{name: "wet", kind: mass, value: func(l *cycleplan.Load) float64 { return l.Wet }},
	{name: "dry", kind: mass, value: func(l *cycleplan.Load) float64 { return l.Dry }},
	{name: "load", kind: volume, value: func(l *cycleplan.Load) float64 { return l.Volume }},
	{name: "cake_dry", kind: mass, value: func(l *cycleplan.Load) float64 { return l.CakeDry }},
	{name: "chips_to_cake", kind: ratio, value: func(l *cycleplan.Load) float64 { return l.ChipsToCake }},
	{name: "recovered_share", kind: share, value: func(l *cycleplan.Load) float64 { return l.RecoveredShare }},
	{name: "moisture", kind: share, value: func(l *cycleplan.Load) float64 { return l.Moisture }},
	{name: "free_air_space", kind: share, value: func(l *cycleplan.Load) float64 { return l.FreeAirSpace }},
	{name: "carbon_to_nitrogen", kind: ratio, value: func(l *cycleplan.Load) float64 { return l.CarbonToNitrogen }},
	{name: "stay_aimed_at", kind: hours, value: func(l *cycleplan.Load) float64 { return l.Aimed }},
	{name: "stay", kind: hours, value: func(l *cycleplan.Load) float64 { return l.Stay }},
	{name: "cured", kind: hours, value: func(l *cycleplan.Load) float64 { return l.Cured }},
	{name: "readily_degradable_left", kind: share, value: func(l *cycleplan.Load) float64 { return l.ReadilyLeft }},
	{name: "readily_degradable_allowed", kind: share, value: func(l *cycleplan.Load) float64 { return l.ReadilyAsked }},
	{name: "moisture_out", kind: share, value: func(l *cycleplan.Load) float64 { return l.MoistureOut }},
	{name: "screened_at_moisture", kind: share, value: func(l *cycleplan.Load) float64 { return l.MoistureScreened }},
}

var stageFields = []field[cycleplan.Stage]{
	{name: "dry_in", kind: mass, value: func(s *cycleplan.Stage) float64 { return s.DryIn }},
	{name: "dry_loss", kind: mass, value: func(s *cycleplan.Stage) float64 { return s.DryLoss }},
	{name: "water_evaporated", kind: mass, value: func(s *cycleplan.Stage) float64 { return s.Vapour }},
	{name: "condensate", kind: mass, value: func(s *cycleplan.Stage) float64 { return s.Condensate }},
	{name: "leachate", kind: mass, value: func(s *cycleplan.Stage) float64 { return s.Leachate }},
	{name: "ammonia", kind: mass, value: func(s *cycleplan.Stage) float64 { return s.Ammonia }},
	{name: "air", kind: volume, value: func(s *cycleplan.Stage) float64 { return s.Air }},
	{name: "air_mean", kind: airFlow, value: func(s *cycleplan.Stage) float64 { return s.AirMean }},
	{name: "air_peak", kind: airFlow, value: func(s *cycleplan.Stage) float64 { return s.AirPeak }},
	{name: "air_mean_per_dry", kind: airPerT, value: func(s *cycleplan.Stage) float64 { return s.MeanPerDry }},
	{name: "air_peak_per_dry", kind: airPerT, value: func(s *cycleplan.Stage) float64 { return s.PeakPerDry }},
	{name: "blower", kind: energyKW, value: func(s *cycleplan.Stage) float64 { return s.Blower }},
	{name: "peak_temperature", kind: degrees, value: func(s *cycleplan.Stage) float64 { return s.PeakTemperature }},
	{name: "least_oxygen", kind: percent, value: func(s *cycleplan.Stage) float64 { return s.LeastOxygen }},
	{name: "heat_set_free", kind: energyKJ, value: func(s *cycleplan.Stage) float64 { return s.Energy.Generated }},
	{name: "heat_stored", kind: energyKJ, value: func(s *cycleplan.Stage) float64 { return s.Energy.Stored }},
	{name: "heat_through_walls", kind: energyKJ, value: func(s *cycleplan.Stage) float64 { return s.Energy.Wall }},
	{name: "heat_warming_air", kind: energyKJ, value: func(s *cycleplan.Stage) float64 { return s.Energy.AirDry }},
	{name: "heat_evaporating", kind: energyKJ, value: func(s *cycleplan.Stage) float64 { return s.Energy.AirLatent }},
	{name: "heat_carried_off", kind: energyKJ, value: func(s *cycleplan.Stage) float64 { return s.Energy.Carried }},
	{name: "heat_residual", kind: share, value: func(s *cycleplan.Stage) float64 { return s.EnergyResidual }},
	{name: "mass_residual", kind: share, value: func(s *cycleplan.Stage) float64 { return s.MassResidual }},
}

var biofilterFields = []field[cycleplan.Biofilter]{
	{name: "vessels", kind: count, value: func(b *cycleplan.Biofilter) float64 { return float64(b.Vessels) }},
	{name: "air_mean", kind: airFlow, value: func(b *cycleplan.Biofilter) float64 { return b.Mean }},
	{name: "air_peak_staggered", kind: airFlow, value: func(b *cycleplan.Biofilter) float64 { return b.Staggered }},
	{name: "air_peak_at_once", kind: airFlow, value: func(b *cycleplan.Biofilter) float64 { return b.AtOnce }},
	{name: "loading", kind: bedLoad, value: func(b *cycleplan.Biofilter) float64 { return b.Loading }},
	{name: "depth", kind: length, value: func(b *cycleplan.Biofilter) float64 { return b.Depth }},
	{name: "area", kind: area, value: func(b *cycleplan.Biofilter) float64 { return b.Area }},
	{name: "residence_s", kind: count, value: func(b *cycleplan.Biofilter) float64 { return b.Residence }},
}

var rowFields = []field[cycleplan.Row]{
	{name: "hour", kind: count, value: func(r *cycleplan.Row) float64 { return r.Hours }},
	{name: "temperature", kind: degrees, value: func(r *cycleplan.Row) float64 { return r.Temperature }},
	{name: "moisture", kind: share, value: func(r *cycleplan.Row) float64 { return r.Moisture }},
	{name: "dry_solids_left", kind: share, value: func(r *cycleplan.Row) float64 { return r.DryLeft }},
	{name: "air_mean", kind: airFlow, value: func(r *cycleplan.Row) float64 { return r.Flow }},
	{name: "least_oxygen", kind: percent, value: func(r *cycleplan.Row) float64 { return r.Oxygen }},
	{name: "oxygen_uptake_mg_per_g_vs_h", kind: count, value: func(r *cycleplan.Row) float64 { return r.Uptake }},
	{name: "water_removed", kind: mass, value: func(r *cycleplan.Row) float64 { return r.Water }},
	{name: "ammonia", kind: mass, value: func(r *cycleplan.Row) float64 { return r.Ammonia }},
	{name: "blower", kind: energyKW, value: func(r *cycleplan.Row) float64 { return r.Blower }},
}

// CycleJSON writes the courses as one JSON object; the samples are left to CSV.
func CycleJSON(w io.Writer, a *cycleplan.Answer, sys units.System) error {
	loads := make([]object, len(a.Loads))
	for i := range a.Loads {
		loads[i] = jsonCycleLoad(a, &a.Loads[i], sys)
	}
	return writeJSON(w, []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"units", sys.String()},
		{"headline", cycleHeadline(a, sys)},
		{"landmark" + degrees.suffix(sys), number(degrees.in(a.Landmark, sys))},
		{"loads", loads},
		{"cautions", jsonCautions(answer.Cautions())},
	})
}

func cycleHeadline(a *cycleplan.Answer, sys units.System) string {
	p := newPage(sys)
	if len(a.Loads) == 1 {
		return plainSpaces(cycleText{p, a, &a.Loads[0]}.headline())
	}
	return plainSpaces(cycleMonths{p, a}.headline())
}

func jsonCycleLoad(a *cycleplan.Answer, l *cycleplan.Load, sys units.System) object {
	o := object{
		{"month", int(l.Month)},
		{"curing_month", int(l.CuringMonth)},
		{"complies", l.Complies},
		{"held_for", l.HeldFor},
		{"stable", l.Stable},
		{"passes_landmark_hour", jsonMoment(l.Passes)},
	}
	o = append(o, record(l, cycleLoadFields, sys)...)
	text := cycleText{newPage(sys), a, l}
	criteria := make([]object, len(l.Criteria))
	for i, x := range l.Criteria {
		criteria[i] = object{{"name", x.Name}, {"asks", plainSpaces(text.requirement(x.Criterion))}, {"met", x.Met.OK},
			{"hour", jsonMoment(x.Met)}, {"on_pad", x.OnPad}, {"longest_in_a_row_h", number(x.Longest)}}
	}
	findings := make([]string, len(l.Findings))
	for i, f := range l.Findings {
		findings[i] = plainSpaces(text.finding(f))
	}
	days := make([]object, len(l.Days))
	for i := range l.Days {
		days[i] = append(object{{"place", place(&l.Days[i])}}, record(&l.Days[i], rowFields, sys)...)
	}
	return append(o,
		member{"criteria", criteria},
		member{"causes", findings},
		member{"vessel", record(&l.Vessel, stageFields, sys)},
		member{"pad", record(&l.Curing, stageFields, sys)},
		member{"biofilter", record(&l.Biofilter, biofilterFields, sys)},
		member{"days", days})
}

// jsonMoment is the hour, or null.
func jsonMoment(m cycleplan.Moment) any {
	if !m.OK {
		return nil
	}
	return number(m.Hours)
}

func place(r *cycleplan.Row) string {
	if r.OnPad {
		return "pad"
	}
	return "vessel"
}

// CycleFiles returns everything that the courses leave in a folder. The
// pictures and the samples are of one load; several months have a table.
func CycleFiles(a *cycleplan.Answer, sys units.System) ([]File, error) {
	rowKey := func(r *cycleplan.Row) []string { return []string{place(r), r.Segment} }
	monthKey := func(l *cycleplan.Load) []string { return []string{strconv.Itoa(int(l.Month))} }
	var tables []table
	var pictures []picture.Picture
	if len(a.Loads) == 1 {
		l := &a.Loads[0]
		tables = []table{
			{"cycle-days.csv", tableOf(l.Days, []string{"place", "segment"}, rowKey, rowFields, sys)},
			{"cycle-samples.csv", tableOf(l.Samples, []string{"place", "segment"}, rowKey, rowFields, sys)},
		}
		pictures = picture.Cycle(a, sys)
	} else {
		tables = []table{{"cycle-months.csv", tableOf(a.Loads, []string{"month"}, monthKey, monthlyFields(a), sys)}}
		pictures = picture.CycleMonths(a, sys)
	}
	files, err := filesOf("cycle", a.Facility,
		func(w io.Writer) error { return CycleTerminal(w, a, sys) },
		func(w io.Writer) error { return CycleJSON(w, a, sys) }, tables)
	if err != nil {
		return nil, err
	}
	drawn, err := render(pictures)
	return append(files, drawn...), err
}

// monthlyFields are those of a load with its criteria and what the vessel does.
func monthlyFields(a *cycleplan.Answer) []field[cycleplan.Load] {
	list := append([]field[cycleplan.Load]{}, cycleLoadFields...)
	moment := func(name string, of func(*cycleplan.Load) cycleplan.Moment) {
		list = append(list, field[cycleplan.Load]{name: name, kind: hours, value: func(l *cycleplan.Load) float64 {
			if m := of(l); m.OK {
				return m.Hours
			}
			return math.NaN() // an empty cell
		}})
	}
	moment("passes_landmark", func(l *cycleplan.Load) cycleplan.Moment { return l.Passes })
	for i := range a.Loads[0].Criteria {
		moment("criterion_"+strconv.Itoa(i+1)+"_met", func(l *cycleplan.Load) cycleplan.Moment { return l.Criteria[i].Met })
	}
	for _, f := range stageFields {
		list = append(list, field[cycleplan.Load]{name: "vessel_" + f.name, kind: f.kind, value: func(l *cycleplan.Load) float64 { return f.value(&l.Vessel) }})
	}
	return list
}
