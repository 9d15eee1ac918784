package material

import "fmt"

// carbonPerVolatile is the carbon fraction of volatile solids where no
// analysis is given: C = VS/1.8 (common practice in compost mix design).
const carbonPerVolatile = 1 / 1.8

// Spec describes a material as delivered. Fractions are 0…1.
type Spec struct {
	Name        string
	Moisture    float64 // water per wet mass
	Volatile    float64 // volatile solids per dry mass
	Rapidly     float64 // rapidly degradable per volatile solids
	Readily     float64 // readily degradable per volatile solids
	Slowly      float64 // slowly degradable per volatile solids
	Carbon      float64 // per dry mass; 0 means Volatile/1.8
	Nitrogen    float64 // per dry mass
	Coarse      float64 // coarse (screenable) share of the dry mass
	BulkDensity float64 // wet, as delivered, kg/m3
}

// Validate reports the first thing that makes the description impossible. The
// oxidation formulas need their share of carbon and nitrogen in the degradable
// classes; an analysis below that contradicts the formula.
func (s Spec) Validate(c Chemistry) error {
	fractions := []struct {
		name  string
		value float64
	}{
		{"moisture", s.Moisture}, {"volatile solids", s.Volatile},
		{"rapidly degradable share", s.Rapidly}, {"readily degradable share", s.Readily}, {"slowly degradable share", s.Slowly},
		{"carbon", s.Carbon}, {"nitrogen", s.Nitrogen}, {"coarse share", s.Coarse},
	}
	for _, f := range fractions {
		if !(f.value >= 0 && f.value <= 1) {
			return fmt.Errorf("%s: %s %.4g is not between 0 and 1", s.Name, f.name, f.value)
		}
	}
	if s.Moisture == 1 {
		return fmt.Errorf("%s: moisture 100 %% leaves no solids", s.Name)
	}
	if s.Rapidly+s.Readily+s.Slowly > 1 {
		return fmt.Errorf("%s: rapidly, readily and slowly degradable shares add to more than the volatile solids", s.Name)
	}
	if !(s.BulkDensity > 0) {
		return fmt.Errorf("%s: bulk density must be positive", s.Name)
	}
	readily, slowly := s.Volatile*(s.Readily+s.Rapidly), s.Volatile*s.Slowly
	if need := readily*c.Readily.Nitrogen + slowly*c.Slowly.Nitrogen; s.Nitrogen < need {
		return fmt.Errorf("%s: nitrogen %.2f %% of dry solids is below the %.2f %% that its degradable solids hold by their formula; raise the nitrogen or lower the readily degradable share",
			s.Name, 100*s.Nitrogen, 100*need)
	}
	if need := readily*c.Readily.Carbon + slowly*c.Slowly.Carbon; s.carbon() < need {
		return fmt.Errorf("%s: carbon %.1f %% of dry solids is below the %.1f %% that its degradable solids hold by their formula; raise the carbon or lower the degradable shares",
			s.Name, 100*s.carbon(), 100*need)
	}
	return nil
}

// OfWet returns a parcel of kg wet mass.
func (s Spec) OfWet(kg float64) Parcel { return s.OfDry(kg * (1 - s.Moisture)) }

// OfDry returns a parcel of kg dry mass with the water that belongs to it.
func (s Spec) OfDry(kg float64) (q Parcel) {
	s.OfDryTo(&q, kg)
	return q
}

// OfDryTo is OfDry to where it goes, for who makes often. What was there is gone.
func (s *Spec) OfDryTo(q *Parcel, kg float64) {
	volatile := s.Volatile
	one := Solids{
		Fixed:      1 - volatile,
		Rapidly:    volatile * s.Rapidly,
		Readily:    volatile * s.Readily,
		Slowly:     volatile * s.Slowly,
		Refractory: volatile * max(0, 1-s.Readily-s.Slowly-s.Rapidly),
		Carbon:     s.carbon(),
		Nitrogen:   s.Nitrogen,
	}
	q.Water = kg * s.Moisture / (1 - s.Moisture)
	q.Fine, q.Coarse = one, one
	q.Fine.scale(kg * (1 - s.Coarse))
	q.Coarse.scale(kg * s.Coarse)
}

// WithMoisture returns the same material at another moisture. Its bulk density
// follows at constant dry bulk density.
func (s Spec) WithMoisture(moisture float64) Spec {
	s.BulkDensity *= (1 - s.Moisture) / (1 - moisture)
	s.Moisture = moisture
	return s
}

// DryBulkDensity returns dry mass per delivered volume, kg/m3.
func (s Spec) DryBulkDensity() float64 { return s.BulkDensity * (1 - s.Moisture) }

func (s Spec) carbon() float64 {
	if s.Carbon > 0 {
		return s.Carbon
	}
	return s.Volatile * carbonPerVolatile
}
