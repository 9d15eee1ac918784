package plant

import (
	"testing"

	"loamcast/sim"
	"loamcast/sim/random"
)

// Two mixers. Cake runs in at 400 kg/h, and a batch of 400 kg takes 2 h.
//
//	first load   batches at 1, 2, 3, 4 and 5 h, as the cake runs in and a mixer is
//	             free; the fifth is in the vessel at 7 h. 2,800 − 2,000 = 800 kg are held
//	each other   two at once, two 2 h later, one 4 h later; closed after 6 h: the other
//	             mixer waits for the next load while the fifth is mixed
//	held before  2,400 kg come in meanwhile and 2,000 are mixed: 800 + 400·j kg before
//	             load j, counted from that of 7 h; 5,000, the capacity, is passed at j = 11
//	diverted     200 kg before load 11, and 400 before each from there on
//
// In January loads j = 0 … 122 are begun, the last at 739 h, and 122 of them closed, with
// the first 123. All batches of the last are begun by 743 h.
//
//	mixed        124 · 2,000 = 248,000 kg
//	diverted     200 + 111 · 400 = 44,600 kg; with 5,000 held and 248,000 mixed they are
//	             the 744 · 400 = 297,600 kg of January
//	at work      5 h·(2 h each) of 123 loads; of the last 4 batches of 2 h, and 1 h:
//	             1,239 h, of 2 · 744
func TestCaseTwoMixers(t *testing.T) {
	m := paper()
	m.Mixer.Count, m.Mixer.BatchTime, m.Mixer.Power = 2, 2*sim.Hour, 30
	m.Feed.Base = 24 * 400
	m.Holding.Capacity = 5000
	rec, d := follow(t, m, caseKey)
	var begun []float64
	for _, at := range every(7, 6, 123) {
		begun = append(begun, at, at, at+2, at+2, at+4)
	}
	d.on("cake mixed").at(t, "batch of the first load", every(1, 1, 5)...)
	d.on("cake mixed")[5:].at(t, "batch", begun...)
	d.on("compost unloaded").at(t, "load unloaded", every(7+residenceHours, 6, 80)...)
	for _, mv := range d.on("compost unloaded")[:80] {
		same(t, "load, kg", mv.Amount.Total, 5*batchWet)
	}

	jan := rec.Months[0]
	same(t, "batches", jan.Mixing.Batches, 619)
	same(t, "loads", jan.Loads.Filled, 123)
	same(t, "mixed", jan.Mixing.CakeDry, 248000)
	near(t, "diverted", jan.Holding.DivertedDry, 44600, 0.5)
	near(t, "at work", jan.Use[Mixers].Busy, 1239, 0.01)
	same(t, "on shift", jan.Use[Mixers].Scheduled, 2*january)
	near(t, "energy, kWh", jan.Work.MachineEnergy, 620*2*30, 1e-6)
	near(t, "operator hours", jan.Work.OperatorHours-jan.Screen.Hours, 620*2, 0.01)
	d.on("cake diverted").before(7+6*10.9).count(t, "diverted before the holding is full", 0)
	mostly(t, rec, 1, Mixing)
}

// Two mixers and one operator are as good as one mixer.
func TestTwoMixersNeedTwoOperators(t *testing.T) {
	m := paper()
	m.Mixer.BatchTime, m.Feed.Base = 2*sim.Hour, 24*400
	_, one := follow(t, m, caseKey)
	m.Mixer.Count, m.Yard.Operators = 2, Crew{Count: 1}
	m.Screening.Settings.Capacity = 1e9 // no time for lots
	_, two := follow(t, m, caseKey)
	batches := one.on("cake mixed").before(january)
	if len(batches) < 300 {
		t.Fatalf("only %d batches", len(batches))
	}
	two.on("cake mixed").at(t, "batch", hoursOf(batches)...)
}

// hoursOf returns when things moved, hours.
func hoursOf(d diary) (out []float64) {
	for _, mv := range d {
		out = append(out, float64(mv.At)/float64(sim.Hour))
	}
	return out
}

