package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Interval is an estimate and the range that holds the true value with the
// confidence Level, a fraction.
type Interval struct {
	Estimate  float64
	Low, High float64
	Level     float64
}

// HalfWidth returns half the length of the interval.
func (i Interval) HalfWidth() float64 { return (i.High - i.Low) / 2 }

// MeanInterval estimates the mean of independent, about normal observations, by
// Student's t with n − 1 degrees of freedom. It needs two observations.
func MeanInterval(xs []float64, level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if len(xs) < 2 {
		return Interval{}, fmt.Errorf("stats: an interval of the mean needs 2 observations, not %d", len(xs))
	}
	mean, sd := stat.MeanStdDev(xs, nil)
	n := float64(len(xs))
	t := distuv.StudentsT{Sigma: 1, Nu: n - 1}.Quantile((1 + level) / 2)
	half := t * sd / math.Sqrt(n)
	return Interval{Estimate: mean, Low: mean - half, High: mean + half, Level: level}, nil
}

// Wilson estimates a probability from the number of successes in n independent
// trials (E. B. Wilson 1927, the score interval without continuity correction,
// from memory). The estimate is the plain share; the interval always lies within
// [0, 1] and has a length even when all trials went one way.
func Wilson(successes, n int, level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if n < 1 || successes < 0 || successes > n {
		return Interval{}, fmt.Errorf("stats: %d successes in %d trials", successes, n)
	}
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	trials := float64(n)
	p := float64(successes) / trials
	shrink := 1 + z*z/trials
	centre := (p + z*z/(2*trials)) / shrink
	half := z / shrink * math.Sqrt(p*(1-p)/trials+z*z/(4*trials*trials))
	return Interval{
		Estimate: p,
		Low:      min(max(centre-half, 0), p), // rounding may pass the ends by an ulp
		High:     max(min(centre+half, 1), p),
		Level:    level,
	}, nil
}

func checkLevel(level float64) error {
	if !(level > 0 && level < 1) {
		return fmt.Errorf("stats: confidence level %v is not between 0 and 1", level)
	}
	return nil
}
