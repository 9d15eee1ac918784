package simulate

import (
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/dryness"
	"loamcast/sim/calendar"
)

// Dryness is how wet the lots of one month of the year came to the screen, all years
// together.
type Dryness struct {
	Month    time.Month
	Lots     float64       // screened in a replication, all years together, mean
	TooWet   answer.Spread // share of them above the screen's moisture limit
	Moisture answer.Spread // of all lots, mean
	// Remedy says what it would take to bring the mean of the wet lots to the limit,
	// from when they were screened, in the weather of the month; nothing where none is
	// wet.
	Remedy plant.Remedy
}

// dryness is that of the lots that were screened, by month of the year.
func (t *tally) dryness() {
	t.answer.Dryness = make([]Dryness, calendar.MonthsPerYear)
	for i := range t.answer.Dryness {
		out, month := &t.answer.Dryness[i], time.January+time.Month(i)
		out.Month = month
		of := func(f field) field { // all else is nothing
			return func(m *plant.Month) float64 {
				if m.Month != month {
					return 0
				}
				return f(m)
			}
		}
		lots := of(func(m *plant.Month) float64 { return m.Screen.Lots })
		perLot := func(into *answer.Spread, f field) { t.ratio(into, horizon, of(f), lots) }
		var screened answer.Spread
		t.sum(&screened, horizon, lots)
		t.Last(func() { out.Lots = screened.Mean })
		perLot(&out.TooWet, func(m *plant.Month) float64 { return m.Drying.TooWet })
		perLot(&out.Moisture, func(m *plant.Month) float64 { return m.Screen.Moisture })
		t.remedy(&out.Remedy, month)
	}
}

// remedy is what dries the mean of the lots that are too wet in a month of the year.
func (t *tally) remedy(out *plant.Remedy, month time.Month) {
	var all plant.Month // with what wet lots are known by
	t.Each(func(r *Replication) {
		for i := range r.Usual.Months {
			if m := &r.Usual.Months[i]; m.Month == month {
				all.Drying.TooWet += m.Drying.TooWet
				all.Drying.Wet.Mix(&m.Drying.Wet)
				all.Drying.Warmth += m.Drying.Warmth
			}
		}
	})
	t.Last(func() {
		lot, warmth, ok := plant.WetLot(func(yield func(*plant.Month) bool) { yield(&all) })
		if !ok {
			return
		}
		if remedy, err := t.plant.RemedyFor(lot, warmth, month); err == nil {
			*out = remedy
		}
	})
}

func (a *Answer) drynessByMonth() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "dryness", File: "dryness"}, a.Dryness, append([]doc.Col[Dryness]{
		doc.Key("month", func(d *Dryness) any { return int(d.Month) }).Means("month of any year, from 1 to 12"),
		doc.Val("lots_screened", doc.Count, func(d *Dryness) float64 { return d.Lots }).Means("lots screened in that month of all years and runs"),
		doc.Spr("too_wet_to_screen", doc.Share, func(d *Dryness) answer.Spread { return d.TooWet }).Means("part of the lots screened above the moisture limit of the screen"),
		doc.Spr("screened_at_moisture", doc.Share, func(d *Dryness) answer.Spread { return d.Moisture }).Means("water of the wet mass of lots at the screen"),
	}, dryness.Columns(func(d *Dryness) plant.Remedy { return d.Remedy })...)...)
}

// wettest returns the month of which the largest share of the lots is too wet; ok is
// false if hardly one is.
func (a *Answer) wettest() (top Dryness, ok bool) {
	const hardly = 0.005
	for _, d := range a.Dryness {
		if d.TooWet.P50 > top.TooWet.P50 {
			top = d
		}
	}
	return top, top.Remedy.Needed() && top.TooWet.P50 >= hardly
}

// wetLots says how many lots are too wet in the worst month, and what would dry them,
// of a plant that minds. Of one that screens them as they are, files tell it.
func (a *Answer) wetLots(d *doc.Document) {
	if !a.MindsWet {
		return
	}
	worst, ok := a.wettest()
	if !ok {
		d.Spared(spareDryness, "Dryness", "lots are dry enough when they are screened, in every month")
		return
	}
	d.Labelled("Dryness", "%s of %s lots are too wet to screen (mean of the month %s); %s",
		doc.With(worst.TooWet.P50, doc.Share, 0), worst.Month, doc.With(worst.Moisture.P50, doc.Share, 1), dryness.Advice(worst.Remedy))
}