// Two mixers and one dewatering, which makes the 400 kg of a batch in 2 h; then they are
// mixed for 2 h. Solids come in at 400 kg/h.
//
//	load   batches at 0, 2, 4, 6 and 8 h after the first, each when the cake of the one
//	       before is made; the fifth is in the vessel after 12 h. One mixer takes 20 h
func TestCaseTwoMixersOfOneDewatering(t *testing.T) {
	m := paper()
	m.Mixer.Count, m.Mixer.BatchTime = 2, 2*sim.Hour
	m.Dewatering = Dewatering{Rate: 200, Hours: m.Mixer.Hours}
	m.Feed.Base = 24 * 400
	p := plantOf(t, m)
	_, d := follow(t, m, caseKey)
	var begun []float64
	for _, at := range every(1, 12, 62) {
		begun = append(begun, every(at, 2, 5)...)
	}
	d.on("cake mixed").at(t, "batch", begun...)
	d.on("compost unloaded").at(t, "load unloaded", every(13+residenceHours, 12, 40)...)
	q := capacities{Plant: p, load: fullLoad{batches: 5, cakeDry: loadCake}}
	near(t, "rounds of 4 h", q.rounds(2), 3, 1e-12)
	near(t, "hours to fill a load", q.fillingHours(), 12, 1e-12)
	near(t, "rounds of three mixers", q.rounds(3), 3, 1e-12) // the cake takes 10 h
	q.Dewatering.Rate = 0
	near(t, "rounds without", q.rounds(2), 3, 1e-12)
	near(t, "rounds of three mixers without", q.rounds(3), 2, 1e-12)
	near(t, "rounds of five", q.rounds(5), 1, 1e-12)
	near(t, "rounds of seven", q.rounds(7), 1, 1e-12)
}

// Two screens halve the time of two lots. A lot takes 16 h, two shifts from 08:00 to
// 16:00 on weekdays, and rests on its screen at night. Lots are cured at 380.5 + 20·k h:
//
//	lots 1 and 2  on Saturday and Sunday, begun on Monday, 18 January, at 08:00
//	              one screen: done on Tuesday and on Thursday at 16:00
//	              two: both on Tuesday at 16:00
//	lots 3 and 4  on Monday at 12:30 and Tuesday at 08:30
//	              one screen: done on Monday, 25 January, and on Wednesday at 16:00
//	              two: begun on Wednesday at 08:00, both done on Thursday at 16:00
func TestCaseTwoScreens(t *testing.T) {
	day := func(january int) float64 { return float64(january-1)*24 + 16 }
	m := paper()
	m.Screening.Hours, m.Screening.Power = officeHours(t, &m), 20
	m.Screening.Settings.Capacity = loadVolume / 16
	_, one := follow(t, m, caseKey)
	one.on("product screened").at(t, "lot of one screen", day(19), day(21), day(25), day(27))

	m.Screening.Count, m.Yard.Loaders = 2, Crew{Count: 9}
	rec, two := follow(t, m, caseKey)
	done := two.on("product screened")
	done.at(t, "lot of two screens", day(19), day(19), day(21), day(21))
	jan := rec.Months[0]
	// Two lots in each two of the ten working days from the 18th to the 29th.
	same(t, "lots begun", jan.Screen.Lots, 10)
	near(t, "hours at work", jan.Use[Screens].Busy, 160, 1e-9)
	near(t, "loader at work beside the mixer", jan.Use[Loaders].Busy-jan.Use[Mixers].Busy, 160, 1e-9)
	same(t, "on shift", jan.Use[Screens].Scheduled, 2*21*8)
	near(t, "energy, kWh", jan.Work.MachineEnergy, 10*16*20, 1e-9)
}

// Two screens and room for little: what the lots on the screens will bring counts.
// The store takes a lot of 25 m3 and no second, and nothing is asked for.
func TestScreensDoNotOverfillTheStore(t *testing.T) {
	m := paper()
	m.Screening.Count, m.Screening.Settings.Capacity = 2, loadVolume/30
	m.Product = Product{Capacity: 1.5 * loadVolume}
	rec, d := follow(t, m, caseKey)
	d.on("product screened").at(t, "the only lot", 380.5+30)
	d.on("product screened").count(t, "lots", 1)
	near(t, "hours for which a lot waited", rec.Months[0].Product.HoursFull, january-400.5, 1e-3)
}

