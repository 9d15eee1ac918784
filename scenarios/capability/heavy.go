package capability

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// scale weighs years of production that is not even by what a plant would leave untreated
// of them.
type scale struct {
	may float64 // the share that may leave untreated
	// swing is the standard deviation of the logarithm of production from day to day, as
	// far as the plant does not even it out.
	swing float64
	even  float64 // what is carried over even production of which just so much leaves
}

// scaleOf is that of a file. What the plant evens out is what swings within the time for
// which a load takes a vessel and that for which the holding takes what comes: it needs as
// many vessels as come loads within a stay. Seasons and breakdowns, which blur what is
// carried too, are left out, which leans to the side that warns.
func scaleOf(f *facilityfile.File) scale {
	m := &f.Model
	v := m.MeanVessels()
	days := max(1, math.Round(v.Residence.Days()+v.Turnaround.Days()+m.Holding.Capacity/m.Feed.Base))
	cv := m.Feed.Noise.CV * math.Sqrt(varianceOfMean(days, m.Feed.Noise.Correlation))
	return newScale(f.Planning.Target.DivertedLimit, math.Sqrt(math.Log1p(cv*cv)))
}

// newScale is one for a share that may leave untreated and a swing.
func newScale(may, swing float64) scale {
	w := scale{may: may, swing: swing, even: 1}
	if may <= 0 { // the highest month alone counts, however rarely it is too much
		w.swing = 0
	} else {
		w.even = w.carried([]float64{1}, 1-may)
	}
	return w
}

// varianceOfMean is the variance of the mean of some days over that of a day, where a day
// is correlated with the next.
func varianceOfMean(days, correlation float64) float64 {
	sum := days
	for apart := 1.0; apart < days; apart++ {
		sum += 2 * (days - apart) * math.Pow(correlation, apart)
	}
	return sum / (days * days)
}

// heavy returns the even production that is as heavy on a plant as that of the months
// of a year: the plant that carries it but for the share that may leave untreated
// leaves so much of either. Production that swings from day to day is too much at times
// whatever the month, so that how it rises in the year matters less; where none swings,
// what rises by less than twice that share is as heavy as its mean. What rises faster, or
// jumps, is heavier.
func (w scale) heavy(months []float64) float64 {
	mean := stat.Mean(months, nil)
	if floats.Max(months)-floats.Min(months) < 1e-9*mean {
		return mean
	}
	return w.carried(months, w.even*mean) / w.even
}

// carried is what a plant carries that leaves just what may of some months. It is no less
// than least: from there Newton's steps rise to it, since what is left is convex in what is
// carried.
func (w scale) carried(months []float64, least float64) float64 {
	carried, may := least, w.may*floats.Sum(months)
	const most, near = 100, 1e-7 // the error of a step is about the square of the one before
	for range most {
		left, less := -may, 0.0
		for _, load := range months {
			l, by := w.left(load, carried)
			left, less = left+l, less+by
		}
		if left <= 0 { // no more than may
			break
		}
		step := left / less
		if carried += step; step <= near*carried {
			break
		}
	}
	return carried
}

// left is what is left in the mean of a load that swings, where so much is carried, and by
// how much less that is for every unit carried more: the mean of what a lognormal value
// has above a limit (derived).
func (w scale) left(load, carried float64) (left, less float64) {
	if w.swing == 0 {
		if load > carried {
			return load - carried, 1
		}
		return 0, 0
	}
	over := math.Log(load/carried) / w.swing
	less = share(over - w.swing/2)
	return load*share(over+w.swing/2) - carried*less, less
}

// share is the standard normal distribution function.
func share(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// heavy returns the even production that is as heavy as that of a year of the ramp.
func (r ramp) heavy(year int, w scale) float64 {
	rate := math.Log(r.load(1) / r.load(0))
	months := make([]float64, calendar.MonthsPerYear)
	for i := range months {
		months[i] = math.Exp(rate * float64(i) / calendar.MonthsPerYear)
	}
	return r.load(year) * w.heavy(months) / stat.Mean(months, nil)
}

// inYears weighs the production of each year of a path of months.
func (w scale) inYears(path []float64) []float64 {
	var out []float64
	for months := range slices.Chunk(path, calendar.MonthsPerYear) {
		out = append(out, w.heavy(months))
	}
	return out
}
