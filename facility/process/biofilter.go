package process

// Biofilter sizes a bed of media for exhaust air.
type Biofilter struct {
	Loading float64 // m3/h per m2 of bed
	Depth   float64 // m
}

// DefaultBiofilter is loaded within 50–100 m3/h per m2 and 0.9–1.5 m deep
// (common practice, from memory).
func DefaultBiofilter() Biofilter { return Biofilter{Loading: 75, Depth: 1.2} }

// Area returns the bed area for a flow in m3/h, m2.
func (b Biofilter) Area(flow float64) float64 { return flow / b.Loading }

// Residence returns the time of the air in the empty bed, s.
func (b Biofilter) Residence() float64 { return b.Depth / b.Loading * 3600 }
