package options

import "testing"

// Where none keeps the target, those that miss it in up to a year more than the
// nearest come about as near, and cost decides among them.
func TestPlace(t *testing.T) {
	a := &Answer{Choices: []Choice{
		{Service: Service{YearsMissed: 2}}, {Service: Service{YearsMissed: 3}}, {Service: Service{YearsMissed: 3.1}}, {Service: Service{Keeps: true, YearsMissed: 0.1}},
	}}
	a.place()
	for i, want := range []Standing{Nearest, Nearest, Misses, Keeps} {
		if got := a.Choices[i].Standing; got != want {
			t.Errorf("choice %d stands at %v, want %v", i, got, want)
		}
	}
}
