package vesselplan

import (
	"math"

	doc "loamcast/scenarios/document"
)

// shownAfter is how many years after the latest order are shown.
const shownAfter = 7

// waiting shows what waiting for the order means: the chance of being late, and
// what leaves untreated, by the quarter of the order.
func (a *Answer) waiting() doc.Figure {
	n := min(len(a.Orders), max(0, a.Latest())+shownAfter*quarters)
	axis := doc.Axis{Title: "ordered by the end of", From: -0.5, To: float64(n) - 0.5}
	for _, o := range a.Orders[:n] {
		axis.Labels = append(axis.Labels, doc.Quarter(o.Quarter))
	}
	values := func(of func(*Order) float64) []float64 {
		out := make([]float64, n)
		for i := range out {
			out[i] = of(&a.Orders[i])
		}
		return out
	}
	limit := make([]float64, n)
	for i := range limit {
		limit[i] = a.Target.MissShare
	}
	late := doc.Panel{Quantity: doc.Share, Y: "chance of missing the target before the vessels are in use, %", X: axis, Series: []doc.Series{
		{Shape: doc.Band, Values: values(func(o *Order) float64 { return o.Late.High }), Low: values(func(o *Order) float64 { return o.Late.Low }), Ink: doc.Blue, Tint: 0.7},
		{Name: doc.Words("what the\ntarget leaves"), Values: limit, Ink: doc.Grey, Width: 1.25, Dash: doc.Dotted},
		{Name: doc.Words("all growths\nby weight"), Values: values(func(o *Order) float64 { return o.Late.Estimate }), Ink: doc.Blue, Width: 2.5},
	}}
	if len(a.Growths) > 1 {
		for g := range a.Growths {
			late.Series = append(late.Series, doc.Series{
				Name: doc.Say("growth\n%s", doc.Printable(a.Growths[g].Name)), Values: values(func(o *Order) float64 { return o.ByGrowth[g] }),
				Ink: growthInks[g%len(growthInks)], Width: 1.75, Dash: growthDashes[g%len(growthDashes)],
			})
		}
	}
	lost := doc.Panel{Quantity: doc.Mass, Y: "leaves untreated before then, {unit} dry", X: axis, Series: []doc.Series{
		{Values: values(func(o *Order) float64 { return o.Untreated }), Ink: doc.Vermilion, Width: 2},
	}}
	if at := a.Latest(); at >= 0 {
		mark := doc.Series{Name: doc.Words("latest order"), Shape: doc.Upright, At: float64(at), Values: []float64{math.NaN()}, Ink: doc.Grey, Width: 1}
		late.Series, lost.Series = append(late.Series, mark), append(lost.Series, mark)
	}
	return doc.Figure{
		Name:     "when-order",
		Title:    a.waitingMessage(),
		Subtitle: doc.About(&a.Basis, doc.Counted(a.Installed, "vessel")+" installed"),
		Panels:   []doc.Panel{late, lost},
	}
}

// waitingMessage says what waiting means, as the title of a picture.
func (a *Answer) waitingMessage() doc.Text {
	later, ok := a.Waiting()
	at := a.Latest()
	if !ok || at < 0 {
		return doc.Words("What waiting for the order means")
	}
	now := &a.Orders[at]
	return doc.Say("Waiting from %s to %s takes the chance of missing the target from %s to %s",
		doc.Quarter(now.Quarter), doc.Quarter(later.Quarter), chance(now.Late.Estimate), chance(later.Late.Estimate))
}
