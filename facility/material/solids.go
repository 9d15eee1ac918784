package material

// Solids is the dry matter of one size class, kg.
//
// Fixed, Readily, Slowly and Refractory add up to the dry mass. Carbon and
// Nitrogen are contained in the volatile classes; they are carried along so
// that both elements can be balanced, and are not added to the dry mass.
type Solids struct {
	Fixed      float64 // ash; inert
	Readily    float64 // volatile, readily degradable
	Slowly     float64 // volatile, slowly degradable
	Refractory float64 // volatile, not degraded within the times of a plant
	Carbon     float64 // organic carbon in the volatile classes
	Nitrogen   float64 // nitrogen in the volatile classes
}

// Dry returns the dry mass, kg.
func (s Solids) Dry() float64 { return s.Fixed + s.Volatile() }

// Volatile returns the mass of volatile solids, kg.
func (s Solids) Volatile() float64 { return s.Readily + s.Slowly + s.Refractory }

// Plus returns the sum of s and t.
func (s Solids) Plus(t Solids) Solids {
	return Solids{
		Fixed:      s.Fixed + t.Fixed,
		Readily:    s.Readily + t.Readily,
		Slowly:     s.Slowly + t.Slowly,
		Refractory: s.Refractory + t.Refractory,
		Carbon:     s.Carbon + t.Carbon,
		Nitrogen:   s.Nitrogen + t.Nitrogen,
	}
}

func (s *Solids) addTimes(t *Solids, f float64) {
	s.Fixed += t.Fixed * f
	s.Readily += t.Readily * f
	s.Slowly += t.Slowly * f
	s.Refractory += t.Refractory * f
	s.Carbon += t.Carbon * f
	s.Nitrogen += t.Nitrogen * f
}

// Minus returns s less t.
func (s Solids) Minus(t Solids) Solids { return s.Plus(t.Times(-1)) }

// Times returns s scaled by f.
func (s Solids) Times(f float64) Solids {
	return Solids{
		Fixed:      s.Fixed * f,
		Readily:    s.Readily * f,
		Slowly:     s.Slowly * f,
		Refractory: s.Refractory * f,
		Carbon:     s.Carbon * f,
		Nitrogen:   s.Nitrogen * f,
	}
}
