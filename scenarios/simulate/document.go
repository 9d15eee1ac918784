package simulate

import (
	"fmt"
	"strings"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Document tells what a run says about a facility.
func (a *Answer) Document() *doc.Document {
	h := a.Headline()
	d := doc.New(Question.Name, a.Basis, doc.Words(h.String()))
	a.facts(d, h)
	a.head(d, h)
	d.Add(doc.Gap{})
	a.throughFence(d)
	d.Add(doc.Gap{}, a.shown(), a.years(), a.months(), a.waitsByYear(), a.waitsByMonth(), doc.Gap{})
	a.load(d)
	a.wetLots(d)
	a.amended(d)
	a.byClass(d)
	a.waiting(d)
	a.capacity(d)
	a.overAir(d)
	a.nitrogen(d)
	a.water(d)
	a.triggered(d)
	a.balance(d)
	d.Add(doc.Gap{})
	cautions(d)
	d.Add(a.resources(), a.capacitiesByYear(), a.capacitiesByStage(), a.triggers(), a.drynessByMonth(), a.flows())
	d.Fact("balance", doc.Count, doc.Record{
		{Name: "worst", Value: a.Balance.Worst}, {Name: "worst_at", Value: a.Balance.WorstAt}, {Name: "bound", Value: a.Balance.Bound},
	})
	d.Add(a.components())
	if len(a.Occupancy.Stays) > 0 {
		d.Add(a.Occupancy.table())
	}
	d.Figures = a.figures()
	return d
}

// facts are what the answer states once.
func (a *Answer) facts(d *doc.Document, h Headline) {
	label := func(y *Year) any {
		if y == nil {
			return nil
		}
		return y.Label
	}
	d.Fact("file_values_last_year_target_kept", doc.Count, label(h.LastKept))
	d.Fact("file_values_first_year_target_missed", doc.Count, label(h.FirstMissed))
	d.Fact("first_year_need_above_installed", doc.Count, label(h.FirstAbove))
	var limit any
	if a.AirLimit > 0 {
		limit = a.AirLimit
	}
	d.Fact("air_limit", doc.AirFlow, limit)
	d.Fact("load", doc.Count, doc.RecordOf(&a.Load, loadColumns...))
	d.Add(a.failures())
}

// head says under the headline what it rests on.
func (a *Answer) head(d *doc.Document, h Headline) {
	for _, detail := range h.Details() {
		d.Para("%s", detail)
	}
	if a.Hauls {
		d.Para("%s", a.contractText())
	}
	d.Para("%s: %s from %s, %s, seed %d. Figures are medians of the replications; (%s) is where %.0f %% of them lie.",
		doc.Name(a.Facility, 40), doc.Counted(len(a.Years), "year"), a.Start, doc.Counted(a.Replications, "replication"), a.Seed,
		a.Level, 100*(a.Level.High-a.Level.Low))
	d.Summarised()
	if a.Invented {
		d.Para(doc.Invented)
	}
}

// throughFence says what crosses the fence in the first and the last year.
func (a *Answer) throughFence(d *doc.Document) {
	ends := []*Year{&a.Years[0]}
	if last := a.last(); last != ends[0] {
		ends = append(ends, last)
	}
	for i, y := range ends {
		rank := 0
		if i < len(ends)-1 {
			rank = 1 // where there is no room at all, the last year says more
		}
		say := func(what, format string, args ...any) {
			d.Add(doc.Paragraph{Label: y.Label + what, Text: doc.Say(format, args...), Rank: rank})
		}
		own := doc.Text{}
		if a.OwnChips {
			own = doc.Say(", and %s of wood of its own", doc.Show(y.Brought.OwnChips.P50, doc.Volume))
		}
		say(" in", "%s; %s fresh chips, %.0f truckloads%s", a.brought(y), doc.Show(y.ChipsBought.P50, doc.Volume), y.Truckloads.P50, own)
		say(" out", "%s product (%s wet), %s taken; %s dry diverted%s",
			doc.Show(y.ProductVolume.P50, doc.Volume), doc.Show(y.ProductWet.P50, doc.Mass),
			doc.Show(y.TakenVolume.P50, doc.Volume), doc.Show(y.DivertedDry.P50, doc.Mass), a.byContract(y))
	}
}

// brought says what cake came in a year, and what else beside it.
func (a *Answer) brought(y *Year) doc.Text {
	of := func(wet, dry answer.Spread, what string) doc.Text {
		return doc.Say("%s wet %s, %s dry (%s solids)", doc.Show(wet.P50, doc.Mass), what, doc.Bare(dry.P50, doc.Mass), doc.Show(perUnit(dry.P50, wet.P50), doc.Share))
	}
	if len(a.Feedstocks) == 0 {
		return of(y.FeedWet, y.FeedDry, "cake")
	}
	names := make([]string, len(a.Feedstocks))
	for i, name := range a.Feedstocks {
		names[i] = doc.Name(name, 30)
	}
	b := &y.Brought
	return doc.Join("; ", of(b.CakeWet, b.CakeDry, "cake"), of(b.FeedstockWet, b.FeedstockDry, doc.Listed(names)))
}

// What goes on a screen that is too narrow and too short for all, the highest first:
// what the last year puts out tells of solids diverted, and files have the rest.
const (
	spareLoad = 1 + iota
	spareChips
	spareBalance
	spareAmmonia
	spareDryness
	spareTable
)

// load describes a typical vessel load and what becomes of its chips.
func (a *Answer) load(d *doc.Document) {
	l := &a.Load
	fail := ""
	if c, ok := a.MainFailure(); ok {
		fail = ", mostly by " + doc.Name(c.Name, 30)
	}
	d.Spared(spareLoad, "A load", "%s of wet mix from %.1f batches, %s chips to 1 %s by volume; moisture %s in, %s out; "+
		"%s in the vessel; dry loss %s with curing (volatile solids %s, of %s %s); %s stay longer to comply, %s fail%s",
		doc.Bracketed{Spread: l.Wet, Quantity: doc.Mass}, l.BatchesALoad.P50, doc.Bare(l.ChipsPerCakeV, doc.Ratio), a.Held(),
		doc.Bracketed{Spread: l.Moisture, Quantity: doc.Share}, doc.Bracketed{Spread: l.OutMoisture, Quantity: doc.Share},
		doc.Bracketed{Spread: l.Residence, Quantity: doc.Days}, doc.Bracketed{Spread: l.DryLoss, Quantity: doc.Share},
		doc.With(l.VolatileDestroyed.P50, doc.Share, 0), a.Held(), doc.With(l.CakeDestroyed.P50, doc.Share, 0),
		doc.Show(l.Late.P50, doc.Share), doc.Show(l.Failed.P50, doc.Share), fail)
	d.Spared(spareChips, "Chips", "the screen gives back %s of the coarse, at %s moisture",
		doc.Bracketed{Spread: l.ChipRecovery, Quantity: doc.Share}, doc.Bracketed{Spread: l.ScreenedAt, Quantity: doc.Share})
}

// waiting says what solids waited for in the last year.
func (a *Answer) waiting(d *doc.Document) {
	var parts []string
	for _, c := range a.LongestWaits(len(a.Years) - 1) {
		parts = append(parts, fmt.Sprintf("%s %.0f"+doc.NoBreak+"%%", unbroken(c.Name), 100*c.Share))
	}
	if len(parts) > 0 {
		d.Labelled("Waiting", "in %s solids wait for: %s", a.last().Label, strings.Join(parts, ", "))
	}
}

// unbroken is a name that is not broken over lines.
func unbroken(name string) string { return strings.ReplaceAll(name, " ", doc.NoBreak) }

// namedStages is how many stages the text names, the tightest first.
const namedStages = 3

// capacity says what arrives in the last year and which stages sustain least: at
// most, for the arithmetic leaves out the time lost between stages and loads that
// stay longer to comply.
func (a *Answer) capacity(d *doc.Document) {
	y := &a.Capacities[len(a.Capacities)-1]
	var stages []doc.Text
	for _, s := range y.Stages[:min(namedStages, len(y.Stages))] {
		stages = append(stages, doc.Say("%s"+doc.NoBreak+"%s", unbroken(s.Name), doc.Bare(s.Sustains, doc.MassPerDay)))
	}
	if len(stages) > 0 {
		d.Labelled("Capacity", "%s brings %s dry (%s in its peak month); at its end stages sustain at most, tightest first: %s",
			y.Label, doc.Show(y.Arrived.P50, doc.MassPerDay), doc.Bare(y.ArrivedPeak.P50, doc.MassPerDay), doc.Join(", ", stages...))
	}
}

// overAir says for how long the last year asks for more air than there is.
func (a *Answer) overAir(d *doc.Document) {
	if y := a.last(); y.overAir() {
		d.Labelled("Air", "in %s vessels ask for over %s, the limit, during %.0f h (peak %s)",
			y.Label, doc.Show(a.AirLimit, doc.AirFlow), y.Air.HoursOver.P50, doc.Bare(y.Air.Peak.P50, doc.AirFlow))
	}
}

// namedChanges is how many changes that wait for a trigger the text names.
const namedChanges = 2

// triggered says how often changes came about.
func (a *Answer) triggered(d *doc.Document) {
	var parts []string
	for _, t := range a.Triggered[:min(namedChanges, len(a.Triggered))] {
		part := fmt.Sprintf("%s in %.0f"+doc.NoBreak+"%% of runs", doc.Name(t.Change, 24), 100*t.Share)
		if t.Decided.Valid() {
			part += fmt.Sprintf(" (median %v)", t.Decided)
		}
		parts = append(parts, part)
	}
	if more := len(a.Triggered) - namedChanges; more > 0 {
		parts = append(parts, fmt.Sprintf("%d more", more))
	}
	if len(parts) > 0 {
		d.Labelled("Triggered", "%s", strings.Join(parts, "; "))
	}
}

func (a *Answer) balance(d *doc.Document) {
	d.Spared(spareBalance, "Mass balance", "closes to %s of throughput (worst: %s); bound %s",
		doc.Tiny(a.Balance.Worst), doc.Name(a.Balance.WorstAt, 34), doc.Tiny(a.Balance.Bound))
}

// namedCautions is how many cautions the text has room for.
const namedCautions = 3

// cautions gives the first sentence of the first cautions.
func cautions(d *doc.Document) {
	all := answer.Cautions()
	for _, c := range all[:namedCautions] {
		sentence, _, _ := strings.Cut(c.Text, ". ")
		d.Para("! %s.", strings.TrimSuffix(sentence, "."))
	}
	d.Add(doc.Paragraph{Text: doc.Say("All %d cautions with their sources: cautions.txt in the report folder.", len(all)), Terminal: true})
}
