package vesselplan

import (
	"math"
	"slices"

	doc "loamcast/scenarios/document"
)

// growthInks and growthDashes tell the growth scenarios apart, in both pictures.
var (
	growthInks   = []doc.Ink{doc.Green, doc.Orange, doc.Vermilion, doc.Purple}
	growthDashes = []doc.Dash{doc.Dotted, doc.Dashed, doc.Mixed}
)

// figure shows the vessels that keep the service target, year by year, in every
// growth scenario.
func (a *Answer) figure() doc.Figure {
	main := a.Main()
	panel := doc.Panel{Quantity: doc.Count, Y: "vessels", Whole: true, X: doc.Axis{Title: "year", From: -0.5, To: float64(a.Horizon) - 0.5}}
	if slices.Max(a.Added) > 0 {
		panel.Y = "vessels, with those that the file adds"
	}
	for y := range a.Horizon {
		panel.X.Labels = append(panel.X.Labels, a.Label(y))
	}
	panel.Series = append(a.orderMarks(), []doc.Series{
		{Name: doc.Words("installed"), Shape: doc.Steps, Values: a.installed(), Ink: doc.Black, Width: 1.5},
		{Name: doc.Words("handbook estimate,\npeak month"), Values: main.StaticPeak, Ink: doc.Faded, Width: 1.5, Dash: doc.Dotted},
		{Name: doc.Words("handbook estimate,\nyear's average"), Values: main.StaticMean, Ink: doc.Grey, Width: 1.5, Dash: doc.Dashed},
	}...)
	if len(a.Growths) > 1 && len(a.All.Rows) > 1 {
		panel.Series = append(panel.Series, doc.Series{
			Name: doc.Words("all growths\nby weight"), Shape: doc.Steps, Values: a.steps(&a.All), Ink: doc.Blue, Width: 3,
		})
	}
	for i := range a.Growths {
		g := &a.Growths[i]
		panel.Series = append(panel.Series, doc.Series{
			Name: doc.Say("growth\n%s", doc.Printable(g.Name)), Shape: doc.Steps, Values: a.steps(g),
			At:  0.06 * float64(i+1), // side by side, so that lines at the same height can be told apart
			Ink: growthInks[i%len(growthInks)], Width: 1.75, Dash: growthDashes[i%len(growthDashes)],
		})
	}
	return doc.Figure{
		Name:  "when",
		Title: a.message(),
		Subtitle: doc.About(&a.Basis, "vessels that keep the service target; upright: when to order the next", "a line that ends: no number tried is enough",
			"handbook: for growth “"+doc.Printable(main.Name)+"”"),
		Panels: []doc.Panel{panel},
	}
}

// message is the answer as the title of a picture.
func (a *Answer) message() doc.Text {
	switch a.Advice(&a.All) {
	case NoOrder:
		return doc.Say("The vessels are enough through %s: no more need be ordered", a.Label(a.Horizon-1))
	case NoHelp:
		return doc.Words("More vessels do not help")
	case OrderAtOnce:
		return doc.Say("Order %s at once", a.howMany())
	}
	due, _ := a.Ordered(&a.All, &a.All.Rows[0])
	return doc.Say("Order %s by the end of %s", a.howMany(), doc.Quarter(due.Quarter))
}

// installed are by year the vessels that are there and that the file adds.
func (a *Answer) installed() []float64 {
	out := make([]float64, a.Horizon)
	for y := range out {
		out[y] = float64(a.Installed + a.Added[y])
	}
	return out
}

// orderMarks are the times to order by, over all growths by weight, those left out that
// would stand on each other.
func (a *Answer) orderMarks() []doc.Series {
	if advice := a.Advice(&a.All); advice == NoOrder || advice == NoHelp {
		return nil
	}
	const apart = 1.5 // years, for the name
	var marks []doc.Series
	last := math.Inf(-1)
	for _, t := range a.turns() {
		at := a.Start.YearsUntil(t.due.Day) - 0.5
		if t.due.AtOnce {
			at = -0.5
		}
		if at-last < apart {
			continue
		}
		last = at
		marks = append(marks, doc.Series{Name: doc.Say("order %d", t.vessel), Shape: doc.Upright, At: at, Values: []float64{math.NaN()}, Ink: doc.Grey, Width: 1})
	}
	return marks
}

// steps are by year the fewest vessels that keep the target through it, those that
// the file adds by its end among them: the handbook's estimate beside them is of
// all that are needed.
func (a *Answer) steps(g *Growth) []float64 {
	out := make([]float64, a.Horizon)
	for y := range out {
		out[y] = math.NaN()
		if r := g.Lasting(y); r != nil {
			out[y] = float64(r.Vessels + a.Added[y])
		}
	}
	return out
}
