package mixplan

import (
	"fmt"
	"strings"

	"loamcast/facility/mix"
	doc "loamcast/scenarios/document"
)

// Document tells the design of a mix: the answer, the loading card, the mix
// against its targets, what there is to load, and the what-if on cake solids if
// it was asked for.
func (a *Answer) Document() *doc.Document {
	d := doc.New(Question.Name, a.Basis, a.Headline())
	d.Sheet = true
	a.facts(d)
	a.head(d)
	d.Add(a.card(), a.shownProperties(), a.shownMaterials())
	if len(a.Sweep) > 0 {
		d.Add(a.shownSweep())
	}
	a.files(d)
	a.notes(d)
	return d
}

// whose says in the money of which year costs are, where the file says it.
func (a *Answer) whose() string {
	if a.PricesOf == 0 {
		return ", at the file's prices"
	}
	return fmt.Sprintf(", in money of %d", a.PricesOf)
}

// head says under the headline what decides the mix, and what a vessel takes.
func (a *Answer) head(d *doc.Document) {
	d.Para("%s%s", a.decided(), a.unrest())
	b := a.Design
	full := "full by volume"
	if b.ByPayload {
		full = "full by the payload"
	}
	of := ""
	if a.Class != "" {
		of = " (" + doc.Name(a.Class, 30) + ")"
	}
	d.Para("A vessel%s takes %s of %s: %s wet, %s, %s; %s of wet cake, %s dry. Of the chips %s are recovered.",
		of, batches(b.Batches), doc.Show(b.Load/float64(b.Batches), doc.ScaleMass), doc.Show(b.Load, doc.Mass),
		doc.Show(b.LoadVolume, doc.Volume), full, doc.Show(b.Cake, doc.Mass), doc.Show(b.CakeDry, doc.Mass), doc.With(b.RecoveredShare, doc.Share, 0))
	if b.Priced {
		d.Para("It costs %s a vessel, %s of dry cake%s.", doc.Show(b.Cost, doc.Money), doc.Show(b.CostPerDry, doc.MoneyPerDry), a.whose())
	}
	its := "the file's fixed ratio"
	if a.RunsDesign {
		its = fmt.Sprintf("the ratio designed for the file's cake in %s", a.Month)
	}
	if a.AsFile() {
		d.Para("%s, %.2f, which `run` uses, is this one.", doc.Capital(its), a.AsRun.ChipsToCake)
	} else {
		d.Para("Note: `run` uses %s, %.2f of chips to 1 of cake, and not %.2f; see its column below.", its, a.AsRun.ChipsToCake, b.ChipsToCake)
	}
	if len(b.Unmet) > 0 {
		d.Para("Warning: a %s load of this mix does not meet %s in the time that the file gives it; see `loamcast cycle --month %s`.",
			a.Month, doc.Listed(b.Unmet), strings.ToLower(a.Month.String()[:3]))
	}
	asked := ""
	if a.WhatIf {
		asked = " (asked for)"
	}
	d.Para("%s, %s, cake of %s solids%s. Recovered chips are those that this mix gives back, month after month.",
		doc.Name(a.Facility, 40), a.Month, doc.With(a.CakeSolids, doc.Share, 1), asked)
	if a.Invented {
		d.Para(doc.Invented)
	}
}

// Headline is the answer in a sentence or two.
func (a *Answer) Headline() doc.Text {
	if a.Met() {
		return doc.Say("Load %s in %s: %s.", a.perCake(), a.Month, a.qualities())
	}
	var reasons []doc.Text
	for _, s := range a.Shortfalls() {
		reasons = append(reasons, s.text())
	}
	return doc.Say("The targets cannot be met in %s, because %s.%s The nearest mix is %s: %s.",
		a.Month, doc.List(reasons...), a.heldBack(), a.perCake(), a.qualities())
}

// perCake is the recipe: "2.4 yd3 of chips and 0.2 yd3 of sawdust for each yd3
// of cake".
func (a *Answer) perCake() doc.Text {
	unit := doc.Unit{Quantity: doc.Volume}
	one := func(v float64, name string) doc.Text {
		return doc.Say("%.2f"+doc.NoBreak+"%s of %s", v, unit, name)
	}
	var parts []doc.Text
	without := ", without chips"
	if !a.NoChips() {
		parts, without = append(parts, one(a.Design.ChipsToCake, "chips")), ""
	}
	for _, m := range a.Amendments() {
		parts = append(parts, one(m.Used/a.Design.CakeVolume, doc.Printable(m.Name)))
	}
	if len(parts) == 0 {
		return doc.Words("cake alone")
	}
	return doc.Say("%s for each %s of cake%s", doc.List(parts...), unit, without)
}

