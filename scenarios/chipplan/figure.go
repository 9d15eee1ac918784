package chipplan

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
)

// figure shows what is bought from the beginning of each fiscal year on, what is
// bought and comes back each month, and the store.
func (a *Answer) figure() doc.Figure {
	of := func(spread func(*Month) answer.Spread) doc.Curves { return doc.CurvesOf(a.Months, spread) }
	bought := of(func(m *Month) answer.Spread { return m.Bought })
	recovered := of(func(m *Month) answer.Spread { return m.Recovered })
	peak := of(func(m *Month) answer.Spread { return m.StorePeak })
	end := of(func(m *Month) answer.Spread { return m.StoreEnd })
	sum := of(func(m *Month) answer.Spread { return m.BoughtToDate })
	interval := a.Level.String()

	axis := fiscal.Axis(a.Months, func(m *Month) fiscal.Month { return m.Month })
	year := axis(doc.Volume, "{unit} bought since the "+a.Word()+" began")
	year.X.Title = ""
	per := len(a.Months) / len(a.Years)
	for from := 0; from < len(a.Months); from += per {
		to, at := from+per, fiscal.Middle+float64(from)
		b := doc.Series{Shape: doc.Band, At: at, Values: sum.High[from:to], Low: sum.Low[from:to], Ink: doc.Orange, Tint: 0.35}
		l := doc.Series{At: at, Values: sum.Mid[from:to], Ink: doc.Orange, Width: 2.5}
		if to == len(a.Months) { // the years look alike: the last names them all
			b.Name, b.NameHigh, l.Name = doc.Words(interval), true, doc.Words("median")
		}
		year.Series = append(year.Series, b, l)
	}
	flow := axis(doc.Volume, "{unit} a month, means")
	flow.X.Title = ""
	flow.Series = []doc.Series{
		{Name: doc.Words("recovered"), At: fiscal.Middle, Values: recovered.Mean, Ink: doc.Green, Width: 1.75, Dash: doc.Dashed},
		{Name: doc.Words("bought"), At: fiscal.Middle, Values: bought.Mean, Ink: doc.Orange, Width: 2.5},
	}
	store := axis(doc.Volume, "{unit} of fresh chips in the store")
	store.Series = fiscal.Store(a.Level, end, peak, a.Ordering.Store)
	return doc.Figure{
		Name:     "chips-months",
		Title:    doc.Say("Buy %s of fresh chips in %s, %s", doc.Show(a.Years[0].Bought.Mean, doc.Volume), a.InWords(a.Years[0].Label), doc.Counted(int(a.Years[0].Truckloads.Mean+0.5), "truckload")),
		Subtitle: doc.About(&a.Basis, "bought since the "+a.Word()+" began, bought each month, and in the store", "bands are "+interval+", "+doc.Runs(&a.Basis)),
		Panels:   []doc.Panel{year, flow, store},
	}
}
