package mix

// SweepPoint is the mix at one solids content of the cake.
type SweepPoint struct {
	CakeSolids float64
	Result     Result
}
