package options

import (
	"context"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// On the demo, with all its uncertain inputs, the same replications for all choices
// cut the variance of a difference of present worths at least threefold: by so
// many times fewer replications are needed than with luck of their own. Whether and
// when a sign comes is luck that only an option that waits for it has, and that
// nothing takes out; sharing the rest may not add to it.
func TestCommonRandomNumbersOnTheDemo(t *testing.T) {
	f, err := facilityfile.Parse(examples.Demo, examples.Data(examples.Demo))
	if err != nil {
		t.Fatal(err)
	}
	best := mostBelieved(f) // enough to show it
	f.Planning.Growths = f.Planning.Growths[best : best+1]
	f.Model.Years = 12 // by when every option has taken effect
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	const replications = 8
	f.Planning.Catalogue = nil // the file's options will do
	c := newComparison(s, answer.Setup{}, Options{Replications: replications})
	for c.compared() < replications {
		if err := c.extend(context.Background(), c.whole(c.all())); err != nil {
			t.Fatal(err)
		}
	}
	for i := range c.names {
		for j := range i {
			want := 3.0
			if s.Triggered(c.cases[i][0]) || s.Triggered(c.cases[j][0]) {
				want = 1
			}
			ratio := varianceRatio(c.weighted(i, c.everywhere(), presentWorth), c.weighted(j, c.everywhere(), presentWorth))
			if !(ratio >= want) {
				t.Errorf("%s against %s: variance %.1f times lower, want %g", c.names[i], c.names[j], ratio, want)
			}
			t.Logf("%s against %s: variance of the difference %.1f times lower", c.names[i], c.names[j], ratio)
		}
	}
}

// varianceRatio is the variance that a difference of means would have from
// separate random numbers, over the one that it has.
func varianceRatio(a, b []float64) float64 {
	d := make([]float64, len(a))
	floats.SubTo(d, a, b)
	return (stat.Variance(a, nil) + stat.Variance(b, nil)) / stat.Variance(d, nil)
}

// mostBelieved is the place of the growth scenario with the largest weight.
func mostBelieved(f *facilityfile.File) int {
	best := 0
	for g, growth := range f.Planning.Growths {
		if growth.Weight > f.Planning.Growths[best].Weight {
			best = g
		}
	}
	return best
}
