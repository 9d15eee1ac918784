package money

import "math"

// Payback returns the years after which flows have paid themselves back for
// good: from then on their running total in constant money, discounted at a real
// rate per year (0 for simple payback), is never below zero again within the
// horizon. A later replacement that takes the total below zero again therefore
// counts. It returns false if the total is below zero at the end.
//
// What is paid at the start counts at once; the total of each year is taken as
// spread evenly over it, as textbooks interpolate.
func (r Rates) Payback(flows []Flow, years int, discount float64) (after float64, ok bool) {
	opening, byYear := 0.0, make([]float64, years)
	gross := 0.0
	for _, f := range flows {
		worth := r.Constant(f) * grow(discount, -f.At)
		gross += math.Abs(worth)
		if f.At == 0 {
			opening += worth
		} else {
			byYear[f.Year] += worth
		}
	}

	total := opening
	negative := total < -rounding*gross
	for year, change := range byYear {
		before := total
		total += change
		switch below := total < -rounding*gross; {
		case negative && !below:
			after = float64(year) + min(1, -before/change)
			negative = false
		case below:
			negative = true
		}
	}
	return after, !negative
}
