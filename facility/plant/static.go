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
	v := p.meanVessels()
	stay := (v.Residence + v.Turnaround).Days()
	s.Average = mean(byMonth[:]) / cakeDry * stay
	s.PeakMonth = peak / cakeDry * stay
	return s
}

// typicalLoad returns a full load of mean cake and fresh chips, in the mean of the
// classes of vessels, and the dry cake in it, kg.
func (p *Plant) typicalLoad() (load material.Parcel, cakeDry float64) {
	cake := p.Cake.WithMoisture(1 - mean(p.Feed.CakeSolids[:])).OfDry(1)
	cake = cake.Times(1 / p.Bulk.Volume(cake))
	chips := p.Chips.Fresh.WithMoisture(mean(p.Chips.Moisture[:])).OfDry(1)
	chips = chips.Times(p.Recipe.MeanChips() / p.Bulk.Volume(chips))
	mix := p.amended(cake.Plus(chips))
	times := 0.0
	for i, part := range p.byLoads() {
		v := p.AsClass(i).Vessels
		times += part * v.loadsOf(&p.Bulk, &mix)
	}
	load = mix.Times(times)
	return load, cake.Dry() * load.Dry() / mix.Dry()
}
