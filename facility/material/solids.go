package material

// Solids is the dry matter of one size class, kg.
//
// Fixed, Rapidly, Readily, Slowly and Refractory add up to the dry mass. Carbon and
// Nitrogen are contained in the volatile classes; they are carried along so
// that both elements can be balanced, and are not added to the dry mass.
type Solids struct {
	Fixed      float64 // ash; inert
	Rapidly    float64 // volatile, degraded within days
	Readily    float64 // volatile, readily degradable
	Slowly     float64 // volatile, slowly degradable
	Refractory float64 // volatile, not degraded within the times of a plant
	Carbon     float64 // organic carbon in the volatile classes
	Nitrogen   float64 // nitrogen in the volatile classes
}

// Dry returns the dry mass, kg.
func (s *Solids) Dry() float64 { return s.Fixed + s.Volatile() }

// Volatile returns the mass of volatile solids, kg.
func (s *Solids) Volatile() float64 { return s.Readily + s.Slowly + s.Refractory + s.Rapidly }

// Degradable returns what is rapidly or readily degradable, kg, by which the
// stability of compost is judged.
func (s *Solids) Degradable() float64 { return s.Readily + s.Rapidly }

// Plus returns the sum of s and t.
func (s Solids) Plus(t Solids) Solids {
	s.add(&t)
	return s
}

// Minus returns s less t.
func (s Solids) Minus(t Solids) Solids {
	s.subtract(&t)
	return s
}

// Times returns s scaled by f.
func (s Solids) Times(f float64) Solids {
	s.scale(f)
	return s
}

// Mix adds t to s.
func (s *Solids) Mix(t *Solids) { s.add(t) }

// takeTo moves the fraction f of s to t, in place of what is there.
func (s *Solids) takeTo(t *Solids, f float64) {
	t.Fixed = s.Fixed * f
	t.Rapidly = s.Rapidly * f
	t.Readily = s.Readily * f
	t.Slowly = s.Slowly * f
	t.Refractory = s.Refractory * f
	t.Carbon = s.Carbon * f
	t.Nitrogen = s.Nitrogen * f
	s.subtract(t)
}

func (s *Solids) add(t *Solids) {
	s.Fixed += t.Fixed
	s.Rapidly += t.Rapidly
	s.Readily += t.Readily
	s.Slowly += t.Slowly
	s.Refractory += t.Refractory
	s.Carbon += t.Carbon
	s.Nitrogen += t.Nitrogen
}

func (s *Solids) subtract(t *Solids) {
	s.Fixed -= t.Fixed
	s.Rapidly -= t.Rapidly
	s.Readily -= t.Readily
	s.Slowly -= t.Slowly
	s.Refractory -= t.Refractory
	s.Carbon -= t.Carbon
	s.Nitrogen -= t.Nitrogen
}

func (s *Solids) addTimes(t *Solids, f float64) {
	s.Fixed += t.Fixed * f
	s.Rapidly += t.Rapidly * f
	s.Readily += t.Readily * f
	s.Slowly += t.Slowly * f
	s.Refractory += t.Refractory * f
	s.Carbon += t.Carbon * f
	s.Nitrogen += t.Nitrogen * f
}

func (s *Solids) setSum(t, u *Solids, f float64) {
	s.Fixed = t.Fixed + u.Fixed*f
	s.Rapidly = t.Rapidly + u.Rapidly*f
	s.Readily = t.Readily + u.Readily*f
	s.Slowly = t.Slowly + u.Slowly*f
	s.Refractory = t.Refractory + u.Refractory*f
	s.Carbon = t.Carbon + u.Carbon*f
	s.Nitrogen = t.Nitrogen + u.Nitrogen*f
}

func (s *Solids) scale(f float64) {
	s.Fixed *= f
	s.Rapidly *= f
	s.Readily *= f
	s.Slowly *= f
	s.Refractory *= f
	s.Carbon *= f
	s.Nitrogen *= f
}
