package sample

import (
	"fmt"
	"math"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
	"loamcast/sim/calendar"
)

// Numbers of the invented plant.
const (
	firstYear = 2027
	installed = 8
	dryPerDay = 720.0 // kg of cake in the first year
	growth    = 0.03  // a year
	solids    = 0.20  // of the cake
	perTonDry = 9.5   // vessels in use per dry metric ton a day
	recovery  = 0.72  // of the chips
	room      = 4500  // kg of cake that can be held
)

// Answer returns an answer over a number of years, from 1 January.
func Answer(years int) *simulate.Answer {
	a := &simulate.Answer{
		Basis: answer.Basis{
			Facility:     "Fennick Valley",
			Source:       "built-in example",
			Invented:     true,
			Version:      "test",
			Seed:         1,
			Target:       facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05},
			Replications: 20,
			Start:        calendar.Date{Year: firstYear, Month: time.January, Day: 1},
			Level:        answer.Level{Low: 0.1, High: 0.9},
		},
		Load:    load(),
		Flows:   flows(),
		Balance: balance(),
	}
	for i := range years {
		a.Years = append(a.Years, year(i))
		for m := time.January; m <= time.December; m++ {
			a.Months = append(a.Months, month(i, m))
		}
	}
	a.Waits = waits(a)
	a.Occupancy = occupancy()
	a.Dryness = dryness()
	a.Resources, a.Capacities, a.Triggered, a.AirLimit = resources(a.Years), capacities(a.Years), triggered(), airLimit
	return a
}

// waits share out the solids of each month over some causes, vessels taking
// over with the years.
func waits(a *simulate.Answer) []simulate.Wait {
	list := []simulate.Wait{{Cause: "collecting a load"}, {Cause: "off shift"}, {Cause: "vessel"}, {Cause: "product store"}}
	for i, m := range a.Months {
		late := float64(i) / float64(len(a.Months))
		for c, part := range []float64{2.1, 1.3, 4 * late * late, 0.004} {
			w := &list[c]
			w.Months = append(w.Months, part*m.FeedDry.P50)
			if m.Month == time.January {
				w.Years = append(w.Years, 0)
			}
			w.Years[len(w.Years)-1] += part * m.FeedDry.P50
		}
	}
	return list
}

// about spreads a value by a relative half-width.
func about(v, rel float64) answer.Spread {
	return answer.Spread{Mean: v * (1 + rel/20), P10: v * (1 - rel), P50: v, P90: v * (1 + 1.1*rel)}
}

// whole rounds a spread to whole vessels.
func whole(s answer.Spread) answer.Spread {
	return answer.Spread{Mean: s.Mean, P10: math.Floor(s.P10), P50: math.Round(s.P50), P90: math.Ceil(s.P90)}
}

// atMost caps a spread.
func atMost(s answer.Spread, limit float64) answer.Spread {
	return answer.Spread{Mean: min(s.Mean, limit), P10: min(s.P10, limit), P50: min(s.P50, limit), P90: min(s.P90, limit)}
}

func load() simulate.Load {
	return simulate.Load{
		Wet: about(17_600, 0.03), Moisture: about(0.632, 0.02), OutMoisture: about(0.518, 0.04),
		Residence: about(18.2, 0.05), DryLoss: about(0.148, 0.06),
		VolatileDestroyed: about(0.172, 0.06), CakeDestroyed: about(0.504, 0.05), ScreenedAt: about(0.441, 0.05),
		ChipRecovery: about(recovery, 0.04), Failed: about(0.004, 0.5), Late: about(0.12, 0.1), Unstable: about(0.001, 0.5),
		CakePerLoad: 9_900, BatchesALoad: about(5.2, 0.05), ChipsPerCakeV: 2.5,
	}
}

