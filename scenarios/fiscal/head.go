package fiscal

import (
	"fmt"
	"time"

	"loamcast/scenarios/document"
	"loamcast/sim/calendar"
)

// Head says whose figures those of a plan are and what they mean.
func Head(d *document.Document, n Naming, first Month, shares []Share) {
	b := &d.Basis
	text := document.Say("%s, %s, seed %d%s. P10 to P90 is where %.0f %% of them lie.",
		document.Name(b.Facility, 40), document.Counted(b.Replications, "replication"), b.Seed, growthText(shares), 100*(b.Level.High-b.Level.Low))
	switch {
	case n.named():
		last := calendar.Date{Year: first.Year, Month: first.Month, Day: 1}.AddMonths(calendar.MonthsPerYear - 1)
		text = text.Then(" %s is %s %d to %s %d.", n.Name(first.Year), first.Month, first.Year, last.Month, last.Year)
	case n.Begins != time.January:
		text = text.Then(" Fiscal years begin in %s.", n.Begins)
	}
	d.Para("%s", text)
	d.Summarised()
	if b.Invented {
		d.Para(document.Invented)
	}
}

func growthText(shares []Share) document.Text {
	switch len(shares) {
	case 0:
		return document.Text{}
	case 1:
		return document.Say(", growth %s", document.Printable(shares[0].Name))
	}
	parts := make([]document.Text, len(shares))
	for i, g := range shares {
		parts[i] = document.Say("%s %.0f %%", document.Printable(g.Name), 100*g.Weight)
	}
	return document.Say(", growth by weight (%s)", document.Join(", ", parts...))
}

// Growths is the table of the growth scenarios that have a replication.
func Growths(shares []Share) document.Table {
	return document.TableOf(document.Table{In: document.Files, Name: "growth"}, shares,
		document.Any("name", func(s *Share) any { return s.Name }),
		document.Val("weight", document.Share, func(s *Share) float64 { return s.Weight }),
		document.Any("replications", func(s *Share) any { return s.Replications }),
	)
}

// String names the month, as a row of a table: "Jan 2027".
func (m Month) String() string { return fmt.Sprintf("%s %d", m.Month.String()[:3], m.Year) }
