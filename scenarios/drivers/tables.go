package drivers

import (
	"fmt"

	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// leastShown is how many rows the screen shows at least, if there are so many.
const leastShown = 5

// shown is the table of inputs for the screen. Shares of the variance take the
// place of what says how sure the effect is.
func (a *Answer) shown() doc.Table {
	q, decimals := a.Output.quantity(), a.Output.decimals()
	unit := "{units}"
	switch a.Output {
	case PresentWorth:
		q, unit = doc.Quantity{Dim: units.Money, ToBase: 1e-3}, "1000 {currency}"
	case ChipsBought:
		unit = "{unit}"
	}
	moves := func(group, head string, of func(*Driver) float64) doc.Col[Driver] {
		return doc.Num(group, []string{head, unit}, q, decimals, of)
	}
	effect := func(d *Driver) float64 { return d.Effect.MuStar.Estimate }
	rises := doc.Txt("", []string{"when it", "rises"}, q, func(d *Driver) any { return a.Rises(d) })
	input := doc.Left([]string{"Input", ""}, func(d *Driver) any { return doc.Name(d.Title(), 31) })
	input.Shrink = 20
	cols := []doc.Col[Driver]{
		input,
		doc.Txt("", []string{"nine times in ten", "from … to"}, q, func(d *Driver) any { return d.Range() }),
	}
	if a.Rows > 0 {
		cols = append(cols, moves("", "moves it by", effect), rises,
			doc.Txt("variance, %", []string{"", "alone"}, q, func(d *Driver) any { return part(d.Share.First) }),
			doc.Txt("variance, %", []string{"", "in all"}, q, func(d *Driver) any { return part(d.Share.Total) }))
	} else {
		cols = append(cols, moves("moves it by", "", effect),
			doc.Txt("moves it by", []string{"95 %", "interval"}, q, func(d *Driver) any {
				return doc.Say("%s–%s", doc.Fixed(d.Effect.MuStar.Low, q, decimals), doc.Fixed(d.Effect.MuStar.High, q, decimals))
			}),
			rises,
			doc.Num("", []string{"uneven", "by"}, q, decimals, func(d *Driver) float64 { return d.Effect.Sigma }))
	}
	t := doc.TableOf(doc.Table{
		In: doc.Screen, Title: doc.Words("How far each input moves it over its range, the largest effect first"),
		Least: leastShown, More: "; %d more in the tables, none above the last of these",
	}, a.InOrder(), cols...)
	for i := range t.Rows {
		t.Rows[i].Rank = i
	}
	return t
}

// part writes a share of the variance with its interval. Below nothing there is
// only sampling error.
func part(i stats.Interval) string {
	percent := func(v float64) string { return fmt.Sprintf("%.0f", 100*max(0, v)) }
	return fmt.Sprintf("%s (%s–%s)", percent(i.Estimate), percent(i.Low), percent(i.High))
}

// inputs is the table for files. The unit of an input's ends stands beside them,
// since each has its own.
func (a *Answer) inputs() doc.Table {
	q := a.Output.quantity()
	cols := []doc.Col[Driver]{
		doc.Key("input", func(d *Driver) any { return d.Key }).Means("input by its key in the file"),
		doc.Any("above_chance", func(d *Driver) any { return a.Above(d) }).Means("whether its effect is greater than chance alone would make it"),
		doc.Any("unit", (*Driver).unit).Means("unit of the ends of its range"),
		doc.Any("p5", func(d *Driver) any { return d.end(d.Low, d.LowName) }).Means("value of the input below which it lies one time in twenty"),
		doc.Any("p95", func(d *Driver) any { return d.end(d.High, d.HighName) }).Means("value of the input below which it lies nineteen times in twenty"),
		doc.Est("effect", q, func(d *Driver) stats.Interval { return d.Effect.MuStar }).Means("how far the answer moves over the range, mean of the size"),
		doc.Val("signed_effect", q, func(d *Driver) float64 { return d.Effect.Mu }).Means("how far the answer moves over the range with its sign, so that what goes both ways cancels"),
		doc.Val("uneven", q, func(d *Driver) float64 { return d.Effect.Sigma }).Means("how much the effect differs from place to place, as a standard deviation"),
	}
	if a.Rows > 0 {
		cols = append(cols,
			doc.Est("variance_alone", doc.Share, func(d *Driver) stats.Interval { return d.Share.First }).Means("part of the variance of the answer that the input makes by itself"),
			doc.Est("variance_in_all", doc.Share, func(d *Driver) stats.Interval { return d.Share.Total }).Means("part of the variance of the answer that the input makes together with all others"))
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "inputs", File: "drivers"}, a.InOrder(), cols...)
}

// unit is that of an input's ends, nil where they are names or there are none.
func (d *Driver) unit() any {
	if d.Key == NoiseKey || d.LowName != "" {
		return nil
	}
	return doc.Unit{Quantity: d.quantity()}
}

// end is an end of an input's range: a number in its unit, or a name.
func (d *Driver) end(v float64, name string) any {
	switch {
	case d.Key == NoiseKey:
		return nil
	case name != "":
		return name
	}
	return doc.Number{Value: v, Quantity: d.quantity()}
}
