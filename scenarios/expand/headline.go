package expand

import (
	"fmt"
	"slices"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
)

// Headline is the answer in words that can be repeated.
func (a *Answer) Headline() doc.Text {
	first := &a.Plans[0]
	return a.cheapest().Then("%s", costs.ByContract(first.Contract, first.ContractShare))
}

// cheapest says what the cheapest plan is.
func (a *Answer) cheapest() doc.Text {
	first, last := &a.Plans[0], a.Label(a.Horizon-1)
	switch {
	case !a.Keeps():
		return a.furthest()
	case len(first.Steps) == 0:
		return doc.Say("Nothing need be built: the plant as it is keeps the service target in every year through %s.%s%s", last, a.open(), a.next())
	case a.AsItIs():
		pay := "pay"
		if len(first.Steps) == 1 {
			pay = "pays"
		}
		return doc.Say("The plant as it is keeps the service target in every year through %s, but %s %s itself back: %s.%s%s",
			last, first.InWords(), pay, a.worth(first), a.open(), a.next())
	}
	return doc.Say("The cheapest plan that keeps the service target in every year through %s is %s: %s.%s%s",
		last, first.InWords(), a.worth(first), a.open(), a.next())
}

// open says that the first plan has not been shown to keep the target, if so.
func (a *Answer) open() doc.Text {
	p := &a.Plans[0]
	if p.Sure() {
		return doc.Text{}
	}
	return doc.Say(" That it keeps the target is open: %s miss it in %s.", a.missing(p), a.Label(p.Worst))
}

// missing is how many runs miss the worst year of a plan.
func (a *Answer) missing(p *Plan) doc.Text {
	if a.ByRuns != "" {
		return doc.Say("%d of %d runs", p.Missed[p.Worst], p.Replications)
	}
	return doc.Say("%s of runs (%s to %s)", doc.With(p.Share.Estimate, doc.Share, 1), doc.Fixed(p.Share.Low, doc.Share, 1), doc.With(p.Share.High, doc.Share, 1))
}

// missingShort is the same for the table, in less room where that has a column more.
func (a *Answer) missingShort(p *Plan) doc.Text {
	if a.ByRuns != "" || !a.Contracts {
		return a.missing(p)
	}
	return doc.Say("%s (%s–%s)", doc.With(p.Share.Estimate, doc.Share, 1), doc.Fixed(p.Share.Low, doc.Share, 1), doc.Fixed(p.Share.High, doc.Share, 1))
}

// furthest is the answer where the catalogue has no plan that keeps the target.
func (a *Answer) furthest() doc.Text {
	first := &a.Plans[0]
	text := doc.Say("No plan of the catalogue keeps the service target through %s. ", a.Label(a.Horizon-1))
	switch {
	case a.Through < 0:
		text = text.Then("It is missed in the first year, whatever is built at once")
	case len(first.Steps) == 0:
		text = text.Then("The plant as it is keeps it through %s, and no step makes it last longer", a.Label(a.Through))
	default:
		text = text.Then("What comes furthest is %s, which keeps it through %s: %s", first.InWords(), a.Label(a.Through), a.worth(first))
	}
	return text.Then(". What is short then is %s.", a.Short)
}

// worth says what a plan costs.
func (a *Answer) worth(p *Plan) doc.Text {
	text := doc.Say("%s in present worth with the running of the plant", doc.AmountOf(p.Present.Estimate).Of(a.Stated))
	if p.High > p.Low {
		text = text.Then(" (%s in 8 of 10 runs)", doc.AmountRange(p.Low, p.High, p.Present.Estimate))
	}
	if build := p.Build(); build > 0 {
		text = text.Then(", %s of it for building", doc.AmountOf(build))
	}
	return text
}

// next says what the next best costs more.
func (a *Answer) next() doc.Text {
	if len(a.Plans) < 2 {
		return doc.Text{}
	}
	p := &a.Plans[1]
	d := p.OverFirst
	if d.Estimate < 0 { // found by what was looked at for this answer alone
		return doc.Say(" The next, %s, costs %s less by its runs (%s, 95"+doc.NoBreak+"%% interval), which the search did not expect: it may be the cheapest.", p.InWords(),
			doc.AmountOf(-d.Estimate), doc.AmountRange(-d.High, -d.Low, -d.Estimate))
	}
	return doc.Say(" The next best, %s, costs %s more (%s, 95"+doc.NoBreak+"%% interval).", p.InWords(),
		doc.AmountOf(d.Estimate), doc.AmountRange(d.Low, d.High, d.Estimate))
}

// InWords lists the steps of a plan with their years, those that are no decision yet
// apart.
func (p *Plan) InWords() doc.Text {
	var now, later []Step
	for _, s := range p.Steps {
		if s.Later {
			later = append(later, s)
		} else {
			now = append(now, s)
		}
	}
	text := listed(now)
	if len(later) > 0 {
		text = text.Then(" (and, no decision yet, %s)", listed(later))
	}
	return text
}

// listed lists steps with their years.
func listed(steps []Step) doc.Text {
	if len(steps) == 0 {
		return doc.Words("building nothing")
	}
	var parts []doc.Text
	for _, name := range names(steps) {
		var years []string
		for _, s := range steps {
			if s.Name != name {
				continue
			}
			text := fmt.Sprint(s.InService.Year)
			if s.Count > 1 {
				text += fmt.Sprintf(" (%d of them)", s.Count)
			}
			years = append(years, text)
		}
		parts = append(parts, doc.Say("“%s” in %s", stepName(name), doc.Listed(years)))
	}
	last := len(parts) - 1
	if last == 0 {
		return parts[0]
	}
	return doc.Say("%s, and %s", doc.Join(", ", parts[:last]...), parts[last])
}

// stepName is the name of a step as text has room for.
func stepName(name string) string { return doc.Name(name, 30) }

// names lists steps, each once, the earliest first.
func names(steps []Step) []string {
	var names []string
	for _, s := range steps {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	return names
}
