package productplan

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
)

// figure shows what is screened and what is taken month by month, and the store
// under it.
func (a *Answer) figure() doc.Figure {
	of := func(spread func(*Month) answer.Spread) doc.Curves { return doc.CurvesOf(a.Months, spread) }
	screened := of(func(m *Month) answer.Spread { return m.Volume })
	taken := of(func(m *Month) answer.Spread { return m.Taken })
	unmet := of(func(m *Month) answer.Spread { return m.Unmet })
	end := of(func(m *Month) answer.Spread { return m.StoreEnd })
	peak := of(func(m *Month) answer.Spread { return m.StorePeak })

	axis := fiscal.Axis(a.Months, func(m *Month) fiscal.Month { return m.Month })
	flow := axis(doc.Volume, "{unit} a month")
	flow.X.Title = ""
	flow.Series = []doc.Series{
		{Name: doc.Words("screened, " + a.Level.String()), Shape: doc.Band, At: fiscal.Middle, Values: screened.High, Low: screened.Low,
			Ink: doc.Purple, Tint: 0.35, NameHigh: true},
		{Name: doc.Words("screened"), At: fiscal.Middle, Values: screened.Mean, Ink: doc.Purple, Width: 2.5},
		{Name: doc.Words("taken"), At: fiscal.Middle, Values: taken.Mean, Ink: doc.Blue, Width: 1.75, Dash: doc.Dashed},
		{Name: doc.Words("demand not met"), At: fiscal.Middle, Values: unmet.Mean, Ink: doc.Vermilion, Width: 1.75, Dash: doc.Dotted},
	}
	store := axis(doc.Volume, "{unit} of compost in the store")
	store.Series = fiscal.Store(a.Level, end, peak, a.Store)
	return doc.Figure{
		Name:     "product-months",
		Title:    doc.Say("Expect %s of compost in %s; about %s of it is taken", doc.Show(a.Years[0].Volume.Mean, doc.Volume), a.InWords(a.Years[0].Label), doc.Show(a.Years[0].Taken.Mean, doc.Volume)),
		Subtitle: doc.About(&a.Basis, "what is screened each month, what is taken, and demand not met", "lines are means; bands are "+a.Level.String()+", "+doc.Runs(&a.Basis)),
		Panels:   []doc.Panel{flow, store},
	}
}
