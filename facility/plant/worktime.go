package plant

import (
	"math"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// openHours returns the hours of a mean day at which all of some working hours
// are open, in the first reported year, holidays included.
func (m *Model) openHours(all ...*calendar.Work) float64 {
	return m.perDay(all, func(hours float64) float64 { return hours })
}

// jobsPerDay returns how many jobs of some hours are done on a mean day, one
// after the other. One that is begun before work ends is finished.
func (m *Model) jobsPerDay(length float64, all ...*calendar.Work) float64 {
	return m.perDay(all, func(hours float64) float64 { return math.Ceil(hours/length - 1e-9) })
}

// perDay sums some measure of every span of hours of the first reported year in
// which all working hours are open, and divides by the days.
func (m *Model) perDay(all []*calendar.Work, of func(hours float64) float64) float64 {
	first, last := m.firstYear()
	sum := 0.0
	eachOpen(first, last, all, func(seconds int64) { sum += of(sim.Duration(seconds).Hours()) })
	return sum / sim.Duration(last-first).Days()
}

// eachOpen calls do with the length of every span between two seconds in which all
// of some working hours are open. Without any it is open all the time.
func eachOpen(from, to int64, all []*calendar.Work, do func(seconds int64)) {
	for now := from; now < to; {
		opens, closes := now, to
		for _, w := range all {
			opens, closes = max(opens, w.NextOpen(now)), min(closes, w.NextClose(now))
		}
		if opens == now {
			do(closes - now)
			opens = closes
		}
		now = opens
	}
}

// firstYear returns the seconds at which the first reported year begins and
// ends.
func (m *Model) firstYear() (first, last int64) {
	clock := calendar.Clock{Start: m.Begin()}
	return clock.SecondOf(m.Start), clock.SecondOf(m.Start.AddYears(1))
}

// working returns how many of n units work in the mean. Each breaks down by itself, so
// that n times as many breakdowns come. One takes out a unit, if there is one left; the
// number that are out is that of Erlang's loss formula, by its usual recursion.
func (f Failure) working(n int) float64 {
	if f.Every == 0 {
		return float64(n)
	}
	offered := float64(n) * float64(f.Repair) / float64(f.Every)
	lost := 1.0
	for i := range n {
		lost = offered * lost / (float64(i+1) + offered*lost)
	}
	return float64(n) - offered*(1-lost)
}
