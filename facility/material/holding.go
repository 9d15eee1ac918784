package material

// CoarseWater returns the part of the water that the chips hold of what has m, kg.
func (b *Bulk) CoarseWater(m *Matter) float64 {
	return b.chipWater(m.Water, m.Fixed+m.Organic, m.Coarse)
}
