package expand

import (
	"math"

	"loamcast/facility/plant"
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

// atMost returns the yearly load, kg dry, that a configuration carries at most, by
// screening.
func (k *lasting) atMost(config int) (float64, error) {
	most, err := k.leastCapacity(config)
	if err != nil {
		return 0, err
	}
	for _, c := range k.order {
		if !k.within(c, config) || k.last[c] >= k.years-1 {
			continue
		}
		gain, err := k.gain(c, config)
		if err != nil {
			return 0, err
		}
		most = min(most, k.fed[k.last[c]+1]*gain)
	}
	return most, nil
}

// leastCapacity is what the weakest stage sustains with what may leave untreated.
func (k *lasting) leastCapacity(config int) (float64, error) {
	least := math.Inf(1)
	if k.triggered {
		return least, nil // by arithmetic it is not known what comes
	}
	capacities, err := k.capacities(config)
	if err != nil {
		return 0, err
	}
	for _, c := range capacities {
		least = min(least, c.CakeDry)
	}
	return least * calendar.DaysPerYear * capacityMargin / (1 - k.limit), nil
}

// gain returns how many times the load that is too much for one configuration may
// be carried by another that contains it: as many as the stage that gains most
// carries, of those that can have been short. Buffers even out what no stage
// sustains, and what that gains is not known.
func (k *lasting) gain(less, more int) (float64, error) {
	for i, s := range k.steps {
		if k.count(more, i) > k.count(less, i) && (s.Holding > 0 || s.ProductStore > 0) {
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
	idle := idleMargin * k.busiest * k.fed[k.last[less]+1] / calendar.DaysPerYear
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
// simulated configuration misses first.
func (k *lasting) capacitiesShort(config int) ([]plant.Capacity, error) {
	if k.fails[config] == nil {
		p, err := k.plant(config)
		if err != nil {
			return nil, err
		}
		from := p.Start.AddYears(k.last[config] + 1)
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

// through returns the last year before the load first reaches some kg dry.
func (k *lasting) through(load float64) int {
	for y, fed := range k.fed {
		if fed >= load {
			return y - 1
		}
	}
	return k.years - 1
}
