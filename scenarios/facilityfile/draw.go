package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/sim/random"
)

// Draw sets every uncertain input of a model, and of the economy, to the value
// that it has in a replication. The replication decides, not the model.
func (p *Planning) Draw(m plant.Model, key random.Key) (plant.Model, Economy) {
	e := p.Economy
	for _, in := range p.Inputs {
		in.set(&m, &e, in.Distribution.Draw(key.Stream("uncertain input "+in.Key)))
	}
	return m, e
}
