package plant

import "math"

// rounds returns in the time of how many batches, made one after the other, some mixers
// fill a full load. The vessel is closed when all of its batches are in it, so that five
// batches take two mixers three rounds. Each batch has its cake made before it is mixed,
// one at a time, and so begins when a mixer is free and the cake of the one before is
// made. While fewer mixers are in order, a load takes as many times as long: with five
// batches and one mixer of two it would be less, so this leans to the side that warns.
func (q capacities) rounds(mixers int) float64 {
	if mixers == 1 {
		return q.load.batches
	}
	if len(q.load.byClass) > 0 {
		sum := 0.0
		for i, part := range q.ByLoads() {
			one := q
			one.load = q.load.byClass[i]
			sum += part * one.rounds(mixers)
		}
		return sum
	}
	n := int(math.Round(q.load.batches))
	made, mixed := q.dewateringHours()/q.load.batches, q.Mixer.BatchTime.Hours()
	free := make([]float64, min(mixers, n)) // when each mixer is, hours
	next, last := 0.0, 0.0                  // cake of the next batch is begun; the last one is mixed
	for i := range n {
		unit := i % len(free) // the one that was begun first is done first
		begun := max(next, free[unit])
		next = begun + made
		last = next + mixed
		free[unit] = last
	}
	return last / (made + mixed)
}

// fillingHours returns how long it takes to make the batches of a full load, with as many
// mixers at a time as there are loaders and operators for.
func (q capacities) fillingHours() float64 {
	n := q.Mixer.Units()
	for _, crew := range []Crew{q.Yard.Loaders, q.Yard.Operators} {
		if crew.Count > 0 {
			n = min(n, crew.Count)
		}
	}
	if n == 1 {
		return q.mixingHours()
	}
	return q.rounds(n) * q.mixingHours() / q.load.batches
}
