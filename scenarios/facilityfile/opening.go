package facilityfile

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/recycle"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// firstDay is what was read of the first day, with where it stands. What things are made
// of, which the file does not say, is worked out once the rest of the file is sound.
type firstDay struct {
	opened
	vessels   []loaded
	piles     []tipped
	vesselsAt []*yamlfile.Map
	pilesAt   []*yamlfile.Map
	group     *yamlfile.Map
}

// noWarmUp refuses a warm-up of a plant that begins with what is there: it would be that
// of a plant that is not there on the first day.
func (r *reader) noWarmUp() {
	if !r.root.Has("opening") {
		return
	}
	if r.root.Has("warm_up") && r.root.Good("warm_up") && r.m.WarmUp > 0 {
		r.root.Error("warm_up", "the run begins with what opening says is there, and nothing runs before it", "remove warm_up, or opening")
	}
	r.m.WarmUp, r.p.DetectWarmUp = 0, false
}

// opening reads what is there on the first day, and refuses what cannot be.
func (r *reader) opening() {
	g := r.root.MapIf("opening")
	if !g.Present() {
		return
	}
	day := &firstDay{group: g}
	r.firstDay = day
	if g.Empty() {
		r.doc.ErrorAt(g.Position(), "opening says nothing of what is there", "write for instance product: 600 yd3, or remove it")
	}
	o := &day.opened
	holding := g.MapIf("holding")
	read(holding, openingHoldingRows, o)
	r.most(holding, "cake_dry", o.held, "holding", "capacity_dry", r.m.Holding.Capacity, units.Mass)
	chips := g.MapIf("chips")
	o.fresh = r.m.Chips.OrderUpTo
	read(chips, openingChipsRows, o)
	r.most(chips, "fresh", o.fresh, "chips", "store", r.m.Chips.Capacity, units.Volume)
	read(g, openingProductRows, o)
	r.most(g, "product", o.product, "product", "store", r.m.Product.Capacity, units.Volume)
	r.openingVessels(g, day)
	r.openingPad(g, day)
}

// forgiven is what may be beyond what a store holds, of itself: it may be written as
// the program shows it, in three digits.
const forgiven = 0.005

// most refuses more than a store holds.
func (r *reader) most(m *yamlfile.Map, key string, there float64, group, store string, holds float64, dim units.Dimension) {
	if m.Has(key) && m.Good(key) && r.group(group).Good(store) && there > (1+forgiven)*holds {
		m.Error(key, "more than "+group+"."+store+" has room for", "write at most "+units.Format(holds, dim, r.units))
	}
}

// openingVessels reads which vessels are in use, as a list or a number.
func (r *reader) openingVessels(g *yamlfile.Map, day *firstDay) {
	v := r.group("vessels")
	if len(r.m.Vessels.Classes) > 0 && g.Has("vessels_in_use") {
		g.Error("vessels_in_use", "of which class the vessels in use are cannot be told", "list them under vessels, each with its class: {loaded: 2026-12-20, class: "+r.m.Vessels.ClassName(0)+"}")
		return
	}
	read(g, openingVesselsRows, &day.opened)
	if g.Has("vessels_in_use") && g.Has("vessels") {
		g.Error("vessels_in_use", "the vessels in use are listed already", "keep one of vessels and vessels_in_use")
	}
	tooMany := func(n int, complain func(message, hint string)) bool {
		switch places := r.m.Yard.Places; {
		case v.Good("installed") && n > r.m.Vessels.Installed:
			complain(fmt.Sprintf("%d vessels are in use, but %d installed", n, r.m.Vessels.Installed), "correct one of the two")
		case r.yardGroup.Good("aerated_places") && places > 0 && n > places:
			complain(fmt.Sprintf("%d vessels are in use, but there are aerated places for %d", n, places), "correct one of the two")
		default:
			return false
		}
		return true
	}
	if g.Good("vessels_in_use") {
		tooMany(day.inUse, func(message, hint string) { g.Error("vessels_in_use", message, hint) })
	}
	said := false
	inClass := make([]int, r.m.Vessels.ClassCount())
	for i, m := range g.ListIf("vessels") {
		var l loaded
		read(m, loadedRows, &l)
		l.class = r.classOf(m, "loaded")
		complain := func(message, hint string) { r.doc.ErrorAt(m.Position(), m.Path()+": "+message, hint) }
		if !said {
			said = tooMany(i+1, complain)
		}
		inClass[l.class]++
		if n, name := r.m.Vessels.InClass(l.class), r.m.Vessels.ClassName(l.class); !said && name != "" && m.Good(classKey.Path) && inClass[l.class] > n {
			complain(fmt.Sprintf("%d %s vessels are in use, but %d installed", inClass[l.class], name, n), "correct one of the two")
			said = true
		}
		one := r.m.AsClass(l.class)
		if longest := one.Vessels.Maximum; r.ageOf(m, "loaded", l.date) > longest && v.Good("residence", "longest_residence") && m.Good("loaded") {
			m.Error("loaded", "longer ago than a load may stay in its vessel", "write a date from "+r.m.Start.AddDays(-int(longest/sim.Day)).String()+" on, or raise vessels.longest_residence")
		}
		day.vessels, day.vesselsAt = append(day.vessels, l), append(day.vesselsAt, m)
	}
}

