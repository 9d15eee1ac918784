package plant

import (
	"slices"

	"loamcast/sim"
)

// Cause is what solids wait for.
type Cause int

// The causes, in the order in which they are reported.
const (
	Collecting    Cause = iota // cake, until there is enough for a load or a batch
	Mixing                     // the mixers are at work
	OffShift                   // nobody is there
	NoChips                    // chips are short
	NoVessel                   // every vessel is in use
	NoCuringSpace              // the curing pad is full
	ScreenBusy                 // the screens are at work
	StoreFull                  // the product store has no room
	NoPlace                    // every aerated place is taken
	NoTruck                    // the truck is at work
	NoLoader                   // the loader is at work
	NoOperator                 // the operators are at work
	Broken                     // a machine is out of order
	TooWet                     // kept until it is dry enough for the screen
	NoAmendment                // an amendment that mixing waits for is short
	numCauses
)

// CauseNames names the causes in plain words.
var CauseNames = [numCauses]string{
	"collecting a load", "mixing", "off shift", "chips", "vessel", "curing space", "screen", "product store",
	"aerated place", "truck", "loader", "operator", "breakdown", "drying", "amendments",
}

// String returns the cause's name.
func (c Cause) String() string { return CauseNames[c] }

// Shortage reports whether the cause is that something was short. That loads have
// to come together, and that nobody works at night, is how a plant is run.
func (c Cause) Shortage() bool { return c != Collecting && c != OffShift }

// Waits is the time that solids waited, by cause: kg dry of cake × days.
type Waits [numCauses]float64

// Total returns the sum over all causes.
func (w Waits) Total() float64 {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	return sum
}

// waiting is what waits now, and why. It is set when the plant has settled and
// holds until it settles again, so that every second is charged to one cause.
type waiting struct {
	since                       sim.Time
	held                        Cause   // of the cake held, whose mass changes as it runs in
	full, due                   Cause   // of full vessels, of loads due
	cured, raw                  Cause   // of lots cured on the pad, of lots to be screened first
	fullMass, dueMass, curedDry float64 // kg dry of cake that went into them
	rawDry                      float64
	inVessel, onPad             float64 // of loads and lots that are kept until they are dry
}

// chargeWaits charges the time since the plant last settled. The cake held is
// charged by its own integral, in kg × seconds.
func (p *plant) chargeWaits(held float64) {
	w := &p.waiting
	now := p.k.Now()
	seconds := float64(now.Sub(w.since))
	w.since = now
	const day = float64(sim.Day)
	held /= day
	p.month.Waits[w.held] += held
	if w.held.Shortage() {
		p.month.Holding.Delayed += held
	}
	if p.product.blocked {
		p.month.Product.HoursFull += seconds / float64(sim.Hour)
	}
	charge := func(cause Cause, mass float64) (charged float64) {
		if mass > 0 { // mostly nothing waits
			charged = mass * seconds / day
			p.month.Waits[cause] += charged
		}
		return charged
	}
	charge(w.full, w.fullMass)
	p.month.Release.Waited += charge(w.due, w.dueMass)
	charge(w.cured, w.curedDry)
	charge(w.raw, w.rawDry)
	charge(TooWet, w.inVessel+w.onPad)
}

// explainWaits says what each group of solids waits for, now that nothing more
// can move.
func (p *plant) explainWaits() {
	now := p.k.Now()
	w := &p.waiting
	w.fullMass = 0
	for _, l := range p.full {
		w.fullMass += l.cakeDry
	}
	w.dueMass = p.due.mass(p.active, now)
	w.curedDry = p.pad.cured.mass(p.pad.lots, now)
	w.rawDry = 0
	for _, l := range p.pad.raw {
		if l.ready <= now {
			w.rawDry += l.cakeDry
		}
	}
	w.inVessel, w.onPad = p.dryingNow(p.active), p.dryingNow(p.pad.lots)+p.dryingNow(p.pad.raw)
	// Of what is not there nobody asks why it waits.
	if w.curedDry > 0 || w.rawDry > 0 {
		w.raw = p.crewOr(OffShift, Screens, Loaders, Operators)
		w.cured = p.whyNotScreened(w.raw)
	}
	if w.dueMass > 0 {
		w.due = p.whyNotUnloaded()
	}
	if len(p.full) > 0 {
		w.full = p.whyNotFetched()
	}
	w.held = p.whyNotMixed()
}

