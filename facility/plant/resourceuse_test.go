package plant

import (
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim"
)

// checkUse checks that no resource is at work for more than all of its hours, nor out of
// order for longer than there are units, in any month, and that the shares of what
// left untreated are shares.
func checkUse(t *rapid.T, p *Plant, rec *Record) {
	const rounding = 1e-6 // h
	for i := range rec.Months {
		m := &rec.Months[i]
		for resource, u := range m.Use {
			switch {
			case !(u.Busy >= 0 && u.Overtime >= 0 && u.Down >= 0):
				t.Fatalf("%s in %v: %+v", ResourceNames[resource], m.Month, u)
			case u.Busy > u.Scheduled+rounding:
				t.Fatalf("%s in %v: %g h at work of %g h", ResourceNames[resource], m.Month, u.Busy, u.Scheduled)
			}
		}
		if screen := m.Use[Screens]; screen.Overtime != 0 {
			t.Fatalf("the screen is at work out of its hours: %+v", screen)
		}
		if s := UntreatedShare(rec.Months[i : i+1]); !(s >= 0 && s <= 1) {
			t.Fatalf("%g of the solids left untreated in %v", s, m.Month)
		}
	}
	if len(rec.Years) > 0 && rec.Years[0].VesselsMean > float64(rec.Years[0].VesselsPeak) {
		t.Fatalf("%g vessels in use in the mean, %d at most", rec.Years[0].VesselsMean, rec.Years[0].VesselsPeak)
	}
	if installed := rec.Years[0].Installed; !p.Vessels.Unlimited && rec.Years[0].VesselsPeak > installed {
		t.Fatalf("%d vessels in use of %d", rec.Years[0].VesselsPeak, installed)
	}
}

// A lot of 20 h on a screen that works from 08:00 to 16:00 on weekdays rests for
// nights and weekends: the hours at work of the screen, of its loader and of its
// operator are the 20 h of each lot, and those in the run are what the throughput
// says. The loader has the hours of the yard and is bound at night too; that is no
// work.
//
//	lots     every 20 h from 20.5 + 240 + 120 = 380.5 h on, Saturday, 16 January
//	lot 1    begun on Monday, 18 January, at 08:00; 24 h open until Wednesday at
//	         16:00, done on Wednesday at 12:00
//	January  10 days of 8 h from the 18th to the 29th: 80 h
func TestPausedLotsAreNoWork(t *testing.T) {
	m := paper()
	m.Screening.Hours = officeHours(t, &m)
	m.Screening.Settings.Capacity = loadVolume / 20
	m.Yard.Loaders, m.Yard.Operators = Crew{Count: 5}, Crew{Count: 5}
	rec, d := follow(t, m, caseKey)
	d.on("product screened").at(t, "lot screened", 19*24+12)
	jan := rec.Months[0]
	near(t, "screen at work", jan.Use[Screens].Busy, 80, 1e-9)
	same(t, "screen on shift", jan.Use[Screens].Scheduled, 21*8)
	mixing := jan.Use[Mixers].Busy
	near(t, "mixer at work", mixing, jan.Mixing.Batches*0.5, 0.5)
	near(t, "loader at work", jan.Use[Loaders].Busy, mixing+80, 1e-9)
	near(t, "operator at work", jan.Use[Operators].Busy, mixing+80, 1e-9)
	same(t, "loader on shift", jan.Use[Loaders].Scheduled, 5*january)
}

// What runs past the shift's end is overtime. A batch takes 3 h, and the mixer works
// from 08:00 to 16:00 on weekdays.
//
//	Friday    800 kg at 08:00: batches at 08:00 and 11:00; 300 kg more have run in by
//	          11:00, 300 kg by 14:00, so that a third is begun at 14:00 and done at
//	          17:00: 8 h at work, and 1 h of overtime
//	other     batches at 08:00, 11:00 and 14:00 as well, since more cake is held
//	January   21 days
func TestOvertimeIsNotUse(t *testing.T) {
	m := paper()
	m.Mixer.Hours, m.Mixer.BatchTime = officeHours(t, &m), 3*sim.Hour
	rec, _ := follow(t, m, caseKey)
	u := rec.Months[0].Use[Mixers]
	same(t, "on shift", u.Scheduled, 21*8)
	near(t, "at work", u.Busy, 21*8, 1e-9)
	near(t, "overtime", u.Overtime, 21, 1e-9)
}

// What is paid for work is charged when it is begun, for a loader and an operator
// alike: half an hour for each batch and an hour for each lot.
//
//	batches   every 4 h from 4 h on, as nothing is short: 185 by 740 h; one at 744 h
//	          belongs to February
//	lots      cured at 20k + 360.5 h and screened at once: the last of January is the
//	          19th, begun at 740.5 h
func TestHoursOfLoadersAndOperatorsByHand(t *testing.T) {
	rec, _ := follow(t, paper(), caseKey)
	jan := rec.Months[0]
	same(t, "batches", jan.Mixing.Batches, 185)
	same(t, "lots screened", jan.Screen.Lots, 19)
	near(t, "loader hours", jan.Work.LoaderHours, 185*0.5+19, 19/3600.0)
	near(t, "operator hours", jan.Work.OperatorHours, 185*0.5+19, 19/3600.0)
}