// oldestPile is longer than the longest time that lots may cure.
const oldestPile = 6 * calendar.SecondsPerYear

// openingPad reads what lies on the pad.
func (r *reader) openingPad(g *yamlfile.Map, day *firstDay) {
	for _, m := range g.ListIf("pad") {
		var t tipped
		read(m, tippedRows, &t)
		switch {
		case m.Has("volume") && m.Has("wet_mass"):
			m.Error("wet_mass", "the pile is measured already, by its volume", "keep one of volume and wet_mass")
			read(m, pileVolumeRows, &t)
		case m.Has("wet_mass"):
			read(m, pileMassRows, &t)
		default:
			read(m, pileVolumeRows, &t)
		}
		if r.ageOf(m, "tipped", t.date) > oldestPile && m.Good("tipped") {
			m.Error("tipped", "longer ago than any pile cures", "write the day on which it was put on the pad")
		}
		day.piles, day.pilesAt = append(day.piles, t), append(day.pilesAt, m)
	}
}

// ageOf returns how long before the start a date was, and refuses a later one.
func (r *reader) ageOf(m *yamlfile.Map, key string, d calendar.Date) sim.Duration {
	if !m.Good(key) || !r.root.Good("start") {
		return 0
	}
	days := d.DaysUntil(r.m.Start)
	if days < 0 {
		m.Error(key, "after the first day of the run, "+r.m.Start.String(), "write a day before it; what comes later is for the run to say")
		return 0
	}
	return sim.Duration(days) * sim.Day
}

// open makes the plant's opening of what was read. What nobody measures is that of the
// steady load, as `cycle` has it, with the recipe and the chips of the month: for a
// vessel that in which it was loaded, for a pile that in which its load must have been
// begun, for recovered chips and product that of the first day. Where the recipe is
// designed, it is that of mix.chips_to_cake. The cake held and the fresh chips are those
// of the first day's month. It stays the same where inputs are uncertain.
func (r *reader) open() {
	day := r.firstDay
	if day == nil {
		return
	}
	m := r.m
	out := &plant.Opening{HeldFor: day.oldest}
	month := m.Start.Month
	loop := recycle.New(m, month)
	out.Held = m.Cake.WithMoisture(1 - loop.CakeSolids).OfDry(day.held)
	fresh := m.Chips.Fresh.WithMoisture(m.Chips.Moisture[month-1])
	out.Fresh = fresh.OfWet(day.fresh * fresh.BulkDensity)
	first := m.AsClass(0) // whose loads the others' are much like, but for their size
	loads := steadyLoads{m: &first}
	if day.recovered > 0 || day.product > 0 {
		if s := loads.of(month); s != nil {
			out.Recovered = loads.cubicMetres(day.recovered, s.Split.Recovered)
			out.Product = loads.cubicMetres(day.product, s.Split.Product)
			if day.recovered > 0 && out.Recovered.Total() == 0 {
				day.group.Map("chips").Error("recovered", "the screen gives no chips back", "write 0 m3, or raise screen.recovery")
			}
		}
	}
	r.openVessels(&loads, out)
	r.openPad(&loads, out)
	if loads.err != nil {
		r.doc.ErrorAt(day.group.Position(), "opening: what is there cannot be worked out: "+loads.err.Error(), "leave out what is in vessels, on the pad, recovered or screened")
		return
	}
	m.Opening = out
}

