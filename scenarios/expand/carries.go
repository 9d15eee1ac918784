package expand

import (
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
)

// Margins by which screening errs on the long side: of what a stage sustains by
// arithmetic; of what a plant gains by what a stage gains; and of what a stage
// could carry, over what came in on a day of the busiest month, if it was not what
// was short.
const (
	capacityMargin = 1.05
	gainMargin     = 1.03
	idleMargin     = 1.6
)

// ceiling is the last year that a configuration keeps at most, by arithmetic and by
// the first of the configurations that were looked at.
type ceiling struct{ most, known int }

// atMost returns the last year that a configuration keeps at most, by screening.
func (k *lasting) atMost(config int) (int, error) {
	s := k.ceilings[config]
	if s == nil {
		most, err := k.byArithmetic(config)
		if err != nil {
			return 0, err
		}
		s = &ceiling{most: most}
		k.ceilings[config] = s
	}
	for ; s.known < len(k.bases); s.known++ {
		c := k.bases[s.known]
		if c == config || !k.within(c, config) || k.lastBy(c) >= k.years-1 {
			continue
		}
		gain, err := k.gain(c, config)
		if err != nil {
			return 0, err
		}
		s.most = min(s.most, k.with(c, gain))
	}
	return s.most, nil
}

// with returns the last year that a configuration that was looked at would keep at most if it
// carried so many times as much.
func (k *lasting) with(config int, gain float64) int {
	if math.IsInf(gain, 1) || k.found[config] == nil || slices.ContainsFunc(k.found[config], whateverComes) {
		return k.years - 1
	}
	for year := k.lastBy(config) + 1; year < k.years; year++ { // those before are kept
		kept := false
		for i, s := range k.found[config] {
			from, to := float64(year*capability.Quarters), float64((year+1)*capability.Quarters)
			if s.After >= to || i+1 < len(k.found[config]) && k.found[config][i+1].After <= from {
				continue // not in this year
			}
			kept = kept || gain >= k.needed(s.Capability, year)
		}
		if !kept {
			return year - 1
		}
	}
	return k.years - 1
}

// whateverComes reports whether some runs miss whatever comes in: then it is not known what
// another configuration gains by carrying more.
func whateverComes(s capability.Stage) bool { return s.Curve != nil && s.Curve.Background > 0 }

// needed is how many times as much, 1 or more, must be carried for no more of the runs to
// miss a year than may. It is worked out once, since it is asked for with every gain.
func (k *lasting) needed(c *capability.Capability, year int) float64 {
	at := carriedIn{c, year}
	if known, ok := k.times[at]; ok {
		return known
	}
	enough := func(gain float64) bool { return k.share(c, gain, year) <= k.target.MissShare+capability.Rounding }
	low, high := 1.0, 1.0
	for !enough(high) {
		low, high = high, 2*high
	}
	const halvings = 40
	for range halvings {
		if low == high {
			break
		}
		if by := (low + high) / 2; enough(by) {
			high = by
		} else {
			low = by
		}
	}
	k.times[at] = high
	return high
}

// carriedIn is what is carried in a year.
type carriedIn struct {
	*capability.Capability
	year int
}

// share is that of the runs that miss a year where so many times as much is carried.
func (k *lasting) share(c *capability.Capability, gain float64, year int) float64 {
	if c.Curve == nil {
		return 0
	}
	curve, sum := c.Curve.Scaled(gain), 0.0
	for i, g := range k.growths.places {
		sum += k.growths.weights[i] * k.states.Demand(g).Share(curve, year)
	}
	return sum
}

// byArithmetic returns the last year in which the weakest stage sustains what comes,
// less what may leave untreated and what a contract takes, in as many futures as the
// target asks for.
func (k *lasting) byArithmetic(config int) (int, error) {
	if k.triggered {
		return k.years - 1, nil // by arithmetic it is not known what comes
	}
	capacities, err := k.capacities(config)
	if err != nil {
		return 0, err
	}
	least := math.Inf(1)
	for _, c := range capacities {
		least = min(least, c.CakeDry)
	}
	contract, err := k.takes(config)
	if err != nil {
		return 0, err
	}
	least = least*capacityMargin/(1-k.target.DivertedLimit) + contract*capacityMargin
	for year := range k.years {
		if k.above(year, least) > k.target.MissShare+capability.Rounding {
			return year - 1, nil
		}
	}
	return k.years - 1, nil
}

