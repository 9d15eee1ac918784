package plant

import (
	"errors"
	"fmt"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Model is a facility and its surroundings, in SI units, immutable while it
// runs.
type Model struct {
	Start  calendar.Date // first day that is reported
	Years  int           // reported years
	WarmUp int           // years simulated before Start at the loads of the first year

	Feed       Feed
	Feedstocks []Feedstock
	Dewatering Dewatering
	Media      Media
	Amendments []Amendment
	Air        Air
	Changes    []Change
	Outages    []Outage
	Spells     []Spell
	Cake       material.Spec // composition of cake; its moisture varies with Feed.CakeSolids
	Holding    Holding
	Contract   Contract // in force from the first day on; changes may bring others
	Recipe     Recipe
	Mixer      Mixer
	Chips      Chips
	Vessels    Vessels
	Yard       Yard
	Curing     Curing
	Screening  Screening
	Drying     Drying
	Product    Product
	Opening    *Opening // what is there on the first day; nil for a plant that begins empty

	Bulk      material.Bulk
	Chemistry material.Chemistry
	Active    *process.Model // course in a vessel
	Pile      *process.Model // course on the curing pad
}

// Holding keeps dewatered solids until a load can be made.
type Holding struct {
	Capacity float64 // kg dry; what does not fit is diverted
	// StartWith is the share of a vessel load, 0…1, that must be held before
	// a new vessel is begun.
	StartWith float64
}

// Recipe is the batch in proportions as loaded.
type Recipe struct {
	ChipsPerCake float64 // volume of chips per volume of cake, loose
	// ChipsByMonth takes its place, if not nil: January first, of the month in which a
	// load is begun.
	ChipsByMonth *[12]float64
}

// Mixer makes weighed batches. All mixers are alike.
type Mixer struct {
	Count     int          // of mixers; 0 for one
	Volume    float64      // useful mix volume of a batch, m3
	Scale     float64      // largest wet batch the scale takes, kg
	BatchTime sim.Duration // load, mix and discharge
	Power     float64      // kW of each while at work
	Hours     *calendar.Work
	Failure   Failure // of each
}

// Vessels are the composting vessels.
type Vessels struct {
	Installed int // of all classes
	// Unlimited gives every load a vessel at once, to learn how many would
	// be in use if they were never short.
	Unlimited bool
	// Classes are the kinds of vessels, if there are several. What they leave out is as
	// here.
	Classes []VesselClass
	// Extra is the class of the vessels that an unlimited plant has beside those
	// installed.
	Extra int

	Volume  float64 // useful volume, m3
	Payload float64 // most wet mass a vessel may carry, kg; infinite where it is not carried

	Residence  sim.Duration // aimed at
	Minimum    sim.Duration // for early release when vessels are short
	Maximum    sim.Duration // a load that has not met its criteria by then is diverted
	Early      bool         // release early, compliance met, when vessels are short
	Turnaround sim.Duration // from release until the vessel can be loaded again
	PartFilled sim.Duration // longest wait of a part-filled vessel for more batches
	Service    Maintenance
	Hours      *calendar.Work
}

// Curing is the pad between vessels and screen.
type Curing struct {
	Capacity float64      // m3
	Time     sim.Duration // 0 for a plant that does not cure: lots only wait for the screen
	// Longest is how long a lot may wait on the pad for a criterion that
	// vessel and curing meet together. A load that would not meet it by then
	// is not unloaded to the pad.
	Longest sim.Duration
	// ReadilyLeft is the stability that lots must have before they are
	// screened: the share of the readily degradable solids loaded that may be
	// left. 1 asks for nothing.
	ReadilyLeft float64
	Rewet       Rewet
	// Handling is what tipping loses in place of Pile.Tipped, where a replication has a
	// loss of its own: the tables of courses, which are the same for all, begin at any
	// temperature. It is nil where Pile.Tipped is.
	Handling *process.Handling
}

// Screening gives chips back. All screens are alike.
type Screening struct {
	Count    int // of screens; 0 for one
	Settings screening.Settings
	Hours    *calendar.Work
	Failure  Failure // of each
	Power    float64 // kW of each while at work
	// First screens lots as they are tipped out, and cures what goes through;
	// otherwise whole lots are cured first.
	First bool
}

// Product is the store of screened compost and the demand that empties it.
type Product struct {
	Capacity float64     // m3
	Demand   [12]float64 // m3/day, January first
}

// Validate returns all reasons why the model cannot run, joined, or nil.
func (m *Model) Validate() error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(m.Years >= 1, "at least one year must be simulated, got %d", m.Years)
	check(m.Start.Valid() && m.Start.Day == 1, "the start %v is not the first day of a month", m.Start)
	check(m.WarmUp >= 0, "the warm-up cannot be negative")
	check(m.Recipe.ChipsPerCake > 0, "the chips-to-cake ratio must be positive")
	check(m.Mixer.Volume > 0 && m.Mixer.Scale > 0, "the mixer needs a volume and a scale capacity")
	check(m.Mixer.Count >= 0 && m.Screening.Count >= 0, "the number of mixers and of screens cannot be negative")
	check(m.Mixer.BatchTime > 0, "a batch must take time")
	check(m.Mixer.Power >= 0 && m.Screening.Power >= 0, "machines cannot use negative power")
	errs = append(errs, m.validateVessels())
	check(m.Holding.Capacity > 0, "holding capacity must be positive")
	check(m.Holding.StartWith >= 0 && m.Holding.StartWith <= 1, "the share of a load that starts a vessel must be between 0 and 1")
	check(m.Curing.Capacity > 0 && m.Curing.Time >= 0 && m.Curing.Time <= m.Curing.Longest, "curing needs a capacity, a time and a longest time not below it")
	check(m.Curing.ReadilyLeft > 0 && m.Curing.ReadilyLeft <= 1, "the share of readily degradable solids left must lie between 0 and 1")
	check(m.Product.Capacity > 0, "the product store needs a capacity")
	for _, hours := range []*calendar.Work{m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours} {
		check(hours != nil, "working hours are missing")
	}
	errs = append(errs, validateSupply(m), validateAmendments(m), m.validateChanges(), m.validateOutages(), m.validateSpells(), m.Contract.validate())
	errs = append(errs, m.Air.validate(), m.Curing.rewetValid(), m.Drying.validate(), m.openingValid())
	errs = append(errs, m.Yard.validate(), m.Mixer.Failure.validate("the mixer"), m.Screening.Failure.validate("the screen"))
	errs = append(errs, m.Feed.validate(), m.Chips.validate(), m.Chips.validateSources(m.Chemistry), m.Cake.Validate(m.Chemistry),
		m.Chips.Fresh.Validate(m.Chemistry), m.Screening.Settings.Validate(), m.Active.Validate(), m.Pile.Validate())
	return errors.Join(errs...)
}

// Begin returns the first day that is simulated, warm-up included. Working
// hours must be built on a clock that starts here.
func (m *Model) Begin() calendar.Date { return m.Start.AddYears(-m.WarmUp) }
