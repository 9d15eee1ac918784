package simulate

import (
	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/fiscal"
	"slices"
)

// figures are the pictures in the order in which they are best looked at.
func (a *Answer) figures() []doc.Figure {
	list := []doc.Figure{a.needFigure(), a.useFigure()}
	if len(a.Occupancy.Stays) > 0 {
		list = append(list, a.Occupancy.figure(&a.Basis))
	}
	return append(list, a.waitsFigure(), a.divertedFigure(), a.chipsFigure(), a.productFigure(), a.flowFigure())
}

// about says under a title whose figures these are and what the statistic is.
func (a *Answer) about(statistic string) doc.Text {
	return doc.About(&a.Basis, statistic+", "+doc.Runs(&a.Basis))
}

// yearly is a figure over the years.
func (a *Answer) yearly(name string, title doc.Text, statistic string, q doc.Quantity, y string, series ...doc.Series) doc.Figure {
	labels := make([]string, len(a.Years))
	for i := range a.Years {
		labels[i] = a.Years[i].Label
	}
	return doc.Figure{
		Name: name, Title: title, Subtitle: a.about(statistic),
		Panels: []doc.Panel{{
			Quantity: q, Y: y, Whole: q == doc.Count, Series: series,
			X: doc.Axis{Title: "year", From: -0.5, To: float64(len(a.Years)) - 0.5, Labels: labels},
		}},
	}
}

// needFigure sets the vessels needed against those installed and the handbook's
// estimate.
func (a *Answer) needFigure() doc.Figure {
	need := doc.CurvesOf(a.Years, func(y *Year) answer.Spread { return y.VesselsNeeded })
	level := a.Level.String()
	return a.yearly("vessels-needed", doc.Words(a.Headline().Title()), "most vessels needed at one time if none were missing: median and "+level, doc.Count, "vessels",
		// Vessels are whole: between two years there is nothing to slope.
		doc.Series{Name: doc.Words("needed, " + level), Shape: doc.Bars, Values: need.High, Low: need.Low, Ink: doc.Blue, Tint: 0.25},
		doc.Series{Name: doc.Words("needed, median"), Shape: doc.Steps, Values: need.Mid, Ink: doc.Blue, Width: 2.5},
		doc.Series{Name: doc.Words("handbook estimate,\npeak month"), Ink: doc.Vermilion, Width: 1.75, Dash: doc.Mixed,
			Values: doc.ValuesOf(a.Years, func(y *Year) float64 { return y.StaticPeak })},
		doc.Series{Name: doc.Words("handbook estimate,\nyear's average"), Ink: doc.Orange, Width: 1.75, Dash: doc.Dashed,
			Values: doc.ValuesOf(a.Years, func(y *Year) float64 { return y.StaticAverage })},
		doc.Series{Name: doc.Words("installed"), Shape: doc.Steps, Ink: doc.Black, Width: 2,
			Values: doc.ValuesOf(a.Years, func(y *Year) float64 { return float64(y.Installed) })})
}

// useFigure shows how many vessels are in use, month by month.
func (a *Answer) useFigure() doc.Figure {
	mean := doc.CurvesOf(a.Months, func(m *Month) answer.Spread { return m.VesselsMean })
	peak := doc.CurvesOf(a.Months, func(m *Month) answer.Spread { return m.VesselsPeak })
	level := a.Level.String()
	axis := fiscal.Axis(a.Months, func(m *Month) fiscal.Month { return fiscal.Month{Year: m.Year, Month: m.Month} })
	panel := axis(doc.Count, "vessels")
	panel.Whole = true
	panel.Series = []doc.Series{
		{Name: doc.Words("most in use,\n" + level), Shape: doc.Band, At: fiscal.Middle, Values: peak.High, Low: peak.Low, Ink: doc.Vermilion, Tint: 0.3},
		// Wide, to show on both sides of the thin line of the installed when all are
		// in use.
		{Name: doc.Words("most in use,\nmedian"), At: fiscal.Middle, Values: peak.Mid, Ink: doc.Vermilion, Tint: 0.65, Width: 4},
		{Name: doc.Words("average in use"), At: fiscal.Middle, Values: mean.Mid, Ink: doc.Blue, Width: 1.75},
		{Name: doc.Words("installed"), Shape: doc.Steps, At: fiscal.Middle, Ink: doc.Black, Width: 1.25,
			Values: doc.ValuesOf(a.Months, func(m *Month) float64 { return float64(m.Installed) })},
	}
	return doc.Figure{
		Name:     "vessels-in-use",
		Title:    a.useMessage(),
		Subtitle: a.about("vessels in use by month: average and most at one time, medians; the band of the most is " + level),
		Panels:   []doc.Panel{panel},
	}
}

// divertedFigure shows the solids that could not be treated, and those hauled by contract.
func (a *Answer) divertedFigure() doc.Figure {
	diverted := doc.CurvesOf(a.Years, func(y *Year) answer.Spread { return y.DivertedDry })
	level := a.Level.String()
	series := []doc.Series{
		{Name: doc.Words(level), Shape: doc.Band, Values: diverted.High, Low: diverted.Low, Ink: doc.Vermilion, Tint: 0.3, NameHigh: true},
		{Name: doc.Words("median"), Values: diverted.Mid, Ink: doc.Vermilion, Width: 2.5},
	}
	statistic := "dry solids hauled away each year, " + a.Held() + " that found no room and loads that failed: median and " + level
	if a.Hauls {
		statistic += "; by contract: median"
		series[0].Name, series[1].Name = doc.Words("untreated, "+level), doc.Words("untreated, median")
		series = append(series, doc.Series{Name: doc.Words("by contract, median"), Ink: doc.Blue, Width: 2, Dash: doc.Dashed,
			Values: doc.ValuesOf(a.Years, func(y *Year) float64 { return y.ContractDry.P50 })})
	}
	return a.yearly("diverted", a.divertedMessage().Then("%s", a.contractMessage()), statistic, doc.Mass, "{unit} dry a year", series...)
}

