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

// amendments reduces them, amendment by amendment; none if the recipe has none.
func (r Runs) amendments(years []Year) []Amendment {
	var out []Amendment
	for i := range r.Plant.Amendments {
		for y := range years {
			total := func(of func(*plant.MonthlyAmendment) float64) answer.Spread {
				return r.sum(inYear(y), func(m *plant.Month) float64 { return of(&m.Amendments[i]) })
			}
			out = append(out, Amendment{
				Name: r.Plant.Amendments[i].Material.Name, Year: years[y].Label,
				Bought:     total(func(a *plant.MonthlyAmendment) float64 { return a.Bought }),
				Own:        total(func(a *plant.MonthlyAmendment) float64 { return a.Own }),
				Turned:     total(func(a *plant.MonthlyAmendment) float64 { return a.Turned }),
				Used:       total(func(a *plant.MonthlyAmendment) float64 { return a.Used }),
				Missed:     total(func(a *plant.MonthlyAmendment) float64 { return a.Missed }),
				HoursShort: total(func(a *plant.MonthlyAmendment) float64 { return a.HoursShort }),
			})
		}
	}
	return out
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
