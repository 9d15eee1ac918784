package fiscal

import (
	"loamcast/scenarios/answer"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Tally makes the figures of a plan of replications that it is shown one by one, each as the
// months of the fiscal years; see [answer.Tally].
type Tally[T any] struct{ *answer.Tally[[]T] }

// NewTally begins one of so many replications.
func NewTally[T any](runs int) Tally[T] {
	return Tally[T]{answer.NewTally[[]T](runs, answer.ExactRuns)}
}

// Chance puts into the answer how likely a number is to pass a limit, as [Chance] has it.
func (t Tally[T]) Chance(into *stats.Interval, limit float64, of func([]T) float64) {
	passed := 0
	t.Each(func(months []T) {
		if of(months) > limit {
			passed++
		}
	})
	t.Last(func() { *into = chance(passed, t.Runs) })
}

// Passing estimates from what is kept of a number how likely it is to pass a limit, as
// [Chance] has it.
func Passing(seen *stats.Sample, limit float64) stats.Interval {
	return chance(seen.Above(limit), seen.Len())
}

// Chance estimates how likely a number is to pass a limit from the replications
// in which it does, with its 95 % interval (Wilson).
func Chance(xs []float64, limit float64) stats.Interval {
	n := 0
	for _, x := range xs {
		if x > limit {
			n++
		}
	}
	return chance(n, len(xs))
}

func chance(passed, of int) stats.Interval {
	interval, err := stats.Wilson(passed, of, 0.95)
	if err != nil {
		panic(err) // not without a replication
	}
	return interval
}

// Time is a month or a fiscal year of a plan: it takes a number of its months from a
// replication, and joins those of a year.
type Time[T any] func(of func(*T) float64, join Join) func(months []T) float64

// InMonth is the month at a place in [Plan.Months].
func InMonth[T any](month int) Time[T] {
	return func(of func(*T) float64, _ Join) func([]T) float64 {
		return func(months []T) float64 { return of(&months[month]) }
	}
}

// ToDate is from the beginning of the fiscal year to the end of a month; it adds up.
func ToDate[T any](month int) Time[T] {
	return func(of func(*T) float64, _ Join) func([]T) float64 {
		return func(months []T) float64 {
			sum := 0.0
			for m := month - month%calendar.MonthsPerYear; m <= month; m++ {
				sum += of(&months[m])
			}
			return sum
		}
	}
}

// InYear is a fiscal year, counted from 0.
func InYear[T any](year int) Time[T] {
	return func(of func(*T) float64, join Join) func([]T) float64 {
		var list [calendar.MonthsPerYear]float64
		return func(months []T) float64 {
			for m := range list {
				list[m] = of(&months[year*calendar.MonthsPerYear+m])
			}
			return join(list[:])
		}
	}
}

// Join makes one number of the twelve of a fiscal year.
type Join func(months []float64) float64

// Sum, Most and End add up months, take the highest, and take the last.
func Sum(months []float64) float64 { return sum(months) }

// Most returns the highest; see [Sum].
func Most(months []float64) float64 {
	most := months[0]
	for _, v := range months {
		most = max(most, v)
	}
	return most
}

// End returns the last; see [Sum].
func End(months []float64) float64 { return months[len(months)-1] }
