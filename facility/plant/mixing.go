package plant

import (
	"math"
	"slices"

	"loamcast/facility/material"
	"loamcast/sim"
)

// batchPlan is how one vessel will be filled: equal batches of cake and chips.
type batchPlan struct {
	batches        int
	cakeDry        float64 // kg dry per batch
	chips          float64 // m3 per batch
	recoveredShare float64 // of the chips, by volume
	parts          []batchPart
}

// cakeForLoad returns the cake that the whole load takes, kg dry.
func (b *batchPlan) cakeForLoad() float64 { return b.cakeDry * float64(b.batches) }

// planLoad works out the largest load that volume and payload of a vessel of the class
// that is planned for allow, of the cake that is held and the chips that are on hand, and
// divides it into the fewest batches that volume and scale of the mixer allow. There is
// no plan when there is no cake and none comes.
func (p *plant) planLoad() (batchPlan, bool) {
	held := p.cakeToPlan().Matter()
	if held.Dry() <= 0 {
		return batchPlan{}, false
	}
	cake := held.Times(1 / p.Bulk.VolumeOfMatter(held)) // 1 m3
	fresh, recovered := p.chipsToPlan()
	load := p.blendAll(cake, fresh, recovered)
	n := p.Mixer.Batches(load.mass, load.volume)
	return batchPlan{
		batches:        int(n),
		cakeDry:        cake.Dry() * load.cake / n,
		chips:          p.chipsPerCake() * load.cake / n,
		recoveredShare: load.recoveredShare,
		parts:          p.planParts(load.cake, n),
	}, true
}

// loadSize is what fills a vessel: m3 of cake in it, the share of recovered chips among
// its chips, and its mass, kg, and volume, m3.
type loadSize struct{ cake, recoveredShare, mass, volume float64 }

// blend returns a full load of a mix of 1 m3 of cake, with as large a share of recovered
// chips, by volume, as is on hand: all of them, if the load takes them. That share depends
// on the size of the load, and the size on the share. The secant finds both in a few steps,
// as one is nearly linear in the other; a share that is not theirs would load a vessel past
// its payload.
func (p *plant) blend(cake material.Matter, fresh, recovered *pile) (load loadSize) {
	const (
		most  = 20
		close = 1e-12
	)
	ratio := p.chipsPerCake()
	one := fresh.perVolume()
	allFresh := cake.PlusTimes(one, ratio)
	other := recovered.perVolume().PlusTimes(one, -1).Times(ratio) // what the others have more
	recoveredShare := share(recovered.volume, fresh.volume+recovered.volume)
	var last, lastOff float64
	for n := range most {
		mix := allFresh.PlusTimes(other, recoveredShare)
		mass, volume := mix.Total(), p.Bulk.VolumeOfMatter(mix)
		scale := p.kinds[p.planned].loadsOf(mass, volume)
		load = loadSize{scale, recoveredShare, mass * scale, volume * scale}
		next := min(1, recovered.volume/(ratio*scale))
		if fresh.volume == 0 {
			next = 1
		}
		off := next - recoveredShare
		if math.Abs(off) <= close {
			break
		}
		if slope := (off - lastOff) / (recoveredShare - last); n > 0 && slope < 0 {
			next = min(max(recoveredShare-off/slope, 0), 1)
		}
		last, lastOff, recoveredShare = recoveredShare, off, next
	}
	return load
}

// Batches returns the fewest batches in which the scale and the volume of the mixer
// let a load of some mass, kg, and volume, m3, be made.
func (m Mixer) Batches(mass, volume float64) float64 {
	return math.Ceil(max(mass/m.Scale, volume/m.Volume) - 1e-9)
}

// chipsPerCake returns the ratio of loads begun now.
func (p *plant) chipsPerCake() float64 {
	if p.Recipe.ChipsByMonth == nil {
		return p.Recipe.ChipsPerCake
	}
	return p.Recipe.ChipsIn(p.monthNow())
}

// cakeToPlan returns the cake that is held or, when there is none, what runs in
// per second.
func (p *plant) cakeToPlan() *material.Parcel {
	if p.holding.dry > 0 {
		return &p.holding.parcel
	}
	return &p.holding.inflow
}

// chipsToPlan returns what lies in both chip piles or, when they are empty,
// chips as they would be delivered.
func (p *plant) chipsToPlan() (fresh, recovered *pile) {
	fresh, recovered = &p.chips.fresh, &p.chips.recovered
	if fresh.volume+recovered.volume <= 0 {
		delivered := *fresh
		one := p.freshChips(1)
		delivered.add(&one, &p.Bulk)
		fresh = &delivered
	}
	return fresh, recovered
}

