package facilityfile

import (
	"loamcast/scenarios/units"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// opened is what a file says of the first day.
type opened struct {
	held             float64      // kg dry of cake
	oldest           sim.Duration // of it
	inUse            int          // vessels, if they are not listed
	fresh, recovered float64      // m3 of chips
	product          float64      // m3
}

// loaded is a vessel in use on the first day.
type loaded struct {
	date    calendar.Date
	class   int     // of the vessel
	cakeDry float64 // kg; 0 for a full load
}

// tipped is a pile on the pad on the first day. What is 0 is not known.
type tipped struct {
	date                  calendar.Date
	volume, wet, moisture float64
	temperature           float64 // °C; no value of it stands for one that is not known
}

// oldestHeld is longer than cake can be kept.
const oldestHeld = calendar.SecondsPerYear

var openingHoldingRows = []row[opened]{
	{Key{Path: "cake_dry", Words: "dry solids that are held, of cake as it comes in that month", Dimension: units.Mass, Low: 0, High: mostMass, Example: "2.1 short ton"},
		number(func(o *opened) *float64 { return &o.held })},
	{Key{Path: "oldest", Words: "how long the oldest of it is there; the rest came evenly since then", Dimension: units.Duration, Low: 0, High: oldestHeld,
		Default: orElse(0, assumption), Example: "3 day"},
		span(func(o *opened) *sim.Duration { return &o.oldest })},
}

var openingVesselsRows = []row[opened]{
	{Key{Path: "vessels_in_use", Words: "vessels with full loads whose ages are spread evenly over the residence, in place of vessels", Low: 0, High: mostUnits, Default: none, Example: "6"},
		whole(func(o *opened) *int { return &o.inUse })},
}

var loadedRows = []row[loaded]{
	{Key{Path: "loaded", Words: "day on which the vessel was put on air", Example: "2026-12-20"},
		dated(func(l *loaded) *calendar.Date { return &l.date })},
	{Key{Path: "cake_dry", Words: "dry solids of cake in the load", Dimension: units.Mass, Low: 1, High: mostMass, Default: elseAs("a full load", ""), Example: "2 short ton"},
		number(func(l *loaded) *float64 { return &l.cakeDry })},
}

// loadedClassKey says of which class a vessel is.
var loadedClassKey = Key{Path: classKey.Path, Kind: Text, Words: "class of the vessel, by its name", When: "where vessels are of several classes", Example: "large"}

var tippedRows = []row[tipped]{
	{Key{Path: "tipped", Words: "day on which the lot was put on the pad", Example: "2026-12-01"},
		dated(func(t *tipped) *calendar.Date { return &t.date })},
	{Key{Path: "moisture", Words: "water by wet mass, as measured", Dimension: units.Fraction, Low: 0.1, High: 0.85, Default: elseAs("that of a steady lot of its age", ""), Example: "48 %"},
		number(func(t *tipped) *float64 { return &t.moisture })},
	{Key{Path: "temperature", Words: "of the pile, as measured", Dimension: units.Temperature, Low: -40, High: 90, Default: elseAs("that of a steady lot of its age", ""), Example: "115 °F"},
		number(func(t *tipped) *float64 { return &t.temperature })},
}

// A pile is measured by its volume or its mass.
var (
	pileVolumeRows = []row[tipped]{
		{Key{Path: "volume", Words: "of the pile", Dimension: units.Volume, Low: 0.1, High: mostVolume, When: "without wet_mass", Example: "40 yd3"},
			number(func(t *tipped) *float64 { return &t.volume })},
	}
	pileMassRows = []row[tipped]{
		{Key{Path: "wet_mass", Words: "of the pile, in place of volume", Dimension: units.Mass, Low: 10, High: mostMass, When: "without volume", Example: "18 short ton"},
			number(func(t *tipped) *float64 { return &t.wet })},
	}
)

var openingChipsRows = []row[opened]{
	{Key{Path: "fresh", Words: "fresh chips in their store", Dimension: units.Volume, Low: 0, High: mostVolume, Default: elseAs("chips.order_up_to", assumption), Example: "200 yd3"},
		number(func(o *opened) *float64 { return &o.fresh })},
	{Key{Path: "recovered", Words: "chips that the screen gave back", Dimension: units.Volume, Low: 0, High: mostVolume, Default: orElse(0, assumption), Example: "150 yd3"},
		number(func(o *opened) *float64 { return &o.recovered })},
}

var openingProductRows = []row[opened]{
	{Key{Path: "product", Words: "screened compost in its store", Dimension: units.Volume, Low: 0, High: mostVolume, Default: orElse(0, assumption), Example: "600 yd3"},
		number(func(o *opened) *float64 { return &o.product })},
}

// openingKeys are what is there on the first day.
func openingKeys() []Key {
	list := func(path, words string) []Key { return []Key{{Path: path, Kind: List, Words: words, Default: none}} }
	var keys []Key
	for _, part := range [][]Key{
		{optional("opening", "what is there on the first day, with which the run begins instead of a warm-up", "a plant that begins empty but for fresh chips, and is warmed up")},
		{optional("opening.holding", "cake that waits for a load", "none")},
		under("opening.holding", openingHoldingRows, nil),
		under("opening", openingVesselsRows, nil),
		list("opening.vessels", "vessels in use"),
		under("opening.vessels[]", loadedRows, nil),
		placed("opening.vessels[]", loadedClassKey),
		list("opening.pad", "piles that cure, or have cured"),
		under("opening.pad[]", tippedRows[:1], nil),
		under("opening.pad[]", pileVolumeRows, nil),
		under("opening.pad[]", pileMassRows, nil),
		under("opening.pad[]", tippedRows[1:], nil),
		{optional("opening.chips", "chips in their stores", "chips.order_up_to of fresh ones")},
		under("opening.chips", openingChipsRows, nil),
		under("opening", openingProductRows, nil),
	} {
		keys = append(keys, part...)
	}
	return keys
}
