package plant

import "loamcast/facility/material"

// Static is the handbook's estimate of vessels: the volume produced per day
// times the days that a vessel is taken, over the useful volume. It knows
// nothing of queues, shifts, weekends, holding or noise.
//
// Where there are several classes it is in vessels as they are installed: so many large
// ones for so many small ones.
type Static struct {
	LoadCakeDry float64 // kg dry of cake in a full load
	LoadWet     float64 // kg
	LoadVolume  float64 // m3
	Stay        float64 // days that a load takes a vessel
	Average     float64 // vessels at the year's mean production
	PeakMonth   float64 // vessels in the month of the highest production
}

// StaticNeed returns the static estimate at a time, in years since the start,
// for a load of cake at its mean solids content and fresh chips at their mean
// moisture. Feedstocks count as so much more cake.
func (p *Plant) StaticNeed(years float64) Static {
	load, cakeDry := p.typicalLoad()
	s := Static{
		LoadCakeDry: cakeDry,
		LoadWet:     load.Total(),
		LoadVolume:  p.Bulk.Volume(load),
	}
	fed, peak := p.Feed.Base*p.Feed.Growth.Factor(years), 0.0
	byMonth := [12]float64{}
	for i := range byMonth {
		byMonth[i] = fed * p.Feed.Month[i] / mean(p.Feed.Month[:])
		for _, f := range p.Feedstocks {
			byMonth[i] += f.PerDay[i]
		}
		peak = max(peak, byMonth[i])
	}
	v := p.MeanVessels()
	s.Stay = (v.Residence + v.Turnaround).Days()
	s.Average = mean(byMonth[:]) / cakeDry * s.Stay
	s.PeakMonth = peak / cakeDry * s.Stay
	return s
}

// typicalLoad returns a full load of mean cake and fresh chips, in the mean of the
// classes of vessels, and the dry cake in it, kg.
func (p *Plant) typicalLoad() (load material.Parcel, cakeDry float64) {
	mix, cake := p.typicalMix()
	times := 0.0
	for i, part := range p.ByLoads() {
		v := p.AsClass(i).Vessels
		times += part * v.loadsOf(&p.Bulk, &mix)
	}
	load = mix.Times(times)
	return load, cake.Dry() * load.Dry() / mix.Dry()
}

// typicalMix returns mean cake and fresh chips, mixed, for 1 m3 of cake, and the cake.
func (m *Model) typicalMix() (mix, cake material.Parcel) {
	cake = m.Cake.WithMoisture(1 - mean(m.Feed.CakeSolids[:])).OfDry(1)
	cake = cake.Times(1 / m.Bulk.Volume(cake))
	chips := m.Chips.Fresh.WithMoisture(mean(m.Chips.Moisture[:])).OfDry(1)
	chips = chips.Times(m.Recipe.MeanChips() / m.Bulk.Volume(chips))
	return m.amended(cake.Plus(chips)), cake
}

// Worth returns for how many vessels of the mean of those installed some vessels stand,
// so many of each class, by the handbook: by what a load holds over the days that it
// takes a vessel. It is their number where there is one class.
func (m *Model) Worth(byClass []int) float64 {
	sum, installed, mean := 0.0, 0, 0.0
	if len(m.Vessels.Classes) == 0 {
		return float64(byClass[0])
	}
	mix, _ := m.typicalMix()
	for i, c := range m.Vessels.Classes {
		v := m.AsClass(i).Vessels
		perDay := v.loadsOf(&m.Bulk, &mix) / (v.Residence + v.Turnaround).Days()
		sum += float64(byClass[i]) * perDay
		n := c.Installed
		if m.Vessels.Installed == 0 {
			n = 1
		}
		installed += n
		mean += float64(n) * perDay
	}
	return sum * float64(installed) / mean
}

// VesselsWith returns how many vessels of each class there are with some changes in
// force.
func (v *Vessels) VesselsWith(changes []Change) []int {
	out := make([]int, v.ClassCount())
	for i := range out {
		out[i] = v.InClass(i)
	}
	for _, c := range changes {
		out[c.Class] += c.Vessels
	}
	return out
}
