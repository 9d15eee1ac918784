package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/money"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Planning is what the planning answers need beside the model: what is not
// known for sure, what things cost, and what could be done.
type Planning struct {
	Target Target
	// FiscalYear is that of the budgets; the zero value if the file has none.
	FiscalYear FiscalYear
	Growths    []GrowthScenario // at least one
	Inputs     []Uncertain
	// Correlations are the rank correlations of pairs of Inputs.
	Correlations []Correlation

	Priced    bool // the file has a section on money
	Economy   Economy
	Committed []Step   // the file's changes, which every plan includes, with their cost
	Options   []Option // beside doing nothing more
	Catalogue []Step   // what expand may build, in any number up to Step.Most
	// Setbacks are what may happen, nil if the file says nothing.
	Setbacks []Setback
	// VesselLead is the time from the order of a vessel until it can be loaded.
	VesselLead calendar.Span
	// RoomFor is how many vessels there is room for, those installed included.
	// If the file does not say, it is what is there after all its changes.
	RoomFor int
	// Classes are those of the model's vessels; nil if there is one class only.
	Classes []ClassPlan
	// DetectWarmUp says that the file leaves it to the program how long the plant
	// runs before its start: the model has the most years, which are to be cut to
	// those needed.
	DetectWarmUp bool

	copula copula // of Inputs, from Correlations
}

// GrowthScenario is one way in which production may grow.
type GrowthScenario struct {
	Name   string
	Weight float64 // how far it is believed in; the weights of a file add up to 1
	Growth plant.Growth
	Source string // what it rests on, in the user's words; may be empty
}

// Uncertain is an input that is not known for sure. Each replication draws it
// once. See the table of inputs for what may be uncertain, and within what range:
// values in the file must lie in it, and a distribution that reaches beyond, or
// has no end, is cut where the range or the 0.01 % of either tail ends, by moving
// what lies outside to the nearer end.
type Uncertain struct {
	Key          string              // as in the file, such as "screen.recovery"
	Distribution random.Distribution // in the unit that the reader keeps the key in
	Dimension    units.Dimension     // of its values
	low, high    float64             // where it is cut
	set          func(Parts, float64)
}

// Correlation is a rank correlation, −1 to 1, between two inputs, by their
// places in Planning.Inputs.
type Correlation struct {
	A, B int
	Rank float64
}

// Economy is the file's section on money.
type Economy struct {
	Rates        money.Rates
	Prices       money.Prices // of Prices.Product only the escalation is used
	ProductPrice [12]float64  // USD/m3 received, by month
	LoaderFuel   float64      // m3 per loader hour
	TruckFuel    float64      // m3 per truck hour
	// Amendments are those of the recipe, in the order of the model. They are known
	// without a section on money, too, and rise with inflation.
	Amendments []AmendmentPrice
	// ChipSources are the prices of the sources of chips by month, in the order of the
	// model, in parts of Prices.Chips.Amount; nil where chips come from one.
	ChipSources [][12]float64
	// Contracts are the prices of the contracts of the file by [plant.Contract].Number,
	// USD/kg wet hauled. They rise as tipping does.
	Contracts []float64
	// Overhead is paid whatever the plant does, USD/year in stated prices.
	Overhead float64
	// CapitalOver is by what part of it steps cost more than the file says. It is 0
	// unless it is uncertain.
	CapitalOver float64
}

// Step is a change to the plant and what it costs.
type Step struct {
	plant.Change
	Asset money.Asset // Year and Lead are those of Change, and are left 0 here
	Most  int         // how often expand may take it; 0 in options
}

// OnlyVessels reports whether a step brings vessels, and places for them, and
// nothing else.
func (s Step) OnlyVessels() bool {
	c := s.Change
	only := plant.Change{Name: c.Name, Date: c.Date, Trigger: c.Trigger, Lead: c.Lead, Vessels: c.Vessels, Class: c.Class, Places: c.Places}
	return c.Vessels > 0 && c == only
}

// Option is a plan: steps, each on its date or trigger.
type Option struct {
	Name  string
	Steps []Step
}