func (a *Answer) qualities() doc.Text {
	b := a.Design
	return doc.Say("moisture %s, C:N"+doc.NoBreak+"%.0f, free air space %s",
		doc.With(b.Moisture, doc.Share, 0), b.CarbonToNitrogen, doc.With(b.FreeAirSpace, doc.Share, 0))
}

// text says by how much the nearest mix misses a limit.
func (s Shortfall) text() doc.Text {
	bound, side := "at least", "too low"
	if s.AtMost {
		bound, side = "at most", "too high"
	}
	q := s.Quality
	return doc.Say("%s comes to %s where %s %s is asked (%s %s)", q, q.value(s.Reached), bound, q.value(s.At), q.difference(s.By()), side)
}

// heldBack says what keeps the nearest mix from coming nearer.
func (a *Answer) heldBack() doc.Text {
	by := a.limits()
	for _, name := range a.Exhausted() {
		by = append(by, doc.Say("the %s on hand", doc.Printable(name)))
	}
	if len(by) == 0 {
		return doc.Text{}
	}
	return doc.Say(" What stands against it: %s.", doc.List(by...))
}

// limits names those on which the design lies.
func (a *Answer) limits() []doc.Text {
	var list []doc.Text
	for _, l := range a.Decides() {
		bound := "least"
		if l.AtMost {
			bound = "most"
		}
		list = append(list, doc.Say("%s of at %s %s", l.Quality, bound, l.Quality.value(l.At)))
	}
	return list
}

// decided says what decides the mix.
func (a *Answer) decided() doc.Text {
	text := doc.Words("No target binds.")
	if by := a.limits(); len(by) > 0 {
		text = doc.Say("What decides it: %s.", doc.List(by...))
	}
	if !a.Met() {
		text = doc.Words("Change a target, the cake or what there is to add; the margins below say how far each is off.")
	}
	switch {
	case a.NoChips() && a.Met():
		text = text.Then(" The targets ask for no chips, and a run loads some: look at the file's mix.targets.")
	case a.NoChips():
		text = text.Then(" Chips as the file has them do not help, and a run loads some: look at the file's chips and mix.targets.")
	}
	return text
}

// unrest warns of a search that did not end in a mix that stays the same.
func (a *Answer) unrest() string {
	if a.Settled {
		return ""
	}
	return " The search did not come to rest: read the figures as approximate, and a better mix may exist."
}

// batches counts in a word whose plural is not regular.
func batches(n int) string {
	if n == 1 {
		return "1 batch"
	}
	return fmt.Sprintf("%d batches", n)
}

// notes are the published ranges that the mix leaves.
func (a *Answer) notes(d *doc.Document) {
	if len(a.Notes) > 0 {
		d.Add(doc.Gap{})
	}
	for _, n := range a.Notes {
		d.Para("Note: %s of %s; published for a mix is %s (%s).", n.Name, n.Name.value(n.Value), asked(n.Name, n.Range), n.Source)
	}
	d.Add(doc.Gap{})
	d.Para("! This designs a mix from the file's figures; test the cake and chips you load. Mix 4 to 5 minutes a batch (common practice, no source).")
}

// String names the quality.
func (q Quality) String() string {
	return [...]string{"moisture", "C:N", "free air space", "bulk density", "chips to cake"}[q]
}

// quantity is what the quality is measured in.
func (q Quality) quantity() doc.Quantity {
	return [...]doc.Quantity{doc.Share, doc.Ratio, doc.Share, doc.Density, doc.Ratio}[q]
}

// value is a value of the quality with its unit.
func (q Quality) value(v float64) doc.Number {
	decimals := [...]int{1, 1, 1, doc.Significant, 2}[q]
	return doc.With(v, q.quantity(), decimals)
}

// difference is the difference of two values of the quality.
func (q Quality) difference(v float64) doc.Text {
	if q.quantity() == doc.Share {
		return doc.Say("%s"+doc.NoBreak+"points", doc.Fixed(v, doc.Share, 1))
	}
	return doc.Say("%s", q.value(v))
}

// asked says what is asked of a quality.
func asked(q Quality, w mix.Window) doc.Text {
	switch {
	case w.Low > 0 && w.High > 0:
		return doc.Say("%s to %s", q.value(w.Low), q.value(w.High))
	case w.Low > 0:
		return doc.Say("at least %s", q.value(w.Low))
	case w.High > 0:
		return doc.Say("at most %s", q.value(w.High))
	}
	return doc.Words("nothing")
}
