package plant

import (
	"loamcast/sim"
)

// day is the midnight event: the books of the day that ends, then the
// production of the day that begins.
func (p *plant) day() {
	p.syncHolding()
	now := p.k.Now()
	date := p.k.Clock().DateOf(int64(now))
	if now > 0 {
		p.takeProduct(int(date.AddDays(-1).Month))
	}
	if date.Day == 1 && now > 0 {
		p.closeMonth(date)
	}
	p.setProduction()
	p.outlookStale = true
	p.orderChips()
	p.k.AtPriority(now.Add(sim.Day), sim.Early, "day", p.day)
	p.settle()
}

// setProduction draws today's cake. Every day takes the same number of draws,
// whatever the plant does.
func (p *plant) setProduction() {
	f := &p.Feed
	date := p.k.Clock().DateOf(int64(p.k.Now()))
	years := float64(p.Start.DaysUntil(date)) / daysPerYear
	dry := f.Expected(date, years) * f.weekdayFactor(date) * p.noise.Next()
	solids := min(0.6, f.CakeSolids[date.Month-1]*p.solidsNoise.Next())
	cake := p.Cake
	cake.Moisture = 1 - solids
	p.holding.inflow = cake.OfDry(dry / float64(sim.Day))
}

// daysPerYear is the mean length of a calendar year.
const daysPerYear = 365.25
