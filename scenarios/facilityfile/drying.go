package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// What becomes of a lot that is too wet, as the file says it.
const (
	screenAnyway = "screen anyway"
	holdWet      = "hold"
	dryFirst     = "dry first"
)

const (
	screensWant   = "screens work well at 45 to 50 %, common practice, no source"
	blowersGive   = "blowers give 100 to 200 m3/t·h, common practice, no source"
	mostDryingAir = 200 // m3/t·h, usual
)

var gateRows = []row[plant.Drying]{
	{Key{Path: "wet_lots", Words: "what becomes of a lot too wet for the screen: screened as it is, held on the pad, or dried there with more air",
		Choices: []string{screenAnyway, holdWet, dryFirst}, Default: elseAs(screenAnyway, assumption), Example: dryFirst},
		chosen(func(d *plant.Drying, word string) {
			d.Gate = map[string]plant.Gate{holdWet: plant.HoldWet, dryFirst: plant.DryFirst}[word]
		})},
}

// waitRows and dryingAirRows count where the gate needs them.
var waitRows = []row[plant.Drying]{
	{Key{Path: "dry_enough", Words: "moisture of the mix at which a lot that was too wet is screened", Dimension: units.Fraction, Low: 0.2, High: 0.8,
		Usual: &Usual{0.44, 0.51, screensWant}, Default: elseAs("moisture_limit", ""), Example: "48 %",
		Uncertain: instead("moisture at which lots are screened")},
		number(func(d *plant.Drying) *float64 { return &d.Moisture })},
	{Key{Path: "longest_wait", Words: "a lot is held or dried no longer, and then screened as it is", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear,
		Default: orElse(float64(plant.ChosenDrying().Longest), assumption)},
		span(func(d *plant.Drying) *sim.Duration { return &d.Longest })},
}

var dryingAirRows = []row[plant.Drying]{
	{Key{Path: "drying_air", Words: "air that dries a lot on the pad, per dry tonne; with wet_lots: dry first", Dimension: units.VolumePerMassTime,
		Low: 0.01 * perTonneHour, High: mostAirPerTonne * perTonneHour, Usual: &Usual{5 * perTonneHour, mostDryingAir * perTonneHour, blowersGive},
		Default: orElse(process.DryingAir*perTonneHour, blowersGive)},
		scaled(1000, 24, func(d *plant.Drying) *float64 { return &d.Air })},
}

var vesselDryingRows = []row[plant.VesselDrying]{
	{Key{Path: "air", Words: "per dry tonne, within the blower of the vessel", Dimension: units.VolumePerMassTime,
		Low: 0.01 * perTonneHour, High: mostAirPerTonne * perTonneHour, Usual: &Usual{5 * perTonneHour, mostDryingAir * perTonneHour, blowersGive}},
		scaled(1000, 24, func(d *plant.VesselDrying) *float64 { return &d.Air })},
	{Key{Path: "until", Words: "moisture of the mix at which it ends", Dimension: units.Fraction, Low: 0.2, High: 0.8,
		Default: elseAs("dry_enough or moisture_limit of the screen", ""), Example: "50 %"},
		number(func(d *plant.VesselDrying) *float64 { return &d.Moisture })},
	{Key{Path: "longest", Words: "a load is dried no longer", Dimension: units.Duration, Low: hour, High: 60 * day, Default: orElse(4*day, assumption)},
		span(func(d *plant.VesselDrying) *sim.Duration { return &d.Longest })},
}

// gate reads what becomes of lots that are too wet for the screen.
func (r *reader) gate(s *yamlfile.Map) {
	out, limit := &r.m.Drying, r.m.Screening.Settings.MoistureLimit
	read(s, gateRows, out)
	asked := plant.Drying{Gate: out.Gate, Moisture: limit}
	read(s, waitRows, &asked)
	read(s, dryingAirRows, &asked)
	unused := func(why string, keys ...string) {
		for _, key := range keys {
			if s.Has(key) && s.Good("wet_lots", key) {
				s.Error(key, why, "write wet_lots: "+dryFirst+", or remove "+key)
			}
		}
	}
	switch out.Gate {
	case plant.ScreenAnyway:
		unused("lots are screened as they are, however wet", "dry_enough", "longest_wait", "drying_air")
		return
	case plant.HoldWet:
		unused("no lot is dried before the screen", "drying_air")
		asked.Air = 0
	}
	*out = asked
	if s.Good("dry_enough", "moisture_limit") && out.Moisture > limit {
		s.Warn("dry_enough", "wetter than moisture_limit, so that lots are still too wet for the screen", "write at most "+units.Format(limit, units.Fraction, r.units))
	}
}

// vesselDrying reads how loads are dried in the vessel.
func (r *reader) vesselDrying(a *yamlfile.Map) {
	m := a.MapIf("drying")
	if !m.Present() {
		return
	}
	out := &r.m.Drying.Vessel
	out.Moisture = r.m.Screening.Settings.MoistureLimit
	if r.m.Drying.Gate != plant.ScreenAnyway {
		out.Moisture = r.m.Drying.Moisture
	}
	read(m, vesselDryingRows, out)
}
