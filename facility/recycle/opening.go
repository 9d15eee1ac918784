package recycle

import (
	"loamcast/facility/plant"
	"loamcast/facility/screening"
	"loamcast/sim"
)

// What is in a plant on its first day, as far as nobody measures it, is taken from the
// steady load: what a load in a vessel was mixed of, and what has become by now of one
// that lies on the pad.

// Begun returns a load of some dry cake, kg, of the steady mix, that has been in its
// vessel for some time. A full load has the cake of s.Parts.
func (s *Steady) Begun(age sim.Duration, cakeDry float64) plant.Begun {
	part := cakeDry / s.Parts.Cake.Dry()
	return plant.Begun{
		Age:   age,
		Load:  s.Load.Times(part),
		Cake:  s.Parts.Cake.Times(part),
		Chips: (s.Volumes.Fresh + s.Volumes.Recovered) * part,
	}
}

// Pile is what is known of a lot on the pad.
type Pile struct {
	Age      sim.Duration // since it was tipped out
	Volume   float64      // m3; 0 where Wet is known
	Wet      float64      // kg; 0 where Volume is known
	Moisture float64      // 0…1; 0 where nobody measured it
	Warmth   *float64     // °C; nil where nobody measured it
}

// Lying returns a lot as it was found. Its solids, and what was not measured, are those
// of the steady load after as long on the pad, or at its end if that is shorter; where a
// plant screens first, of what the screen lets through of it.
func (s *Steady) Lying(m *plant.Model, p Pile) plant.Lying {
	j := s.Journey
	at := j.Curing.Samples[0]
	for _, sample := range j.Curing.Samples {
		if sample.Hours > p.Age.Hours() {
			break
		}
		at = sample
	}
	lot, warmth := at.Parcel, at.Temperature
	left := s.Parts.Cake.Fine
	left.DecayAs(&s.Load.Fine, &lot.Fine, &m.Chemistry)
	if m.Screening.First {
		through := screening.Screen(lot, m.Screening.Settings).Product
		left = left.Times(min(1, through.Fine.Fixed/lot.Fine.Fixed))
		lot = through
	}
	if p.Moisture > 0 {
		lot.Water = lot.Dry() * p.Moisture / (1 - p.Moisture)
	}
	if p.Warmth != nil {
		warmth = *p.Warmth
	}
	part := p.Wet / lot.Total()
	if p.Volume > 0 {
		part = p.Volume / m.Bulk.VolumeOf(&lot)
	}
	wait := 0.0
	for _, v := range j.Verdicts {
		if v.OnPad {
			wait = max(wait, v.Hours-j.Stay()-p.Age.Hours())
		}
	}
	return plant.Lying{
		Age: p.Age, Lot: lot.Times(part), CakeLeft: left.Times(part), CakeDry: s.Parts.Cake.Dry() * part,
		Chips: (s.Volumes.Fresh + s.Volumes.Recovered) * part, Readily: readily(s.Load) * part,
		Warmth: warmth, StillWait: sim.DurationOf(wait * float64(sim.Hour)),
	}
}
