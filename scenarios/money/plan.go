package money

// Plan is all that one option costs and brings over its horizon.
type Plan struct {
	Rates  Rates
	Prices Prices
	Assets []Asset
	Years  []Use // one for each year of the horizon
}

// Flows returns all flows of the plan, assets first, then year by year.
func (p Plan) Flows() []Flow {
	var out []Flow
	for _, a := range p.Assets {
		out = append(out, a.Flows(len(p.Years), p.Rates.Timing)...)
	}
	for year, u := range p.Years {
		out = append(out, p.Prices.flows(year, u, p.Rates.Timing)...)
	}
	return out
}

// Cost is what a plan costs in constant money of the stated year; what it brings
// is negative.
type Cost struct {
	Present float64 // USD, at the start of the plan
	Annual  float64 // USD per year, the same in each year
	PerDry  float64 // USD per kg dry solids
	ByPart  Amounts // of Present
}

// Cost returns present worth, equivalent annual cost and levelised cost. The
// levelised cost is the price per dry mass, the same in each year, whose present
// worth is that of the plan: present worth over dry solids discounted alike.
func (p Plan) Cost() Cost {
	var c Cost
	for part, worth := range p.Rates.ByPart(p.Flows()) {
		c.ByPart[part] = -worth
	}
	c.Present = c.ByPart.Total()
	c.Annual = c.Present / p.Rates.Annuity(len(p.Years))
	c.PerDry = c.Present / p.discountedDry()
	return c
}

// discountedDry returns the dry solids of all years, each discounted like
// running costs, kg.
func (p Plan) discountedDry() float64 {
	discount, sum := p.Rates.RealDiscount(), 0.0
	for year, u := range p.Years {
		sum += u.Dry * grow(discount, -p.Rates.Timing.Instant(year))
	}
	return sum
}