func over(x float64) float64 {
	if x <= 0 {
		return 0
	}
	return 1 / x
}

// startLoading begins a new vessel with its first batch: when there is an empty
// one, enough cake and chips to make the start worth while, and when the batch can
// be mixed at once. A vessel that would only stand there, because the mixer is out
// of order or the loader elsewhere, is not in use yet.
//
// The need is that of the present load, planned anew whenever the plant settles:
// what the chips on hand leave room for changes from load to load.
func (p *plant) startLoading() bool {
	if p.loading != nil {
		return false
	}
	if p.collecting = p.farFromLoad(); p.collecting {
		if p.loadingPlaceFree() { // else nobody looks for cake
			p.alarms.cake.drop()
		}
		return false
	}
	plan, ok := p.planNext()
	p.next = plan
	if !ok || !p.loadingPlaceFree() || !p.cakeHeld(p.toStart(&plan)) || !p.open(p.Mixer.Hours, &p.alarms.mixer) {
		return false
	}
	if !p.vesselFree() {
		p.releaseEarly()
		return false
	}
	if !p.mayMix() || p.shortOf(&plan) {
		return false
	}
	plan.parts = slices.Clone(plan.parts)
	p.loading = p.newLoad(p.emptyVessel(), plan)
	return true
}

// toStart returns the cake that must be held before a vessel is begun, kg dry: at
// least that of its first batch. A full holding starts a vessel however small it
// is.
func (p *plant) toStart(plan *batchPlan) float64 {
	return min(max(p.Holding.StartWith*plan.cakeForLoad(), plan.cakeDry), fullHolding*p.Holding.Capacity)
}

// batchCake returns the cake of one batch, kg dry, or what a full holding gives.
func (p *plant) batchCake(plan *batchPlan) float64 {
	return min(plan.cakeDry, fullHolding*p.Holding.Capacity)
}

// batchChips returns the chips that go with that cake, m3.
func (p *plant) batchChips(plan *batchPlan) float64 {
	return plan.chips * p.batchCake(plan) / plan.cakeDry
}

// chipsFor reports whether there are chips for a batch.
func (p *plant) chipsFor(plan *batchPlan) bool {
	fresh, recovered := p.chipVolumes()
	return fresh+recovered >= p.batchChips(plan)
}

// cakeHeld reports whether dry kg of cake are held; if not, it sets the alarm to
// when they will be, if that is today: at midnight the plant settles anyway, and other
// cake runs in.
func (p *plant) cakeHeld(dry float64) bool {
	if !p.holding.lacks(dry) {
		return true
	}
	if wait, ok := p.holding.comesIn(dry, p.untilMidnight()); ok {
		p.alarms.cake.set(p.k.Now().Add(wait))
	} else {
		p.alarms.cake.drop()
	}
	return false
}

// fullHolding is the share of the holding's capacity that counts as full. It
// is just below 1, as a full store is approached and never passed.
const fullHolding = 0.999

// startBatch mixes the next batch for the vessel that is being loaded.
func (p *plant) startBatch() bool {
	l := p.loading
	if l == nil || !p.batchToBegin(l) || !p.mayMix() {
		return false
	}
	plan := &l.plan
	need := p.batchCake(plan)
	if !p.cakeHeld(need) || p.shortOf(plan) {
		return false
	}
	wanted := p.batchChips(plan)
	now := p.k.Now()
	m := &p.mixers
	m.cakeFor = m.free()
	m.inHand++
	u := &m.units[m.cakeFor]
	u.busy, u.since = true, now
	content := &u.content
	l.chips += p.takeChips(content, wanted, plan.recoveredShare)
	p.move(p.books.chipsToMixer, content, l.number)
	var cake material.Parcel
	p.takeCake(&cake, need)
	p.move(p.books.cakeToMixer, &cake, l.number)
	content.Mix(&cake)
	if plan.parts != nil {
		amendments := p.takeAmendments(plan, need/plan.cakeDry, l.number)
		content.Mix(&amendments)
	}
	p.stations.mixer.entered(now, 1)
	dry := cake.Dry()
	p.month.Mixing.CakeDry += dry
	l.cakeDry += dry
	l.cake.Mix(&cake.Fine)
	p.orderChips()
	p.holdCrew(Loaders, Operators)
	making := p.dewatering(dry)
	m.cakeMade = now.Add(making)
	takes := p.Mixer.BatchTime + making
	p.charge(takes, p.Mixer.Power)
	p.work(Mixers, takes, "batch mixed", u.mixed)
	return true
}

