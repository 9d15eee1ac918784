package material

// Parcel is a quantity of wet material: water, and the solids of both size
// classes. The zero value is an empty parcel. All masses in kg.
type Parcel struct {
	Water  float64
	Fine   Solids
	Coarse Solids
}

// Total returns the wet mass, kg.
func (p *Parcel) Total() float64 { return p.Water + p.Dry() }

// Dry returns the dry mass, kg.
func (p *Parcel) Dry() float64 { return p.Fine.Dry() + p.Coarse.Dry() }

// Volatile returns the mass of volatile solids, kg.
func (p *Parcel) Volatile() float64 { return p.Fine.Volatile() + p.Coarse.Volatile() }

// Degradable returns what is rapidly or readily degradable, kg.
func (p *Parcel) Degradable() float64 { return p.Fine.Degradable() + p.Coarse.Degradable() }

// Fixed returns the mass of fixed solids (ash), kg.
func (p *Parcel) Fixed() float64 { return p.Fine.Fixed + p.Coarse.Fixed }

// Carbon returns the mass of organic carbon, kg.
func (p *Parcel) Carbon() float64 { return p.Fine.Carbon + p.Coarse.Carbon }

// Nitrogen returns the mass of nitrogen, kg.
func (p *Parcel) Nitrogen() float64 { return p.Fine.Nitrogen + p.Coarse.Nitrogen }

// Moisture returns the water fraction of the wet mass, 0 for an empty parcel.
func (p *Parcel) Moisture() float64 { return ratio(p.Water, p.Total()) }

// SolidsContent returns the dry fraction of the wet mass, 0 for an empty parcel.
func (p *Parcel) SolidsContent() float64 { return ratio(p.Dry(), p.Total()) }

// CarbonToNitrogen returns the mass ratio C:N, 0 when there is no nitrogen.
func (p *Parcel) CarbonToNitrogen() float64 { return ratio(p.Carbon(), p.Nitrogen()) }

// Plus returns the mixture of p and q.
func (p Parcel) Plus(q Parcel) Parcel {
	p.add(&q)
	return p
}

// Minus returns p less q. The caller answers for q being part of p.
func (p Parcel) Minus(q Parcel) Parcel {
	p.subtract(&q)
	return p
}

// Times returns a parcel of the same composition, f times as large.
func (p Parcel) Times(f float64) Parcel {
	p.scale(f)
	return p
}

// Add mixes q into p.
func (p *Parcel) Add(q Parcel) { p.add(&q) }

// Mix is Add of a parcel that stays where it is, for who adds often.
func (p *Parcel) Mix(q *Parcel) { p.add(q) }

// AddTimes mixes f times q into p.
func (p *Parcel) AddTimes(q *Parcel, f float64) {
	p.Water += q.Water * f
	p.Fine.addTimes(&q.Fine, f)
	p.Coarse.addTimes(&q.Coarse, f)
}

// SetSum makes p of q and f times r, in place of what is there.
func (p *Parcel) SetSum(q, r *Parcel, f float64) {
	p.Water = q.Water + r.Water*f
	p.Fine.setSum(&q.Fine, &r.Fine, f)
	p.Coarse.setSum(&q.Coarse, &r.Coarse, f)
}

// The arithmetic itself is done in place: fifteen numbers go by pointer, as moving
// them through registers to and fro takes longer than reckoning with them.

func (p *Parcel) add(q *Parcel) {
	p.Water += q.Water
	p.Fine.add(&q.Fine)
	p.Coarse.add(&q.Coarse)
}

func (p *Parcel) subtract(q *Parcel) {
	p.Water -= q.Water
	p.Fine.subtract(&q.Fine)
	p.Coarse.subtract(&q.Coarse)
}

func (p *Parcel) scale(f float64) {
	p.Water *= f
	p.Fine.scale(f)
	p.Coarse.scale(f)
}

// Take removes and returns the fraction f of p, at p's composition. A fraction
// of 1 or more takes all and leaves exactly nothing; one of 0 or less takes
// nothing.
func (p *Parcel) Take(f float64) (q Parcel) {
	p.TakeTo(&q, f)
	return q
}

// TakeTo is Take to where it goes, for who takes often. What was there is gone.
func (p *Parcel) TakeTo(q *Parcel, f float64) {
	switch {
	case f >= 1:
		*q, *p = *p, Parcel{}
	case f <= 0:
		*q = Parcel{}
	default:
		q.Water = p.Water * f
		p.Water -= q.Water
		p.Fine.takeTo(&q.Fine, f)
		p.Coarse.takeTo(&q.Coarse, f)
	}
}

// Evaporate removes water, kg, and returns what was removed: never more than
// there is.
func (p *Parcel) Evaporate(kg float64) float64 {
	kg = min(max(kg, 0), p.Water)
	p.Water -= kg
	return kg
}

// Wear moves the fraction f of the coarse solids to the fine class, as
// handling does to wood chips. Mass and composition are kept.
func (p *Parcel) Wear(f float64) {
	worn := p.Coarse.Times(min(max(f, 0), 1))
	p.Coarse.subtract(&worn)
	p.Fine.add(&worn)
}

// Components returns the parcel's masses as the ledger counts them.
func (p *Parcel) Components() Components {
	return Components{
		Water:    p.Water,
		Fixed:    p.Fixed(),
		Volatile: p.Volatile(),
		Carbon:   p.Carbon(),
		Nitrogen: p.Nitrogen(),
		Total:    p.Total(),
	}
}

func ratio(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}
