package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// What a setpoint and the temperature of a criterion may be, °C, and what a
// setting of the air of all vessels may be, m3/h.
const (
	coolest, hottest = 20, 80
	mostAirPerTonne  = 1000 // m3/t·h
	mostAir          = 1e7  // m3/h
)

// segmentRows are a part of the program of a vessel's air; what least_air leaves
// out is that of the built-in program.
var segmentRows = []row[process.Segment]{
	{Key{Path: "name", Words: "name of this part of the course", UsedBy: ForShowing, Example: "heat up and hold"},
		text(func(s *process.Segment) *string { return &s.Name })},
	{Key{Path: "for", Words: "how long it lasts", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear},
		scaled(1, hour, func(s *process.Segment) *float64 { return &s.Hours })},
	{Key{Path: "setpoint", Words: "temperature that the air holds", Dimension: units.Temperature, Low: coolest, High: hottest},
		number(func(s *process.Segment) *float64 { return &s.Setpoint })},
	{Key{Path: "least_air", Words: "least air, per dry tonne loaded", Dimension: units.VolumePerMassTime, Low: 0, High: mostAirPerTonne * perTonneHour,
		Default: elseAs("that of the built-in program", assumption)},
		scaled(1000, 24, func(s *process.Segment) *float64 { return &s.MinFlow })},
}

var vesselAirRows = []row[process.Model]{
	{Key{Path: "blower_per_vessel", Words: "most air for one vessel", Dimension: units.AirFlow, Low: 1 * perHour, High: mostAir * perHour,
		Default: orElse(process.DefaultVesselModel().Blower.Capacity*perHour, assumption), Example: "650 cfm"},
		scaled(1, perHour, func(m *process.Model) *float64 { return &m.Blower.Capacity })},
	{Key{Path: "wall_loss", Words: "heat through the walls of one vessel", Dimension: units.PowerPerTemperature, Low: 0, High: 2,
		Default: orElse(wallLoss(process.DefaultVesselModel()), assumption), Example: "40 W/K"},
		quantity(wallLoss, func(m *process.Model, v float64) { m.Enclosure.Conductance = v * 1000 / m.Enclosure.Area })},
}

// wallLoss returns the heat that a vessel loses, kW/K.
func wallLoss(m *process.Model) float64 { return m.Enclosure.Conductance * m.Enclosure.Area / 1000 }

var blowerRows = []row[plant.Air]{
	{Key{Path: "blowers", Words: "most air for all vessels together; hours above it are reported", Dimension: units.AirFlow, Low: 1 * perHour, High: mostAir * perHour,
		Default: elseAs("no limit", ""), Example: "3,000 cfm"},
		scaled(1, perHour, func(a *plant.Air) *float64 { return &a.Blowers })},
}

// pileAirRows are per initial dry tonne of a lot.
var pileAirRows = []row[process.Model]{
	{Key{Path: "setpoint", Words: "temperature that the air of the pad holds", Dimension: units.Temperature, Low: coolest, High: hottest,
		Default: orElse(process.DefaultCuringModel().Program[0].Setpoint, assumption)},
		number(func(m *process.Model) *float64 { return &m.Program[0].Setpoint })},
	{Key{Path: "least_air", Words: "least air of the pad, per dry tonne", Dimension: units.VolumePerMassTime, Low: 0, High: mostAirPerTonne * perTonneHour,
		Default: orElse(process.DefaultCuringModel().Program[0].MinFlow*24/1000, assumption)},
		scaled(1000, 24, func(m *process.Model) *float64 { return &m.Program[0].MinFlow })},
	{Key{Path: "most_air", Words: "most air of the pad, per dry tonne", Dimension: units.VolumePerMassTime, Low: 0.01 * perTonneHour, High: mostAirPerTonne * perTonneHour,
		Default: orElse(process.DefaultCuringModel().Blower.PerDry*24/1000, assumption)},
		scaled(1000, 24, func(m *process.Model) *float64 { return &m.Blower.PerDry })},
}

// The order of curing and screening, as the file says it.
const (
	cureFirst   = "cure then screen"
	screenFirst = "screen then cure"
)

var openingRows = []row[screening.Settings]{
	{Key{Path: "opening", Words: "of the screen", Dimension: units.Length, Low: 0.002, High: 0.1,
		Usual: &Usual{screening.SmallestOpening, screening.LargestOpening, "6 to 13 mm, from memory and practice"}},
		number(func(s *screening.Settings) *float64 { return &s.Opening })},
}

// leastThroughput, m3/h, keeps the screening of one lot within the years that
// the calendar of working hours reaches.
const leastThroughput, mostThroughput = 0.1, 10_000

