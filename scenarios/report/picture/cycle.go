package picture

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"loamcast/facility/process"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// Cycle returns the pictures of the course of a.Loads[0]: its temperature
// against what the criteria name and the program sets; its drying; its air.
func Cycle(a *cycleplan.Answer, sys units.System) []Picture {
	c := course{a: a, l: &a.Loads[0], sys: sys}
	temperature, drying := c.temperature(), c.drying()
	air := panels{c.flow(), c.oxygen()}
	return []Picture{
		{Name: "cycle-temperature", Title: temperature.title, draw: panels{temperature}.draw},
		{Name: "cycle-moisture", Title: drying.title, draw: drying.draw},
		{Name: "cycle-air", Title: air[0].title, draw: air.draw},
	}
}

// course is a load with what its charts share.
type course struct {
	a   *cycleplan.Answer
	l   *cycleplan.Load
	sys units.System
}

// hoursPerDay turns hours into the days of the horizontal axis.
const hoursPerDay = 24

// chart is an empty chart over the days of the load.
func (c course) chart(title, unit string) *chart {
	end := (c.l.Stay + c.l.Cured) / hoursPerDay
	subtitle := fmt.Sprintf("%s · %s load, cured in %s · %.3g days in the vessel, then %.3g on the curing pad",
		name(&simulate.Answer{Basis: answer.Basis{Facility: c.a.Facility}}), c.l.Month, c.l.CuringMonth, c.l.Stay/hoursPerDay, c.l.Cured/hoursPerDay)
	if c.a.Invented {
		subtitle += " · invented data"
	}
	return &chart{
		title: title, subtitle: subtitle, unit: unit, time: "day", ticks: dayTicks(end), to: end,
		series: []series{upright{c.l.Stay / hoursPerDay, "to the pad"}},
	}
}

// dayTicks marks days: each, or each second, fifth, … so that some twenty fit.
func dayTicks(end float64) plot.ConstantTicks {
	step := max(1, roundStep(end/20))
	var ticks plot.ConstantTicks
	for v := 0.0; v <= end*(1+1e-9); v += step {
		ticks = append(ticks, plot.Tick{Value: v, Label: fmt.Sprintf("%g", v)})
	}
	return ticks
}

// curve takes a value from each sample.
func (c course) curve(name string, style draw.LineStyle, value func(*cycleplan.Row) float64) curve {
	out := curve{name: name, style: style}
	for i := range c.l.Samples {
		out.add(c.l.Samples[i].Hours/hoursPerDay, value(&c.l.Samples[i]))
	}
	return out
}

func (c course) temperature() *chart {
	convert := converter(units.Temperature, c.sys)
	unit := unitOf(units.Temperature, c.sys)
	ch := c.chart(fmt.Sprintf("Temperature of a %s load against the criteria and the temperature program", c.l.Month), unit)
	ch.series = append(ch.series, c.curve("load", stroke(vermilion, 2.25, solid),
		func(r *cycleplan.Row) float64 { return convert(r.Temperature) }))
	setpoint := curve{name: "setpoint", style: stroke(blue, 1.25, dashed)}
	for _, s := range c.l.Segments {
		if math.IsInf(s.Setpoint, 1) {
			setpoint.add(s.From/hoursPerDay, math.NaN())
			continue
		}
		setpoint.add(s.From/hoursPerDay, convert(s.Setpoint))
		setpoint.add(s.To/hoursPerDay, convert(s.Setpoint))
	}
	ch.series = append(ch.series, setpoint)
	for _, t := range thresholds(c.l.Criteria) {
		v := convert(t.temperature)
		ch.series = append(ch.series, curve{
			x: []float64{0, ch.to}, y: []float64{v, v}, style: stroke(black, 1, dotted),
			name: fmt.Sprintf("%.0f %s, %s", v, unit, t.name),
		})
	}
	return ch
}

// threshold is a temperature that criteria name.
type threshold struct {
	temperature float64
	name        string
}

// thresholds returns the temperatures of the criteria, each once.
func thresholds(criteria []cycleplan.Criterion) []threshold {
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

func (c course) drying() *chart {
	ch := c.chart(fmt.Sprintf("How a %s load dries and loses solids", c.l.Month), "%")
	ch.series = append(ch.series,
		c.curve("dry solids left, of those loaded", stroke(green, 2.25, solid), func(r *cycleplan.Row) float64 { return 100 * r.DryLeft }),
		c.curve("moisture, of the wet mass", stroke(blue, 2.25, dashed), func(r *cycleplan.Row) float64 { return 100 * r.Moisture }))
	return ch
}

func (c course) flow() *chart {
	convert := converter(units.AirFlow, c.sys)
	ch := c.chart(fmt.Sprintf("Air that a %s load gets, and the oxygen it leaves in the pores", c.l.Month), "air flow, "+unitOf(units.AirFlow, c.sys))
	ch.time = ""
	ch.series = append(ch.series, c.curve("air flow", stroke(skyBlue, 1.75, solid),
		func(r *cycleplan.Row) float64 { return convert(r.Flow * hoursPerDay) }))
	return ch
}

func (c course) oxygen() *chart {
	ch := c.chart("", "oxygen, % by volume")
	ch.series = append(ch.series,
		c.curve("oxygen", stroke(purple, 1.75, solid), func(r *cycleplan.Row) float64 { return r.Oxygen }),
		curve{x: []float64{0, ch.to}, y: []float64{leastOxygen, leastOxygen}, style: stroke(black, 1, dotted), name: fmt.Sprintf("%g %%, below which it limits", leastOxygen)})
	return ch
}

// leastOxygen is that of process.DefaultLimits, %.
var leastOxygen = process.DefaultLimits().Oxygen

// least returns the least value of the curves.
func (ch *chart) least() float64 {
	least := math.Inf(1)
	for _, s := range ch.series {
		if c, ok := s.(curve); ok {
			for _, v := range c.y {
				if finite(v) {
					least = min(least, v)
				}
			}
		}
	}
	return least
}

// panels are charts one above the other, under the title of the first and with
// their left ends in line.
type panels []*chart

func (ps panels) draw(c draw.Canvas) {
	c = page(c, ps[0].title, ps[0].subtitle)
	height := c.Size().Y / vg.Length(len(ps))
	areas := make([]draw.Canvas, len(ps))
	plots := make([]*plot.Plot, len(ps))
	left := c.Min.X
	for i, ch := range ps {
		top := vg.Length(i) * height
		areas[i] = draw.Crop(c, 0, -labelRoom, c.Size().Y-top-height, -top-2.4*textSize)
		plots[i] = ch.plot()
		plots[i].Y.Min = min(0, ch.least()) // a pile may freeze
		left = max(left, plots[i].DataCanvas(areas[i]).Min.X)
	}
	for i, ch := range ps {
		area := areas[i]
		area.Min.X += left - plots[i].DataCanvas(area).Min.X
		plots[i].Draw(area)
		data := plots[i].DataCanvas(area)
		c.FillText(lettering(textSize, faded), vg.Point{X: c.Min.X, Y: data.Max.Y + 9}, ch.unit)
		drawLabels(c, ch.labels(plots[i], &data), data.Max.X+10)
	}
}
