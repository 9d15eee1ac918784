package facilityfile

import (
	"time"

	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// longestSetback is how long one lasts at most, s.
const longestSetback = calendar.SecondsPerYear

var setbackRows = []row[Setback]{
	{Key{Path: "for", Words: "how long it lasts; of vessels from when they stand empty; months by the calendar", Dimension: units.Duration, Low: day, High: longestSetback,
		Example: "6 week"},
		byCalendar(func(s *Setback) *calendar.Span { return &s.For })},
}

// failingRows are what fails.
var failingRows = []row[Setback]{
	{Key{Path: "vessels_out", Words: "vessels that fail at once; every month of a year is tried as the one in which they do", Low: 1, High: mostUnits, Default: none},
		whole(func(s *Setback) *int { return &s.Vessels })},
}

// seasonRows are a season that is not as its months are; one of those after the first
// must be there.
var seasonRows = []row[Setback]{
	{Key{Path: "from", Words: "month and day on which a season begins, the first of a month", Choices: firsts(), Default: elseAs("needed for a season", ""), Example: "11-01"},
		chosen(func(s *Setback, word string) {
			if t, err := time.Parse("01-02", word); err == nil {
				s.Begins = t.Month()
			}
		})},
	{Key{Path: "cake_solids", Words: "points added: with -1.5 %, 20 % becomes 18.5 %", Dimension: units.Fraction, Low: -0.3, High: 0.3, Default: none, Example: "-1.5 %"},
		number(func(s *Setback) *float64 { return &s.Spell.CakeSolids })},
	{Key{Path: "chip_moisture", Words: "points added to the moisture of chips that come, and of those that the screen gives back", Dimension: units.Fraction, Low: -0.5, High: 0.5, Default: none, Example: "8 %"},
		number(func(s *Setback) *float64 { return &s.Spell.ChipMoisture })},
	{Key{Path: "temperature", Words: "degrees added outdoors, a difference: 9 °F is as much as 5 °C", Dimension: units.TemperatureDifference, Low: -25, High: 25, Default: none, Example: "-4 °F"},
		number(func(s *Setback) *float64 { return &s.Spell.Temperature })},
	{Key{Path: "humidity", Words: "points added outdoors; air is never more than saturated", Dimension: units.Fraction, Low: -1, High: 1, Default: none, Example: "5 %"},
		number(func(s *Setback) *float64 { return &s.Spell.Humidity })},
	{Key{Path: "production", Words: "part of the cake added to it: with 10 %, 100 becomes 110", Dimension: units.Fraction, Low: -0.9, High: 2, Default: none, Example: "10 %"},
		number(func(s *Setback) *float64 { return &s.Spell.Production })},
}

// setbackKeys are what may happen to the plant, which only its own question plays.
func setbackKeys() []Key {
	keys := []Key{{Path: "setbacks", Kind: List, Words: "what may happen, to be tried: vessels that fail, seasons that are not as usual",
		Default: elseAs("one of the largest vessels out for six weeks, and a wet winter", assumption)}}
	keys = append(keys, placed("setbacks[]", nameKey("setback", ForPlanning))...)
	keys = append(keys, under("setbacks[]", setbackRows, nil)...)
	keys = append(keys, under("setbacks[]", failingRows, nil)...)
	keys = append(keys, placed("setbacks[]", classKey)...)
	keys = append(keys, under("setbacks[]", seasonRows, nil)...)
	for i := range keys {
		keys[i].UsedBy = ForPlanning
	}
	return keys
}
