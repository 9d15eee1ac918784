package recycle

import "loamcast/facility/plant"

// Needs returns what a kg dry of the cake of a steady load takes of the stages of the
// plant that it comes through. What is as yet unknown of a load that does not comply,
// which a run would haul away, is told as if it were released at the stay aimed at.
func (s *Steady) Needs(m *plant.Model) plant.Needs {
	perCake := 1 / s.Parts.Cake.Dry()
	j, volume := s.Journey, s.Volumes.Load
	lot := m.Bulk.Volume(j.Curing.Initial)
	end := j.End()
	return plant.Needs{
		Payload:  perCake * s.Load.Total(),
		Volume:   perCake * volume,
		Pad:      perCake * lot * j.Cured() / hoursPerDay,
		Screen:   perCake * m.Bulk.Volume(end) / m.Screening.Settings.Throughput(end.Moisture()) * m.Screening.Settings.Capacity,
		Product:  perCake * m.Bulk.Volume(s.Split.Product),
		Chips:    perCake * s.Volumes.Fresh,
		Drying:   perCake * lot * j.PadDrying / hoursPerDay,
		InVessel: j.VesselDrying / hoursPerDay,
	}
}
