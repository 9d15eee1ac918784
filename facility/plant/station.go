package plant

import (
	"loamcast/sim"
	"loamcast/sim/stats"
)

// station meters a place where things stay, twice: the level over time, and
// each stay by itself. Little's law says that both give the same integral.
type station struct {
	name    string
	level   stats.TimeWeighted
	arrived float64
	stays   float64 // units × seconds, of all that have left
}

// Station is a station's record over the whole run, warm-up included. Units
// are kg dry for material and pieces for vessels and lots.
type Station struct {
	Name      string
	Arrived   float64
	MeanLevel float64
	Seconds   float64 // length of the run
	// Stays is the sum over all units of the time stayed, in unit-seconds,
	// the unfinished stays of those still there included.
	Stays float64
}

func newStation(name string) *station { return &station{name: name} }

func (s *station) entered(now sim.Time, n float64) {
	s.arrived += n
	s.level.Add(int64(now), n)
}

func (s *station) left(now sim.Time, n float64, stay sim.Duration) {
	s.stays += n * float64(stay)
	s.level.Add(int64(now), -n)
}

// record closes the books; present is the unit-seconds stayed so far by what
// is still there.
func (s *station) record(now sim.Time, present float64) Station {
	return Station{
		Name:      s.name,
		Arrived:   s.arrived,
		MeanLevel: s.level.Mean(int64(now)),
		Seconds:   float64(now),
		Stays:     s.stays + present,
	}
}

// heap is a station of mass that is used first in, first out.
type heap struct {
	station
	queue fifo
}

func newHeap(name string) *heap { return &heap{station: station{name: name}} }

func (h *heap) put(now sim.Time, mass float64) {
	h.queue.in(now, now, mass)
	h.entered(now, mass)
}

// held books mass that is there at the start of the run, and has come evenly for so long.
// The meter counts its stay from the start on, its age from when it came.
func (h *heap) held(since sim.Duration, mass float64) {
	h.queue.in(sim.Time(-since), 0, mass)
	h.entered(0, mass)
	h.stays -= h.queue.waiting(0)
}

// ramp books mass that has run in evenly between two instants, none after
// full, and brings the level to what is held now.
func (h *heap) ramp(from, full, now sim.Time, level, mass float64) {
	h.queue.in(from, full, mass)
	h.arrived += mass
	h.level.RampTo(int64(full), level)
	h.level.Set(int64(now), level)
}

// take removes mass, oldest first, and returns mass × seconds that it has
// waited and the wait of the oldest part.
func (h *heap) take(now sim.Time, mass float64) (waited float64, oldest sim.Duration) {
	waited, oldest = h.queue.out(now, mass)
	h.stays += waited
	h.level.Add(int64(now), -mass)
	return waited, oldest
}

// stations are all meters of a plant.
type stations struct {
	holding, fresh, recovered, product *heap
	mixer, vessels, pad, screen        *station
}

func newStations() stations {
	return stations{
		holding:   newHeap("cake holding"),
		fresh:     newHeap("fresh chips"),
		recovered: newHeap("recovered chips"),
		product:   newHeap("product store"),
		mixer:     newStation("mixer"),
		vessels:   newStation("vessels"),
		pad:       newStation("curing pad"),
		screen:    newStation("screen"),
	}
}

// records closes the meters.
func (p *plant) stationRecords() []Station {
	s := &p.stations
	now := p.k.Now()
	var out []Station
	for _, h := range []*heap{s.holding, s.fresh, s.recovered, s.product} {
		out = append(out, h.record(now, h.queue.waiting(now)))
	}
	var vessels, lots float64
	for _, v := range p.vessels {
		if v.state != vesselEmpty && v.state != vesselInService && v.state != vesselOut {
			vessels += float64(now.Sub(v.since))
		}
	}
	for _, l := range p.pad.lots {
		lots += float64(now.Sub(l.metered()))
	}
	for _, l := range p.pad.raw {
		lots += float64(now.Sub(l.metered()))
	}
	out = append(out,
		s.mixer.record(now, p.mixers.stayed(now)),
		s.vessels.record(now, vessels),
		s.pad.record(now, lots),
		s.screen.record(now, p.screens.stayed(now)))
	for i := range p.amendments {
		if h := p.amendments[i].meter; h != nil {
			out = append(out, h.record(now, h.queue.waiting(now)))
		}
	}
	return out
}
