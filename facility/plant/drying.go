package plant

import (
	"errors"
	"fmt"
	"iter"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/release"
	"loamcast/sim"
)

// Gate is what becomes of a lot that is too wet when it could be screened.
type Gate int

// The gates of a screen.
const (
	ScreenAnyway Gate = iota // as it is
	HoldWet                  // left on the pad, on its air, until it is dry
	DryFirst                 // dried on the pad with more air
)

// Drying is what a plant does to get lots dry before they are screened. The zero
// value does nothing.
//
// A lot that waits on the pad, held or dried, has the weather of the month in which
// that begins, and of the month of then every [Stretch] later. When its longest time
// is over it is screened as it is. Other lots may go to the screen before it.
type Drying struct {
	Gate     Gate
	Moisture float64      // at or below which a lot is screened, 0…1
	Longest  sim.Duration // for which a lot is held or dried, at most
	Air      float64      // that dries a lot, m3/h per dry tonne; with DryFirst
	Vessel   VesselDrying
}

// VesselDrying is air above what cooling asks for at the end of a load's stay in the
// vessel: after the residence, when all criteria are met. It lengthens the stay. A
// load that is released early is not dried, or no longer, for a vessel is short; nor
// is one that needs the pad to meet a criterion, for it would cool.
type VesselDrying struct {
	Air      float64      // m3/h per dry tonne at its beginning, within the blower's share
	Moisture float64      // at which it ends, 0…1
	Longest  sim.Duration // 0 for none
}

// ChosenDrying is what practice would choose where lots leave too wet: see the
// constants of package process. The longest time is an assumption.
func ChosenDrying() Drying {
	return Drying{Gate: DryFirst, Moisture: process.DryEnough, Longest: 30 * sim.Day, Air: process.DryingAir}
}

// On reports whether a plant dries or holds anything.
func (d *Drying) On() bool { return d.Gate != ScreenAnyway || d.Vessel.Longest > 0 }

func (d *Drying) validate() error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	if d.Gate != ScreenAnyway {
		check(d.Moisture > 0 && d.Moisture < 1, "the moisture that is dry enough for the screen must lie between 0 and 1")
		check(d.Longest > 0, "lots that wait until they are dry need a longest time")
	}
	check(d.Gate != DryFirst || d.Air > 0, "drying on the pad needs air")
	if v := d.Vessel; v.Longest != 0 {
		check(v.Longest > 0 && v.Air > 0 && v.Moisture > 0 && v.Moisture < 1, "drying in the vessel needs air, a moisture between 0 and 1 and a longest time")
	}
	return errors.Join(errs...)
}

// MonthlyDrying is what drying took, and how wet lots came to the screen.
type MonthlyDrying struct {
	// Lots began in the month to be held or dried on the pad, and Room is what they
	// take of it for that, m3 × days.
	Lots, Room float64
	// Loads began in the month to be dried in the vessel, and Days is how long those
	// that left it in the month were, summed.
	Loads, Days float64

	TooWet float64 // lots screened above the screen's moisture limit
	// Wet is all of what was in them, and Warmth the sum of their temperatures, °C.
	Wet    material.Parcel
	Warmth float64
}

// Stretch is how long a lot that waits on the pad has the weather of one month.
const Stretch = 30 * sim.Day

// dryer dries loads of one kind.
type dryer struct {
	model   *process.Model // of where they lie
	table   *process.Responses
	stretch sim.Duration // for which a course is followed at most
}

// newDryer returns nil for no time.
func newDryer(m *process.Model, air float64, longest sim.Duration) *dryer {
	if longest == 0 {
		return nil
	}
	// Lots held are still on the pad's air while they wait for the screen.
	return &dryer{m, process.NewDryingResponses(m, air, (longest + longestWeekend).Hours()), longest}
}

// newPadDryer returns nil where nothing waits on the pad until it is dry.
func newPadDryer(m *Model) *dryer {
	d := &m.Drying
	if d.Gate == ScreenAnyway {
		return nil
	}
	return newDryer(m.Pile, m.padDryingAir(), min(d.Longest, Stretch))
}

