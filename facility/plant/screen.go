package plant

import (
	"loamcast/facility/material"
	"loamcast/facility/screening"
	"loamcast/sim"
)

// startScreening puts the oldest lot that is ready on a screen: a cured one,
// when the product store will take what comes off it, or, where screening comes
// first, one just tipped out.
func (p *plant) startScreening() bool {
	now := p.k.Now()
	if p.screens.full() || !p.Screening.First && p.pad.cured.after(now) {
		return false
	}
	queue := &p.pad.lots
	if p.Screening.First {
		queue = &p.pad.raw
	}
	next := p.nextForScreen(*queue)
	if len(*queue) == 0 || (*queue)[next].ready > now {
		return false
	}
	if !p.Screening.First && p.product.blocked {
		return false
	}
	if !p.open(p.Screening.Hours, &p.alarms.screen) || !p.staffed() || !p.screenFree() || !p.crewFree(Loaders, Operators) {
		return false
	}
	l := (*queue)[next]
	if p.Screening.First {
		p.advanceRaw(l)
	} else {
		p.advance(l, p.books.padAir)
	}
	u := &p.screens.units[p.screens.free()]
	u.split = screening.Screen(l.parcel, p.Screening.Settings)
	if !p.Screening.First && !p.productTakes(u.split.Product) {
		p.product.blocked = true // until product is next taken
		return false
	}

	p.endWait(l)
	if !p.Screening.First {
		p.month.Curing.Days += now.Sub(l.began).Days()
	}
	*queue = p.leavePad(*queue, next)
	p.move(p.books.padToScreen, &l.parcel, l.number)
	u.busy, u.since, u.load = true, now, l
	p.screens.inHand++
	p.stations.screen.entered(now, 1)
	p.month.Screen.Lots++
	p.month.Screen.Moisture += l.parcel.Moisture()
	p.measureWet(l)

	hours := p.Bulk.VolumeOf(&l.parcel) / p.Screening.Settings.Throughput(l.parcel.Moisture())
	p.month.Screen.Hours += hours
	p.month.Screen.Work += hours * p.Screening.Settings.Capacity
	p.month.Screen.CakeDry += l.cakeDry
	p.holdCrew(Loaders, Operators)
	takes := sim.DurationOf(hours * secondsPerHour)
	p.charge(takes, p.Screening.Power)
	p.work(Screens, takes, "lot screened", u.screened)
	return true
}

// lotScreened ends the screening of the lot on one of the screens.
func (p *plant) lotScreened(unit int) {
	p.releaseCrew(Loaders, Operators)
	p.emptyScreen(unit)
	p.settle()
}

// emptyScreen sends the screen's streams where they belong. The recovered
// chips are the very chips that came back, with their composition.
func (p *plant) emptyScreen(unit int) {
	u := &p.screens.units[unit]
	s, l := &u.split, u.load
	now := p.k.Now()
	back := p.Bulk.VolumeOf(&s.Recovered)
	p.month.Chips.Recovered += back
	p.month.Chips.Lost += l.chips - back
	p.stations.screen.left(now, 1, now.Sub(u.since))
	u.busy, u.load = false, nil
	p.screens.inHand--
	p.move(p.books.toChips, &s.Recovered, l.number)
	p.move(p.books.reject, &s.Rejects, l.number)
	if water := p.rain(&s.Recovered); water > 0 {
		p.book(p.books.rain, material.Components{Water: water, Total: water}, l.number)
	}
	p.chips.recovered.add(&s.Recovered, &p.Bulk)
	p.stations.recovered.put(now, s.Recovered.Dry())
	if p.Screening.First {
		p.move(p.books.screenToPad, &s.Product, l.number)
		p.cureScreened(l, s.Product)
	} else {
		p.move(p.books.toProduct, &s.Product, l.number)
		p.storeProduct(l, s.Product)
		p.discard(l)
	}

	p.month.Chips.RecoveredDry += s.Recovered.Dry()
	p.month.Screen.CoarseRecovered += s.Recovered.Coarse.Dry()
	p.month.Screen.CoarseFed += s.CoarseScreened()
	p.month.Screen.RejectsWet += s.Rejects.Total()
	p.month.Screen.RejectsDry += s.Rejects.Dry()
}
