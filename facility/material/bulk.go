package material

// Bulk turns masses into volumes. Chips form a skeleton with voids; wet fine
// matter fills part of those voids, so a mix takes less room than its parts.
type Bulk struct {
	// CoarseDry is the dry bulk density of chips, kg/m3.
	CoarseDry float64
	// CoarseVoids is the void fraction between chips in a heap.
	CoarseVoids float64
	// Filling is the share of fine matter, as long as the voids can take it,
	// that goes into voids instead of pushing the chips apart.
	Filling float64
	// CoarseHolding is the water chips hold in themselves, kg per kg dry
	// coarse; the rest wets the fine matter.
	CoarseHolding float64
	// Crumb is how loose fine matter gets as it dries.
	Crumb Crumb
	// Organics and Ash are particle densities, kg/m3.
	Organics, Ash float64
	// Structure says which air of a heap is free; its zero value counts all of it.
	Structure Structure
}

// Crumb is the porosity of a heap of fine matter: 0 (a paste) at solids
// contents up to Paste, rising in a straight line to Porosity at Loose and
// beyond.
type Crumb struct {
	Paste, Loose float64 // solids fraction of the wet mass
	Porosity     float64 // air per heap volume
}

const waterDensity = 1000 // kg/m3

// DefaultBulk has particle densities 1.6 and 2.5 times water's (mix-design
// practice; Haug 1993 uses 1.0 for organics, from memory), dewatered cake of
// 950 to 1,050 kg/m3 (common practice, no source) and screened compost near
// 500 kg/m3 at 60 % solids, as Sikora et al. (1981) report 10.4 t in 21 m3.
func DefaultBulk() Bulk {
	return Bulk{
		CoarseDry:     185,
		CoarseVoids:   0.60,
		Filling:       0.50,
		CoarseHolding: 0.80,
		Crumb:         Crumb{Paste: 0.16, Loose: 0.55, Porosity: 0.63},
		Organics:      1600,
		Ash:           2500,
	}
}

// Volume returns the heap volume of p, m3.
func (b *Bulk) Volume(p Parcel) float64 { return b.VolumeOf(&p) }

// VolumeOf is Volume of a parcel that stays where it is, for who asks often.
func (b *Bulk) VolumeOf(p *Parcel) float64 {
	return b.VolumeOfMatter(p.Matter())
}

// VolumeOfMatter returns the heap volume of what has m, m3.
func (b *Bulk) VolumeOfMatter(m Matter) float64 {
	solid, porosity := b.fineParts(m)
	return b.heaped(m.Coarse/b.CoarseDry, solid/(1-porosity))
}

// heaped returns the volume of a heap of coarse and fine matter that take so much by
// themselves, m3.
func (b *Bulk) heaped(coarse, fine float64) float64 {
	filling := b.CoarseVoids * coarse
	if fine < filling {
		filling = fine
	}
	return coarse + fine - b.Filling*filling
}

// The volume of a parcel is asked for at every turn. Its bounds are therefore
// branches: a processor foresees them and goes on, where min and max would wait for
// the division that they may not need.

// fineParts returns the fine solids with the water that the chips do not hold, without
// air, m3, and the porosity of the heap that they would be.
func (b *Bulk) fineParts(m Matter) (solid, porosity float64) {
	dry := m.Fixed + m.Organic
	water := m.Water - b.chipWater(m.Water, dry, m.Coarse)
	if water < 0 {
		water = 0
	}
	if dry+water == 0 {
		return 0, 0
	}
	solid = m.Fixed/b.Ash + m.Organic/b.Organics + water/waterDensity
	return solid, b.Crumb.porosity(dry / (dry + water))
}

// chipWater is the water that chips hold beside dry fine matter: their capacity,
// but no more than their share by dry mass when the whole is drier than that.
func (b *Bulk) chipWater(water, fine, chips float64) float64 {
	held := b.CoarseHolding * chips
	if part := water * ratio(chips, fine+chips); part < held {
		held = part
	}
	return held
}

func (c Crumb) porosity(solids float64) float64 {
	switch {
	case solids <= c.Paste:
		return 0
	case solids >= c.Loose:
		return c.Porosity
	}
	return c.Porosity * ((solids - c.Paste) / (c.Loose - c.Paste))
}

// MostVolume returns a heap volume, m3, that p does not pass however it decays, which
// forms less water than it takes dry matter, and dries.
func (b *Bulk) MostVolume(p *Parcel) float64 {
	lightest := min(waterDensity, b.Organics, b.Ash)
	return p.Coarse.Dry()/b.CoarseDry + p.Total()/lightest/(1-b.Crumb.Porosity)
}

// MostVolumeBetween returns a heap volume, m3, that no mixture passes of which each part
// lies between that of p and of q, as it does wherever one turns into the other in a
// straight line: the most of all that takes room, and the fine matter as loose as it gets
// with the least water.
func (b *Bulk) MostVolumeBetween(p, q Matter) float64 {
	least := Matter{min(p.Water, q.Water), min(p.Fixed, q.Fixed), min(p.Organic, q.Organic), min(p.Coarse, q.Coarse)}
	most := Matter{max(p.Water, q.Water), max(p.Fixed, q.Fixed), max(p.Organic, q.Organic), max(p.Coarse, q.Coarse)}
	dry := most.Fixed + most.Organic
	wet := most.Water - b.chipWater(least.Water, dry, least.Coarse)
	dryest := max(0, least.Water-b.chipWater(most.Water, least.Fixed+least.Organic, most.Coarse))
	solid := most.Fixed/b.Ash + most.Organic/b.Organics + wet/waterDensity
	return b.heaped(most.Coarse/b.CoarseDry, solid/(1-b.Crumb.porosity(ratio(dry, dry+dryest))))
}

// Density returns the wet bulk density of p, kg/m3, 0 for an empty parcel.
func (b *Bulk) Density(p Parcel) float64 { return ratio(p.Total(), b.Volume(p)) }

// FreeAirSpace returns the air-filled fraction of the heap volume:
//
//	ε = 1 − ρ_wet·[(1−s)/ρ_w + s·(v/ρ_v + (1−v)/ρ_f)]
//
// s solids fraction, v volatile fraction of the solids. It counts air inside
// chips too, and is 0 when the parts would overfill the volume. With a Structure
// it is the air between the particles of the settled heap instead.
func (b *Bulk) FreeAirSpace(p Parcel) float64 { return b.FreeAirSpaceOf(&p) }

// FreeAirSpaceOf is FreeAirSpace of a parcel that stays where it is, for who asks often.
func (b *Bulk) FreeAirSpaceOf(p *Parcel) float64 {
	if b.Structure.Between {
		return b.betweenParticles(p)
	}
	return max(0, 1-ratio(b.SolidVolume(p), b.VolumeOf(p)))
}

// FieldCapacityWater returns the most water that what has m can hold before it drains, kg:
// what its chips hold and, for the fine matter, perDry kg of water per kg.
func (b *Bulk) FieldCapacityWater(m *Matter, perDry float64) float64 {
	return b.CoarseHolding*m.Coarse + perDry*(m.Fixed+m.Organic)
}
