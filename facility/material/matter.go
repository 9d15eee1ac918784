package material

// Matter is what of a parcel weighs and takes room, kg: four numbers in place of fifteen,
// for who asks of many mixtures how large they are. It is linear in the parcel.
type Matter struct {
	Water   float64
	Fixed   float64 // fine fixed solids
	Organic float64 // fine volatile solids
	Coarse  float64 // coarse solids
}

// Matter returns that of p.
func (p *Parcel) Matter() Matter {
	return Matter{Water: p.Water, Fixed: p.Fine.Fixed, Organic: p.Fine.Volatile(), Coarse: p.Coarse.Dry()}
}

// Dry returns the dry mass, kg.
func (m Matter) Dry() float64 { return m.Fixed + m.Organic + m.Coarse }

// Total returns the wet mass, kg.
func (m Matter) Total() float64 { return m.Water + m.Dry() }

// Moisture returns the water fraction of the wet mass, 0 for none.
func (m Matter) Moisture() float64 { return ratio(m.Water, m.Total()) }

// Times returns f times m.
func (m Matter) Times(f float64) Matter {
	return Matter{m.Water * f, m.Fixed * f, m.Organic * f, m.Coarse * f}
}

// PlusTimes returns m and f times q.
func (m Matter) PlusTimes(q Matter, f float64) Matter {
	return Matter{m.Water + q.Water*f, m.Fixed + q.Fixed*f, m.Organic + q.Organic*f, m.Coarse + q.Coarse*f}
}