// The explanations name first what would still be missing if people were there:
// a night is charged to the shift only when nothing else stands in the way.

// whyNotScreened explains lots that are cured and still lie on the pad.
func (p *plant) whyNotScreened(screen Cause) Cause {
	if p.product.blocked {
		return StoreFull
	}
	return screen
}

// whyNotUnloaded explains loads that are due and still in their vessels: if the
// pad is full, by what keeps it full.
func (p *plant) whyNotUnloaded() Cause {
	if !p.padStopsDue() {
		return p.haulOr(OffShift)
	}
	switch {
	case p.waiting.rawDry > 0:
		return p.waiting.raw
	case p.waiting.curedDry > 0:
		return p.waiting.cured
	case p.waiting.onPad > 0:
		return TooWet
	}
	return NoCuringSpace
}

// padStopsDue reports whether a load is due for which the pad has no room.
func (p *plant) padStopsDue() bool {
	now := p.k.Now()
	if p.due.after(now) {
		return false
	}
	return slices.ContainsFunc(p.active, func(l *load) bool {
		return l.ready <= now && !l.failed && !p.roomy(l) && !p.padTakesNow(l)
	})
}

// roomy reports whether the pad has room for a load whatever has become of it since it was
// last looked at. Where it has not, the load must be looked at again.
func (p *plant) roomy(l *load) bool {
	return !p.Curing.Rewet.On() && p.pad.volume+p.Bulk.MostVolume(&l.parcel) <= p.Curing.Capacity
}

// padTakesNow is padTakes of a load in a vessel as it is by now.
func (p *plant) padTakesNow(l *load) bool {
	p.advance(l, p.books.vesselAir)
	return p.padTakes(l)
}

// whyNotFetched explains full vessels that stand at the mixer.
func (p *plant) whyNotFetched() Cause {
	switch {
	case p.placeFree():
		return p.haulOr(OffShift)
	case p.waiting.dueMass > 0:
		return p.waiting.due
	}
	return NoPlace
}

// whyNotMixed explains cake that is held.
func (p *plant) whyNotMixed() Cause {
	l := p.loading
	if l == nil {
		switch {
		case p.collecting || p.holding.lacks(p.toStart(&p.next)):
			return Collecting
		case !p.loadingPlaceFree():
			return p.waiting.full
		case p.vesselFree():
			return p.whyNotBegun(&p.next)
		case p.waiting.dueMass > 0:
			return p.waiting.due
		case len(p.emptied) > 0:
			return p.haulOr(OffShift)
		}
		return NoVessel
	}
	switch {
	case !p.batchToBegin(l):
		return p.whyMixersWait()
	case p.mixers.full():
		return p.crewOr(Mixing, Mixers)
	case p.holding.lacks(p.batchCake(&l.plan)):
		return Collecting
	}
	return p.whyNotBegun(&l.plan)
}

// whyNotBegun explains cake that is enough for a batch while there is a vessel for it and
// a mixer without one.
func (p *plant) whyNotBegun(plan *batchPlan) Cause {
	switch {
	case !p.chipsFor(plan):
		return NoChips
	case !p.amendmentsFor(plan):
		return NoAmendment
	case !p.dewateringFree():
		return Mixing
	}
	return p.crewOr(OffShift, Mixers, Loaders, Operators)
}

// causeOf says what is missing when all units of a resource are at work.
var causeOf = [numResources]Cause{
	Mixers: Mixing, Screens: ScreenBusy, Trucks: NoTruck, Loaders: NoLoader, Operators: NoOperator,
}

// crewOr returns the cause that the first resource without a free unit stands for,
// or otherwise.
func (p *plant) crewOr(otherwise Cause, which ...Resource) Cause {
	for _, t := range which {
		switch r := p.resources[t]; {
		case r.free():
		case r.broken():
			return Broken
		default:
			return causeOf[t]
		}
	}
	return otherwise
}

func (p *plant) haulOr(otherwise Cause) Cause {
	if !p.hauled() {
		return otherwise
	}
	return p.crewOr(otherwise, Trucks, Operators)
}

// endWait measures the wait of a load or lot that was ready and is now dealt
// with.
func (p *plant) endWait(l *load) {
	if waited := p.k.Now().Sub(l.ready) + l.drying; waited > 0 {
		p.rec.Waited += l.cakeDry * waited.Days()
	}
}
