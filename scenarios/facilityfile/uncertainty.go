package facilityfile

import (
	"loamcast/scenarios/units"
)

// Uncertainty says how a key may be uncertain. What shapes the course of a load
// beyond its mix may not: the tables of courses are shared by all replications.
type Uncertainty struct {
	Name string // of the input in words, after "the": "residence in a vessel"
	How  How
	// Dimension, Low and High are those of what is added or a factor; else they are
	// those of the key. Several inputs together are tried on the model at their ends,
	// see possible.
	Dimension units.Dimension
	Low, High float64
	// Set puts a drawn value into the parts Model and Economy, if not as the key
	// does. What it changes it copies: models of different replications share
	// nothing that is written.
	Set func(Parts, float64)
}

// How is what becomes of the value of the file.
type How int

// The ways.
const (
	Instead How = iota // the drawn value takes its place
	Added              // it is added to it
	Times              // it is a factor on it
)

// Title names the input in a table.
func (u *Uncertainty) Title() string {
	switch u.How {
	case Added:
		return u.Name + " (added)"
	case Times:
		return u.Name + " (factor)"
	}
	return u.Name
}

// instead is the uncertainty of a key whose value is drawn.
func instead(name string) *Uncertainty { return &Uncertainty{Name: name} }

// added is the uncertainty of what is added, from low to high, to a key's value.
func added(name string, dim units.Dimension, low, high float64, set func(Parts, float64)) *Uncertainty {
	return &Uncertainty{name, Added, dim, low, high, set}
}

// times is the uncertainty of a factor, up to a largest one, on a key's value.
func times(name string, most float64, set func(Parts, float64)) *Uncertainty {
	return &Uncertainty{name, Times, units.Ratio, 0, most, set}
}

// Input is a key whose value may be uncertain.
type Input struct {
	Key    string
	UsedBy Use // ForPlanning: it moves money alone
	Uncertainty
	// Get returns the value of the file whose place is taken; nil if none is.
	Get func(Parts) float64
}

// inputs are the values that may be uncertain, in the order of the file.
var inputs = func() []Input {
	var list []Input
	for _, k := range Keys() {
		if k.Uncertain == nil {
			continue
		}
		u := *k.Uncertain
		if u.How == Instead {
			u.Dimension, u.Low, u.High = k.Dimension, k.Low, k.High
		}
		if u.Set == nil {
			u.Set = k.Set
		}
		in := Input{Key: k.Path, UsedBy: k.UsedBy, Uncertainty: u}
		if u.How == Instead {
			in.Get = k.Get
		}
		list = append(list, in)
	}
	return list
}()

// InputNamed returns the input of a key.
func InputNamed(key string) (Input, bool) {
	for _, in := range inputs {
		if in.Key == key {
			return in, true
		}
	}
	return Input{}, false
}

func inputKeys() []string {
	keys := make([]string, len(inputs))
	for i, in := range inputs {
		keys[i] = in.Key
	}
	return keys
}

func addTo(months *[12]float64, v float64) {
	for i := range months {
		months[i] += v
	}
}

func scale(months *[12]float64, v float64) {
	for i := range months {
		months[i] *= v
	}
}
