package cycleplan

import (
	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/recycle"
	doc "loamcast/scenarios/document"
)

// Ammonia is the nitrogen that a load loses, and what the biofilter gets of it from
// the vessels, all in use. What leaves from the pad passes no biofilter.
type Ammonia struct {
	ByNitrogen  bool    // reckoned from the nitrogen that decay releases
	Lost        float64 // of the nitrogen loaded, in vessel and curing
	ToBiofilter float64 // kg of ammonia a day, mean
	Bed         float64 // m2, that of the file, or that which the flow asks for
}

// PerBed returns the ammonia that a square metre of the bed gets, kg a day.
func (a *Ammonia) PerBed() float64 { return a.ToBiofilter / a.Bed }

func ammonia(m *plant.Model, s *recycle.Steady, b Biofilter) Ammonia {
	j := s.Journey
	vessel, pad := j.Vessel.Final().Exchange.NH3, j.Curing.Final().Exchange.NH3
	days := (j.Stay() + m.Vessels.Turnaround.Hours()) / hoursPerDay
	a := Ammonia{
		ByNitrogen:  m.Chemistry.Microbes.Counted(),
		Lost:        (vessel + pad) * material.NitrogenPerNH3 / s.Load.Nitrogen(),
		ToBiofilter: float64(b.Vessels) * vessel / days,
		Bed:         m.Air.Area,
	}
	if a.Bed == 0 {
		a.Bed = b.Area
	}
	return a
}

var ammoniaColumns = []doc.Col[Ammonia]{
	doc.Val("nitrogen_lost", doc.Share, func(a *Ammonia) float64 { return a.Lost }).Means("part of the nitrogen loaded that is given off as ammonia"),
	doc.Val("ammonia_to_biofilter_per_day", doc.ScaleMass, func(a *Ammonia) float64 { return a.ToBiofilter }).Means("ammonia in the air of all vessels at this load, mean of a day", doc.Substance),
	doc.Val("ammonia_to_biofilter_per_bed_and_day", doc.MassPerArea, (*Ammonia).PerBed).Means("ammonia on each unit of area of the biofilter, mean of a day", doc.Substance),
}

// nitrogen tells what leaves as ammonia, where it is reckoned from the nitrogen, and
// the water that the lot got.
func (l *Load) nitrogen(d *doc.Document) {
	if a := &l.Ammonia; a.ByNitrogen {
		d.Labelled("Ammonia", "%s of the nitrogen loaded leaves with it; the biofilter gets %s of ammonia a day from the vessels, %s of a bed of %s",
			doc.With(a.Lost, doc.Share, 0), doc.Show(a.ToBiofilter, doc.ScaleMass), doc.Show(a.PerBed(), doc.MassPerArea), doc.Show(a.Bed, doc.Area))
	}
	if l.WaterAdded > 0 {
		d.Labelled("Water", "the lot leaves the vessel at %s moisture and gets %s of water as it is put up to cure, to %s",
			doc.With(l.MoistureOut, doc.Share, 0), doc.Show(l.WaterAdded, doc.Mass), doc.With(l.MoistureCured, doc.Share, 0))
	}
}
