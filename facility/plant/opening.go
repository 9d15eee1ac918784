package plant

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Opening is what a plant has on its first day, at midnight, when its run begins with
// that in place of a warm-up. Amendments begin as without it: what is bought at the
// level ordered up to, the rest with nothing.
//
// What is in a vessel or on the pad is taken as it is said to be: package recycle works
// out what nobody measures.
type Opening struct {
	Held    material.Parcel // cake in the holding
	HeldFor sim.Duration    // since the oldest of it came; the rest came evenly since then

	Fresh, Recovered material.Parcel // chips
	Product          material.Parcel

	Vessels []Begun
	Pad     []Lying
}

// Begun is a load in a vessel. It goes on along the course of a load that was put on
// air so long ago, in the weather of the month of then.
type Begun struct {
	Age   sim.Duration
	Class int             // of the vessel, by place in [Vessels.Classes]
	Load  material.Parcel // as it was put in
	Cake  material.Parcel // of it
	Chips float64         // of it, m3
}

// Lying is a lot on the pad that cures, or has cured. From the first day on it follows
// the course of what it is by then, with the weather of that month, as a lot does that
// comes from a vessel: where the plant turns its lots, it is turned as a new one. Its
// curing time runs since it was tipped out.
//
// A plant that screens first has only lots that have been on the screen. That there are
// others at the start, waiting for it, cannot be told.
type Lying struct {
	Age       sim.Duration    // since it was tipped out
	Lot       material.Parcel // as it lies there
	CakeLeft  material.Solids // of it, what is left of the cake that went in
	CakeDry   float64         // kg dry of cake that went into the load
	Chips     float64         // m3 that went into it
	Readily   float64         // kg of rapidly or readily degradable solids that went into it
	Warmth    float64         // °C; where lots begin to cure at the pad's own temperature, it is that
	StillWait sim.Duration    // from the first day on, for criteria that vessel and pad meet together
}

func (m *Model) openingValid() error {
	o := m.Opening
	if o == nil {
		return nil
	}
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(m.WarmUp == 0, "a run that begins with what is there has no warm-up, got %d years", m.WarmUp)
	check(m.Yard.Places == 0 || len(o.Vessels) <= m.Yard.Places, "%d vessels stand on %d aerated places on the first day", len(o.Vessels), m.Yard.Places)
	check(o.HeldFor >= 0, "cake cannot have come after the first day")
	for _, stock := range []material.Parcel{o.Held, o.Fresh, o.Recovered, o.Product} {
		check(stock.Total() >= 0, "there cannot be less than nothing on the first day, got %.3g kg", stock.Total())
	}
	inClass := make([]int, m.Vessels.ClassCount())
	for _, b := range o.Vessels {
		if b.Class < 0 || b.Class >= len(inClass) {
			check(false, "there is no class %d of vessels", b.Class)
			continue
		}
		inClass[b.Class]++
		check(b.Age >= 0, "a load cannot have been begun after the first day")
		check(b.Load.Dry() > 0 && b.Cake.Dry() > 0, "a load on the first day needs cake")
	}
	for class, n := range inClass {
		check(m.Vessels.Unlimited || n <= m.Vessels.InClass(class), "%d %s vessels are in use on the first day, but %d installed", n, m.Vessels.ClassName(class), m.Vessels.InClass(class))
	}
	for _, l := range o.Pad {
		check(l.Age >= 0, "a lot cannot have been tipped out after the first day")
		check(l.Lot.Dry() > 0, "a lot on the first day needs solids")
	}
	return errors.Join(errs...)
}

// openStores starts the run with what the stores hold.
func (p *plant) openStores() {
	p.openChipStore()
	o := p.Opening
	if o == nil {
		return
	}
	p.holding.parcel = o.Held
	p.holding.rebase()
	p.stations.holding.held(o.HeldFor, o.Held.Dry())
	for _, s := range []struct {
		pile  *pile
		meter *heap
		stock material.Parcel
	}{
		{&p.chips.recovered, p.stations.recovered, o.Recovered},
		{&p.product.pile, p.stations.product, o.Product},
	} {
		s.pile.add(&s.stock, &p.Bulk)
		s.meter.put(0, s.stock.Dry())
	}
}

// openProcess starts the run with what is in vessels and on the pad, the oldest first,
// which is the order in which loads leave.
func (p *plant) openProcess() {
	if p.Opening == nil {
		return
	}
	vessels, pad := slices.Clone(p.Opening.Vessels), slices.Clone(p.Opening.Pad)
	slices.SortStableFunc(pad, func(a, b Lying) int { return cmp.Compare(b.Age, a.Age) })
	slices.SortStableFunc(vessels, func(a, b Begun) int { return cmp.Compare(b.Age, a.Age) })
	for i := range pad {
		p.lay(&pad[i])
	}
	for i := range vessels {
		p.onAir(&vessels[i])
	}
}

// onAir puts a load that was begun before the run into a vessel of its class.
func (p *plant) onAir(b *Begun) {
	now := p.k.Now()
	p.planned = b.Class
	l := p.newLoad(p.emptyVessel(), batchPlan{})
	l.parcel, l.cake, l.cakeDry, l.chips = b.Load, b.Cake.Fine, b.Cake.Dry(), b.Chips
	p.placesTaken++
	if !p.compost(l, now.Add(-b.Age), p.dayBefore(b.Age)) {
		return
	}
	// What it exchanged with the air so far is of no run.
	l.bring(b.Age.Hours(), &p.Chemistry)
}

// dayBefore returns the day some time before the run.
func (p *plant) dayBefore(age sim.Duration) calendar.Date {
	days := int((age + sim.Day - sim.Second) / sim.Day)
	return p.dateNow().AddDays(-days)
}

// lay puts a lot that was tipped out before the run on the pad.
func (p *plant) lay(lying *Lying) {
	now := p.k.Now()
	l := p.blankLoad()
	p.loads++
	*l = load{
		number: p.loads, parcel: lying.Lot, cake: lying.CakeLeft, cakeDry: lying.CakeDry, chips: lying.Chips, readily: lying.Readily,
		began: now.Add(-lying.Age), since: now, tipped: lying.Warmth,
	}
	if !p.spread(l, p.padWarmth(lying.Warmth)) {
		return
	}
	l.follow(now, 0)
	stable, _ := p.stableAfter(l)
	l.ready = max(l.began.Add(p.Curing.Time), now.Add(max(stable, lying.StillWait)))
	p.gateCured(l)
	p.pad.lots = append(p.pad.lots, l)
	p.pad.cured.expect(l.ready)
	p.k.At(l.ready, "lot cured", p.wake)
}
