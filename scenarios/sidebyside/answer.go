package sidebyside

import (
	"math"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/stats"
)

// Answer is how two files differ, and their plants.
type Answer struct {
	answer.Basis // of the first file
	Second       answer.Basis
	Differences  []Difference
	Years        int      // that the effects are means of
	Effects      []Effect // none where the files say the same
	Orders       [2]*vesselplan.Answer
	// NoCosts says why costs are not compared; empty where they are.
	NoCosts string
}

// Difference is a key that the files give other values. One that a file neither holds
// nor gives a default is empty there.
type Difference struct {
	Path          string
	First, Second string
	Words         string
}

// Effect is what the plants do differently: means over years and replications, and the
// mean difference, second less first, paired by replication, with an interval of 95 %.
type Effect struct {
	Name          string
	Quantity      document.Quantity
	First, Second float64
	Difference    stats.Interval
}

// Verdict says on which side of nothing a difference lies.
type Verdict int

// Verdicts on a difference.
const (
	Open Verdict = iota // the interval holds nothing
	Less
	More
	Same // in every replication
)

var verdicts = [...]string{"open", "less", "more", "same"}

// String returns the verdict in plain words.
func (v Verdict) String() string { return verdicts[v] }

// rounding is the part of a value that sums in another order may be off by.
const rounding = 1e-9

// Verdict judges an effect.
func (e *Effect) Verdict() Verdict {
	nothing := rounding * max(math.Abs(e.First), math.Abs(e.Second))
	switch d := e.Difference; {
	case math.Abs(d.Low) <= nothing && math.Abs(d.High) <= nothing:
		return Same
	case d.Low > 0:
		return More
	case d.High < 0:
		return Less
	}
	return Open
}

// Cost returns the effect on what the plants cost in a year; ok is false where that is
// not compared.
func (a *Answer) Cost() (e *Effect, ok bool) {
	for i := range a.Effects {
		if a.Effects[i].Quantity == document.MoneyAYear {
			return &a.Effects[i], true
		}
	}
	return nil, false
}
