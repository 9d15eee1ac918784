package expand

import (
	"slices"

	"loamcast/scenarios/capability"
)

// rivals fills in by how many of the capabilities that are as likely a plan is the cheapest
// that keeps the target, and which cheaper plan is most often. What costs no less than to
// within what does not matter is not cheaper, nor is what differs in years of which nothing
// is decided yet.
func (e *expansion) rivals(d *Doubt, first path, through int, alike float64) {
	kept := e.orAbout()
	type rival struct {
		path
		first int // of the capabilities
	}
	var cheaper []rival
	keeps, stays := 0, 0
	for likely := 1; likely <= capability.Resamples; likely++ {
		held := holds(first, kept, likely)
		if held {
			keeps++
		}
		plan, ok := e.cheapest(kept, likely, false, through)
		switch {
		case !ok || plan.cost >= first.cost-alike || e.same(plan, first):
			if held {
				stays++
			}
		default:
			i := slices.IndexFunc(cheaper, func(r rival) bool { return e.same(r.path, plan) })
			if i < 0 {
				i, cheaper = len(cheaper), append(cheaper, rival{path: plan})
			}
			cheaper[i].first++
		}
	}
	d.Keeps, d.Stays = float64(keeps)/capability.Resamples, float64(stays)/capability.Resamples
	if len(cheaper) == 0 {
		return
	}
	most := slices.MaxFunc(cheaper, func(a, b rival) int { return a.first - b.first })
	d.Rival = &Rival{Steps: e.stepsTaken(most.path), Less: first.cost - most.cost}
	for likely := 1; likely <= capability.Resamples; likely++ {
		if holds(most.path, kept, likely) {
			d.Rival.Keeps += 1.0 / capability.Resamples
		}
	}
}

// holds reports whether a plan keeps the target by one of the capabilities.
func holds(p path, kept []*endurance, likely int) bool {
	for year, c := range p.configs {
		if kept[c] == nil || kept[c].last(likely, false) < year {
			return false
		}
	}
	return true
}

// same reports whether two plans are one but for the tail.
func (e *expansion) same(a, b path) bool {
	decided := e.years - int(tail*float64(e.years))
	return slices.Equal(a.configs[:min(decided, len(a.configs))], b.configs[:min(decided, len(b.configs))])
}
