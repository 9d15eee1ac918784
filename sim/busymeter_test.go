package sim

// busyMeter measures from outside how many units of a server are busy, by the spans of
// time that the server tells.
type busyMeter struct {
	server *Server
	since  Time
	area   float64 // units × seconds
	most   int     // for any time at all
}

func newBusyMeter(s *Server) *busyMeter {
	m := &busyMeter{server: s, since: s.k.Now()}
	s.cfg.Occupied = func(from, to Time, busy int) {
		m.area += float64(to.Sub(from)) * float64(busy)
		m.most = max(m.most, busy)
	}
	return m
}

// reset forgets what was before.
func (m *busyMeter) reset() {
	m.server.Account()
	m.since, m.area, m.most = m.server.k.Now(), 0, 0
}

// total returns the unit-seconds up to now.
func (m *busyMeter) total() float64 {
	m.server.Account()
	return m.area
}

// mean returns the mean number of busy units up to now.
func (m *busyMeter) mean() float64 { return m.total() / float64(m.server.k.Now().Sub(m.since)) }