// padDryerOf returns that of another model with the same pad: the same, if it dries with
// as much air for as long. To which moisture does not matter.
func (p *Plant) padDryerOf(m *Model) *dryer {
	a, b := p.Drying, m.Drying
	a.Moisture, a.Vessel = b.Moisture, b.Vessel
	if a == b {
		return p.padDryer
	}
	return newPadDryer(m)
}

// sameCourse reports whether loads dry alike, whatever the moisture at which that ends.
func (v *VesselDrying) sameCourse(o *VesselDrying) bool {
	return v.Air == o.Air && v.Longest == o.Longest
}

// padDryingAir returns the air beyond the pad's own for lots that wait.
func (m *Model) padDryingAir() float64 {
	if m.Drying.Gate == DryFirst {
		return m.Drying.Air
	}
	return 0
}

// leg is a course that a load follows for a time, after another one.
type leg struct {
	course      process.Response
	from, until sim.Time // until 0 if it goes on
}

// begin puts a load on the next course.
func (l *load) begin(next *leg) {
	l.course = next.course
	l.follow(next.from, next.until)
}

// onPad returns what dries lots there.
func (p *Plant) onPad() *dryer { return p.padDryer }

// dries returns how what is in a load gets dry from an instant on, q being what it is
// by then, and how long that takes; where says what dries it, in the air of a day.
func (p *plant) dries(l *load, where func(*Plant) *dryer, q material.Parcel, warmth float64, from sim.Time, enough float64, longest sim.Duration) (legs []leg, takes sim.Duration) {
	for takes < longest && !release.IsDry(q.Moisture(), enough) {
		begun := from.Add(takes)
		day := p.k.Clock().DateOf(int64(begun))
		d := where(p.airOn(day))
		var course process.Response
		if err := d.table.From(&course, &q, day.Month, d.model.DriesFrom(warmth)); err != nil {
			p.k.Fail(fmt.Errorf("drying of load %d: %w", l.number, err))
			return nil, 0
		}
		moisture := func(hours float64) float64 {
			after := q
			course.Apply(&after, 0, hours)
			return after.Moisture()
		}
		most := min(longest-takes, d.stretch)
		hours, dry := release.Dry(moisture, enough, most.Hours())
		lasts := min(durationOf(hours)+sim.Second, most) // to the second above
		legs = append(legs, leg{course, begun, begun.Add(lasts)})
		course.Apply(&q, 0, lasts.Hours())
		warmth = course.Temperature(lasts.Hours())
		takes += lasts
		if dry {
			break
		}
	}
	return legs, takes
}

// dryInVessel begins to dry a load that is due and complies, if it is too wet, and
// reports whether it did.
func (p *plant) dryInVessel(l *load) bool {
	v := &p.Drying.Vessel
	if v.Longest == 0 || l.failed || l.dried || l.curing.wait > 0 {
		return false
	}
	l.dried = true
	now := p.k.Now()
	warmth := l.course.Temperature(now.Sub(l.since).Hours())
	legs, takes := p.dries(l, func(air *Plant) *dryer { return air.kinds[p.vessels[l.vessel].class].dryer }, l.parcel, warmth, now, v.Moisture, v.Longest)
	if takes == 0 {
		return false
	}
	p.endWait(l)
	p.depart(l)
	l.begin(&legs[0])
	l.complied = true
	l.drying, l.ready = takes, now.Add(takes)
	p.dryBy = max(p.dryBy, l.ready)
	p.k.At(l.ready, "load dry", p.wake)
	p.month.Drying.Loads++
	return true
}

// cutDrying ends the drying of a load whose vessel is wanted.
func (p *plant) cutDrying(l *load) {
	l.dried = true
	if l.drying > 0 {
		l.drying -= l.ready.Sub(p.k.Now())
		l.until = p.k.Now()
	}
}

