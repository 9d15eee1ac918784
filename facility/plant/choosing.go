package plant

import "slices"

// Which vessel is loaded next, where there are several classes: of the empty ones one of
// the class with the largest load that the cake held begins (toStart); where it begins
// none, the one with the smallest load waits for cake. Of equal loads the vessel with the
// lowest number goes first. The size of a load is the cake in it, which depends on the
// chips on hand, so that all are planned whenever the plant settles.
//
// Small vessels so take cake that would have to wait for a large one, and large ones are
// used when more is held: after a weekend, or when vessels are short.

// planNext plans the load of the vessel that is loaded next, and chooses its class.
func (p *plant) planNext() (batchPlan, bool) {
	if len(p.kinds) == 1 {
		return p.planLoad()
	}
	best, bestCake, held := -1, 0.0, false
	for _, class := range p.choosable() {
		p.planned = class
		plan, ok := p.planLoad()
		if !ok {
			return plan, false
		}
		cake, enough := plan.cakeForLoad(), !p.holding.lacks(p.toStart(&plan))
		switch {
		case best < 0, enough && !held, enough && cake > bestCake, !enough && !held && cake < bestCake:
			best, bestCake, held = class, cake, enough
		}
	}
	p.planned = best
	return p.planLoad()
}

// choosable returns the classes that are to be considered, each once, that of the vessel
// with the lowest number first: those with an empty vessel or, where no vessel is empty,
// those of which there are vessels, or which an unlimited plant has more of.
func (p *plant) choosable() []int {
	p.choices = p.choices[:0]
	empty := p.vesselsEmpty()
	if !empty && p.Vessels.Unlimited {
		return append(p.choices, p.Vessels.Extra)
	}
	for i := range p.vessels {
		if v := &p.vessels[i]; (v.state == vesselEmpty || !empty) && !slices.Contains(p.choices, v.class) {
			p.choices = append(p.choices, v.class)
		}
	}
	if len(p.vessels) == 0 {
		p.choices = append(p.choices, p.Vessels.Extra)
	}
	return p.choices
}

// vesselsEmpty reports whether any vessel is empty.
func (p *plant) vesselsEmpty() bool {
	for i := range p.vessels {
		if p.vessels[i].state == vesselEmpty {
			return true
		}
	}
	return false
}
