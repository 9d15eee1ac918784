package chipplan

import (
	"strings"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
)

// mostBudgets is how many fiscal years the text speaks of.
const mostBudgets = 3

// Document tells the purchase plan.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.headline())
	d.Fact("fiscal_year_begins_month", doc.Count, int(a.Begins))
	d.Add(fiscal.Growths(a.Growths))
	d.Fact("price", doc.Count, a.price())

	fiscal.Head(d, a.Naming, a.Months[0].Month, a.Growths)
	d.Add(a.flows(), a.years(), a.months(), a.ordersTable())
	d.Add(doc.Gap{})
	a.budgets(d)
	a.tellSources(d)
	a.Amendments.tell(d, a.Word())
	a.orders(d)
	d.Labelled("Ordering", "%s", a.advice())
	d.Add(a.rules())
	d.Fact("ordering", doc.Count, a.ordering())
	d.Figures = append(d.Figures, a.figure())
	return d
}

// headline is the answer: what to buy in the first fiscal year, and what to put
// in the budget.
func (a *Answer) headline() doc.Text {
	y := &a.Years[0]
	text := doc.Say("Buy %s of fresh chips in %s (%s), %s", doc.Show(y.Bought.Mean, doc.Volume), a.InWords(y.Label),
		doc.RunsBetween{Spread: y.Bought, Quantity: doc.Volume, Level: a.Level}, doc.Counted(int(y.Truckloads.Mean+0.5), "truckload"))
	if !a.Price.Known {
		return text.Then("; %.0f at most in nine runs of ten.", y.Truckloads.P90)
	}
	return text.Then(", about %s of the day; budget %s: the chance of passing it is %s.",
		doc.Show(y.Spend.Mean, doc.Money), doc.Show(y.Budget, doc.Money), doc.Chance(y.Passing))
}

// price is null if no price is known.
func (a *Answer) price() any {
	p := a.Price
	if !p.Known {
		return nil
	}
	r := doc.Record{{Name: "chips", Quantity: doc.MoneyPerVol, Value: p.Amount}}
	if p.Escalates {
		r = append(r, doc.Field{Name: "stated_year", Value: p.Stated},
			doc.Field{Name: "escalation", Quantity: doc.AnnualRate, Value: p.Escalation})
	}
	return r
}

// budgets gives the figure of each year and what was asked about.
func (a *Answer) budgets(d *doc.Document) {
	if !a.Price.Known {
		d.Labelled("Budget", "the file has no price of chips (chips.price), so there is no money here")
		return
	}
	price := doc.Say("%s throughout, as the file has no section on money", doc.Show(a.Price.Amount, doc.MoneyPerVol))
	if a.Price.Escalates {
		price = doc.Say("%s in %d, rising by %s a year", doc.Show(a.Price.Amount, doc.MoneyPerVol), a.Price.Stated, doc.Show(a.Price.Escalation, doc.Share))
	}
	if a.Price.OfFirst {
		price = doc.Say("the price of the first supplier, in the mean of the months, is %s", price)
	}
	var years []doc.Text
	for i := range a.Years[:min(len(a.Years), mostBudgets)] {
		y := &a.Years[i]
		text := doc.Say("%s %s, passed with a chance of %s", y.Label, doc.Show(y.Budget, doc.Money), doc.ChanceInterval(y.Passing))
		if y.AskedBudget > 0 {
			text = text.Then(", and %s with %s", doc.Show(y.AskedBudget, doc.Money), doc.ChanceInterval(y.PassingAsked))
		}
		years = append(years, text)
	}
	d.Labelled("Budget", "%s. Money of the day; %s", doc.Join("; ", years...), price)
}

// advice puts the best rule into words.
func (a *Answer) advice() doc.Text {
	o := &a.Ordering
	text := doc.Say("order %s when %s or less are on hand and on order: of %d rules the one with the %s and a stock-out in at most %s of years",
		doc.Counted(o.Best.Truckloads(o.Truckload), "truckload"), doc.With(o.Best.Reorder, doc.Volume, 0), o.Tried, o.Cost.best(), doc.ShareText(o.Limit))
	if a.Replications > mostHistories {
		text = text.Then(", by the first %s", doc.Counted(mostHistories, "replication"))
	}
	if !o.Fits {
		text = text.Then(". That takes a store of %s; the %s that there are cannot do it", doc.With(o.Best.OrderUpTo, doc.Volume, 0), doc.With(o.Store, doc.Volume, 0))
	}
	if !o.Kept {
		text = text.Then(". The plant does not keep it: mixing waits for chips in %s of years, and none of %d rules tried in it does better",
			doc.Chance(o.Best.Plant), o.Simulated)
	}
	return text
}

// best says what makes a rule the best.
func (c CostModel) best() string {
	switch {
	case c.Ordering > 0:
		return "least cost of stock and of orders"
	case c.InMoney:
		return "least money tied up"
	}
	return "least mean stock"
}

// plain is an interval in a cell.
func plain(text string) string { return strings.ReplaceAll(text, doc.NoBreak, " ") }
