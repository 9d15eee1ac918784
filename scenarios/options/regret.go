package options

import (
	"math"

	doc "loamcast/scenarios/document"
)

// Regretted says whether a choice has a regret and, if not, why.
type Regretted int

// Where missing the target has no price, what misses it is no choice to regret
// another for, nor has it a regret of its own: it would look cheap.
const (
	Stated       Regretted = iota
	MissesTarget           // and another choice keeps it
	NothingKeeps           // the target, so that there is nothing to compare with
)

var regrettedNames = [...]string{"stated", "it misses the target", "nothing keeps the target"}

// String returns it in plain words.
func (r Regretted) String() string { return regrettedNames[r] }

// regrets compares the choices within each growth scenario: by how much each costs
// more than the cheapest of those that count there.
//
// The mean and the worst are over the growth scenarios in which any choice counts:
// in the others all are alike in missing the target. A choice that misses it where
// another keeps it has neither.
func (a *Answer) regrets() {
	for g := range a.Scenarios {
		best := math.Inf(1)
		for i := range a.Choices {
			if s := &a.Choices[i].Growths[g]; a.counts(s) {
				best = min(best, s.Present.Estimate)
			}
		}
		for i := range a.Choices {
			switch s := &a.Choices[i].Growths[g]; {
			case a.counts(s):
				s.Regretted, s.Regret = Stated, s.Present.Estimate-best
			case math.IsInf(best, 1):
				s.Regretted = NothingKeeps
			default:
				s.Regretted = MissesTarget
			}
		}
	}
	for i := range a.Choices {
		a.overall(&a.Choices[i])
	}
}

// counts reports whether a choice counts under a growth scenario: it keeps the
// target, or missing it has a price, which it pays.
func (a *Answer) counts(s *Summary) bool { return s.Keeps || a.Missing > 0 }

// overall sets the weighted mean and the worst of the regrets of a choice, if it has
// them.
func (a *Answer) overall(c *Choice) {
	c.Regretted = NothingKeeps
	mean, worst, weight := 0.0, 0.0, 0.0
	for g, growth := range a.Scenarios {
		switch s := &c.Growths[g]; s.Regretted {
		case NothingKeeps:
			continue
		case MissesTarget:
			c.Regretted = MissesTarget
			return
		case Stated:
			c.Regretted = Stated
			mean += growth.Weight * s.Regret
			worst = max(worst, s.Regret)
			weight += growth.Weight
		}
	}
	if c.Regretted == Stated {
		c.Regret, c.WorstRegret = mean/weight, worst
	}
}

// Unkept names the growth scenarios under which no choice has a regret, since none
// keeps the target and missing it has no price.
func (a *Answer) Unkept() []string {
	names := []string{}
	for g, growth := range a.Scenarios {
		if a.First().Growths[g].Regretted == NothingKeeps {
			names = append(names, growth.Name)
		}
	}
	return names
}

// regretOver says what regret is over.
func (a *Answer) regretOver() string {
	if a.Missing > 0 {
		return "the cheapest of all choices, with missing the target at its price"
	}
	return "the cheapest of the choices that keep the target"
}

// shown is a regret on the screen, or that the target is missed.
func (r Regretted) shown(usd float64) any {
	if r != Stated {
		return "misses"
	}
	return doc.Thousands(usd)
}

// filed is a regret in files, or nothing.
func (r Regretted) filed(usd float64) any {
	if r != Stated {
		return nil
	}
	return usd
}

// aboutRegret says where there is no regret and why, and what a price of missing
// leaves out.
func (a *Answer) aboutRegret() []doc.Text {
	if a.Missing > 0 {
		return a.unpriced()
	}
	var out []doc.Text
	switch names := a.Unkept(); len(names) {
	case 0:
	case len(a.Scenarios):
		return []doc.Text{doc.Words("No choice has a regret, for none keeps the target under any growth scenario; with money.missing, a price of missing it, all have.")}
	default:
		out = append(out, doc.Say("Under %s no choice keeps the target: there is no regret, and mean and worst are over the other growth scenarios.", quoted(names)))
	}
	if first := a.First(); first.Service.Keeps && first.Regretted == MissesTarget {
		var names []string
		for g, growth := range a.Scenarios {
			if first.Growths[g].Regretted == MissesTarget {
				names = append(names, growth.Name)
			}
		}
		out = append(out, doc.Say("The first keeps the target over all growth scenarios together, but not under %s alone, where another does: so it has no mean regret.", quoted(names)))
	}
	return out
}

// unpriced says, where missing has a price, in how many years it is for nothing.
func (a *Answer) unpriced() []doc.Text {
	var most *Choice
	for i := range a.Choices {
		if c := &a.Choices[i]; c.All.WaitedAlone > 0 && (most == nil || c.All.WaitedAlone > most.All.WaitedAlone) {
			most = c
		}
	}
	if most == nil {
		return nil
	}
	return []doc.Text{doc.Say("The price of missing the target is of what leaves untreated. Cake that only waits too long costs nothing more: so it is in %.2g of %d years with %s.",
		most.All.WaitedAlone, a.Horizon, most.name())}
}

// quoted lists names of the user's own.
func quoted(names []string) string {
	for i := range names {
		names[i] = "“" + doc.Printable(names[i]) + "”"
	}
	return doc.Listed(names)
}
