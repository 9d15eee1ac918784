package report

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/scenarios/cycleplan"
)

// cycleMonths compares the loads of several months.
type cycleMonths struct {
	*page
	a *cycleplan.Answer
}

func (c cycleMonths) all() {
	c.para("%s", c.headline())
	first := c.a.Loads[0]
	c.para("%s: a full vessel at %.2f of chips to 1 of cake by volume, begun in the middle of each month. Air is per %s of dry matter loaded.",
		shorten(printable(c.a.Facility), 40), first.ChipsToCake, mass.label(c.sys))
	if c.a.Invented {
		c.para(inventedNotice)
	}
	c.table("A load of each month; days are from the start of the load", c.columns())
	c.legend()
}

// legend explains the marks that the table uses.
func (c cycleMonths) legend() {
	var marks []string
	for i := range c.a.Loads {
		for _, x := range c.a.Loads[i].Criteria {
			switch {
			case !x.Met.OK && !slices.Contains(marks, notMet):
				marks = append(marks, notMet)
			case x.OnPad && !slices.Contains(marks, metOnPad):
				marks = append(marks, metOnPad)
			}
		}
	}
	if len(marks) > 0 {
		c.para("%s", strings.Join(marks, " "))
	}
}

const (
	metOnPad = "p: met on the curing pad."
	notMet   = "-: not met, and a run would haul the load away."
)

// headline says whether all comply, and which month is slowest.
func (c cycleMonths) headline() string {
	var failing []string
	slowest := &c.a.Loads[0]
	for i := range c.a.Loads {
		l := &c.a.Loads[i]
		if !l.Complies {
			failing = append(failing, l.Month.String())
		}
		if complied(l) > complied(slowest) {
			slowest = l
		}
	}
	if len(failing) > 0 {
		return fmt.Sprintf("Loads of %s do not meet every criterion.", list(failing))
	}
	return fmt.Sprintf("Loads of every month meet every criterion; the slowest is %s, after %s, and it may leave after %s at %s moisture.",
		slowest.Month, c.days1(complied(slowest)), c.days1(slowest.Stay), c.with(slowest.MoistureOut, share, 0))
}

// complied returns the hour of the last criterion met.
func complied(l *cycleplan.Load) float64 {
	last := 0.0
	for _, x := range l.Criteria {
		last = max(last, x.Met.Hours)
	}
	return last
}

func (c cycleMonths) columns() []column {
	loads := c.a.Loads
	cell := cellsOf[cycleplan.Load]
	day := func(m cycleplan.Moment) string {
		if !m.OK {
			return "-"
		}
		return c.fixed(m.Hours, hours, 1)
	}
	columns := []column{
		words([]string{"Month", "", ""}, cell(loads, func(l *cycleplan.Load) string { return l.Month.String()[:3] })),
		{group: "moisture %", headings: []string{"mixed", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.fixed(l.Moisture, share, 0) })},
		{group: "moisture %", headings: []string{"out", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.fixed(l.MoistureOut, share, 0) })},
		{group: "moisture %", headings: []string{"screened", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.fixed(l.MoistureScreened, share, 0) })},
		{group: "day", headings: []string{"first", plainSpaces(c.temperature(c.a.Landmark)), ""}, cells: cell(loads, func(l *cycleplan.Load) string { return day(l.Passes) })},
	}
	for i, x := range loads[0].Criteria {
		columns = append(columns, column{group: "day", headings: stacked(printable(x.Name)), cells: cell(loads, func(l *cycleplan.Load) string {
			text := day(l.Criteria[i].Met)
			if l.Criteria[i].OnPad {
				text += "p"
			}
			return text
		})})
	}
	return append(columns,
		column{group: "day", headings: []string{"leaves", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.fixed(l.Stay, hours, 1) })},
		column{group: "dry loss %", headings: []string{"vessel", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.fixed(l.Vessel.DryLoss/l.Dry, share, 1) })},
		column{group: "dry loss %", headings: []string{"all", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string {
			return c.fixed((l.Vessel.DryLoss+l.Curing.DryLoss)/l.Dry, share, 1)
		})},
		column{group: "air " + airPerT.label(c.sys), headings: []string{"mean", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.number(l.Vessel.MeanPerDry, airPerT) })},
		column{group: "air " + airPerT.label(c.sys), headings: []string{"peak", "", "", ""}, cells: cell(loads, func(l *cycleplan.Load) string { return c.number(l.Vessel.PeakPerDry, airPerT) })},
	)
}

// stacked breaks a name into three headings, one below the other.
func stacked(name string) []string {
	const rows, longest = 3, 12
	words := strings.SplitN(name, " ", rows)
	for len(words) < rows {
		words = append(words, "")
	}
	for i, w := range words {
		words[i] = shorten(w, longest)
	}
	return words
}
