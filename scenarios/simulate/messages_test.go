package simulate

import (
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
)

// mid is a spread of a median and a P90.
func mid(p50, p90 float64) answer.Spread { return answer.Spread{Mean: p50, P50: p50, P90: p90} }

// Each picture says in its title what its figures show, decided from them.
func TestMessages(t *testing.T) {
	a := &Answer{
		Months: []Month{
			{Year: 2027, Month: time.May, Installed: 8, VesselsPeak: mid(6, 8)},
			{Year: 2027, Month: time.June, Installed: 8, VesselsPeak: mid(7, 8)},
			{Year: 2028, Month: time.June, Installed: 8, VesselsPeak: mid(7, 8)},
		},
		Years: []Year{
			{Label: "2027", ChipsBought: mid(1000, 0), ChipsRecovered: mid(3000, 0), ProductVolume: mid(900, 0), TakenVolume: mid(900, 0)},
			{Label: "2028", ChipsBought: mid(1200, 0), ChipsRecovered: mid(3600, 0), ProductVolume: mid(880, 0), TakenVolume: mid(880, 0)},
		},
		Flows: []Flow{
			{Kind: plant.CakeProduced, From: "outside", To: "cake holding", Wet: 700}, {Kind: plant.ChipsDelivered, From: "outside", To: "chips", Wet: 300},
			{Kind: plant.ProductTaken, From: "product store", To: "outside", Wet: 250}, {Kind: plant.VapourGiven, From: "vessels", To: "outside", Wet: 500},
			{Kind: plant.VapourGiven, From: "curing pad", To: "outside", Wet: 50},
		},
	}
	check := func(name, got, want string) {
		t.Helper()
		if got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	say := func(name string) string {
		for _, f := range a.figures() {
			if f.Name == name {
				return f.Title.Plain(units.SI)
			}
		}
		t.Fatalf("no picture %s", name)
		return ""
	}
	check("use", say("vessels-in-use"), "In the median run no more than 7 of 8 vessels are in use at once, first in June 2027")
	check("diverted", say("diverted"), "Hardly any solids are hauled away untreated: less than 0.1 % of a year's")
	check("chips", say("chips"), "Fresh chips to buy rise from 1,000 m3 in 2027 to 1,200 m3 in 2028; of all chips the screen gives back 75 %")
	check("product", say("product"), "Volumes of compost stay at about 900 m3 a year from 2027 to 2028; demand is met")
	check("flow", say("mass-flow"), "Of the mass that comes in, 25 % leave as product and 55 % as water vapour")

	a.Months[2].VesselsPeak = mid(8, 8)
	a.Years[1].DivertedShare = mid(0, 0.02)
	a.Years[1].ChipsBought, a.Years[1].Shortage = mid(700, 0), mid(120, 0)
	a.Years[0].Shortage = mid(100, 0)
	check("use", say("vessels-in-use"), "In the median run every vessel is in use at once, all 8, first in June 2028")
	check("diverted", say("diverted"), "In the median hardly any solids are hauled away untreated; in one run of ten at least 2 % of those of 2028")
	check("chips", say("chips"), "Fresh chips to buy fall from 1,000 m3 in 2027 to 700 m3 in 2028; of all chips the screen gives back 80 %")
	check("product", say("product"), "Volumes of compost stay at about 900 m3 a year from 2027 to 2028; 11 % of the demand is not met")

	a.Years[0].DivertedShare, a.Years[0].DivertedDry = mid(0.034, 0.05), mid(12_000, 20_000)
	a.Years = a.Years[:1]
	check("diverted", say("diverted"), "Up to 3 % of the solids of a year are hauled away untreated, 12 t dry, in 2027")
	check("chips", say("chips"), "Fresh chips to buy are 1,000 m3 in 2027; of all chips the screen gives back 75 %")
}