// batchMixed ends the batch in one of the mixers. Its load is the one that is being
// loaded: no vessel is closed while a batch of its load is in a mixer.
func (p *plant) batchMixed(unit int) {
	p.releaseCrew(Loaders, Operators)
	p.dischargeBatch(p.loading, unit)
	p.settle()
}

// mayMix reports whether a batch could be begun now, cake and chips aside.
func (p *plant) mayMix() bool {
	return !p.mixers.full() && p.open(p.Mixer.Hours, &p.alarms.mixer) && p.dewateringOn() && p.dewateringFree() && p.staffed() && p.mixerFree() && p.crewFree(Loaders, Operators)
}

// shortOf reports whether nothing but chips or amendments is missing for a batch.
func (p *plant) shortOf(plan *batchPlan) bool {
	chips := p.shortOfChips(plan)
	return plan.parts != nil && p.shortOfAmendments(plan) || chips
}

// shortOfChips reports whether nothing but chips is missing for a batch, and counts
// the hours for which that has been so.
func (p *plant) shortOfChips(plan *batchPlan) bool {
	short := !p.chipsFor(plan)
	p.month.Chips.HoursShort += p.hoursShort(short)
	return short
}

// dewateringOn reports whether cake can be made now.
func (p *plant) dewateringOn() bool {
	return p.Dewatering.Rate == 0 || p.open(p.Dewatering.Hours, &p.alarms.dewatering)
}

// dewatering returns how long it takes to make the cake of a batch; it stops
// when the scale says that the batch has its cake.
func (p *plant) dewatering(dry float64) sim.Duration {
	if p.Dewatering.Rate == 0 {
		return 0
	}
	return sim.DurationOf(dry / p.Dewatering.Rate * secondsPerHour)
}

// hoursShort returns the hours since the last look during which mixing has
// waited for chips, and notes whether it waits now.
func (p *plant) hoursShort(short bool) float64 {
	now := p.k.Now()
	hours := 0.0
	if p.chipsShort >= 0 {
		hours = now.Sub(p.chipsShort).Hours()
	}
	p.chipsShort = -1
	if short {
		p.chipsShort = now
	}
	return hours
}

// dischargeBatch empties one of the mixers into the vessel.
func (p *plant) dischargeBatch(l *load, unit int) {
	m := &p.mixers
	u := &m.units[unit]
	batch := &u.content
	now := p.k.Now()
	p.stations.mixer.left(now, 1, now.Sub(u.since))
	p.move(p.books.mixToVessel, batch, l.number)
	l.parcel.Mix(batch)
	l.batches++
	p.month.Mixing.Batches++
	p.month.Mixing.Wet += batch.Total()
	p.month.Mixing.Dry += batch.Dry()
	p.month.Mixing.Volume += p.Bulk.VolumeOf(batch)
	u.busy = false
	m.inHand--
	if unit == m.cakeFor {
		m.cakeMade = now
	}
	if l.batches == l.plan.batches || l.overdue && m.inHand == 0 {
		p.closeVessel(l)
		return
	}
	if l.batches == 1 {
		p.partFilled = append(p.partFilled, l.number)
		p.k.After(p.Vessels.PartFilled, "part-filled vessel", p.waitedFor)
	}
}

// partFilledDue ends the wait of the load whose first batch was mixed so long ago.
func (p *plant) partFilledDue() {
	number := p.partFilled[0] // all wait equally long
	p.partFilled = append(p.partFilled[:0], p.partFilled[1:]...)
	p.closePartFilled(number)
	p.settle()
}

// closePartFilled sends off a vessel that has waited too long for its next
// batch. Batches in the mixers still go in.
func (p *plant) closePartFilled(number uint64) {
	l := p.loading
	if l == nil || l.number != number {
		return
	}
	l.overdue = true
	if p.mixers.inHand == 0 {
		p.month.Loads.PartFilled++
		p.closeVessel(l)
	}
}

// open reports whether the hours are on now; if not, it sets the alarm to the
// next opening.
func (p *plant) open(hours workHours, a *alarm) bool {
	now := int64(p.k.Now())
	next := hours.NextOpen(now)
	if next == now {
		return true
	}
	a.set(sim.Time(next))
	return false
}

type workHours interface{ NextOpen(sec int64) int64 }
