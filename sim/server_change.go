package sim

import (
	"fmt"

	"loamcast/sim/calendar"
)

// SetCapacity changes the number of units from now on. When there are fewer than
// are busy, the busy ones finish first. A negative number fails the run.
func (s *Server) SetCapacity(n int) {
	if n < 0 {
		s.k.Fail(fmt.Errorf("server %s: capacity %d", s.cfg.Name, n))
		return
	}
	s.cfg.Capacity = n
	s.dispatch()
}

// SetCalendar changes the working hours from now on; nil is always. Jobs under
// way keep the finishing time that the old hours gave them.
func (s *Server) SetCalendar(w *calendar.Work) {
	if w == nil {
		w = calendar.Always()
	}
	s.Account()
	s.cfg.Calendar = w
	s.opening.Cancel()
	s.dispatch()
}

// FailOne takes a unit out of service: a free one if there is one, or else the
// one that began its job last, which is dealt with by the server's
// [BreakdownRule]. A unit held by [Server.Seize], or any under [FinishFirst],
// goes down when it is next given back. It reports whether there was a unit left
// to fail.
func (s *Server) FailOne() bool {
	if s.down+s.failing >= max(s.cfg.Capacity, s.busy) {
		return false
	}
	switch {
	case s.Free() > 0:
		s.goDown()
	case s.cfg.Failure == FinishFirst || len(s.jobs) == 0:
		s.failing++
	default:
		s.interrupt(s.jobs[len(s.jobs)-1])
		s.goDown()
	}
	return true
}

// RepairOne puts a failed unit back into service, or calls off a failure that
// still waits for its unit. It reports whether there was one.
func (s *Server) RepairOne() bool {
	switch {
	case s.down > 0:
		s.setDown(s.down - 1)
	case s.failing > 0:
		s.failing--
	default:
		return false
	}
	s.dispatch()
	return true
}

// goDown books a unit that is not busy as failed.
func (s *Server) goDown() {
	s.setDown(s.down + 1)
	call(s.cfg.OnDown)
}

// interrupt takes a job off its unit and puts it back in its place in the queue.
func (s *Server) interrupt(r *request) {
	r.finish.Cancel()
	s.removeJob(r)
	if s.cfg.Failure == ResumeJob {
		r.left -= s.served(r)
	}
	s.setBusy(s.busy - 1)
	s.queue.push(r)
}

// served is the service that a job has had since it was last begun.
func (s *Server) served(r *request) Duration {
	if s.cfg.Shift == PauseJob {
		return Duration(r.hours.Between(int64(r.begun), int64(s.k.now)))
	}
	return s.k.now.Sub(r.begun)
}
