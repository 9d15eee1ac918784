package facilityfile

import (
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// The service target where the file sets none, common practice, no source.
const (
	usualDiverted = 0.01          // of a year's dry solids
	usualDelay    = 3 * 24 * hour // of cake, for what is short
	usualRuns     = 0.95          // in which there is no more of either
)

const commonPractice = "common practice, no source"

var targetRows = []row[Target]{
	{Key{Path: "diverted_at_most", Words: "part of a year's dry solids that may leave untreated", Dimension: units.Fraction, Low: 0, High: 0.5,
		Default: orElse(usualDiverted, commonPractice), UsedBy: ForPlanning},
		number(func(t *Target) *float64 { return &t.DivertedLimit })},
	{Key{Path: "cake_waits_at_most", Words: "mean wait of cake in a year for what is short", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear,
		Default: orElse(usualDelay, commonPractice), UsedBy: ForPlanning},
		scaled(1, 24*hour, func(t *Target) *float64 { return &t.DelayLimit })},
	{Key{Path: "runs", Words: "part of the runs that must keep both", Dimension: units.Fraction, Low: 0.5, High: 0.9995,
		Default: orElse(usualRuns, commonPractice), UsedBy: ForPlanning},
		quantity(func(t *Target) float64 { return 1 - t.MissShare }, func(t *Target, v float64) { t.MissShare = rounded(1 - v) })},
}

var scenarioRows = []row[GrowthScenario]{
	{Key{Path: "weight", Words: "how far it is believed in; the weights add up to 100 %", Dimension: units.Fraction, Low: 1e-6, High: 1, UsedBy: ForPlanning},
		number(func(s *GrowthScenario) *float64 { return &s.Weight })},
	{Key{Path: "source", Words: "what it rests on", Default: elseAs("not said", ""), UsedBy: ForPlanning},
		text(func(s *GrowthScenario) *string { return &s.Source })},
}

func scenarioKeys() []Key {
	const at = "growth_scenarios[]"
	keys := []Key{{Path: "growth_scenarios", Kind: List, Words: "ways in which production may grow", Default: elseAs("one, that of solids.growth", "")}}
	keys = append(keys, placed(at, nameKey("scenario", ForPlanning))...)
	keys = append(keys, under(at, scenarioRows, nil)...)
	keys = append(keys, Key{Path: at + ".growth", Kind: Group, Words: "how production then grows, in one of several forms", OneOf: true})
	keys = append(keys, formKeys(at+".growth")...)
	for i := range keys {
		keys[i].UsedBy = ForPlanning
	}
	return keys
}

// distributionKeys are what is uncertain; uncertain.go and correlations.go read
// them, for what a value may be depends on its input.
func distributionKeys() []Key {
	const when = "by the form of the distribution"
	keys := []Key{
		{Path: "uncertain", Kind: List, Words: "inputs that are not known for sure; each run draws them once", Default: none},
		{Path: "uncertain[].input", Kind: Choice, Words: "key of the input"},
		{Path: "uncertain[].uniform", Kind: Values, Words: "the least and the largest", When: when},
		{Path: "uncertain[].triangular", Kind: Values, Words: "the least, the most likely, the largest", When: when},
		{Path: "uncertain[].pert", Kind: Values, Words: "the least, the most likely, the largest; nearer to the most likely than triangular", When: when},
		{Path: "uncertain[].empirical", Kind: Values, Words: "values that were measured", When: when},
		{Path: "uncertain[].normal", Kind: Group, Words: "a bell curve", When: when},
		{Path: "uncertain[].normal.mean", Kind: Value, Words: "its middle"},
		{Path: "uncertain[].normal.sd", Kind: Value, Words: "its standard deviation"},
		{Path: "uncertain[].lognormal", Kind: Group, Words: "a skewed curve above zero", When: when},
		{Path: "uncertain[].lognormal.mean", Kind: Value, Words: "its mean"},
		{Path: "uncertain[].lognormal.variation", Kind: Quantity, Words: "its spread, of the mean", Dimension: units.Fraction, Low: leastVariation, High: mostVariation},
		{Path: "correlations", Kind: List, Words: "rank correlations of pairs of these inputs", Default: none},
		{Path: "correlations[].between", Kind: Texts, Words: "keys of the two inputs", Example: "[chips.price, money.tipping]"},
		{Path: "correlations[].rank", Kind: Quantity, Words: "from -1 to 1", Dimension: units.Ratio, Low: leastRank, High: mostRank},
	}
	for i := range keys {
		keys[i].UsedBy = ForPlanning
	}
	return keys
}

// What the spread of a lognormal input and a rank correlation may be.
const (
	leastVariation, mostVariation = 1e-6, 5
	leastRank, mostRank           = -0.99, 0.99
)

// weekKeys are the shifts of a week.
func weekKeys(path string) []Key {
	var keys []Key
	for i := range weekdays {
		keys = append(keys, Key{Path: join(path, weekdays[(i+1)%7]), Kind: Shifts, Words: "shifts of the day", Default: elseAs("nobody works", ""), Example: "[07:00-15:30]"})
	}
	return keys
}

// hoursKeys are the working hours, which hours.go reads.
func hoursKeys() []Key {
	keys := []Key{
		{Path: "hours", Kind: Group, Words: "working hours; left out, work never stops", Default: elseAs("work never stops", "")},
		{Path: "hours.week", Kind: Group, Words: "shifts of the yard by weekday"},
	}
	keys = append(keys, weekKeys("hours.week")...)
	keys = append(keys, Key{Path: "hours.holidays", Kind: Texts, Words: "days on which nobody works", Default: none, Example: "[01-01, last mon may]"})
	for _, stage := range []struct{ name, example string }{
		{"mixing", "{week: {mon: [07:00-14:00], tue: [07:00-14:00], wed: [07:00-14:00], thu: [07:00-14:00], fri: [07:00-14:00]}}"},
		{"screening", "{week: {tue: [08:00-15:00], wed: [08:00-15:00], thu: [08:00-15:00]}}"},
		{"dewatering", "{week: {mon: [07:30-14:30], tue: [07:30-14:30], wed: [07:30-14:30], thu: [07:30-14:30], fri: [07:30-14:30]}}"},
	} {
		at := "hours." + stage.name
		keys = append(keys,
			Key{Path: at, Kind: Group, Words: "hours of " + stage.name + "; the holidays are the same", Default: elseAs("those of the yard", ""), Example: stage.example},
			Key{Path: at + ".week", Kind: Group, Words: "shifts by weekday"})
		keys = append(keys, weekKeys(at+".week")...)
	}
	return keys
}
