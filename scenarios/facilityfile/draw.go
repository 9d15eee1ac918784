package facilityfile

import (
	"fmt"

	"loamcast/facility/plant"
	"loamcast/sim/random"
)

// Draw sets every uncertain input of a model, and of the economy, to the value
// that it has in a replication. Key and replication decide: an input that is
// added to the file, or removed, shifts no other that it is not correlated with.
func (p *Planning) Draw(m plant.Model, key random.Key) (plant.Model, Economy) {
	at := make([]float64, len(p.Inputs))
	for i := range p.Inputs {
		at[i] = random.Uniform{Max: 1}.Draw(key.Stream("uncertain input " + p.Inputs[i].Key))
	}
	p.copula.join(at)
	return p.At(m, at)
}

// At sets the uncertain inputs of a model, and of the economy, to quantiles of
// their distributions: one probability, 0 to 1, for each of Inputs, in their
// order. Correlations play no part; 0 and 1 stand for the ends at which an input
// is cut.
func (p *Planning) At(m plant.Model, quantiles []float64) (plant.Model, Economy) {
	if len(quantiles) != len(p.Inputs) {
		panic(fmt.Sprintf("facilityfile: %d quantiles for %d uncertain inputs", len(quantiles), len(p.Inputs)))
	}
	e := p.Economy
	for i := range p.Inputs {
		in := &p.Inputs[i]
		in.set(Parts{Model: &m, Economy: &e}, in.Quantile(quantiles[i]))
	}
	return m, e
}

// Probabilities nearer to 0 and 1 than this are taken as this, since there some
// distributions are infinite.
const nearestProbability = 1e-12

// Quantile returns the value at a quantile, 0 to 1, cut where the input ends; in
// the unit that the reader keeps the key in.
func (u *Uncertain) Quantile(quantile float64) float64 {
	p := min(max(quantile, nearestProbability), 1-nearestProbability)
	return min(max(u.Distribution.Quantile(p), u.low), u.high)
}
