package plant

import (
	"loamcast/facility/material"
	"loamcast/facility/screening"
	"loamcast/sim"
)

// screenState holds the lot on the screen, already split.
type screenState struct {
	busy  bool
	since sim.Time
	load  *load
	split screening.Split
}

func (s screenState) content() material.Parcel {
	return s.split.Product.Plus(s.split.Recovered).Plus(s.split.Rejects)
}

// startScreening puts the oldest lot that is ready on the screen: a cured one,
// when the product store will take what comes off it, or, where screening comes
// first, one just tipped out.
func (p *plant) startScreening() bool {
	now := p.k.Now()
	if p.screen.busy || !p.Screening.First && p.pad.cured.after(now) {
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
	if !p.open(p.Screening.Hours, &p.alarms.screen) || !p.staffed() || !p.crewFree(Screens, Loaders, Operators) {
		return false
	}
	l := (*queue)[next]
	if p.Screening.First {
		p.advanceRaw(l)
	} else {
		p.advance(l, p.books.padAir)
	}
	split := screening.Screen(l.parcel, p.Screening.Settings)
	if !p.Screening.First && !p.productTakes(split.Product) {
		p.product.blocked = true // until product is next taken
		return false
	}

	p.endWait(l)
	if !p.Screening.First {
		p.month.Curing.Days += now.Sub(l.began).Days()
	}
	*queue = p.leavePad(*queue, next)
	p.move(p.books.padToScreen, &l.parcel, l.number)
	p.screen = screenState{busy: true, since: now, load: l, split: split}
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
	p.work(Screens, takes, "lot screened", p.screened)
	return true
}

// lotScreened ends the screening of a lot.
func (p *plant) lotScreened() {
	p.releaseCrew(Loaders, Operators)
	p.emptyScreen()
	p.settle()
}

// emptyScreen sends the screen's streams where they belong. The recovered
// chips are the very chips that came back, with their composition.
func (p *plant) emptyScreen() {
	s, l := p.screen.split, p.screen.load
	now := p.k.Now()
	back := p.Bulk.Volume(s.Recovered)
	p.month.Chips.Recovered += back
	p.month.Chips.Lost += l.chips - back
	p.stations.screen.left(now, 1, now.Sub(p.screen.since))
	p.screen = screenState{}
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
