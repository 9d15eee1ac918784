package cycleplan

import (
	"fmt"
	"math"

	"loamcast/facility/process"
	doc "loamcast/scenarios/document"
)

// courseFigures show a load's temperature against what the criteria name and the
// program sets; its drying; its air.
func (a *Answer) courseFigures(l *Load) []doc.Figure {
	about := doc.About(&a.Basis, fmt.Sprintf("%s load, cured in %s", l.Month, l.CuringMonth),
		fmt.Sprintf("%.3g days in the vessel, then %.3g on the curing pad", l.Stay/hoursPerDay, l.Cured/hoursPerDay))
	air, oxygen := l.air(), l.oxygen()
	air.X.Title = ""
	return []doc.Figure{
		{Name: "cycle-temperature", Title: doc.Say("Temperature of %s load against the criteria and the temperature program", withArticle(l.Month)),
			Subtitle: about, Panels: []doc.Panel{l.temperature()}},
		{Name: "cycle-moisture", Title: doc.Say("How %s load dries and loses solids", withArticle(l.Month)),
			Subtitle: about, Panels: []doc.Panel{l.drying()}},
		{Name: "cycle-air", Title: doc.Say("Air that %s load gets, and the oxygen it leaves in the pores", withArticle(l.Month)),
			Subtitle: about, Panels: []doc.Panel{air, oxygen}},
	}
}

// panel is an empty one over the days of the load.
func (l *Load) panel(q doc.Quantity, y string) doc.Panel {
	return doc.Panel{Quantity: q, Y: y, X: doc.Axis{Title: "day", To: l.end()}, Series: []doc.Series{
		{Shape: doc.Upright, At: l.Stay / hoursPerDay, Name: doc.Words("to the pad")},
	}}
}

// end is the last day of the course.
func (l *Load) end() float64 { return (l.Stay + l.Cured) / hoursPerDay }

// curve takes a value from each sample.
func (l *Load) curve(name string, ink doc.Ink, width float64, dash doc.Dash, value func(*Row) float64) doc.Series {
	s := doc.Series{Name: doc.Words(name), Shape: doc.Curve, Ink: ink, Width: width, Dash: dash}
	for i := range l.Samples {
		s.X = append(s.X, l.Samples[i].Hours/hoursPerDay)
		s.Values = append(s.Values, value(&l.Samples[i]))
	}
	return s
}

// level is a dotted line over the whole course.
func (l *Load) level(v float64, name doc.Text) doc.Series {
	return doc.Series{Name: name, Shape: doc.Curve, X: []float64{0, l.end()}, Values: []float64{v, v}, Ink: doc.Black, Width: 1, Dash: doc.Dotted}
}

func (l *Load) temperature() doc.Panel {
	p := l.panel(doc.Degrees, "{unit}")
	p.Series = append(p.Series, l.curve("load", doc.Vermilion, 2.25, doc.Solid, func(r *Row) float64 { return r.Temperature }))
	setpoint := doc.Series{Name: doc.Words("setpoint"), Shape: doc.Curve, Ink: doc.Blue, Width: 1.25, Dash: doc.Dashed}
	for _, s := range l.Segments {
		if math.IsInf(s.Setpoint, 1) {
			setpoint.X, setpoint.Values = append(setpoint.X, s.From/hoursPerDay), append(setpoint.Values, math.NaN())
			continue
		}
		setpoint.X = append(setpoint.X, s.From/hoursPerDay, s.To/hoursPerDay)
		setpoint.Values = append(setpoint.Values, s.Setpoint, s.Setpoint)
	}
	p.Series = append(p.Series, setpoint)
	for _, t := range thresholds(l.Criteria) {
		p.Series = append(p.Series, l.level(t.temperature, doc.Say("%s, %s", degrees(t.temperature), t.name)))
	}
	return p
}

// threshold is a temperature that criteria name.
type threshold struct {
	temperature float64
	name        string
}