// gate keeps a lot on the pad that will be too wet for the screen when it is cured or,
// screened first, tipped out: at an instant, some hours after its course began, q being
// what it is by then. It puts off when the lot is ready.
func (p *plant) gate(l *load, q *material.Parcel, hours float64, from sim.Time) {
	d := &p.Drying
	l.legs, l.drying = nil, 0
	if d.Gate == ScreenAnyway || release.IsDry(q.Moisture(), d.Moisture) {
		return
	}
	l.legs, l.drying = p.dries(l, (*Plant).onPad, *q, l.course.Temperature(hours), from, d.Moisture, d.Longest)
	if l.drying == 0 {
		return
	}
	if d.Gate == HoldWet {
		l.legs[len(l.legs)-1].until = 0 // its air goes on
	}
	l.ready = from.Add(l.drying)
	p.dryBy = max(p.dryBy, l.ready)
	p.k.At(l.ready, "lot dry", p.wake)
	p.month.Drying.Lots++
	p.month.Drying.Room += l.volume * l.drying.Days()
}

// gateCured is gate for a lot that begins to cure until it is ready. What it will be
// then is what its course makes of it.
func (p *plant) gateCured(l *load) {
	if p.Drying.Gate == ScreenAnyway || p.Screening.First {
		l.legs, l.drying = nil, 0 // in the vessel, before the screen
		return
	}
	cured := l.ready
	stay := cured.Sub(l.since).Hours()
	q := l.parcel
	l.course.Apply(&q, 0, stay)
	p.gate(l, &q, stay, cured)
	if l.drying > 0 {
		p.k.At(cured, "lot cured, too wet", p.wake)
	}
}

// gateTipped is gate for a lot that is screened before it cures, just tipped out.
func (p *plant) gateTipped(l *load) {
	p.gate(l, &l.parcel, l.applied, l.ready)
	if l.drying > 0 {
		l.begin(&l.legs[0])
		l.legs = l.legs[1:]
		p.month.Curing.Room += l.volume * l.drying.Days()
	}
}

// advanceRaw is advance for a lot that waits to be screened before it cures: nothing
// changes in it but what drying does.
func (p *plant) advanceRaw(l *load) {
	if l.drying > 0 {
		p.advance(l, p.books.padAir)
	}
}

// nextForScreen returns the place of the lot to be screened next: the first, or, where
// wet ones are kept, the first that is ready.
func (p *plant) nextForScreen(queue []*load) int {
	if p.Drying.Gate != ScreenAnyway {
		for i, l := range queue {
			if l.ready <= p.k.Now() {
				return i
			}
		}
	}
	return 0
}

// dryingNow returns the cake that went into loads of a queue that are kept at present
// until they are dry, kg dry.
func (p *plant) dryingNow(queue []*load) float64 {
	now, sum := p.k.Now(), 0.0
	if p.dryBy <= now {
		return 0
	}
	for _, l := range queue {
		if l.ready > now && l.ready.Add(-l.drying) <= now {
			sum += l.cakeDry
		}
	}
	return sum
}

// measureWet records a lot that goes to the screen too wet.
func (p *plant) measureWet(l *load) {
	if l.parcel.Moisture() <= p.Screening.Settings.MoistureLimit {
		return
	}
	m := &p.month.Drying
	m.TooWet++
	m.Wet.Add(l.parcel)
	m.Warmth += l.course.Temperature(l.applied)
}

// WetLot is the mean of lots that were screened too wet in some months: what it is
// made of and its temperature, °C. ok is false if there were none.
func WetLot(months iter.Seq[*Month]) (lot material.Parcel, warmth float64, ok bool) {
	lots := 0.0
	for m := range months {
		lots += m.Drying.TooWet
		lot.Add(m.Drying.Wet)
		warmth += m.Drying.Warmth
	}
	if lots == 0 {
		return material.Parcel{}, 0, false
	}
	return lot.Times(1 / lots), warmth / lots, true
}
