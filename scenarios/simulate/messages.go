package simulate

import (
	"math"

	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
)

// What the pictures of a run say, each in a sentence over it, or its subject where there
// is nothing to be said. That of the vessels needed is the headline's.

// useMessage says when all vessels are in use at once, or how near to it they come, in
// the median run.
func (a *Answer) useMessage() doc.Text {
	var closest *Month
	for i := range a.Months {
		m := &a.Months[i]
		if m.Installed == 0 {
			continue
		}
		if m.VesselsPeak.P50 >= float64(m.Installed) {
			return doc.Say("In the median run every vessel is in use at once, all %d, first in %s %d", m.Installed, m.Month, m.Year)
		}
		if closest == nil || m.VesselsPeak.P50/float64(m.Installed) > closest.VesselsPeak.P50/float64(closest.Installed) {
			closest = m
		}
	}
	if closest == nil {
		return doc.Words("Vessels in use by month")
	}
	return doc.Say("In the median run no more than %.0f of %d vessels are in use at once, first in %s %d",
		closest.VesselsPeak.P50, closest.Installed, closest.Month, closest.Year)
}

// hardly is the share of solids below which hardly any are hauled away.
const hardly = 0.001

// divertedMessage says how much of the solids is hauled away in the worst year.
func (a *Answer) divertedMessage() doc.Text {
	worst, unlucky := &a.Years[0], &a.Years[0]
	for i := range a.Years {
		y := &a.Years[i]
		if y.DivertedShare.P50 > worst.DivertedShare.P50 {
			worst = y
		}
		if y.DivertedShare.P90 > unlucky.DivertedShare.P90 {
			unlucky = y
		}
	}
	switch {
	case worst.DivertedShare.P50 >= hardly:
		return doc.Say("Up to %s of the solids of a year are hauled away untreated, %s dry, in %s",
			doc.ShareText(worst.DivertedShare.P50), doc.Show(worst.DivertedDry.P50, doc.Mass), worst.Label)
	case unlucky.DivertedShare.P90 >= hardly:
		return doc.Say("In the median hardly any solids are hauled away untreated; in one run of ten at least %s of those of %s",
			doc.ShareText(unlucky.DivertedShare.P90), unlucky.Label)
	}
	return doc.Say("Hardly any solids are hauled away untreated: less than %s of a year's", doc.ShareText(hardly))
}

// contractMessage goes on to say what is hauled by contract, where the file has one.
func (a *Answer) contractMessage() doc.Text {
	if !a.Hauls {
		return doc.Text{}
	}
	most := 0.0
	for i := range a.Years {
		most = max(most, a.Years[i].ContractShare.P50)
	}
	if most < hardly {
		return doc.Words("; hardly any by contract")
	}
	return doc.Say("; by contract up to %s of a year's", doc.ShareText(most))
}

// steady is how far amounts of two years may be apart that are told as about the same.
const steady = 0.05

// course says how an amount goes from the first year to the last: "rise from 640 yd3 in
// 2027 to 900 yd3 in 2046". It is empty where one of them is not known.
func (a *Answer) course(of func(*Year) float64) doc.Text {
	first, last := &a.Years[0], a.last()
	from, to := of(first), of(last)
	word := "rise"
	switch {
	case math.IsNaN(from + to):
		return doc.Text{}
	case first == last:
		return doc.Say("are %s in %s", doc.Show(from, doc.Volume), first.Label)
	case math.Abs(to-from) <= steady*from:
		return doc.Say("stay at about %s a year from %s to %s", doc.Show(from, doc.Volume), first.Label, last.Label)
	case to < from:
		word = "fall"
	}
	return doc.Say("%s from %s in %s to %s in %s", word, doc.Show(from, doc.Volume), first.Label, doc.Show(to, doc.Volume), last.Label)
}

// overYears sums an amount over all years.
func (a *Answer) overYears(of func(*Year) float64) float64 {
	sum := 0.0
	for i := range a.Years {
		sum += of(&a.Years[i])
	}
	return sum
}

// chipsMessage says how many chips are to buy, and what part comes back.
func (a *Answer) chipsMessage() doc.Text {
	course := a.course(func(y *Year) float64 { return y.ChipsBought.Mean })
	if course.Empty() {
		return doc.Words("Wood chips each year")
	}
	bought := a.overYears(func(y *Year) float64 { return y.ChipsBought.Mean })
	back := a.overYears(func(y *Year) float64 { return y.ChipsRecovered.Mean })
	text := doc.Say("Fresh chips to buy %s", course)
	if bought+back == 0 {
		return text
	}
	return text.Then("; of all chips the screen gives back %s", doc.ShareText(back/(bought+back)))
}

// productMessage says how much compost there is, and what part of demand it does not
// meet.
func (a *Answer) productMessage() doc.Text {
	course := a.course(func(y *Year) float64 { return y.ProductVolume.P50 })
	if course.Empty() {
		return doc.Words("Compost each year")
	}
	taken := a.overYears(func(y *Year) float64 { return y.TakenVolume.P50 })
	unmet := a.overYears(func(y *Year) float64 { return y.Shortage.P50 })
	text := doc.Say("Volumes of compost %s", course)
	switch share := unmet / (taken + unmet); {
	case !(taken+unmet > 0):
		return text
	case share < hardly:
		return text.Then("; demand is met")
	default:
		return text.Then("; %s of the demand is not met", doc.ShareText(share))
	}
}

// flowMessage says what becomes of the mass that comes in, water and oxygen included.
func (a *Answer) flowMessage() doc.Text {
	in, product, vapour := 0.0, 0.0, 0.0
	for i := range a.Flows {
		f := &a.Flows[i]
		if store(f.From) == "" {
			in += f.Wet
		}
		switch f.Kind {
		case plant.ProductTaken:
			product += f.Wet
		case plant.VapourGiven:
			vapour += f.Wet
		}
	}
	if in == 0 {
		return doc.Words("Where the mass goes in an average year")
	}
	return doc.Say("Of the mass that comes in, %s leave as product and %s as water vapour", doc.ShareText(product/in), doc.ShareText(vapour/in))
}