// thresholds returns the temperatures of the criteria, each once.
func thresholds(criteria []Criterion) []threshold {
	var list []threshold
	add := func(t float64, name string) {
		for i := range list {
			if list[i].temperature == t {
				return
			}
		}
		list = append(list, threshold{t, name})
	}
	for _, x := range criteria {
		if x.Kind == process.Aired {
			continue
		}
		add(x.Temperature, x.Name)
		switch x.Kind {
		case process.MeanAbove:
			add(x.Mean, "mean for "+x.Name)
		case process.HoldWithPeak:
			add(x.Peak, "peak for "+x.Name)
		}
	}
	return list
}

func (l *Load) drying() doc.Panel {
	p := l.panel(doc.Share, "%")
	p.Series = append(p.Series,
		l.curve("dry solids left, of those loaded", doc.Green, 2.25, doc.Solid, func(r *Row) float64 { return r.DryLeft }),
		l.curve("moisture, of the wet mass", doc.Blue, 2.25, doc.Dashed, func(r *Row) float64 { return r.Moisture }))
	return p
}

func (l *Load) air() doc.Panel {
	p := l.panel(doc.AirFlow, "air flow, {unit}")
	p.Series = append(p.Series, l.curve("air flow", doc.SkyBlue, 1.75, doc.Solid, func(r *Row) float64 { return r.Flow }))
	return p
}

func (l *Load) oxygen() doc.Panel {
	p := l.panel(doc.Count, "oxygen, % by volume")
	least := process.DefaultLimits().Oxygen
	p.Series = append(p.Series,
		l.curve("oxygen", doc.Purple, 1.75, doc.Solid, func(r *Row) float64 { return r.Oxygen }),
		l.level(least, doc.Say("%g %%, below which it limits", least)))
	return p
}

// monthsFigure shows when the loads of several months are hot, comply and leave.
func (a *Answer) monthsFigure() doc.Figure {
	p := doc.Panel{Quantity: doc.Days, Y: "days", X: doc.Axis{From: -0.5, To: float64(len(a.Loads)) - 0.5}}
	for i := range a.Loads {
		p.X.Labels = append(p.X.Labels, a.Loads[i].Month.String()[:3])
	}
	add := func(name doc.Text, of func(*Load) Moment) {
		p.Series = append(p.Series, a.byMonth(name, len(p.Series), of))
	}
	add(doc.Say("first %s", degrees(a.Landmark)), func(l *Load) Moment { return l.Passes })
	add(doc.Words("leaves the vessel"), func(l *Load) Moment { return Moment{OK: l.Complies, Hours: l.Stay} })
	for i, x := range a.Loads[0].Criteria {
		if x.Kind == process.Aired {
			continue
		}
		add(doc.Words(x.Name), func(l *Load) Moment { return l.Criteria[i].Met })
	}
	return doc.Figure{
		Name:     "cycle-months",
		Title:    doc.Words("When a load of each month is hot, meets the criteria and may leave the vessel"),
		Subtitle: doc.About(&a.Basis, "days from the start of the load; a gap is a criterion that is not met"),
		Panels:   []doc.Panel{p},
	}
}

// byMonth is the curve of a moment over the months.
func (a *Answer) byMonth(name doc.Text, i int, of func(*Load) Moment) doc.Series {
	inks := []doc.Ink{doc.Vermilion, doc.Black, doc.Blue, doc.Green, doc.Purple, doc.Orange}
	dashes := []doc.Dash{doc.Solid, doc.Solid, doc.Dashed, doc.Mixed, doc.Dotted}
	s := doc.Series{Name: name, Shape: doc.Curve, Ink: inks[i%len(inks)], Width: 2, Dash: dashes[i%len(dashes)]}
	for month := range a.Loads {
		v := math.NaN()
		if m := of(&a.Loads[month]); m.OK {
			v = m.Hours / hoursPerDay
		}
		s.X, s.Values = append(s.X, float64(month)), append(s.Values, v)
	}
	return s
}
