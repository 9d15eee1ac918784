package facilityfile

import (
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

const (
	// usualCall and usualDown are shares of the holding at which the plant calls and
	// stops.
	usualCall, usualDown = 0.8, 0.5
	// Where the file does not say how much a day takes, a month's limit is hauled on all of
	// its working days, so many or about; but no less on one than a truckload, kg, and a
	// small one. Both lean to the side that warns.
	daysOfHauling = 20
	truckload     = 9000
)

// haulingContract is the group of the contract that is in force from the start, and
// changeContract that of one that a change brings.
var (
	haulingContract = Key{Path: "hauling_contract", Kind: Group, Words: "a standing contract with a landfill or another plant, which takes cake when the plant calls: held cake is hauled before it finds no room, up to a limit", Default: none}
	changeContract  = Key{Path: "contract", Kind: Group, Words: "a contract such as hauling_contract, in place of the one before", Default: none}
)

var contractRows = []row[plant.Contract]{
	{Key{Path: "most_per_month", Words: "wet cake that it takes in a calendar month", Dimension: units.Mass, Low: 100, High: mostMass, Example: "60 short ton"},
		number(func(c *plant.Contract) *float64 { return &c.MostPerMonth })},
	{Key{Path: "most_per_day", Words: "wet cake that it takes on a working day of the mixer", Dimension: units.Mass, Low: 10, High: mostMass,
		Default: elseAs("a twentieth of most_per_month, so that trucks come on all working days of a month, but a truckload of 9 t if that is more", assumption), Example: "20 short ton"},
		number(func(c *plant.Contract) *float64 { return &c.MostPerDay })},
	{Key{Path: "notice", Words: "from the call until the first day of hauling; each call needs it anew", Dimension: units.Duration, Low: 0, High: calendar.SecondsPerYear, Example: "14 day"},
		byCalendar(func(c *plant.Contract) *calendar.Span { return &c.Notice })},
	{Key{Path: "call_at", Words: "part of the holding that is full when the plant calls, looked at once a day", Dimension: units.Fraction, Low: 0.01, High: 0.99, Default: orElse(usualCall, assumption)},
		number(func(c *plant.Contract) *float64 { return &c.CallAt })},
	{Key{Path: "down_to", Words: "part of the holding at which hauling ends", Dimension: units.Fraction, Low: 0, High: 0.98, Default: orElse(usualDown, assumption)},
		number(func(c *plant.Contract) *float64 { return &c.DownTo })},
}

// contractPrice is kept with the prices, and told apart by the contract's number.
var contractPrice = Key{Path: "price", Kind: Quantity, Words: "of what it hauls, wet; rises as tipping does", Dimension: units.MoneyPerMass, Low: 0, High: 100,
	Default: elseAs("not known; needed where the file has money", ""), Example: "70 USD/short ton", UsedBy: ForPlanning}

// contractKeys are those of a contract, in a group at a path.
func contractKeys(path string, group Key, at func(Parts) *plant.Contract) []Key {
	group.Path = path
	return slices.Concat([]Key{group}, under(path, contractRows, at), placed(path, contractPrice))
}

// standingContract reads the contract that is in force from the start.
func (r *reader) standingContract() {
	r.m.Contract = r.contract(r.root.MapIf(haulingContract.Path))
}

// contract reads a contract; where the file has none it is that of nobody.
func (r *reader) contract(m *yamlfile.Map) (c plant.Contract) {
	if !m.Present() {
		return c
	}
	read(m, contractRows, &c)
	if !m.Has("most_per_day") {
		c.MostPerDay = min(max(c.MostPerMonth/daysOfHauling, truckload), c.MostPerMonth)
	}
	if m.Good("call_at", "down_to") && c.DownTo >= c.CallAt {
		key := "down_to"
		if !m.Has(key) {
			key = "call_at"
		}
		m.Error(key, "hauling would end at "+units.Format(c.DownTo, units.Fraction, r.units)+" of the holding, not below the "+units.Format(c.CallAt, units.Fraction, r.units)+" at which the plant calls",
			"write call_at, and a smaller down_to")
	}
	if m.Has("most_per_day") && m.Good("most_per_day", "most_per_month") && c.MostPerDay > c.MostPerMonth {
		m.Error("most_per_day", "more than it takes in a month", "write at most "+units.Format(c.MostPerMonth, units.Mass, r.units))
	}
	price := 0.0
	switch {
	case m.Has(contractPrice.Path):
		price = m.Quantity(contractPrice.Path, contractPrice.Dimension, contractPrice.checks()...)
	case r.p.Priced:
		r.doc.ErrorAt(m.Position(), m.Path()+" has no price, and the file has a section on money", `add to it a line such as "price: `+contractPrice.Example+`"`)
	}
	c.Number = len(r.p.Economy.Contracts)
	r.p.Economy.Contracts = append(r.p.Economy.Contracts, price)
	return c
}

// contractsInOrder refuses changes that bring contracts in another order than that of the
// days on which these are in force: where all changes are in force at once, as for what
// the plant carries in the end, the last of the list is the one that holds.
func (r *reader) contractsInOrder(list []planned) {
	var before calendar.Date
	for _, p := range list {
		if !p.Contract.On() || p.triggered() || !p.timeGood {
			continue
		}
		if day := p.effective(); day.Before(before) {
			p.at.Error(changeContract.Path, "this contract is in force before the one above", "put the changes that bring contracts in the order of their dates")
		} else {
			before = day
		}
	}
}

// oneContract refuses a catalogue in which it would depend on when the search builds what
// which of several contracts is in force.
func (r *reader) oneContract(list []planned) {
	changed := slices.ContainsFunc(r.m.Changes, func(c plant.Change) bool { return c.Contract.On() })
	found := false
	for _, p := range list {
		if !p.Contract.On() {
			continue
		}
		switch {
		case changed:
			p.at.Error(changeContract.Path, "the file's own changes bring a contract too, and which of them takes the other's place depends on when the search builds this", "compare contracts as options, with dates of their own")
		case found:
			p.at.Error(changeContract.Path, "the catalogue has another contract already, and one takes the place of the other", "leave one of them to the search, and compare others as options")
		case p.Most > 1:
			p.at.Error("most", "the same contract a second time changes nothing", "remove this line")
		}
		found = true
	}
}
