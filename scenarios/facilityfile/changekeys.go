package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// The solids contents between which cake is simulated.
const leastCakeSolids, mostCakeSolids = 0.08, 0.5

var none = elseAs("none", "")

// effectRows are what a change brings; one of them must be there.
var effectRows = []row[plant.Change]{
	{Key{Path: "vessels", Words: "vessels added", Low: 1, High: mostUnits, Default: none},
		whole(func(c *plant.Change) *int { return &c.Vessels })},
	{Key{Path: "places", Words: "aerated places added", Low: 1, High: mostUnits, Default: none},
		whole(func(c *plant.Change) *int { return &c.Places })},
	{Key{Path: "trucks", Words: "trucks added", Low: 1, High: mostMachines, Default: none},
		whole(func(c *plant.Change) *int { return &c.Trucks })},
	{Key{Path: "loaders", Words: "loaders added", Low: 1, High: mostMachines, Default: none},
		whole(func(c *plant.Change) *int { return &c.Loaders })},
	{Key{Path: "operators", Words: "operators added", Low: 1, High: mostUnits, Default: none},
		whole(func(c *plant.Change) *int { return &c.Operators })},
	{Key{Path: "mixers", Words: "mixers added, like those that are there", Low: 1, High: mostMachines, Default: none},
		whole(func(c *plant.Change) *int { return &c.Mixers })},
	{Key{Path: "screens", Words: "screens added, like those that are there", Low: 1, High: mostMachines, Default: none},
		whole(func(c *plant.Change) *int { return &c.Screens })},
	{Key{Path: "pad", Words: "room added on the pad", Dimension: units.Volume, Low: 0.1, High: mostVolume, Default: none},
		number(func(c *plant.Change) *float64 { return &c.Pad })},
	{Key{Path: "holding_dry", Words: "dry solids added to what can be held", Dimension: units.Mass, Low: 1, High: mostMass, Default: none},
		number(func(c *plant.Change) *float64 { return &c.Holding })},
	{Key{Path: "product_store", Words: "room added for product", Dimension: units.Volume, Low: 0.1, High: mostVolume, Default: none},
		number(func(c *plant.Change) *float64 { return &c.ProductStore })},
	{Key{Path: "screen_throughput", Words: "of each screen, in place of the old one", Dimension: units.VolumePerTime, Low: leastThroughput * perHour, High: mostThroughput * perHour, Default: none},
		scaled(1, perHour, func(c *plant.Change) *float64 { return &c.ScreenCapacity })},
	{Key{Path: "cake_solids", Words: "points added: with 2 %, 20 % becomes 22 %", Dimension: units.Fraction, Low: -0.3, High: 0.3, Default: none, Example: "2 %"},
		number(func(c *plant.Change) *float64 { return &c.CakeSolids })},
}

// newHours is a week of shifts for all stages.
var newHours = Key{Path: "week", Kind: Group, Words: "working hours of all stages from then on", Default: none}

var leadRows = []row[plant.Change]{
	{Key{Path: "lead_time", Words: "from the decision until it takes effect; months and years by the calendar", Dimension: units.Duration, Low: 0, High: longestLead,
		Default: elseAs("none; in the catalogue that of a vessel, for vessels", ""), Example: "12 month"},
		byCalendar(func(c *plant.Change) *calendar.Span { return &c.Lead })},
}

var changeDateRows = []row[plant.Change]{
	{Key{Path: "date", Words: "when it is decided", When: "without when", Example: "2032-01-01"},
		dated(func(c *plant.Change) *calendar.Date { return &c.Date })},
}

// heldRows and productionRows are the two signs of a plant.Trigger.
var heldRows = []row[plant.Trigger]{
	{Key{Path: "held_above", Words: "part of the holding that has been full", Dimension: units.Fraction, Low: 0.01, High: 0.99, When: "without production", Example: "70 %"},
		number(func(t *plant.Trigger) *float64 { return &t.Held })},
	{Key{Path: "for", Words: "for so long without a break", Dimension: units.Duration, Low: 0, High: 5 * calendar.SecondsPerYear, When: "with held_above", Example: "30 day"},
		span(func(t *plant.Trigger) *sim.Duration { return &t.For })},
}

