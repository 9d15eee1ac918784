package plant

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
)

// A plant of which nothing but a contract takes cake does, month by month, what a model of
// a few lines in steps of a day does that knows nothing of the plant's code, whatever the
// terms of the contract.
func TestContractAgainstDays(t *testing.T) {
	base := plantOf(t, filling())
	hauled, usedUp, downTo := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := draw{t}
		m := base.Model
		m.Feed.Base = d.between("a day", 100, 3000)
		m.Holding.Capacity = m.Feed.Base * d.between("days held", 2, 90)
		m.Contract = Contract{
			MostPerMonth: 5 * m.Feed.Base * d.between("days of cake a month", 0.5, 60), Notice: calendar.Span{Days: d.int("notice", 0, 60)},
			CallAt: d.between("call at", 0.05, 0.98) + 1e-4*math.Pi, // never just held
		}
		m.Contract.MostPerDay = m.Contract.MostPerMonth * d.between("of it on a day", 0.02, 1)
		m.Contract.DownTo = m.Contract.CallAt * d.between("down to, of that", 0, 0.95)
		p, err := base.With(m)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := p.Run(context.Background(), caseKey)
		if err != nil {
			t.Fatal(err)
		}
		months := byDays(&m)
		for i := range rec.Months {
			h, want := &rec.Months[i].Holding, months[i]
			rounding := 1e-6 * m.Feed.Base
			if math.Abs(h.ContractDry-want.hauled) > rounding || math.Abs(h.DivertedDry-want.diverted) > rounding || h.Calls != want.calls {
				t.Fatalf("month %d: %g kg hauled, %g diverted, %g calls; in steps of a day %+v", i+1, h.ContractDry, h.DivertedDry, h.Calls, want)
			}
			if want.hauled > 0 {
				hauled++
			}
			if want.usedUp {
				usedUp++
			}
			if want.downTo {
				downTo++
			}
		}
	})
	if hauled == 0 || usedUp == 0 || downTo == 0 {
		t.Errorf("%d months hauled, %d used up, %d down to", hauled, usedUp, downTo)
	}
}

type contractMonth struct {
	hauled, diverted, calls float64 // kg dry, and number
	usedUp, downTo          bool
}

// byDays is the model in steps of a day, of 2027: cake of 20 % solids.
func byDays(m *Model) (out [12]contractMonth) {
	c, room, perDay := m.Contract, m.Holding.Capacity, m.Feed.Base
	held, taken, called, first := 0.0, 0.0, false, 0
	for day, month, dayOfMonth := 0, 0, 1; month < 12; day++ {
		at := &out[month]
		if !called && held > c.CallAt*room {
			called, first = true, day+c.Notice.Days
			at.calls++
		}
		held += perDay
		at.diverted += max(0, held-room)
		held = min(held, room)
		if called && day >= first {
			over := func() float64 { return held - c.DownTo*room }
			left := c.MostPerMonth/5 - taken
			usedUp := func() bool { return c.MostPerMonth/5-taken <= 1e-9*c.MostPerMonth/5 }
			switch {
			case over() <= 1e-9*room:
				called = false
			case !usedUp():
				haul := min(over(), left, c.MostPerDay/5)
				held, taken, at.hauled = held-haul, taken+haul, at.hauled+haul
				at.usedUp, at.downTo = at.usedUp || usedUp(), at.downTo || over() <= 1e-9*room
				called = over() > 1e-9*room && !usedUp()
			}
		}
		if dayOfMonth++; dayOfMonth > [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month] {
			dayOfMonth, month, taken = 1, month+1, 0
		}
	}
	return out
}
