package facilityfile

import (
	"slices"

	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// mostDrop is the most that handling may cool beside its share, K.
const mostDrop = 60

// handlingRows are the heat that a load loses when it is tipped out and a pile is built
// of it.
var handlingRows = []row[process.Handling]{
	{Key{Path: "handling_loss", Words: "part of its warmth above the air that a load loses when it is tipped out and piled up; the rest is where curing begins", Dimension: units.Fraction, Low: 0, High: 1,
		Default:   orElse(process.DefaultHandling().Share, assumption),
		Uncertain: instead("warmth lost by tipping"),
		Get:       func(p Parts) float64 { return handlingOf(p).Share },
		Set: func(p Parts, v float64) {
			h := handlingOf(p)
			h.Share = v
			p.Model.Curing.Handling = &h
		}},
		number(func(h *process.Handling) *float64 { return &h.Share })},
	{Key{Path: "handling_drop", Words: "degrees that it loses beside, not below the air", Dimension: units.TemperatureDifference, Low: 0, High: mostDrop,
		Default: orElse(0, assumption)},
		number(func(h *process.Handling) *float64 { return &h.Drop })},
}

// turnedAfter says when piles are turned.
var turnedAfter = Key{Path: "after", Kind: Quantities, Words: "times after a pile is built", Dimension: units.Duration, Low: hour, High: 6 * calendar.SecondsPerYear,
	Default: elseAs("once a week for six weeks, unless above is given", assumption), Example: "[7 day, 14 day, 21 day]"}

// hotRows are turning by temperature.
var hotRows = []row[process.Turning]{
	{Key{Path: "above", Words: "temperature from which on a pile is turned, by the clock or not", Dimension: units.Temperature, Low: coolest, High: hottest,
		Default: elseAs("by the clock alone", ""), Example: "65 °C"},
		number(func(t *process.Turning) *float64 { return &t.Above })},
	{Key{Path: "apart", Words: "how long a hot pile lies still at least, with above", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear,
		Default: orElse(process.DefaultApart*hour, assumption)},
		scaled(1, hour, func(t *process.Turning) *float64 { return &t.Apart })},
}

var turningRows = []row[process.Handling]{
	{Key{Path: "loss", Words: "part of its warmth above the air that a pile loses each time", Dimension: units.Fraction, Low: 0, High: 1,
		Default: orElse(process.DefaultHandling().Share, assumption)},
		number(func(h *process.Handling) *float64 { return &h.Share })},
	{Key{Path: "drop", Words: "degrees that it loses beside, not below the air", Dimension: units.TemperatureDifference, Low: 0, High: mostDrop,
		Default: orElse(0, assumption)},
		number(func(h *process.Handling) *float64 { return &h.Drop })},
}

func handlingKeys() []Key {
	return slices.Concat(under("curing", handlingRows, nil),
		[]Key{optional("curing.turning", "when the piles are turned, which cools them", "never")},
		placed("curing.turning", turnedAfter),
		under("curing.turning", hotRows, nil),
		under("curing.turning", turningRows, nil))
}

// handlingOf returns what tipping loses: that of a replication, or of the file.
func handlingOf(p Parts) process.Handling {
	if h := p.Model.Curing.Handling; h != nil {
		return *h
	}
	return *p.Model.Pile.Tipped
}

// handling reads what tipping out and turning do to the heat of a lot.
func (r *reader) handling(c *yamlfile.Map) {
	r.m.Pile.Tipped = new(process.Handling)
	read(c, handlingRows, r.m.Pile.Tipped)
	t := c.MapIf("turning")
	turning := &r.m.Pile.Turning
	read(t, turningRows, &turning.Loses)
	if !t.Present() {
		return
	}
	if t.Has("above") {
		read(t, hotRows, turning)
	} else if t.Has("apart") {
		t.Error("apart", "it counts for piles that are turned when they are hot", "add above, or remove it")
	}
	if !t.Has(turnedAfter.Path) {
		if !t.Has("above") {
			turning.At = process.DefaultTurning().At
		}
		return
	}
	list := t.Quantities(turnedAfter.Path, turnedAfter.Dimension, turnedAfter.checks()...)
	if !t.Good(turnedAfter.Path) {
		return
	}
	for _, after := range list {
		hours := after / hour
		if n := len(turning.At); n > 0 && hours <= turning.At[n-1] {
			t.Error(turnedAfter.Path, "the times must rise", "write them in the order in which they come")
			return
		}
		turning.At = append(turning.At, hours)
	}
	if n := len(turning.At); n > 0 && c.Good("time", "longest_time") && turning.At[n-1] >= r.m.Curing.Longest.Hours() {
		t.Warn(turnedAfter.Path, "no lot lies as long as that", "remove what comes after the longest curing time")
	}
}