func (r *reader) openVessels(loads *steadyLoads, out *plant.Opening) {
	ofClass := map[int]*steadyLoads{0: loads}
	begun := func(class int, age sim.Duration, cakeDry float64) (full float64) {
		days := int((age + sim.Day - sim.Second) / sim.Day)
		if ofClass[class] == nil {
			one := r.m.AsClass(class)
			ofClass[class] = &steadyLoads{m: &one}
		}
		s := ofClass[class].of(r.m.Start.AddDays(-days).Month)
		loads.err = cmp.Or(loads.err, ofClass[class].err)
		if s == nil {
			return math.Inf(1)
		}
		if full = s.Parts.Cake.Dry(); cakeDry == 0 {
			cakeDry = full
		}
		b := s.Begun(age, cakeDry)
		b.Class = class
		out.Vessels = append(out.Vessels, b)
		return full
	}
	for i := range r.firstDay.inUse {
		begun(0, r.m.Vessels.Residence*sim.Duration(2*i+1)/sim.Duration(2*r.firstDay.inUse), 0)
	}
	// A load of thick cake holds more of it than that of the month's mean.
	const over = 1.2
	for i, l := range r.firstDay.vessels {
		at := r.firstDay.vesselsAt[i]
		if full := begun(l.class, r.ageOf(at, "loaded", l.date), l.cakeDry); l.cakeDry > over*full {
			at.Error("cake_dry", "more cake than a vessel holds with the chips of the recipe", "write at most "+units.Format(over*full, units.Mass, r.units)+", or leave it out for a full load")
		}
	}
}

func (r *reader) openPad(loads *steadyLoads, out *plant.Opening) {
	taken, most := 0.0, (1+forgiven)*r.m.Curing.Capacity
	for i, t := range r.firstDay.piles {
		at := r.firstDay.pilesAt[i]
		age := r.ageOf(at, "tipped", t.date)
		begun := t.date.AddDays(-int(r.m.Vessels.Residence / sim.Day))
		pile := recycle.Pile{Age: age, Volume: t.volume, Wet: t.wet, Moisture: t.moisture}
		if at.Has("temperature") {
			pile.Warmth = &t.temperature
		}
		s := loads.of(begun.Month)
		if s == nil {
			return
		}
		lot := s.Lying(r.m, pile)
		out.Pad = append(out.Pad, lot)
		before := taken
		if taken += r.m.Bulk.VolumeOf(&lot.Lot); taken > most && before <= most {
			r.doc.ErrorAt(at.Position(), fmt.Sprintf("%s: with this pile %s lie on the pad, which holds %s", at.Path(),
				units.Format(taken, units.Volume, r.units), units.Format(r.m.Curing.Capacity, units.Volume, r.units)), "correct one of the two")
		}
	}
}

// steadyLoads are the steady loads of some months.
type steadyLoads struct {
	m       *plant.Model
	byMonth [12]*recycle.Steady
	err     error // the first
}

// of returns the steady load of a month, nil after an error.
func (l *steadyLoads) of(month time.Month) *recycle.Steady {
	if s := l.byMonth[month-1]; s != nil {
		return s
	}
	s, err := recycle.New(l.m, month).Steady(context.Background(), recycle.AsRun(l.m, month))
	if err != nil {
		l.err = cmp.Or(l.err, fmt.Errorf("the load of %v: %w", month, err))
		return nil
	}
	l.byMonth[month-1] = s
	return s
}

// cubicMetres returns so many m3 of a material.
func (l *steadyLoads) cubicMetres(m3 float64, q material.Parcel) material.Parcel {
	volume := l.m.Bulk.VolumeOf(&q)
	if volume <= 0 {
		return material.Parcel{}
	}
	return q.Times(m3 / volume)
}