// takes is the most that the contract of a configuration takes at any time, kg dry per
// day.
func (k *lasting) takes(config int) (float64, error) {
	p, err := k.plant(config)
	if err != nil {
		return 0, err
	}
	most := 0.0
	for _, day := range k.days {
		then := p.AsOf(day)
		most = max(most, then.ContractTakes())
	}
	return most, nil
}

// above is the share of futures in which a year brings more than so many kg dry per
// day.
func (k *lasting) above(year int, load float64) float64 {
	sum := 0.0
	for i, g := range k.growths.places {
		demand := k.states.Demand(g)[year].Loads
		for _, cake := range demand {
			if cake+k.hauled > load {
				sum += k.growths.weights[i] / float64(len(demand))
			}
		}
	}
	return sum
}

// gain returns how many times the load that is too much for one configuration may
// be carried by another that contains it: as many as the stage that gains most
// carries, of those that can have been short. Buffers even out what no stage
// sustains, and a contract takes what none does: what they gain is not known.
func (k *lasting) gain(less, more int) (float64, error) {
	for i, s := range k.steps {
		if k.count(more, i) > k.count(less, i) && (s.Holding > 0 || s.ProductStore > 0 || s.Contract.On()) {
			return math.Inf(1), nil
		}
	}
	before, err := k.capacitiesShort(less)
	if err != nil {
		return 0, err
	}
	after, err := k.capacities(more)
	if err != nil {
		return 0, err
	}
	idle := idleMargin * k.busiest * k.fed[k.lastBy(less)+1] / calendar.DaysPerYear
	gain := 1.0
	for _, b := range before {
		for _, a := range after {
			if a.Stage == b.Stage && a.CakeDry > b.CakeDry && b.CakeDry < idle {
				gain = max(gain, a.CakeDry/b.CakeDry*gainMargin)
			}
		}
	}
	return gain, nil
}

// capacities are the most that each stage of a configuration sustains at any time,
// whatever the file itself changes.
func (k *lasting) capacities(config int) ([]plant.Capacity, error) {
	if k.sustain[config] == nil {
		p, err := k.plant(config)
		if err != nil {
			return nil, err
		}
		k.sustain[config] = p.Capacities(k.days[0], k.needsOf(config))
		for _, day := range k.days[1:] {
			k.sustain[config] = both(k.sustain[config], p.Capacities(day, k.needsOf(config)), math.Max)
		}
	}
	return k.sustain[config], nil
}

// capacitiesShort are the least that each stage sustains in the year that a
// configuration that was looked at misses first.
func (k *lasting) capacitiesShort(config int) ([]plant.Capacity, error) {
	if k.fails[config] == nil {
		p, err := k.plant(config)
		if err != nil {
			return nil, err
		}
		from := p.Start.AddYears(k.lastBy(config) + 1)
		k.fails[config] = both(p.Capacities(from, k.needsOf(config)), p.Capacities(from.AddYears(1).AddDays(-1), k.needsOf(config)), math.Min)
	}
	return k.fails[config], nil
}

// both picks one of two capacities of each stage that is limited in both.
func both(a, b []plant.Capacity, pick func(a, b float64) float64) []plant.Capacity {
	var out []plant.Capacity
	for _, c := range a {
		for _, d := range b {
			if c.Stage == d.Stage {
				out = append(out, plant.Capacity{Stage: c.Stage, CakeDry: pick(c.CakeDry, d.CakeDry)})
			}
		}
	}
	return out
}

// changed returns the first day, and the days from which on the dated changes of a
// plant are in force.
func changed(p *plant.Plant) []calendar.Date {
	days := []calendar.Date{p.Start}
	for _, c := range p.Changes {
		if !c.Trigger.Waits() {
			days = append(days, c.Lead.After(c.Date))
		}
	}
	return days
}

// needsOf returns the needs of the mix of a configuration: thicker cake changes
// them by as much each time.
func (k *lasting) needsOf(config int) plant.Needs {
	base := k.needs[0]
	n := base
	for i, s := range k.steps {
		if s.CakeSolids == 0 {
			continue
		}
		with := k.needs[i+1]
		for range k.count(config, i) {
			n.Payload *= ratio(with.Payload, base.Payload)
			n.Volume *= ratio(with.Volume, base.Volume)
			n.Pad *= ratio(with.Pad, base.Pad)
			n.Screen *= ratio(with.Screen, base.Screen)
			n.Product *= ratio(with.Product, base.Product)
			n.Chips *= ratio(with.Chips, base.Chips)
		}
	}
	return n
}

func ratio(a, b float64) float64 {
	if b == 0 {
		return 1
	}
	return a / b
}