// Breakdown of one of two mixers. As in the case of two, loads are begun every 6 h from 7 h
// on. The streams of the seed put the first breakdown of the second mixer at 139.485 h,
// its second and those of the first after January; the repair takes 29.127 h, to 168.612 h.
//
//	139 h      two batches of a load; 0.485 h later the one begun last stops
//	141 h      the other is done, and the one that stopped goes on in its mixer
//	142.515 h  it is done: from now on one batch after the other, each 2 h: three of this
//	           load, two loads of five, and one of the next, begun at 168.515 h
//	168.612 h  the mixer is repaired and begins the second batch of that load; further ones
//	           at 170.515, 170.612 and 172.515 h, and the load is closed at 174.515 h
//	174.515 h  two batches at once, as before
//
// While a batch is left to be begun, cake waits for the mixer that is out of order; while
// the fifth of a load is mixed, for mixing: 29.127 − 3 · 2 = 23.127 h of at most 5,000 kg,
// and at least 5,000 − 2 · 400.
func TestCaseBreakdownOfOneOfTwoMixers(t *testing.T) {
	m := paper()
	m.Mixer.Count, m.Mixer.BatchTime = 2, 2*sim.Hour
	m.Mixer.Failure = Failure{Every: 20 * sim.Day, Repair: 2 * sim.Day}
	m.Feed.Base = 24 * 400
	m.Holding.Capacity = 5000
	key := random.Key{Seed: 18}
	draw := func(what string, n uint64, mean sim.Duration) float64 {
		return random.Exponential{Expected: mean.Hours()}.Draw(key.Stream(what, n))
	}
	down, repair := draw("mixer 2 breakdown", 1, m.Mixer.Failure.Every), draw("mixer repair", 1, m.Mixer.Failure.Repair)
	near(t, "breakdown", down, 139.485, 0.001)
	near(t, "repair", repair, 29.127, 0.001)
	if first, again := draw("mixer breakdown", 1, m.Mixer.Failure.Every), down+draw("mixer 2 breakdown", 2, m.Mixer.Failure.Every); min(first, again) < january {
		t.Fatalf("mixers break down at %.3f and %.3f h too", first, again)
	}

	rec, d := follow(t, m, key)
	const before = 5 * (1 + (139-7)/6) // batches
	batches, done := d.on("cake mixed")[before:], d.on("mix loaded")[before:]
	start := hoursOf(batches[:1])[0] // a few alarms have rung a second late by then
	near(t, "batches before the breakdown", start, 139, 5.0/3600)
	alone, up := start+2+start+2-down, down+repair
	begun := append([]float64{start, start}, every(alone, 2, 14)...)
	begun = append(begun, up, alone+28, up+2, alone+30, alone+32, alone+32)
	batches.at(t, "batch", begun...)
	done.at(t, "batch in the vessel", append([]float64{start + 2}, every(alone, 2, 15)...)...)

	jan := rec.Months[0]
	near(t, "hours down", jan.Use[Mixers].Down, repair, 1.0/3600)
	const broken = 29.127 - 6
	if got := jan.Waits[Broken] * 24; got > 5000*broken*1.001 || got < (5000-2*400)*broken*0.999 {
		t.Errorf("waited for the mixer out of order %g kg·h, between %g and %g", got, (5000-2*400)*broken, 5000*broken)
	}
}

// A free mixer breaks down before one with a batch: where
// nothing is short, two mixers that are hardly ever out of order together lose no minute.
func TestFreeMixerBreaksDownFirst(t *testing.T) {
	m := paper()
	m.Mixer.Count, m.Mixer.Failure = 2, Failure{Every: 4 * sim.Day, Repair: 2 * sim.Hour}
	two, d := follow(t, m, caseKey)
	d.on("cake mixed").at(t, "batch", every(4, 4, 185)...)
	d.on("mix loaded").at(t, "batch in the vessel", every(4.5, 4, 185)...)
	if two.Months[0].Use[Mixers].Down == 0 {
		t.Error("no mixer of two breaks down")
	}
}
