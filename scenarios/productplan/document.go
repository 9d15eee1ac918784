package productplan

import (
	"time"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
)

// mostYears is how many fiscal years the text speaks of.
const mostYears = 3

// Document tells what compost to expect.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.headline())
	d.Fact("fiscal_year_begins_month", doc.Count, int(a.Begins))
	d.Add(fiscal.Growths(a.Growths))
	d.Fact("store", doc.Volume, a.Store)
	d.Fact("price", doc.Count, a.price())
	d.Fact("notable_chance", doc.Share, Notable)

	fiscal.Head(d, a.Naming, a.Months[0].Month, a.Growths)
	d.Add(a.flows(), a.months(), a.years(), doc.Gap{})
	a.seasons(d)
	a.money(d)
	d.Figures = append(d.Figures, a.figure())
	return d
}

// headline is the answer: how much in the first fiscal year, and whether the
// store and the demand go together.
func (a *Answer) headline() doc.Text {
	y := &a.Years[0]
	text := doc.Say("Expect %s of compost in %s (%s), %s wet; about %s of it is taken", doc.Show(y.Volume.Mean, doc.Volume), a.InWords(y.Label),
		doc.RunsBetween{Spread: y.Volume, Quantity: doc.Volume, Level: a.Level}, doc.Show(y.Wet.Mean, doc.Mass), doc.Show(y.Taken.Mean, doc.Volume))
	if a.Price.Known {
		text = text.Then(", for %s of the day", doc.Show(y.Revenue.Mean, doc.Money))
	}
	return text.Then("; %s; %s.", y.glut(), y.shortage())
}

// glut says when the store is full.
func (y *Year) glut() string {
	if y.Full.Estimate == 0 {
		return "the store is never full"
	}
	return "the store is full" + y.Glut.in() + inRuns(y.Full.Estimate)
}

// shortage says when demand goes unmet.
func (y *Year) shortage() string {
	if y.Short.Estimate == 0 {
		return "all demand is met"
	}
	return "demand goes unmet" + y.Shortage.in() + inRuns(y.Short.Estimate)
}

// inRuns says in how many of the runs something happens at all.
func inRuns(share float64) string {
	if share == 1 {
		return " in every run"
	}
	return " in " + doc.ShareText(share) + " of runs"
}

// in names the months in which something is likely.
func (s Season) in() string {
	switch {
	case len(s.Months) == 0:
		return " at some time"
	case len(s.Months) == int(time.December):
		return " in every month"
	}
	return " in " + doc.MonthNames(s.Months)
}

// seasons says of each year when there is too much and when too little.
func (a *Answer) seasons(d *doc.Document) {
	for i := range a.Years[:min(len(a.Years), mostYears)] {
		y := &a.Years[i]
		text := doc.Words(y.glut())
		if y.Full.Estimate > 0 {
			text = text.Then(" (lots wait for room %s h on average, P90 %s h)", doc.Bare(y.HoursFull.Mean, doc.Count), doc.Bare(y.HoursFull.P90, doc.Count))
		}
		d.Labelled(y.Label, "%s; %s", text, y.shortage())
	}
}

// money says what the compost brings.
func (a *Answer) money(d *doc.Document) {
	if !a.Price.Known {
		d.Labelled("Money", "the file has no section on money, so there is no revenue here")
		return
	}
	low, high := a.Price.Monthly[0], a.Price.Monthly[0]
	for _, v := range a.Price.Monthly {
		low, high = min(low, v), max(high, v)
	}
	price := doc.Say("%s", doc.Show(low, doc.MoneyPerVol))
	if low != high {
		price = doc.Say("%s to %s", doc.Bare(low, doc.MoneyPerVol), doc.Show(high, doc.MoneyPerVol))
	}
	d.Labelled("Money", "product brings %s in %d, rising by %s a year; revenue is in money of the day",
		price, a.Price.Stated, doc.Show(a.Price.Escalation, doc.Share))
}

// price is null if no price is known.
func (a *Answer) price() any {
	p := a.Price
	if !p.Known {
		return nil
	}
	return doc.Record{
		{Name: "product_by_month", Quantity: doc.MoneyPerVol, Value: p.Monthly[:]},
		{Name: "stated_year", Value: p.Stated},
		{Name: "escalation", Quantity: doc.AnnualRate, Value: p.Escalation},
	}
}
