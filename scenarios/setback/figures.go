package setback

import (
	"fmt"

	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// figures are what vessels that fail cost by the month in which that begins, one of each
// setback that costs anything, and all setbacks beside each other where one is a season.
func (a *Answer) figures() []doc.Figure {
	var out []doc.Figure
	for i := range a.Setbacks {
		if s := &a.Setbacks[i]; s.Fails() {
			out = append(out, a.monthsFigure(s, len(out)))
		}
	}
	if a.seasonal() {
		out = append(out, a.besides())
	}
	return out
}

// monthsFigure shows what leaves untreated and the chance of missing the target by month.
func (a *Answer) monthsFigure(s *Setback, before int) doc.Figure {
	y := s.decides()
	n := len(y.Begins)
	axis := doc.Axis{From: -0.5, To: float64(n) - 0.5}
	for i := range y.Begins {
		from := y.Begins[i].From
		axis.Labels = append(axis.Labels, fmt.Sprintf("%s %d", from.Month.String()[:3], from.Year))
	}
	of := func(value func(*Begin) float64) []float64 { return doc.ValuesOf(y.Begins, value) }
	lost := doc.Panel{Quantity: doc.Mass, Y: "leaves untreated beyond what would anyway, {unit} dry", X: axis, Series: []doc.Series{
		{Name: doc.Words("mean"), Shape: doc.Bars, Values: of(func(b *Begin) float64 { return max(0, b.Untreated.Mean) }), Low: doc.Level(n, 0), Ink: doc.Orange},
		{Name: doc.Words("mean,\n90 % sure"), Shape: doc.Whiskers, Values: of(func(b *Begin) float64 { return max(0, b.Untreated.Interval.High) }),
			Low: of(func(b *Begin) float64 { return max(0, b.Untreated.Interval.Low) }), Ink: doc.Black, Width: 1.5},
		{Name: doc.Words("one run\nin ten, more"), Values: of(func(b *Begin) float64 { return max(0, b.Untreated.P90) }), Ink: doc.Grey, Width: 1.25, Dash: doc.Dotted},
	}}
	axis.Title = "begins in"
	chance := func(name string, with func(*Begin) stats.Interval, ink doc.Ink, dash doc.Dash) doc.Series {
		return doc.Series{Name: doc.Words(name), Values: of(func(b *Begin) float64 { return with(b).Estimate }), Ink: ink, Width: 2, Dash: dash}
	}
	missed := doc.Panel{Quantity: doc.Share, Y: "chance of missing the target within twelve months from then, %", X: axis, Series: []doc.Series{
		{Name: doc.Words("with,\n90 % sure"), Shape: doc.Band, Values: of(func(b *Begin) float64 { return b.Missed.High }), Low: of(func(b *Begin) float64 { return b.Missed.Low }),
			Ink: doc.Vermilion, Tint: 0.25, NameHigh: true},
		chance("with", func(b *Begin) stats.Interval { return b.Missed }, doc.Vermilion, doc.Solid),
		chance("without", func(b *Begin) stats.Interval { return b.Without }, doc.Blue, doc.Dashed),
		{Name: doc.Words("what the\ntarget leaves"), Values: doc.Level(n, a.Target.MissShare), Ink: doc.Grey, Width: 1.25, Dash: doc.Dotted},
	}}
	name := "setback-months"
	if before > 0 {
		name += fmt.Sprintf("-%d", before+1)
	}
	return doc.Figure{
		Name: name, Title: a.message(s, y),
		Subtitle: doc.AboutText(&a.Basis, doc.Words("against the same runs without it"), doc.Words(doc.Runs(&a.Basis))),
		Panels:   []doc.Panel{lost, missed},
	}
}

// message is the title of a picture.
func (a *Answer) message(s *Setback, y *Year) doc.Text {
	in := a.Label(y.Year)
	switch {
	case y.harmless():
		return doc.Say("%s in %s: nothing is lost, whenever that begins", s.subject(y), in)
	case !y.Told():
		return doc.Say("%s in %s costs about the same whenever it begins", s.subject(y), in)
	}
	return doc.Say("%s in %s costs least when begun in %s, most from %s on", s.subject(y), in, y.monthsOf(y.least()), y.Begins[y.Most].From.Month)
}

// besides shows all setbacks beside each other, in the year that decides.
func (a *Answer) besides() doc.Figure {
	ladder := &doc.Ladder{Quantity: doc.Mass, Unit: "{unit} dry", Key: []doc.KeyEntry{
		{Name: "leaves untreated beyond what would anyway, mean", Ink: doc.Orange},
		{Name: "90 % sure", Ink: doc.Black, Dot: true},
	}}
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		b := &s.decides().Begins[s.decides().Most]
		e := b.Untreated.Interval
		ladder.Rows = append(ladder.Rows, doc.Rung{
			Name: doc.Name(s.Name, longestName), Note: doc.Words("from " + monthOf(b.From)),
			Bars: []doc.Span{{To: e.Estimate, Ink: doc.Orange}}, Dots: []doc.Dot{{At: e.Estimate, Low: e.Low, High: e.High, Ink: doc.Black}},
		})
	}
	return doc.Figure{
		Name: "setback", Title: doc.Words("What each setback costs, of vessels from the month in which they cost most"),
		Subtitle: doc.AboutText(&a.Basis, doc.Words("against the same runs without it, over twelve months"), doc.Words(doc.Runs(&a.Basis))),
		Ladder:   ladder,
	}
}
