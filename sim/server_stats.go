package sim

import "loamcast/sim/stats"

// serverStats is what a server measures, since its start or the last reset.
type serverStats struct {
	arrived, blocked  uint64
	started, finished uint64
	waits             stats.Tally

	queue, busy, down, capacity *stats.TimeWeighted

	// Seconds of work and of units on duty, both within working hours only.
	accounted     Time
	workedOnShift float64
	onDuty        float64
}

func newServerStats(now Time, capacity int) serverStats {
	level := func(v int) *stats.TimeWeighted {
		w := stats.NewTimeWeighted(int64(now), float64(v))
		w.CountLevels()
		return w
	}
	return serverStats{
		queue:     level(0),
		busy:      level(0),
		down:      level(0),
		capacity:  level(capacity),
		accounted: now,
	}
}

// start books the wait of a customer whose service begins.
func (st *serverStats) start(wait Duration) {
	st.started++
	st.waits.Add(float64(wait))
}

// setBusy changes the number of busy units.
func (s *Server) setBusy(n int) {
	s.account()
	s.busy = n
	s.stats.busy.Set(int64(s.k.now), float64(n))
}

// account books working hours since the last change of anything that counts in
// [Server.Utilisation].
func (s *Server) account() {
	st := &s.stats
	if st.accounted == s.k.now {
		return
	}
	open := float64(s.cfg.Calendar.Between(int64(st.accounted), int64(s.k.now)))
	if s.cfg.Occupied != nil {
		s.cfg.Occupied(st.accounted, s.k.now, s.busy)
	}
	st.accounted = s.k.now
	st.workedOnShift += open * float64(s.busy)
	st.onDuty += open * float64(s.cfg.Capacity)
}

// Account brings the measurements up to now, and calls Occupied for the span that
// is under way.
func (s *Server) Account() { s.account() }

// ResetStats forgets what was measured, as at the end of a warm-up or a year.
func (s *Server) ResetStats() {
	st := &s.stats
	now := int64(s.k.now)
	for _, w := range []*stats.TimeWeighted{st.queue, st.busy, st.down, st.capacity} {
		w.Set(now, w.Level())
		w.Reset(now)
	}
	*st = serverStats{queue: st.queue, busy: st.busy, down: st.down, capacity: st.capacity, accounted: s.k.now}
}

// Free returns the number of units that could take a customer, were the server
// open. It is negative while more are busy than are in service.
func (s *Server) Free() int { return s.cfg.Capacity - s.down - s.failing - s.busy }

// Busy returns the number of units occupied, paused jobs included.
func (s *Server) Busy() int { return s.busy }

// Down returns the number of units out of service by breakdown.
func (s *Server) Down() int { return s.down }

// Waiting returns the number of customers in the queue, interrupted jobs
// included.
func (s *Server) Waiting() int { return s.queue.len() }

// Capacity returns the number of units, those down included.
func (s *Server) Capacity() int { return s.cfg.Capacity }

// Arrived returns the number of customers that came, those turned away included.
func (s *Server) Arrived() uint64 { return s.stats.arrived }

// BlockedCount returns the number of customers that found the queue full.
func (s *Server) BlockedCount() uint64 { return s.stats.blocked }

// Started returns the number of customers whose service has begun.
func (s *Server) Started() uint64 { return s.stats.started }

// Finished returns the number of jobs done; units held by Seize don't count.
func (s *Server) Finished() uint64 { return s.stats.finished }

// Waits returns the tally of waiting times from arrival to the first start of
// service, in seconds.
func (s *Server) Waits() *stats.Tally { return &s.stats.waits }

// QueueLevel returns the number waiting over time.
func (s *Server) QueueLevel() *stats.TimeWeighted { return s.stats.queue }

// BusyLevel returns the number of busy units over time.
func (s *Server) BusyLevel() *stats.TimeWeighted { return s.stats.busy }

// DownLevel returns the number of failed units over time.
func (s *Server) DownLevel() *stats.TimeWeighted { return s.stats.down }

// CapacityLevel returns the number of units over time.
func (s *Server) CapacityLevel() *stats.TimeWeighted { return s.stats.capacity }

// Utilisation returns the share of the scheduled unit-hours (capacity × working
// hours, breakdowns included) in which a unit was occupied, or 0 when none were
// scheduled. What is done outside working hours is left out: see
// [Server.Overtime].
func (s *Server) Utilisation() float64 {
	s.account()
	if s.stats.onDuty == 0 {
		return 0
	}
	return s.stats.workedOnShift / s.stats.onDuty
}

// Overtime returns the unit-seconds of work done outside working hours. Under
// [PauseJob] no work is done then, and it is 0.
func (s *Server) Overtime() float64 {
	if s.cfg.Shift == PauseJob {
		return 0
	}
	s.account()
	return s.stats.busy.Area(int64(s.k.now)) - s.stats.workedOnShift
}
