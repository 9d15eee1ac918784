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
	queue := &p.pad.lots
	if p.Screening.First {
		queue = &p.pad.raw
	}
	if p.screen.busy || len(*queue) == 0 || (*queue)[0].ready > now {
		return false
	}
	if !p.Screening.First && p.product.blocked {
		return false
	}
	if !p.open(p.Screening.Hours, &p.alarms.screen) || !p.staffed() || !p.crewFree(TheScreen, TheLoaders, TheOperators) {
		return false
	}
	l := (*queue)[0]
	if !p.Screening.First {
		p.advance(l, p.books.padAir)
	}
	split := screening.Screen(l.parcel, p.Screening.Settings)
	if !p.Screening.First && !p.productTakes(split.Product) {
		p.product.blocked = true // until product is next taken
		return false
	}

	p.endWait(l)
	if !p.Screening.First {
		p.month.CuringDays += now.Sub(l.began).Days()
	}
	*queue = p.leavePad(*queue)
	p.move(p.books.padToScreen, l.parcel, l.number)
	p.screen = screenState{busy: true, since: now, load: l, split: split}
	p.stations.screen.entered(now, 1)
	p.month.Screened++
	p.month.ScreenedMoisture += l.parcel.Moisture()

	hours := p.Bulk.Volume(l.parcel) / p.Screening.Settings.Throughput(l.parcel.Moisture())
	p.month.ScreenHours += hours
	p.month.ScreenWork += hours * p.Screening.Settings.Capacity
	p.month.ScreenedCakeDry += l.cakeDry
	p.holdCrew(TheLoaders, TheOperators)
	takes := sim.DurationOf(hours * secondsPerHour)
	p.charge(takes, p.Screening.Power)
	p.work(TheScreen, takes, "lot screened", func() {
		p.releaseCrew(TheLoaders, TheOperators)
		p.emptyScreen()
		p.settle()
	})
	return true
}

// emptyScreen sends the screen's streams where they belong. The recovered
// chips are the very chips that came back, with their composition.
func (p *plant) emptyScreen() {
	s, l := p.screen.split, p.screen.load
	now := p.k.Now()
	p.stations.screen.left(now, 1, now.Sub(p.screen.since))
	p.screen = screenState{}
	p.move(p.books.toChips, s.Recovered, l.number)
	p.move(p.books.reject, s.Rejects, l.number)
	p.chips.recovered.add(s.Recovered, &p.Bulk)
	p.stations.recovered.put(now, s.Recovered.Dry())
	if p.Screening.First {
		p.move(p.books.screenToPad, s.Product, l.number)
		p.cureScreened(l, s.Product)
	} else {
		p.move(p.books.toProduct, s.Product, l.number)
		p.storeProduct(l, s.Product)
	}

	p.month.ChipsRecovered += p.Bulk.Volume(s.Recovered)
	p.month.ChipsRecoveredDry += s.Recovered.Dry()
	p.month.CoarseRecovered += s.Recovered.Coarse.Dry()
	p.month.CoarseScreened += s.CoarseScreened()
	p.month.RejectsWet += s.Rejects.Total()
	p.month.RejectsDry += s.Rejects.Dry()
}
