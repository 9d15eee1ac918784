package material

// CoarseWater returns the part of the water of p that its chips hold, kg.
func (b *Bulk) CoarseWater(p *Parcel) float64 {
	return b.chipWater(p.Water, p.Fine.Dry(), p.Coarse.Dry())
}