var productionRows = []row[plant.Trigger]{
	{Key{Path: "production", Words: "dry cake, without feedstocks, that the mean of the last twelve months passes, looked at on the first of each month",
		Dimension: units.MassPerTime, Low: leastDryPerDay, High: mostDryPerDay, When: "without held_above", Example: "0.66 short ton/day"},
		number(func(t *plant.Trigger) *float64 { return &t.Production })},
}

// additionRows are the short form of a change.
var additionRows = []row[plant.Change]{
	{Key{Path: "date", Words: "when these vessels come", Example: "2034-07-01"},
		dated(func(c *plant.Change) *calendar.Date { return &c.Date })},
	{Key{Path: "count", Words: "vessels that come", Low: 1, High: mostUnits, Example: "2"},
		whole(func(c *plant.Change) *int { return &c.Vessels })},
}

var mostRows = []row[Step]{
	{Key{Path: "most", Words: "how many of these may be built", Low: 1, High: mostUnits, Default: orElse(1, ""), UsedBy: ForPlanning},
		whole(func(s *Step) *int { return &s.Most })},
}

// nameKey is the name of an entry of a list.
func nameKey(of string, use Use) Key {
	return Key{Path: "name", Kind: Text, Words: "name of the " + of, UsedBy: use}
}

// stepKeys are those of a change at a path, but for its name and its time.
func stepKeys(path string) []Key {
	keys := under(path, effectRows, nil)
	keys = append(keys, placed(path, classKey, newHours)...)
	keys = append(keys, weekKeys(join(path, "week"))...)
	keys = append(keys, contractKeys(join(path, changeContract.Path), changeContract, nil)...)
	keys = append(keys, under(path, assetRows, nil)...)
	return append(keys, under(path, leadRows, nil)...)
}

// timeKeys are when a change at a path is decided.
func timeKeys(path string) []Key {
	keys := under(path, changeDateRows, nil)
	keys = append(keys, Key{Path: join(path, "when"), Kind: Group, Words: "sign on which it is decided, in place of date", When: "without date"})
	keys = append(keys, under(join(path, "when"), heldRows, nil)...)
	return append(keys, under(join(path, "when"), productionRows, nil)...)
}

// changeKeys are the changes that the file makes.
func changeKeys() []Key {
	keys := []Key{{Path: "changes", Kind: List, Words: "what is altered while the plant runs", Default: none}}
	keys = append(keys, placed("changes[]", nameKey("change", ForShowing))...)
	keys = append(keys, timeKeys("changes[]")...)
	return append(keys, stepKeys("changes[]")...)
}

// planKeys are the options and the catalogue, which a run leaves alone.
func planKeys() []Key {
	const steps = "options[].steps[]"
	keys := []Key{{Path: "options", Kind: List, Words: "plans to be compared with doing nothing more", Default: none}}
	keys = append(keys, placed("options[]", nameKey("option", ForPlanning))...)
	keys = append(keys, Key{Path: "options[].steps", Kind: List, Words: "changes that make the plan"})
	keys = append(keys, placed(steps, Key{Path: "name", Kind: Text, Words: "name of the step", Default: elseAs("that of the option", "")})...)
	keys = append(keys, timeKeys(steps)...)
	keys = append(keys, stepKeys(steps)...)
	keys = append(keys, Key{Path: "catalogue", Kind: List, Words: "what a search for the cheapest plan may build, whenever it likes", Default: none})
	keys = append(keys, placed("catalogue[]", nameKey("step", ForPlanning))...)
	keys = append(keys, stepKeys("catalogue[]")...)
	keys = append(keys, under("catalogue[]", mostRows, nil)...)
	for i := range keys {
		keys[i].UsedBy = ForPlanning
	}
	return keys
}
