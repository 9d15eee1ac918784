package answer

import (
	"math"
	"strconv"

	"loamcast/sim/stats"
)

// Level names the quantiles that a Spread holds.
type Level struct{ Low, High float64 }

// String names the level as an interval: "P10–P90".
func (l Level) String() string { return QuantileName(l.Low) + "–" + QuantileName(l.High) }

// QuantileName names a quantile: 0.1 is "P10".
func QuantileName(q float64) string {
	return "P" + strconv.FormatFloat(math.Round(1000*q)/10, 'f', -1, 64)
}

// Deciles are the quantiles that P10 and P90 of every answer are.
var Deciles = Level{Low: 0.1, High: 0.9}

// Spread is a quantity over the replications.
type Spread struct {
	Mean          float64
	P10, P50, P90 float64
}

// SpreadOf reduces one number per replication, of which there is at least one.
func SpreadOf(xs []float64) Spread {
	seen := stats.NewSample(len(xs), len(xs))
	for _, x := range xs {
		seen.Add(x)
	}
	return SpreadIn(seen)
}

// SpreadIn is [SpreadOf] of numbers that came one by one.
func SpreadIn(seen *stats.Sample) Spread {
	return Spread{
		Mean: seen.Mean(),
		P10:  seen.Quantile(Deciles.Low),
		P50:  seen.Quantile(0.5),
		P90:  seen.Quantile(Deciles.High),
	}
}
