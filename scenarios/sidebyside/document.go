package sidebyside

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Name is that of the command and of the files that the answer leaves.
const Name = "compare"

// What stands for the first and the second file.
const first, second = "A", "B"

// Document tells what the files say differently, and what that does.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Name, a.Basis, a.headline())
	for i, b := range []*answer.Basis{&a.Basis, &a.Second} {
		d.Labelled([]string{first, second}[i], "%s, %s%s", doc.Name(b.Source, 60), doc.Name(b.Facility, 50), invented(b))
		d.Add(doc.Facts{{Name: []string{"first", "second"}[i], Value: doc.Record{
			{Name: "file", Quantity: doc.Count, Value: b.Source}, {Name: "facility", Quantity: doc.Count, Value: b.Facility},
			{Name: "sha256", Quantity: doc.Count, Value: b.FileHash},
		}}})
	}
	if len(a.Differences) == 0 {
		return d
	}
	for i, o := range a.Orders {
		d.Labelled([]string{"Order " + first, "Order " + second}[i], "%s", o.Document().Headline)
	}
	d.Add(a.shown(), a.files(), a.effectTable(), a.effectFiles(), doc.Gap{})
	if a.NoCosts != "" {
		d.Para("What they cost is not compared: %s.", a.NoCosts)
	}
	d.Para("Means of %s and %s years, B less A in the same production, weather, breakdowns and deliveries where the files have them alike, with the interval that is %s sure; growths by weight, what is uncertain drawn, seed %d. Open: the interval holds nothing.",
		doc.Counted(a.Replications, "replication"), doc.Fixed(float64(a.Years), doc.Count, 0), doc.With(level, doc.Share, 0), a.Seed)
	if a.Basis.Start != a.Second.Start {
		d.Para("The files begin on different days: years are counted from the first day of each.")
	}
	d.Para("! A plan, not a certificate: the permitting authority and a licensed engineer decide what is built.")
	return d
}

func invented(b *answer.Basis) string {
	if b.Invented {
		return ": " + doc.Invented
	}
	return ""
}

// headline is what it means to go from the first file to the second: for the order, and
// for the cost.
func (a *Answer) headline() doc.Text {
	if len(a.Differences) == 0 {
		return doc.Words("The two files give every key the same value.")
	}
	orders := [2]string{}
	for i, o := range a.Orders {
		orders[i] = o.Brief(&o.All)
	}
	text := doc.Say("Both files: %s.", orders[0])
	if orders[0] != orders[1] {
		text = doc.Say("%s: %s; %s: %s.", first, orders[0], second, orders[1])
	}
	return text.Then(" %s", a.costText())
}

// costText says which of the files costs less, if that is known.
func (a *Answer) costText() doc.Text {
	e, ok := a.Cost()
	if !ok {
		return doc.Words("What they cost is not compared.")
	}
	d := e.Difference
	like := max(d.Estimate, -d.Estimate)
	amount := func(v float64) doc.Part { return doc.Amount{Value: v, Like: like}.Of(a.PricesOf) }
	switch e.Verdict() {
	case Same:
		return doc.Words("They cost the same.")
	case Less:
		return doc.Say("%s costs %s a year less (%s).", second, amount(-d.Estimate), doc.AmountRange(-d.High, -d.Low, like))
	case More:
		return doc.Say("%s costs %s a year more (%s).", second, amount(d.Estimate), doc.AmountRange(d.Low, d.High, like))
	}
	return doc.Say("Which of them costs less is open (%s less %s: %s a year).", second, first, doc.AmountRange(d.Low, d.High, max(-d.Low, d.High)))
}

// shown are the differences for a person.
func (a *Answer) shown() doc.Table {
	left := func(head string, shrink int, of func(*Difference) string) doc.Col[Difference] {
		c := doc.Left([]string{head}, func(d *Difference) any { return given(of(d)) })
		c.Shrink = shrink
		return c
	}
	t := doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("What they say differently"), More: "; %d more in compare.csv (--out)", Least: leastShown}, a.Differences,
		left("Key", 0, func(d *Difference) string { return doc.Name(d.Path, 44) }),
		left(first, 0, func(d *Difference) string { return doc.Name(d.First, 26) }),
		left(second, 0, func(d *Difference) string { return doc.Name(d.Second, 26) }))
	for i := range t.Rows {
		t.Rows[i].Rank = i
	}
	return t
}

// leastShown is how many differences a screen shows in any case.
const leastShown = 8

func given(value string) string {
	if value == "" {
		return "-"
	}
	return value
}

// files are the differences for programs.
func (a *Answer) files() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "differences", File: Name}, a.Differences,
		doc.Key("key", func(d *Difference) any { return d.Path }).Means("key of the facility file"),
		doc.Any("first", func(d *Difference) any { return d.First }).Means("value in the first file"),
		doc.Any("second", func(d *Difference) any { return d.Second }).Means("value in the second file"),
		doc.Any("meaning", func(d *Difference) any { return d.Words }).Means("what the key is"))
}

// effectTable has the effects for a person.
func (a *Answer) effectTable() doc.Table {
	number := func(group, head string, of func(*Effect) float64) doc.Col[Effect] {
		return doc.Txt(group, []string{head}, doc.Count, func(e *Effect) any { return doc.Bare(of(e), e.Quantity) })
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("What that does, in the mean of a year")}, a.Effects,
		doc.Left([]string{"What"}, func(e *Effect) any { return e.Name }),
		doc.Left([]string{"Unit"}, func(e *Effect) any { return doc.Units{Quantity: e.perYear()} }),
		number("", first, func(e *Effect) float64 { return e.First }),
		number("", second, func(e *Effect) float64 { return e.Second }),
		number("", "B less A", func(e *Effect) float64 { return e.change(e.Difference.Estimate) }),
		number("95 % sure", "from", func(e *Effect) float64 { return e.change(e.Difference.Low) }),
		number("95 % sure", "to", func(e *Effect) float64 { return e.change(e.Difference.High) }),
		doc.Left([]string{"B has"}, func(e *Effect) any { return e.Verdict().String() }))
}

// perYear is the quantity whose unit stands beside an effect.
func (e *Effect) perYear() doc.Quantity {
	if e.Quantity == doc.MoneyAYear {
		return doc.Money
	}
	return e.Quantity
}

// change is a difference without what rounding leaves of none.
func (e *Effect) change(v float64) float64 {
	if e.Verdict() == Same {
		return 0
	}
	return v
}

// effectFiles are the effects for programs, each in its own unit.
func (a *Answer) effectFiles() doc.Table {
	measured := func(name string, of func(*Effect) float64) doc.Col[Effect] {
		return doc.Any(name, func(e *Effect) any { return doc.Measured{Value: of(e), Quantity: e.Quantity} })
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "effects"}, a.Effects,
		doc.Key("what", func(e *Effect) any { return e.Name }),
		measured("first", func(e *Effect) float64 { return e.First }),
		measured("second", func(e *Effect) float64 { return e.Second }),
		measured("difference", func(e *Effect) float64 { return e.Difference.Estimate }),
		measured("difference_low", func(e *Effect) float64 { return e.Difference.Low }),
		measured("difference_high", func(e *Effect) float64 { return e.Difference.High }),
		doc.Any("second_has", func(e *Effect) any { return e.Verdict().String() }))
}