// screenRows take their defaults from the opening.
var screenRows = []row[screening.Settings]{
	{Key{Path: "throughput", Words: "of cured mix, on one screen", Dimension: units.VolumePerTime, Low: leastThroughput * perHour, High: mostThroughput * perHour},
		scaled(1, perHour, func(s *screening.Settings) *float64 { return &s.Capacity })},
	{Key{Path: "recovery", Words: "part of the coarse chips that comes back, when dry enough", Dimension: units.Fraction, Low: 0, High: 1,
		Usual:   &Usual{0.65, 0.85, "65 to 85 % of the coarse chips, from memory and practice"},
		Default: elseAs("from 85 % at 6 mm to 65 % at 13 mm", "from memory and practice"), Uncertain: instead("recovery of chips by the screen"), Example: "80 %"},
		number(func(s *screening.Settings) *float64 { return &s.Recovery })},
	{Key{Path: "moisture_limit", Words: "moisture of the mix; wetter than that, recovery falls", Dimension: units.Fraction, Low: 0.2, High: 0.8,
		Usual: &Usual{0.44, 0.51, "45 to 50 %, from memory and practice"}, Default: orElse(screening.Default().MoistureLimit, "from memory and practice")},
		number(func(s *screening.Settings) *float64 { return &s.MoistureLimit })},
	{Key{Path: "carry_over", Words: "fines in the overs, of the coarse chips in them", Dimension: units.Fraction, Low: 0, High: 2,
		Default: orElse(screening.Default().CarryOver, assumption), Uncertain: instead("fines carried over with chips")},
		number(func(s *screening.Settings) *float64 { return &s.CarryOver })},
	{Key{Path: "rejects", Words: "part of the overs that is thrown away", Dimension: units.Fraction, Low: 0, High: 1, Default: orElse(screening.Default().Rejects, assumption)},
		number(func(s *screening.Settings) *float64 { return &s.Rejects })},
	{Key{Path: "attrition", Words: "part of the chips that breaks into fines in each cycle", Dimension: units.Fraction, Low: 0, High: 1,
		Default: orElse(screening.Default().Attrition, assumption), Uncertain: instead("breaking of chips into fines")},
		number(func(s *screening.Settings) *float64 { return &s.Attrition })},
}

var screeningRows = []row[plant.Screening]{
	{Key{Path: "screens", Words: "screens, all alike; one lot on each at a time", Low: 1, High: mostMachines, Default: orElse(1, "")},
		whole(func(s *plant.Screening) *int { return &s.Count })},
	{Key{Path: "power", Words: "of a screen while at work; for its cost", Dimension: units.Power, Low: 0, High: mostPower, Default: orElse(0, "not known"), Example: "25 kW"},
		number(func(s *plant.Screening) *float64 { return &s.Power })},
	{Key{Path: "order", Words: "which comes first, curing or screening", Choices: []string{cureFirst, screenFirst}, Default: elseAs(cureFirst, assumption)},
		chosen(func(s *plant.Screening, word string) { s.First = word == screenFirst })},
}

// temperatureRow and hoursRow are what criteria are made of.
func temperatureRow(path, words string, at func(*process.Criterion) *float64) row[process.Criterion] {
	return row[process.Criterion]{Key{Path: path, Words: words, Dimension: units.Temperature, Low: coolest, High: hottest, When: "by the form of the criterion"}, number(at)}
}

func hoursRow(path, words string, at func(*process.Criterion) *float64) row[process.Criterion] {
	return row[process.Criterion]{Key{Path: path, Words: words, Dimension: units.Duration, Low: hour / 2, High: calendar.SecondsPerYear, When: "by the form of the criterion"}, scaled(1, hour, at)}
}

const inVesselAndCuring = "vessel and curing"

// criterionRows are those of every criterion; the others belong to its forms.
var (
	criterionRows = []row[process.Criterion]{
		{Key{Path: "name", Words: "name of the criterion", UsedBy: ForShowing, Example: "pathogen reduction"},
			text(func(c *process.Criterion) *string { return &c.Name })},
		{Key{Path: "where", Words: "where it must be met", Choices: []string{"vessel", inVesselAndCuring}},
			chosen(func(c *process.Criterion, word string) {
				if word == inVesselAndCuring {
					c.Where = process.InVesselAndCuring
				}
			})},
	}
	holdRows = []row[process.Criterion]{
		temperatureRow("at_least", "temperature that is kept without a break", func(c *process.Criterion) *float64 { return &c.Temperature }),
		hoursRow("for", "how long", func(c *process.Criterion) *float64 { return &c.Hours }),
	}
	peakRows = []row[process.Criterion]{
		temperatureRow("peak_above", "temperature that is passed within that time", func(c *process.Criterion) *float64 { return &c.Peak }),
		hoursRow("peak_for", "for how long it is passed", func(c *process.Criterion) *float64 { return &c.PeakHours }),
	}
	meanRows = []row[process.Criterion]{
		temperatureRow("above", "temperature that is not fallen below", func(c *process.Criterion) *float64 { return &c.Temperature }),
		hoursRow("for", "how long", func(c *process.Criterion) *float64 { return &c.Hours }),
		temperatureRow("mean_above", "mean temperature of that time", func(c *process.Criterion) *float64 { return &c.Mean }),
	}
	equationRows = []row[process.Criterion]{
		{Key{Path: "equation", Words: "a time-temperature equation, for sludge of so many solids", Choices: []string{thickSludge, thinSludge}, When: "by the form of the criterion"},
			chosen(func(c *process.Criterion, word string) {
				equation := process.TimeTemperature()
				if word == thinSludge {
					equation = process.TimeTemperatureThin()
				}
				equation.Name, equation.Where = c.Name, c.Where
				*c = equation
			})},
	}
)

const thickSludge, thinSludge = "solids 7 % and more", "solids below 7 %"
