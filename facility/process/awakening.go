package process

import (
	"errors"
	"math"
)

// Awakening is how life takes hold of a fresh load: its activity a, a factor on all
// rates, grows from First to 1 as numbers do that double in a constant time until
// they fill their place,
//
//	da/dt = Rate·a·(1−a)·g(T)·fw·fa·fo
//
// with Rate, 1/d, at 20 °C. As the age Θ of the load is the integral of a·g·fw·fa·fo,
// a = 1 − (1−First)·exp(−Rate·Θ): it needs no state of its own. The zero value stands
// for a load that is fully active from the start, as a lot on a curing pad is.
//
// Without it a load as lively at 35 °C as published would be hot within a day, which
// none is: what respirometers and heaps show at 35 °C has grown there. That the law
// is logistic, and its constants, are assumptions.
type Awakening struct{ First, Rate float64 }

func (w Awakening) none() bool { return w == Awakening{} }

// At returns the activity at an age, d.
func (w Awakening) At(age float64) float64 {
	if w.none() {
		return 1
	}
	return 1 - (1-w.First)*math.Exp(-w.Rate*age)
}

// aged returns how much a load of an age grows older over a dose, d, which is what it
// would grow if it were fully active.
func (w Awakening) aged(age, dose float64) float64 {
	x := w.Rate * dose
	if x > most { // exp(x) − 1 would overflow
		return dose + math.Log(w.At(age))/w.Rate
	}
	return math.Log1p(w.At(age)*math.Expm1(x)) / w.Rate
}

const most = 500

func (w Awakening) validate() error {
	if w.none() {
		return nil
	}
	if !(w.First > 0 && w.First <= 1 && w.Rate > 0) || math.IsInf(w.Rate, 0) {
		return errors.New("kinetics: the first activity of a load must lie between 0 and 1, and grow")
	}
	return nil
}
