package costs

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// The small record of these tests: two years from 1 July 2027, every month
// alike, in numbers whose products are easily made on paper. All are invented.
//
// A month: 10 h of an operator's work, 30 h on his shift, 8 h of a loader, 24
// moves of half an hour, 100 kWh of blowers and 20 of machines, 50 m3 of chips
// bought, 40 m3 of product taken, 25,000 kg dry of feed. A year: 1,000 kg of cake
// diverted, 200 kg of failed loads, 30 kg of rejects, all wet.
func smallResult() *study.Result {
	p := &plant.Plant{}
	p.Start = calendar.Date{Year: 2027, Month: time.July, Day: 1}
	p.Yard.Move = 30 * sim.Minute
	rec := &plant.Record{Paths: []plant.Path{
		{Flow: plant.CakeProduced}, {Flow: plant.CakeDiverted}, {Flow: plant.Rejects}, {Flow: plant.LoadFailed},
	}}
	for y := range 2 {
		rec.Years = append(rec.Years, plant.Year{
			From:    p.Start.AddYears(y),
			Balance: material.Period{Flows: []material.Components{{Total: 1e6}, {Total: 1000}, {Total: 30}, {Total: 200}}},
		})
		for i := range 12 {
			m := plant.Month{
				Month:   (p.Start.Month+time.Month(i)-1)%12 + 1,
				Feed:    plant.MonthlyFeed{Dry: 25000},
				Product: plant.MonthlyProduct{TakenVolume: 40},
				Chips:   plant.MonthlyChips{Bought: 50},
				Vessels: plant.MonthlyVessels{Moves: 24},
				Work:    plant.MonthlyWork{OperatorHours: 10, LoaderHours: 8, BlowerEnergy: 100, MachineEnergy: 20},
			}
			m.Use[plant.Operators].Scheduled = 30
			rec.Months = append(rec.Months, m)
		}
	}
	return &study.Result{Run: study.Run{Case: &study.Case{}}, Plant: p, Economy: smallEconomy(), Record: rec}
}

// smallEconomy neither discounts nor escalates, so that a present worth is a sum.
func smallEconomy() facilityfile.Economy {
	e := facilityfile.Economy{
		Rates: money.Rates{Stated: 2027, Start: 2027.5},
		Prices: money.Prices{
			Labour: money.Price{Amount: 40}, Power: money.Price{Amount: 0.1}, Fuel: money.Price{Amount: 1000},
			Chips: money.Price{Amount: 15}, Tipping: money.Price{Amount: 0.05}, Sampling: money.Price{Amount: 500},
			Carbon: money.Price{Amount: 0.05}, CarbonOfPower: 0.5, CarbonOfFuel: 2500,
		},
		LoaderFuel: 0.01, TruckFuel: 0.02, Overhead: 7000,
	}
	for i := range e.ProductPrice {
		e.ProductPrice[i] = 3
	}
	e.ProductPrice[time.March-1] = -2 // hauled away at a fee
	return e
}

// near reports numbers that agree but for rounding.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(b)) }

func mustPlan(t *testing.T, p *facilityfile.Planning, r *study.Result) money.Plan {
	t.Helper()
	plan, err := Plan(p, r)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}
