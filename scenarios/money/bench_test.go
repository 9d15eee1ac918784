package money

import "testing"

// twenty is a plan of 20 years with ten assets.
func twenty() Plan {
	p := small()
	p.Rates = Rates{Stated: 2027, Start: 2027, Discount: 0.05, Escalation: 0.03, Timing: MidYear}
	for len(p.Assets) < 10 {
		a := p.Assets[0]
		a.Year = float64(len(p.Assets))
		p.Assets = append(p.Assets, a)
	}
	for len(p.Years) < 20 {
		p.Years = append(p.Years, p.Years[0])
	}
	return p
}

func BenchmarkCost(b *testing.B) {
	p := twenty()
	for b.Loop() {
		p.Cost()
	}
}
