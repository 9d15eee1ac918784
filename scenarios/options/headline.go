package options

import (
	"fmt"
	"math"
	"strings"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// Headline says in a sentence or two what to choose, by how much it is the
// cheapest, and how sure that is.
func (a *Answer) Headline() doc.Text {
	first := a.First()
	return a.choice().Then("%s", costs.ByContract(first.All.Contract, first.All.ContractShare))
}

// choice says what to choose.
func (a *Answer) choice() doc.Text {
	first := a.First()
	if !first.Service.Keeps {
		return a.noneKeeps()
	}
	next := a.beside()
	if next.Standing == Keeps {
		return doc.Say("%s: %s the service target in every year through %s and costs %s the next that does, %s. Chance that it is the cheapest that does: %s.%s",
			first.choose(), first.keep(), a.lastYear(), a.againstNext(next.All.OverFirst), next.name(), doc.Estimated(a.Chance), a.mayKeep())
	}
	text := doc.Say("%s: nothing else keeps the service target in every year through %s.", first.choose(), a.lastYear())
	return text.Then(" It costs %s than the cheapest of the rest, %s, which %s.%s",
		a.moreOrLess(flipped(next.All.OverFirst)), next.name(), a.misses(next), a.mayKeep())
}

// misses says from when a choice misses the target, and where that is not certain
// what is.
func (a *Answer) misses(c *Choice) string {
	s := &c.Service
	switch {
	case s.YearSure():
		return "misses the target from " + a.MissedFrom(c)
	case s.SurelyMissed < 0:
		return "may miss the target in " + a.Label(s.MayMiss)
	case s.MayMiss == s.SurelyMissed:
		return "surely misses the target in " + a.Label(s.SurelyMissed)
	}
	return fmt.Sprintf("may miss the target in %s and surely does in %s", a.Label(s.MayMiss), a.Label(s.SurelyMissed))
}

// mayKeep names what is cheaper than the first and is not among those that keep the
// target only because too few replications tell.
func (a *Answer) mayKeep() doc.Text {
	var names []doc.Text
	for _, i := range a.Order {
		if c := &a.Choices[i]; !c.Service.Keeps && a.inDoubt(i) {
			names = append(names, doc.Say("%s (%s less)", c.name(), doc.AmountOf(-c.All.OverFirst.Estimate)))
		}
	}
	if len(names) == 0 {
		return doc.Text{}
	}
	return doc.Say(" It is not certain that %s does not keep it too, and so come first.", doc.Join(" or ", names...))
}

// noneKeeps is the headline where no choice keeps the target.
func (a *Answer) noneKeeps() doc.Text {
	first := a.First()
	text := doc.Say("Nothing here keeps the service target in every year through %s. Nearest comes %s: it misses it in %s of %d years on average",
		a.lastYear(), first.name(), tenths(first.Service.YearsMissed), a.Horizon)
	if a.next(Nearest) != nil {
		text = text.Then(", is the cheapest of those that come about as near (chance %s)", doc.Estimated(a.Chance))
	}
	other := a.beside()
	return text.Then(", and costs %s than the cheapest of the rest, %s, which misses it in %s.%s",
		a.moreOrLess(flipped(other.All.OverFirst)), other.name(), tenths(other.Service.YearsMissed), a.tooLate())
}

// tooLate says that the steps of the first come after the target has been missed.
func (a *Answer) tooLate() doc.Text {
	first := a.First()
	missed := a.Start.AddYears(first.Service.FirstMissed)
	for _, s := range first.Steps {
		if s.Taken > 0 && !missed.Before(s.InService) {
			return doc.Text{}
		}
	}
	for _, s := range first.Steps {
		if s.Taken > 0 {
			return doc.Say(" Its first step, in service by %s, comes after the target is first missed, in %s: order earlier.",
				doc.Month(s.InService), a.MissedFrom(first))
		}
	}
	return doc.Text{}
}

// tenths writes a number of years.
func tenths(years float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", years), ".0") }

// beside returns the choice that the headline holds the first against: the next that keeps
// the target, or else the cheapest of the rest.
func (a *Answer) beside() *Choice {
	if first := a.First(); !first.Service.Keeps || a.next(Keeps) == nil {
		return a.cheapestBut(first)
	}
	return a.next(Keeps)
}

// cheapestBut returns the choice with the lowest expected present worth among the
// others. There is always one: the plant as it is, or an option.
func (a *Answer) cheapestBut(first *Choice) *Choice {
	var best *Choice
	for i := range a.Choices {
		c := &a.Choices[i]
		if c != first && (best == nil || c.All.OverFirst.Estimate < best.All.OverFirst.Estimate) {
			best = c
		}
	}
	return best
}

func (a *Answer) lastYear() string { return a.Label(a.Horizon - 1) }

// choose begins the sentence.
func (c *Choice) choose() string {
	if c.AsIs {
		return "Build nothing more"
	}
	return "Choose " + c.name()
}

// name sets an option's name off from the sentence it stands in.
func (c *Choice) name() string {
	switch {
	case c.AsIs:
		return c.Name
	case c.Found:
		return "the " + c.Name
	}
	return "“" + doc.Printable(c.Name) + "”"
}

func (c *Choice) keep() string {
	if c.AsIs {
		return "the plant as it is keeps"
	}
	return "it keeps"
}

// Doubts returns sentences on what the replications leave open: whether the first
// is the cheapest, and whether choices keep the target where that would alter what
// comes first.
func (a *Answer) Doubts() []doc.Text {
	var out, open []doc.Text
	if a.Chance < enough {
		out = append(out, doc.Say("The costs of the first are too close to the next to tell them apart in %d replications; take either, or allow more.", a.Replications))
	}
	for _, i := range a.Order {
		c := &a.Choices[i]
		if !a.inDoubt(i) {
			continue
		}
		word := "misses"
		if c.Service.Keeps {
			word = "keeps"
		}
		s := c.Service.Share
		open = append(open, doc.Say("that %s %s the target (%s miss it in %s, %s to %s possible)",
			c.name(), word, doc.WholePercent(s.Estimate), a.Label(c.Service.Worst), doc.WholePercent(s.Low), doc.WholePercent(s.High)))
	}
	if len(open) > 0 {
		out = append(out, doc.Say("Not certain, where %s of runs may miss: %s.", doc.WholePercent(a.Target.MissShare), doc.Join("; ", open...)))
	}
	return out
}

// OpenYears says of the choices that matter which first missed years the
// replications leave open; it is empty if none.
func (a *Answer) OpenYears() doc.Text {
	var years []doc.Text
	for _, i := range a.Order {
		if a.yearInDoubt(i) {
			years = append(years, doc.Say("%s %s", a.Choices[i].name(), a.misses(&a.Choices[i])))
		}
	}
	if len(years) == 0 {
		return doc.Text{}
	}
	return doc.Say("First missed years that are not certain: %s.", doc.Join("; ", years...))
}

// byHowMuch writes a difference of present worth with its interval: "1.3 million
// USD of 2027 less (present worth; 0.9 to 1.7)".
func (a *Answer) byHowMuch(d stats.Interval, word string) doc.Text {
	size := max(math.Abs(d.Estimate), d.HalfWidth())
	in := func(v float64, bare bool) doc.Amount {
		return doc.Amount{Value: v, Like: size, Year: a.Stated, Bare: bare}
	}
	return doc.Say("%s %s (present worth; %s to %s)", in(d.Estimate, false), word, in(d.Low, true), in(d.High, true))
}

// againstNext compares the first with the next, which costs d more.
func (a *Answer) againstNext(d stats.Interval) doc.Text {
	if d.Low <= 0 {
		return doc.Say("about as much, %s, as", a.byHowMuch(d, "less"))
	}
	return a.byHowMuch(d, "less").Then(" than")
}

// moreOrLess writes a difference with the word that its sign asks for.
func (a *Answer) moreOrLess(d stats.Interval) doc.Text {
	if d.Estimate < 0 {
		return a.byHowMuch(flipped(d), "less")
	}
	return a.byHowMuch(d, "more")
}

func flipped(d stats.Interval) stats.Interval {
	return stats.Interval{Estimate: -d.Estimate, Low: -d.High, High: -d.Low, Level: d.Level}
}