// chipsFigure stacks the chips recovered on the fresh chips bought.
func (a *Answer) chipsFigure() doc.Figure {
	fresh := doc.CurvesOf(a.Years, func(y *Year) answer.Spread { return y.ChipsBought })
	top := doc.ValuesOf(a.Years, func(y *Year) float64 { return y.ChipsBought.Mean + y.ChipsRecovered.Mean })
	level := a.Level.String()
	return a.yearly("chips", a.chipsMessage(),
		"wood chips each year, means; the upright lines are the "+level+" of the chips to buy", doc.Volume, "{unit} a year",
		doc.Series{Name: doc.Words("recovered"), Shape: doc.Bars, Values: top, Low: fresh.Mean, Ink: doc.Green, Tint: 0.45},
		doc.Series{Name: doc.Words("bought fresh"), Shape: doc.Bars, Values: fresh.Mean, Low: doc.Level(len(top), 0), Ink: doc.Orange},
		doc.Series{Name: doc.Words("bought fresh,\n" + level), Shape: doc.Whiskers, Values: fresh.High, Low: fresh.Low, Ink: doc.Black, Width: 1.5})
}

// productFigure sets the product screened against what is taken away and the
// demand that is not met.
func (a *Answer) productFigure() doc.Figure {
	product := doc.CurvesOf(a.Years, func(y *Year) answer.Spread { return y.ProductVolume })
	taken := doc.CurvesOf(a.Years, func(y *Year) answer.Spread { return y.TakenVolume })
	unmet := doc.CurvesOf(a.Years, func(y *Year) answer.Spread { return y.Shortage })
	level := a.Level.String()
	return a.yearly("product", a.productMessage(),
		"compost each year, medians; the band is the "+level+" of the product screened", doc.Volume, "{unit} a year",
		doc.Series{Name: doc.Words("screened, " + level), Shape: doc.Band, Values: product.High, Low: product.Low, Ink: doc.Purple, Tint: 0.3, NameHigh: true},
		doc.Series{Name: doc.Words("screened"), Values: product.Mid, Ink: doc.Purple, Width: 2.5},
		doc.Series{Name: doc.Words("taken away"), Values: taken.Mid, Ink: doc.Blue, Width: 2, Dash: doc.Dashed},
		doc.Series{Name: doc.Words("demand not met"), Values: unmet.Mid, Ink: doc.Vermilion, Width: 1.75, Dash: doc.Dotted})
}

// flowInks are the inks of flows; the rest is the mix on its way through.
var flowInks = map[plant.Flow]struct {
	ink  doc.Ink
	tint float64
}{
	plant.CakeProduced: {doc.Orange, 0.55}, plant.CakeDiverted: {doc.Orange, 0.55}, plant.CakeContracted: {doc.Yellow, 0},
	plant.CakeMixed:      {doc.Orange, 0.55},
	plant.ChipsDelivered: {doc.Green, 0.45}, plant.ChipsMixed: {doc.Green, 0.45}, plant.ChipsRecovered: {doc.Green, 0.45},
	plant.ProductCured: {doc.Purple, 0.55}, plant.ProductScreened: {doc.Purple, 0.55}, plant.ProductTaken: {doc.Purple, 0.55},
	plant.Rejects: {doc.Vermilion, 0}, plant.LoadFailed: {doc.Vermilion, 0},
	plant.VapourGiven: {doc.SkyBlue, 0.7}, plant.LeachateGiven: {doc.Blue, 0}, plant.OxygenTaken: {doc.Blue, 0.45},
	plant.CarbonDioxideGiven: {doc.Grey, 0}, plant.AmmoniaGiven: {doc.Black, 0},
	plant.WaterAdded: {doc.SkyBlue, 0.7},
}

// flowFigure shows the stores and what goes between them.
func (a *Answer) flowFigure() doc.Figure {
	flow := &doc.Flow{Quantity: doc.Mass}
	for _, f := range a.Flows {
		s := doc.Stream{Name: f.Name, From: store(f.From), To: store(f.To), Value: f.Wet, Solid: f.Dry > 0,
			Sinks: f.Kind == plant.LeachateGiven, Ink: doc.Vermilion, Tint: 0.35}
		if i, ok := flowInks[f.Kind]; ok {
			s.Ink, s.Tint = i.ink, i.tint
		}
		if k := slices.IndexFunc(flow.Streams, func(o doc.Stream) bool { return s.From == "" && s.Solid && o.From == "" && o.Solid && o.To == s.To }); k >= 0 {
			// What comes from several sources into one store is one band: names beside each
			// other would not be read. The table of flows has each.
			flow.Streams[k].Value += s.Value
			flow.Streams[k].Name = "brought in"
			continue
		}
		flow.Streams = append(flow.Streams, s)
	}
	return doc.Figure{
		Name:     "mass-flow",
		Title:    a.flowMessage(),
		Subtitle: doc.AboutText(&a.Basis, doc.Say("%s a year, water and air included; means over years, %s", doc.Units{Quantity: doc.Mass}, doc.Runs(&a.Basis))),
		Flow:     flow,
	}
}

// store is the name of a store; the outside has none.
func store(name string) string {
	if name == material.OutsideName {
		return ""
	}
	return name
}
