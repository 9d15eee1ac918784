package options

import (
	"fmt"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
)

// mostRows is how many choices there is room for in a picture.
const mostRows = 14

// figures show what each choice costs and of what that is made, and how far each
// is from the first. There is a row for each choice, the first ranked on top.
func (a *Answer) figures() []doc.Figure {
	shows := []doc.Text{
		doc.Say("present worth in million %s", doc.MoneyOf(a.Stated)),
		doc.Say("%d replications of each, seed %d", a.Replications, a.Seed),
	}
	if n := len(a.Order); n > mostRows {
		shows = append(shows, doc.Say("the first %d of %d choices", mostRows, n))
	}
	subtitle := doc.AboutText(&a.Basis, shows...)
	cost := &doc.Ladder{Quantity: doc.Millions, Unit: "million {currency}", Key: costs.Key(a.Missing > 0, a.Contracts)}
	over := &doc.Ladder{Quantity: doc.Millions, Unit: "million {currency}", Key: a.differenceKey()}
	for _, i := range a.Order[:min(len(a.Order), mostRows)] {
		c := &a.Choices[i]
		all := doc.Dot{At: c.All.Present.Estimate, Low: c.All.Low, High: c.All.High, Ink: doc.Black}
		cost.Rows = append(cost.Rows, doc.Rung{Name: c.Name, Note: a.kept(c), Bars: costs.Bars(&c.All.ByPart), Dots: []doc.Dot{all}})
		over.Rows = append(over.Rows, doc.Rung{Name: c.Name, Note: a.kept(c), Dots: a.differences(c)})
	}
	return []doc.Figure{
		{Name: "options-cost", Title: a.costMessage(), Subtitle: subtitle, Ladder: cost},
		{Name: "options-difference", Title: doc.Words("What each choice costs more than the first, with 95 % intervals"),
			Subtitle: subtitle.Then(" · the same chance events for all"), Ladder: over},
	}
}

// costMessage says which choice is first and what it costs, as the title of a picture.
func (a *Answer) costMessage() doc.Text {
	first := a.First()
	verb := "comes nearest to the target"
	if first.Service.Keeps {
		verb = "is the cheapest that keeps the target"
	}
	return doc.Say("%s %s: %s million %s over %s", doc.Capital(first.name()), verb,
		doc.Fixed(first.All.Present.Estimate, doc.Millions, 2), doc.Currency, doc.Counted(a.Horizon, "year"))
}

// kept says of a choice how long it keeps the service target: what the table marks
// by "?" is no more than may be.
func (a *Answer) kept(c *Choice) doc.Text {
	switch sure := c.Service.Sure; {
	case c.Service.Keeps && sure:
		return doc.Words("keeps the target")
	case c.Service.Keeps:
		return doc.Words("may keep the target")
	case sure && c.Service.YearSure():
		return doc.Say("misses the target from %s", a.MissedFrom(c))
	case sure && c.Service.SurelyMissed >= 0:
		return doc.Say("misses the target from %s, perhaps %s", a.Label(c.Service.SurelyMissed), a.Label(c.Service.MayMiss))
	default:
		return doc.Say("may miss the target from %s", a.Label(c.Service.MayMiss))
	}
}

// growthInks tell growth scenarios apart; black is all of them.
var growthInks = []doc.Ink{doc.Blue, doc.Orange, doc.Green, doc.Purple, doc.SkyBlue, doc.Vermilion}

// differences are those of a choice to the first, over all growth scenarios and
// under each.
func (a *Answer) differences(c *Choice) []doc.Dot {
	dot := func(s *Summary, ink doc.Ink) doc.Dot {
		return doc.Dot{At: s.OverFirst.Estimate, Low: s.OverFirst.Low, High: s.OverFirst.High, Ink: ink}
	}
	dots := []doc.Dot{dot(&c.All, doc.Black)}
	if len(a.Scenarios) > 1 {
		for g := range a.Scenarios {
			dots = append(dots, dot(&c.Growths[g], growthInks[g%len(growthInks)]))
		}
	}
	return dots
}

func (a *Answer) differenceKey() []doc.KeyEntry {
	key := []doc.KeyEntry{{Name: "all growth scenarios, by weight", Ink: doc.Black, Dot: true}}
	if len(a.Scenarios) > 1 {
		for g, growth := range a.Scenarios {
			key = append(key, doc.KeyEntry{Name: fmt.Sprintf("%s (%.0f %%)", growth.Name, 100*growth.Weight), Ink: growthInks[g%len(growthInks)], Dot: true})
		}
	}
	return key
}
