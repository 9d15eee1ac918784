package money

// Payment is an amount at an instant.
type Payment struct {
	At  float64 // years since the start of the plan
	USD float64 // received > 0, paid < 0
}

// PresentWorth returns Σ USD·(1+rate)^−At, the worth of payments at instant 0,
// USD. The rate, per year, is above −1.
func PresentWorth(payments []Payment, rate float64) float64 {
	sum := 0.0
	for _, p := range payments {
		sum += p.USD * grow(rate, -p.At)
	}
	return sum
}
