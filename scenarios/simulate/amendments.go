package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Amendment is what a year did with an amendment of the recipe, m3 as delivered.
type Amendment struct {
	Name, Year  string
	Bought, Own answer.Spread // on order; of own sources
	Turned      answer.Spread // of own sources, for which there was no room
	Used        answer.Spread // mixed
	Missed      answer.Spread // that loads did without
	HoursShort  answer.Spread // during which mixing waited for it
}

// amendments are those of the recipe, amendment by amendment; none if it has none.
func (t *tally) amendments() {
	years := t.answer.Years
	t.answer.Amendments = make([]Amendment, len(t.plant.Amendments)*len(years))
	for i := range t.answer.Amendments {
		out, which, y := &t.answer.Amendments[i], i/len(years), i%len(years)
		out.Name, out.Year = t.plant.Amendments[which].Material.Name, years[y].Label
		total := func(into *answer.Spread, of func(*plant.MonthlyAmendment) float64) {
			t.sum(into, inYear(y), func(m *plant.Month) float64 { return of(&m.Amendments[which]) })
		}
		total(&out.Bought, func(a *plant.MonthlyAmendment) float64 { return a.Bought })
		total(&out.Own, func(a *plant.MonthlyAmendment) float64 { return a.Own })
		total(&out.Turned, func(a *plant.MonthlyAmendment) float64 { return a.Turned })
		total(&out.Used, func(a *plant.MonthlyAmendment) float64 { return a.Used })
		total(&out.Missed, func(a *plant.MonthlyAmendment) float64 { return a.Missed })
		total(&out.HoursShort, func(a *plant.MonthlyAmendment) float64 { return a.HoursShort })
	}
}

// amended tells of the amendments: on the screen of the first year and the last.
func (a *Answer) amended(d *doc.Document) {
	if len(a.Amendments) == 0 {
		return
	}
	for i := range a.Amendments {
		m := &a.Amendments[i]
		if m.Year != a.Years[0].Label && m.Year != a.last().Label {
			continue
		}
		text := doc.Say("%s mixed, of %s bought and %s of own sources", doc.Show(m.Used.P50, doc.Volume), doc.Bare(m.Bought.P50, doc.Volume), doc.Bare(m.Own.P50, doc.Volume))
		if m.Missed.P50 > 0 {
			text = text.Then("; loads did without %s", doc.Show(m.Missed.P50, doc.Volume))
		}
		if m.HoursShort.P50 > 0 {
			text = text.Then("; mixing waited for it for %.0f h", m.HoursShort.P50)
		}
		if m.Turned.P50 > 0 {
			text = text.Then("; no room for %s", doc.Show(m.Turned.P50, doc.Volume))
		}
		d.Labelled(m.Year, "%s: %s", doc.Name(m.Name, 30), text)
	}
	d.Add(doc.TableOf(doc.Table{In: doc.Files, Name: "amendments", File: "amendments"}, a.Amendments, amendmentColumns...))
}

var amendmentColumns = []doc.Col[Amendment]{
	doc.Key("material", func(a *Amendment) any { return a.Name }).Means("amendment of the recipe"),
	doc.Key("year", func(a *Amendment) any { return a.Year }).Means("year of the horizon"),
	doc.Spr("bought", doc.Volume, func(a *Amendment) answer.Spread { return a.Bought }).Means("amendment delivered, loose"),
	doc.Spr("own", doc.Volume, func(a *Amendment) answer.Spread { return a.Own }).Means("amendment from the plant's own sources, loose"),
	doc.Spr("turned_away", doc.Volume, func(a *Amendment) answer.Spread { return a.Turned }).Means("what came by itself and found no room in the store, loose"),
	doc.Spr("mixed", doc.Volume, func(a *Amendment) answer.Spread { return a.Used }).Means("amendment that went into the mixer, loose"),
	doc.Spr("done_without", doc.Volume, func(a *Amendment) answer.Spread { return a.Missed }).Means("amendment that loads went without because it was short, loose"),
	doc.Spr("mixing_waited_h", doc.Count, func(a *Amendment) answer.Spread { return a.HoursShort }).Means("hours for which mixing waited for the amendment"),
}
