package plant

// Which vessel is loaded next, where there are several classes: of the empty ones one of
// the class with the largest load that the cake held begins (toStart); where it begins
// none, the one with the smallest load waits for cake. Of equal loads the class that is
// named first goes first. The size of a load is the cake in it, which depends on the
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
	for class := range p.kinds {
		if !p.choosable(class) {
			continue
		}
		p.planned = class
		plan, ok := p.planLoad()
		if !ok {
			return plan, false
		}
		wait, ok := p.untilHeld(p.toStart(&plan))
		cake, enough := plan.cakeForLoad(), ok && wait == 0
		switch {
		case best < 0, enough && !held, enough && cake > bestCake, !enough && !held && cake < bestCake:
			best, bestCake, held = class, cake, enough
		}
	}
	p.planned = best
	return p.planLoad()
}

// choosable reports whether a class is to be considered: one with an empty vessel or,
// where no vessel is empty, one of which there are vessels, or which an unlimited plant
// has more of.
func (p *plant) choosable(class int) bool {
	if p.vesselsEmpty() {
		return p.hasVessel(class, true)
	}
	if p.Vessels.Unlimited {
		return class == p.Vessels.Extra
	}
	return len(p.vessels) == 0 || p.hasVessel(class, false)
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

// hasVessel reports whether there is a vessel of a class, an empty one if that is asked.
func (p *plant) hasVessel(class int, empty bool) bool {
	for i := range p.vessels {
		if v := &p.vessels[i]; v.class == class && (!empty || v.state == vesselEmpty) {
			return true
		}
	}
	return false
}