func year(i int) simulate.Year {
	dry := dryPerDay * 365.25 * math.Pow(1+growth, float64(i))
	spread := 0.04 + 0.006*float64(i) // uncertain growth fans out
	mean := dry / 365.25 / 1000 * perTonDry
	need := whole(about(mean*1.12, spread))
	lost := max(0, mean/installed-0.97) / 2
	chips := dry / solids / 1000 * 2.5 // m3
	y := simulate.Year{
		Label:         fmt.Sprint(firstYear + i),
		From:          calendar.Date{Year: firstYear + i, Month: time.January, Day: 1},
		FeedDry:       about(dry, spread),
		FeedWet:       about(dry/solids, spread),
		DivertedDry:   about(dry*lost, 0.4),
		DivertedShare: about(lost, 0.4),
		CakeWait:      about(0.6+8*lost, 0.2),
		OldestCake:    about(3.1+20*lost, 0.2),
		HoldingPeak:   atMost(about(room*(0.4+5*lost), 0.1), room),
		HoldingShare:  atMost(about(0.4+5*lost, 0.1), 1),
		Loads:         about(dry/solids/9_900, spread),
		VesselsMean:   atMost(about(mean, spread), installed*0.98),
		VesselsPeak:   atMost(need, installed),
		Installed:     installed,
		VesselsNeeded: need,
		NeedMost:      whole(about(mean*1.05, spread)),
		StaticAverage: mean * 0.97,
		StaticPeak:    mean * 1.09,
		Truckloads:    about(chips*(1-recovery)/60, 0.05),
		ChipsBought:   about(chips*(1-recovery), spread+0.04),
		ChipsUsed:     about(chips, spread),
		Rejects:       about(dry*0.03, 0.1),
		ProductWet:    about(dry*1.9, spread),
		ProductDry:    about(dry*1.02, spread),
	}
	y.MissesTarget = min(1, max(0, (need.P50-installed)*0.2-0.2))
	y.MissesUnlimited = y.MissesTarget / 50
	y.ShortOfVessels = min(1, max(0, (need.P50-installed)*0.4+0.2))
	y.WaterRemoved = about(dry*4.1, spread)
	y.CarbonDioxide = about(dry*1.05, spread)
	y.Ammonia = about(dry*0.019, spread)
	y.Leachate = about(dry*0.003, 0.4)
	y.Nitrogen = simulate.Nitrogen{Lost: about(0.21, 0.05), ToBiofilter: about(dry*0.011/365, spread),
		ToBiofilterPeak: about(dry*0.014/365, spread), PerBed: about(dry*0.014/365/150, spread)}
	y.Work = work(y.FeedDry)
	y.Air = air(y.VesselsMean, 20*float64(i))
	y.ChipsRecovered = about(chips*recovery, spread)
	y.ProductVolume = about(dry*0.0043, spread)
	y.TakenVolume = about(dry*0.0041, spread)
	y.Shortage = about(dry*0.0002, 0.3)
	return y
}

// season is a month's factor on production, highest in spring.
func season(m time.Month) float64 {
	return 1 + 0.12*math.Sin(2*math.Pi*float64(m-2)/12)
}

func month(i int, m time.Month) simulate.Month {
	y := year(i)
	f := season(m)
	part := func(s answer.Spread, factor float64) answer.Spread {
		factor *= f / 12
		return answer.Spread{Mean: s.Mean * factor, P10: s.P10 * factor * 0.9, P50: s.P50 * factor, P90: s.P90 * factor * 1.1}
	}
	mean := y.VesselsMean.P50
	return simulate.Month{
		Year: firstYear + i, Month: m, Work: work(part(y.FeedDry, 1)), Air: air(y.VesselsMean, 5*f),
		FeedDry: part(y.FeedDry, 1), DivertedDry: part(y.DivertedDry, 1),
		VesselsMean:   atMost(about(mean*f, 0.05), installed*0.99),
		VesselsPeak:   atMost(whole(about(mean*f*1.08, 0.08)), installed),
		VesselsNeeded: whole(about(mean*f*1.1, 0.08)), Installed: installed,
		ChipsBought: part(y.ChipsBought, 1), ChipsRecover: part(y.ChipsRecovered, 1),
		ChipsUsed: part(y.ChipsUsed, 1), Truckloads: part(y.Truckloads, 1),
		ChipsStorePeak: about(210, 0.1), ProductVolume: part(y.ProductVolume, 1),
		Taken:            part(y.TakenVolume, 2-f),
		ProductStorePeak: about(300+200*f, 0.2), PadPeak: about(420*f, 0.1), OldestCake: y.OldestCake,
		HoldingPeak: y.HoldingPeak, HoldingShare: y.HoldingShare,
	}
}
