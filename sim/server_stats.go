package sim

import "loamcast/sim/stats"

// setBusy changes the number of busy units.
func (s *Server) setBusy(n int) {
	s.Account()
	s.busy = n
}

// setDown changes the number of units out of service by breakdown.
func (s *Server) setDown(n int) {
	s.down = n
	s.downLevel.Set(int64(s.k.now), float64(n))
}

// Account calls Occupied for the span that is under way, up to now.
func (s *Server) Account() {
	if s.accounted == s.k.now {
		return
	}
	if s.busy > 0 && s.cfg.Occupied != nil {
		s.cfg.Occupied(s.accounted, s.k.now, s.busy)
	}
	s.accounted = s.k.now
}

// Free returns the number of units that could take a customer, were the server
// open. It is negative while more are busy than are in service.
func (s *Server) Free() int { return s.cfg.Capacity - s.down - s.failing - s.busy }

// Busy returns the number of units occupied, those of paused jobs included.
func (s *Server) Busy() int { return s.busy }

// Down returns the number of units out of service by breakdown.
func (s *Server) Down() int { return s.down }

// Capacity returns the number of units, those down included.
func (s *Server) Capacity() int { return s.cfg.Capacity }

// DownLevel returns the number of failed units over time.
func (s *Server) DownLevel() *stats.TimeWeighted { return s.downLevel }
