package plant

import (
	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// day is the midnight event: the books of the day that ends, then the
// production of the day that begins.
func (p *plant) day() {
	p.syncHolding()
	p.bookHeld()
	now := p.k.Now()
	date := p.dateNow()
	if now > 0 {
		p.takeProduct(int(date.AddDays(-1).Month))
		p.haulByContract()
	}
	p.followAir()
	if date.Day == 1 && now > 0 {
		p.closeMonth(date)
	}
	p.noteInstalled()
	p.watchTriggers()
	p.callContract()
	p.takeMedia()
	p.setProduction()
	p.bringOwnChips()
	p.orderChips()
	p.supplyAmendments()
	p.k.AtPriority(now.Add(sim.Day), sim.Early, "day", p.midnight)
	p.settle()
}

// setProduction draws what runs in today. Every day takes the same number of
// draws, whatever the plant does.
func (p *plant) setProduction() {
	f := &p.Feed
	date := p.dateNow()
	years, noise, thickness := atNoon(p.Start.DaysUntil(date)), p.noise.Next(), p.solidsNoise.Next()
	h, spell := &p.holding, p.spellOn(date)
	noise *= 1 + spell.Production
	if len(f.Sources) > 0 {
		cake := f.sent(&p.Cake, date, years, noise, thickness, spell)
		h.sources[0] = cake.Times(1 / float64(sim.Day))
	} else {
		dry := f.Expected(date, years)*f.weekdayFactor(date)*noise + f.pulse(date)
		cake := p.Cake
		cake.Moisture = 1 - min(mostSolids, spell.solids(f.CakeSolids[date.Month-1])*thickness)
		cake.OfDryTo(&h.sources[0], dry/float64(sim.Day))
	}
	for i := range p.Feedstocks {
		h.sources[i+1] = p.Feedstocks[i].Material.OfDry(p.Feedstocks[i].on(date) * p.feedstockNoise[i].Next() / float64(sim.Day))
	}
	h.inflow = material.Parcel{}
	for i := range h.sources {
		h.inflow.Mix(&h.sources[i])
	}
	h.rate = h.inflow.Dry()
}

// on returns the expected arrival on a date, kg dry.
func (f *Feedstock) on(d calendar.Date) float64 {
	return f.PerDay[d.Month-1] * f.Weekday[d.Weekday()] / mean(f.Weekday[:])
}
