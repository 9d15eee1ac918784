package money

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Shows stated prices turned into the money of the day and into constant money.
// Derived: prices of the start of 2025, a plan from the middle of 2027, so 2.5
// years at its start and 4.5 two years on.
func TestStatedYear(t *testing.T) {
	r := Rates{Stated: 2025, Start: 2027.5, Discount: 0.07, Escalation: 0.03}
	f := Flow{At: 2, Amount: -1000, Escalation: 0.05}
	nearly(t, "nominal", r.Nominal(f), -1000*math.Pow(1.05, 4.5))
	nearly(t, "constant", r.Constant(f), -1000*math.Pow(1.05/1.03, 4.5))
	f.Escalation = r.General(1).Escalation
	nearly(t, "rising with prices in general", r.Constant(f), -1000)
}

// Shows real and nominal discount rates of each other. Derived: 1.03 × 1.04 = 1.0712.
func TestRealAndNominalDiscount(t *testing.T) {
	for _, r := range []Rates{
		{Discount: 0.0712, Escalation: 0.03},
		{Discount: 0.04, Escalation: 0.03, Real: true},
	} {
		near(t, "real", r.RealDiscount(), 0.04, 1e-15)
		near(t, "nominal", r.NominalDiscount(), 0.0712, 1e-15)
	}
}

// Shows a level yearly cost at both timings. Derived: 1,000 USD a year for 10
// years at 10 % is 6,144.57 USD at year ends (table value of P/A, from memory),
// and √1.1 times that in the middle of years.
func TestTiming(t *testing.T) {
	for _, c := range []struct {
		timing Timing
		want   float64
	}{{EndOfYear, 6144.57}, {MidYear, 6144.57 * math.Sqrt(1.1)}} {
		r := plain(0.10)
		r.Timing = c.timing
		var flows []Flow
		for year := range 10 {
			flows = append(flows, Flow{Part: Labour, Year: year, At: c.timing.Instant(year), Amount: 1000})
		}
		near(t, "present worth", r.PresentWorth(flows), c.want, 0.01)
		near(t, "annuity", 1000*r.Annuity(10), c.want, 0.01)
	}
	near(t, "capital recovery, of the textbook's table and more digits (derived)", 1/plain(0.08).Annuity(20), 0.1018522088, 1e-9)
}

// Shows a price that rises by itself against the closed form of a geometric
// series: chips that cost 5,000 USD at the prices of the start and rise by 4 %,
// at 7 %, 12 years, first paid at 5,000 × 1.04.
func TestOwnEscalation(t *testing.T) {
	var flows []Flow
	for year := range 12 {
		flows = append(flows, Flow{Part: Chips, Year: year, At: float64(year + 1), Amount: -5000, Escalation: 0.04})
	}
	series := (1 - math.Pow(1.04/1.07, 12)) / (0.07 - 0.04)
	nearly(t, "present worth", plain(0.07).PresentWorth(flows), -5200*series)
}

// Shows for any plan that the two ways to a present worth agree: constant money
// at the real rate, and the money of the day at the nominal rate, taken back to
// the stated year at the end.
func TestNominalAndRealAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		r, flows := p.Rates, p.Flows()
		nominal := presentWorth(flows, r.Nominal, r.NominalDiscount())
		backToStated := grow(r.Escalation, float64(r.Stated)-r.Start)
		want := nominal * backToStated
		near(t, "present worth", r.PresentWorth(flows), want, 1e-9*(1+gross(flows, r)))
	})
}

// Shows which rates are refused.
func TestRatesValidate(t *testing.T) {
	ok := Rates{Stated: 2025, Start: 2027, Discount: 0.05, Escalation: 0.02, Timing: MidYear}
	if err := ok.Validate(); err != nil {
		t.Errorf("sound rates: %v", err)
	}
	for name, spoil := range map[string]func(*Rates){
		"discount rate -1 per year must be above −1":             func(r *Rates) { r.Discount = -1 },
		"discount rate NaN per year must be above −1":            func(r *Rates) { r.Discount = math.NaN() },
		"escalation +Inf per year must be above −1":              func(r *Rates) { r.Escalation = math.Inf(1) },
		"start NaN must be a calendar year":                      func(r *Rates) { r.Start = math.NaN() },
		"timing 7 is neither the end nor the middle of the year": func(r *Rates) { r.Timing = 7 },
	} {
		r := ok
		spoil(&r)
		if err := r.Validate(); err == nil || err.Error() != name {
			t.Errorf("got %v, want %q", err, name)
		}
	}
}
