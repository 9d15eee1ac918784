package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Units of dimensions whose base unit is of a day.
const (
	perHour      = 24.0        // m3/h in m3/day, kg/h in kg/day
	perTonneHour = 24.0 / 1000 // m3/t·h in m3/kg·day
)

// Most that may be written for a store or a vessel, m3, a mass, kg, and a relative
// amount, of which only the proportions count.
const (
	mostVolume   = 1e6
	mostMass     = 1e8
	mostRelative = 1e9
)

// headKeys are those of the file as a whole; file.go reads them.
var headKeys = []Key{
	{Path: "format", Kind: Count, Words: "version of the file's format", Low: Format, High: Format, Example: "1", UsedBy: ForShowing},
	{Path: "name", Kind: Text, Words: "name of the facility, on every report", Example: "Fennick Valley compost plant", UsedBy: ForShowing},
	{Path: "start", Kind: Date, Words: "first day reported; the first of a month", Example: "2027-01-01"},
	{Path: "horizon", Kind: Quantity, Words: "whole years reported", Dimension: units.Duration,
		Low: calendar.SecondsPerYear, High: mostYears * calendar.SecondsPerYear, Example: "20 year"},
	{Path: "warm_up", Kind: Quantity, Words: "simulated before the start, not reported; or: detected; none with opening", Dimension: units.Duration,
		Low: 0, High: mostWarmUp * calendar.SecondsPerYear, Choices: []string{detected}, Default: orElse(calendar.SecondsPerYear, assumption)},
}

// detected stands for a warm-up that the program finds.
const detected = "detected"

var showingRows = []row[File]{
	{Key{Path: "units", Words: "how results are shown: us or si", Choices: []string{"us", "si"}, Default: elseAs("us", ""), UsedBy: ForShowing},
		chosen(func(f *File, word string) {
			if word == "si" {
				f.Units = units.SI
			}
		})},
	{Key{Path: "replications", Words: "runs with different noise; more runs, smoother bands", Low: 1, High: MaxReplications,
		Default: orElse(20, assumption), UsedBy: ForShowing},
		whole(func(f *File) *int { return &f.Replications })},
	{Key{Path: "seed", Words: "start of the random numbers; the same seed gives the same runs", Low: 0, High: 1e14, Default: orElse(1, "")},
		counted(func(f *File) float64 { return float64(f.Seed) }, func(f *File, v float64) { f.Seed = uint64(max(0, v)) })},
}

var siteRows = []row[process.Site]{
	{Key{Path: "altitude", Words: "height above the sea", Dimension: units.Length, Low: -400, High: 5000, Default: orElse(0, "sea level")},
		number(func(s *process.Site) *float64 { return &s.Altitude })},
	{Key{Path: "temperature", Words: "mean outdoor temperature of each month, January first", Dimension: units.Temperature, Low: -45, High: 50},
		monthly(func(s *process.Site) *[12]float64 { return &s.Temperature })},
	{Key{Path: "humidity", Words: "mean relative humidity of each month", Dimension: units.Fraction, Low: 0.01, High: 1, Default: orElse(0.7, assumption)},
		monthly(func(s *process.Site) *[12]float64 { return &s.Humidity })},
}

// leastDryPerDay and mostDryPerDay, kg/day, are less and more than any plant of
// this kind takes in.
const leastDryPerDay, mostDryPerDay = 0.1, 1e6

// baseRows is the first way to say how much comes; see amounts for the others.
var baseRows = []row[plant.Feed]{
	{Key{Path: "dry_per_day", Words: "dry solids that come to the plant, mean of the first year however it grows meanwhile", Dimension: units.MassPerTime,
		Low: leastDryPerDay, High: mostDryPerDay, When: otherAmount, Uncertain: instead("dry solids per day")},
		number(func(f *plant.Feed) *float64 { return &f.Base })},
}

// sentRows are those of all solids, or of each source.
var sentRows = []row[plant.Feed]{
	{Key{Path: "by_month", Words: "relative production of the months; only the shape matters, the mean is made 1", Dimension: units.Ratio, Low: 0, High: mostRelative,
		Usual: &Usual{0.5, 2, "maximum month 1.2 to 1.3 times the average, from memory"}, Default: orElse(1, "as much every month")},
		monthly(func(f *plant.Feed) *[12]float64 { return &f.Month })},
	{Key{Path: "by_weekday", Words: "relative production of the weekdays; the mean is made 1", Dimension: units.Ratio, Low: 0, High: mostRelative,
		Default: orElse(1, "as much every day")},
		weekly(func(f *plant.Feed) *[7]float64 { return &f.Weekday })},
	{Key{Path: "cake_solids", Words: "solids content of the cake, each month", Dimension: units.Fraction, Low: leastCakeSolids, High: mostCakeSolids,
		Usual: &Usual{0.15, 0.30, "15 to 25 % is common for belt presses and centrifuges, common practice, no source"}, When: withoutSources, Example: "22 %",
		Uncertain: added("solids content of cake", units.Fraction, -0.2, 0.2,
			func(p Parts, v float64) { p.Model.Feed.Thicken(v) })},
		monthly(func(f *plant.Feed) *[12]float64 { return &f.CakeSolids })},
}

var solidsRows = []row[plant.Feed]{
	{Key{Path: "cake_solids_variation", Words: "spread of the solids content from day to day, of itself", Dimension: units.Fraction, Low: 0, High: 0.3, Default: orElse(0, assumption), Example: "4 %"},
		number(func(f *plant.Feed) *float64 { return &f.SolidsCV })},
}

var noiseRows = []row[random.AR1Lognormal]{
	{Key{Path: "variation", Words: "spread of a day's production about its mean, of itself", Dimension: units.Fraction, Low: 0, High: 2, Default: orElse(0, assumption), Example: "18 %"},
		number(func(n *random.AR1Lognormal) *float64 { return &n.CV })},
	{Key{Path: "correlation", Words: "of one day's production with the next", Dimension: units.Ratio, Low: 0, High: 0.99, Default: orElse(0, assumption), Example: "0.6"},
		number(func(n *random.AR1Lognormal) *float64 { return &n.Correlation })},
}

// pulseRows: the days of a pulse are read by wholeDays.
var pulseRows = []row[plant.Pulse]{
	{Key{Path: "from", Words: "first day of more production", Example: "2029-05-01"},
		dated(func(p *plant.Pulse) *calendar.Date { return &p.From })},
	{Key{Path: "dry_per_day", Words: "dry solids a day on top of the rest", Dimension: units.MassPerTime, Low: leastDryPerDay, High: mostDryPerDay, Example: "0.3 t/day"},
		number(func(p *plant.Pulse) *float64 { return &p.PerDay })},
}

var pulseFor = Key{Path: "for", Words: "whole days that it lasts", Dimension: units.Duration, Low: day, High: calendar.SecondsPerYear, Example: "14 day"}
