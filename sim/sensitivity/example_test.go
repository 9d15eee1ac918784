package sensitivity_test

import (
	"context"
	"fmt"

	"loamcast/sim/random"
	"loamcast/sim/replicate"
	"loamcast/sim/sensitivity"
)

// The flow through a plant grows with the loads that come and the days they stay.
// How much of its uncertainty comes from each? (88 % and 13 %, worked out; together
// more than all, for what they do in common counts for both.) All cores share the
// evaluations.
func Example() {
	inputs := []random.Distribution{
		random.Uniform{Min: 2, Max: 4},                 // loads a day
		random.Triangular{Min: 13, Mode: 14, Max: 18},  // days
		random.LognormalMeanCV{Expected: 1, CV: 0.001}, // hardly uncertain
	}
	model := func(xs []float64) float64 { return xs[0] * xs[1] * xs[2] }

	design, err := sensitivity.NewDecomposition(len(inputs), 2000, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	points := design.Points()
	values, err := replicate.Run(context.Background(), len(points), 0, func(_ context.Context, i int) (float64, error) {
		xs := make([]float64, len(inputs))
		for d, input := range inputs {
			xs[d] = input.Quantile(points[i][d])
		}
		return model(xs), nil
	}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	shares, err := design.Shares(values, 0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.0f\n", shares.Mean)
	for d, name := range []string{"loads", "days", "rest"} {
		fmt.Printf("%s: %.0f %%\n", name, 100*shares.Inputs[d].Total.Estimate)
	}
	// Output:
	// mean 45
	// loads: 89 %
	// days: 13 %
	// rest: 0 %
}
