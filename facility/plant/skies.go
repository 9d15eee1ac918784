package plant

import (
	"sync"

	"loamcast/facility/process"
	"loamcast/sim/calendar"
)

// skies keeps the tables of courses in the air of spells. Plants that share their usual
// tables share these: a table is filled for a month of a spell once for all replications.
type skies struct {
	mu   sync.Mutex
	made map[air]*sky
	keep func(*process.Responses) // is told of every table; nil if nobody keeps them
}

// air is by how much that of a spell differs from its month's.
type air struct{ warmer, damper float64 }

// sky is a plant in one such air.
type sky struct {
	plant  *Plant
	models map[*process.Model]*process.Model // as they are in it, by what they are else
}

// under returns plants in the air of each spell of a model; nil for a spell that leaves
// it as it is.
func (s *skies) under(m *Model) ([]*Plant, error) {
	if len(m.Spells) == 0 {
		return nil, nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	out := make([]*Plant, len(m.Spells))
	for i := range m.Spells {
		a := air{m.Spells[i].Temperature, m.Spells[i].Humidity}
		if a == (air{}) {
			continue
		}
		p, err := s.in(a, m)
		if err != nil {
			return nil, err
		}
		out[i] = p
	}
	return out, nil
}

// in returns the plant of a model in some air.
func (s *skies) in(a air, m *Model) (*Plant, error) {
	k := s.made[a]
	if k == nil {
		k = &sky{models: map[*process.Model]*process.Model{}}
	}
	other := m.inWeather(func(usual *process.Model) *process.Model {
		if k.models[usual] == nil {
			k.models[usual] = usual.InWeather(a.warmer, a.damper)
		}
		return k.models[usual]
	})
	if k.plant != nil {
		return k.plant.With(other)
	}
	p, err := New(other)
	if err != nil {
		return nil, err
	}
	if s.keep != nil {
		p.Keep(s.keep)
	}
	k.plant = p
	if s.made == nil {
		s.made = map[air]*sky{}
	}
	s.made[a] = k
	return p, nil
}

// airOn returns the plant whose courses loads follow that begin on a day.
func (p *plant) airOn(d calendar.Date) *Plant {
	for i := range p.Spells {
		if p.skies[i] != nil && p.Spells[i].covers(d) {
			return p.skies[i]
		}
	}
	return p.Plant
}
