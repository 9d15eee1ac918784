package options

import (
	"fmt"
	"math"
	"strings"

	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// Headline says in a sentence or two what to choose, by how much it is the
// cheapest, and how sure that is.
func (a *Answer) Headline() string {
	first := a.First()
	if !first.Service.Keeps {
		return a.noneKeeps()
	}
	if next := a.next(Keeps); next != nil {
		return fmt.Sprintf("%s: %s the service target in every year through %s and costs %s the next that does, %s. Chance that it is the cheapest that does: %s.%s",
			first.choose(), first.keep(), a.lastYear(), againstNext(next.All.OverFirst), next.name(), Percent(a.Chance), a.mayKeep())
	}
	text := fmt.Sprintf("%s: nothing else keeps the service target in every year through %s.", first.choose(), a.lastYear())
	next := a.cheapestBut(first)
	return text + fmt.Sprintf(" It costs %s than the cheapest of the rest, %s, which misses the target from %s.%s",
		moreOrLess(flipped(next.All.OverFirst)), next.name(), a.Years[next.Service.FirstMissed], a.mayKeep())
}

// mayKeep names what is cheaper than the first and is not among those that keep the
// target only because too few replications tell.
func (a *Answer) mayKeep() string {
	var names []string
	for _, i := range a.Order {
		if c := &a.Choices[i]; !c.Service.Keeps && a.inDoubt(i) {
			names = append(names, fmt.Sprintf("%s (%s less)", c.name(), amount(-c.All.OverFirst.Estimate)))
		}
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf(" From %d replications it is not certain that %s does not keep it too, and so come first.",
		a.Replications, strings.Join(names, " or "))
}

// noneKeeps is the headline where no choice keeps the target.
func (a *Answer) noneKeeps() string {
	first := a.First()
	text := fmt.Sprintf("Nothing here keeps the service target in every year through %s. Nearest comes %s: it misses it in %s of %d years on average",
		a.lastYear(), first.name(), tenths(first.Service.YearsMissed), len(a.Years))
	if a.next(Nearest) != nil {
		text += fmt.Sprintf(", is the cheapest of those that come about as near (chance %s)", Percent(a.Chance))
	}
	other := a.cheapestBut(first)
	return text + fmt.Sprintf(", and costs %s than the cheapest of the rest, %s, which misses it in %s.%s",
		moreOrLess(flipped(other.All.OverFirst)), other.name(), tenths(other.Service.YearsMissed), a.tooLate())
}

// tooLate says that the steps of the first come after the target has been missed.
func (a *Answer) tooLate() string {
	first := a.First()
	missed := a.Start.AddYears(first.Service.FirstMissed)
	for _, s := range first.Steps {
		if s.Taken > 0 && !missed.Before(s.InService) {
			return ""
		}
	}
	for _, s := range first.Steps {
		if s.Taken > 0 {
			return fmt.Sprintf(" Its first step, in service by %04d-%02d, comes after the target is first missed, in %s: order earlier.",
				s.InService.Year, s.InService.Month, a.Years[first.Service.FirstMissed])
		}
	}
	return ""
}

// tenths writes a number of years.
func tenths(years float64) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", years), ".0") }

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

func (a *Answer) lastYear() string { return a.Years[len(a.Years)-1] }

// choose begins the sentence.
func (c *Choice) choose() string {
	if c.AsIs {
		return "Build nothing more"
	}
	return "Choose " + c.name()
}

// name sets an option's name off from the sentence it stands in.
func (c *Choice) name() string {
	if c.AsIs {
		return c.Name
	}
	return "“" + c.Name + "”"
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
func (a *Answer) Doubts() []string {
	var out, open []string
	if a.Chance < enough {
		out = append(out, fmt.Sprintf("The costs of the first are too close to the next to tell them apart in %d replications; take either, or allow more.", a.Replications))
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
		open = append(open, fmt.Sprintf("that %s %s the target (%s miss it in %s, %s to %s possible)",
			c.name(), word, Percent(s.Estimate), a.Years[c.Service.Worst], Percent(s.Low), Percent(s.High)))
	}
	if len(open) > 0 {
		out = append(out, fmt.Sprintf("Not certain from %d replications, of which %s may miss: %s.", a.Replications, Percent(a.Target.MissShare), strings.Join(open, "; ")))
	}
	return out
}

// byHowMuch writes a difference of present worth with its interval: "1.3 million
// USD less (present worth; 0.9 to 1.7)".
func byHowMuch(d stats.Interval, word string) string {
	unit, scale, size := "USD", 1.0, max(math.Abs(d.Estimate), d.HalfWidth())
	if size >= million {
		unit, scale = "million USD", million
	}
	number := func(v float64) string { return units.FormatNumber(roundLike(v, size) / scale) }
	return fmt.Sprintf("%s %s %s (present worth; %s to %s)", number(d.Estimate), unit, word, number(d.Low), number(d.High))
}

// amount writes money with three digits.
func amount(v float64) string {
	unit, scale := "USD", 1.0
	if math.Abs(v) >= million {
		unit, scale = "million USD", million
	}
	return units.FormatNumber(roundLike(v, v)/scale) + " " + unit
}

// againstNext compares the first with the next, which costs d more.
func againstNext(d stats.Interval) string {
	if d.Low <= 0 {
		return "about as much, " + byHowMuch(d, "less") + ", as"
	}
	return byHowMuch(d, "less") + " than"
}

// moreOrLess writes a difference with the word that its sign asks for.
func moreOrLess(d stats.Interval) string {
	if d.Estimate < 0 {
		return byHowMuch(flipped(d), "less")
	}
	return byHowMuch(d, "more")
}

func flipped(d stats.Interval) stats.Interval {
	return stats.Interval{Estimate: -d.Estimate, Low: -d.High, High: -d.Low, Level: d.Level}
}

const million = 1e6

// roundLike rounds v to the step that leaves size three digits.
func roundLike(v, size float64) float64 {
	const digits = 3
	if size == 0 || math.IsNaN(size) || math.IsInf(size, 0) {
		return v
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(size)))-digits+1)
	return math.Round(v/step) * step
}

// Percent writes a share, without claiming that anything is certain.
func Percent(share float64) string {
	const almost = 0.995
	switch {
	case share == 0:
		return "0 %"
	case share >= almost && share < 1:
		return "over 99 %"
	case share < 1-almost:
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*share)
}
