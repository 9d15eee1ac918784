package chipplan

import (
	"math"
	"runtime"
	"testing"

	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/study"
)

// inUse is how much memory is in use, bytes.
func inUse() int {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int(m.HeapAlloc)
}

// What is kept of a plan's replications does not grow with them once quantiles are
// summaries: of 4,000 invented ones after the first 2,000 next to nothing, whether the
// chips last or not, where the months of each take 12 kB. Of those before it is a few kB
// of each, most of it the use of each day. Nothing is simulated.
func TestReplicationsAreLetGo(t *testing.T) {
	f := priced(file(t))
	s, err := study.New(f, 1)
	if err != nil {
		t.Fatal(err)
	}
	const most, further = mostHistories, 4000
	years, err := fiscal.New(f, fiscal.Options{Years: 2, Replications: most + further})
	if err != nil {
		t.Fatal(err)
	}
	p := planner{study: s, years: years, price: priceOf(f)}
	var a Answer
	found, lived := p.tally(&a), newLived(&p)
	x := 0.3
	next := func() float64 { x = math.Mod(x*7919.17+0.41, 1); return x }
	play := func(n int) {
		for i := range n {
			run := fiscal.Run{Months: make([]fiscal.Goods, len(years.Months)), Economy: f.Planning.Economy, Chips: f.Model.Chips}
			for m := range run.Months {
				g := &run.Months[m]
				g.Month, g.Days = years.Months[m].Month, 30
				g.Chips.Bought, g.Chips.Used, g.Chips.StorePeak = 60*next(), 80*next(), 90*next()
				if i%10 == 0 {
					g.Chips.HoursShort = 5 * next()
				}
				for day := range g.Chips.FreshByDay {
					g.Chips.FreshByDay[day] = 2 * next()
				}
			}
			found.Add(p.facts(run.Months, &run.Economy))
			lived.add(&run)
		}
	}
	begin := inUse()
	play(most)
	kept := inUse() - begin
	play(further / 2)
	later := inUse()
	play(further / 2)
	more := inUse() - later
	t.Logf("%.1f kB of each of the first %d, %.3f kB of each of the last %d", float64(kept)/1e3/most, most, float64(more)/1e3/(further/2), further/2)
	if each := float64(kept) / most; each < 2e3 || each > 25e3 {
		t.Errorf("%.0f bytes are kept of a replication", each)
	}
	if each := float64(more) / (further / 2); each > 300 {
		t.Errorf("%.0f bytes are kept of a replication after %d", each, most+further/2)
	}
	found.Close()
	if n := len(lived.taken); n != most*leadStreams || len(lived.again) != most/10 {
		t.Errorf("%d histories, of which %d are simulated again", n, len(lived.again))
	}
	if y := a.Years[0]; y.Bought.Mean < 300 || y.Bought.Mean > 420 || y.Bought.P10 >= y.Bought.P90 || math.Abs(y.StockOut.Estimate-0.1) > 1e-9 {
		t.Errorf("a year of 12 months of 30 m3 in the mean, one in ten of which is short: %+v", y)
	}
}
