package material

// DecayAs lets solids decay as the whole has of which they are a part, as it was and as
// it is now, kg of one size class: of each degradable class the same share is gone. It
// returns the volatile solids that they lost, net of the nitrogen kept, kg. So the
// destruction of volatile solids of cake can be told from that of the mix that it is in.
func (s *Solids) DecayAs(was, is *Solids, c *Chemistry) float64 {
	gone := func(mine, before, after float64) float64 {
		if before <= 0 {
			return 0
		}
		return mine * (before - after) / before
	}
	var e Exchange
	e.oxidise(s, gone(s.Rapidly, was.Rapidly, is.Rapidly), gone(s.Readily, was.Readily, is.Readily),
		gone(s.Slowly, was.Slowly, is.Slowly), c)
	return e.Volatile
}
