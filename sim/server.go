package sim

import (
	"fmt"
	"slices"

	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// ShiftRule says what becomes of a job under way when the work calendar closes.
type ShiftRule int

const (
	// FinishJob lets the job go on to its end, as overtime.
	FinishJob ShiftRule = iota
	// PauseJob stops the job and takes it up again at the next opening. The unit
	// stays occupied.
	PauseJob
)

// BreakdownRule says what becomes of the job of a unit that fails.
type BreakdownRule int

const (
	// ResumeJob interrupts the job. It goes back to its place in the queue, at
	// the head of its priority, with the service that it still lacks.
	ResumeJob BreakdownRule = iota
	// RestartJob interrupts the job, which has to be served anew from the start.
	RestartJob
	// FinishFirst lets the unit finish its job before it goes down.
	FinishFirst
)

// NoQueue as a queue limit lets nobody wait: a customer that finds no free unit
// is lost.
const NoQueue = -1

// ServerConfig describes a server. The zero value of each field but Capacity is
// the plain case.
type ServerConfig struct {
	Name     string         // prefix of the names of its events
	Capacity int            // number of identical units, 0 or more
	Calendar *calendar.Work // hours in which work is begun; nil for always
	Shift    ShiftRule
	Failure  BreakdownRule
	// QueueLimit is the number of places to wait; 0 for no limit, or NoQueue.
	QueueLimit int
	// Occupied is called with every span of time in which some units were busy, and
	// neither their number nor the hours changed, once it is over, and with that number.
	// Units of paused jobs count. It may be nil.
	Occupied func(from, to Time, busy int)
	// OnDown is called when a unit that FailOne asked for has gone down, so that
	// its repair can begin. It may be nil.
	OnDown func()
}

// Server is a group of identical units with one queue, in order of priority
// (lowest number first) and, within it, of arrival.
//
// Callers either hold a unit for as long as they like ([Server.Seize] and
// [Server.Release]) or hand over a [Job] with its service time
// ([Server.Submit]). Only a job can be paused by a shift's end or interrupted by
// a breakdown; a unit that is held by Seize stays with its holder, and goes down
// after it.
//
// Units in service are Capacity less those down; when that falls below the
// number busy, by a breakdown or by [Server.SetCapacity], the busy ones finish
// first and nobody is served until enough of them have.
type Server struct {
	k   *Kernel
	cfg ServerConfig

	queue    requestQueue
	spare    []*request // served, to use again
	arrivals uint64
	jobs     []*request // jobs in service, in order of their start
	busy     int
	down     int
	failing  int // units to go down when one that is busy is released

	dispatching bool
	opening     Event // the next opening, when somebody waits for it

	doneName, openName string

	downLevel *stats.TimeWeighted
	accounted Time // until when Occupied has been called
}

// Job is work to be served by one unit of a server.
type Job struct {
	Priority int
	Service  Duration
	Started  func() // called when service first begins; may be nil
	Done     func() // called when service has ended; may be nil
}

// request is a customer of a server: one that waits, or a job in service.
type request struct {
	priority int
	order    uint64
	granted  func() // for Seize
	isJob    bool
	job      Job
	left     Duration       // service that the job still lacks when it is (re)begun
	begun    Time           // when the present stretch of service began
	hours    *calendar.Work // those in force then
	started  bool
	finish   Event
	finished func() // ends the job; made once and kept with the record
}

// request returns a record for a customer, in which all but the order is as the last one
// left it.
func (s *Server) request() *request {
	n := len(s.spare)
	if n == 0 {
		r := &request{}
		r.finished = func() { s.finish(r) }
		return r
	}
	r := s.spare[n-1]
	s.spare = s.spare[:n-1]
	return r
}

// discard gives back the record of a customer who has been served or turned away.
func (s *Server) discard(r *request) { s.spare = append(s.spare, r) }

// NewServer returns a server with all units free. A negative capacity or queue
// limit (other than [NoQueue]) fails the run.
func NewServer(k *Kernel, cfg ServerConfig) *Server {
	if cfg.Capacity < 0 || cfg.QueueLimit < NoQueue {
		k.Fail(fmt.Errorf("server %s: capacity %d, queue limit %d", cfg.Name, cfg.Capacity, cfg.QueueLimit))
	}
	if cfg.Calendar == nil {
		cfg.Calendar = calendar.Always()
	}
	return &Server{
		k:        k,
		cfg:      cfg,
		doneName: cfg.Name + " done",
		openName: cfg.Name + " opens",

		accounted: k.now,

		downLevel: stats.NewTimeWeighted(int64(k.now), 0),
	}
}

// Seize asks for a unit, and calls granted once it is the caller's: at once, in
// the middle of this call, if one is free. It reports whether the request was
// accepted, which it is unless the queue is full.
func (s *Server) Seize(priority int, granted func()) bool {
	r := s.request()
	r.priority, r.isJob, r.granted = priority, false, granted
	return s.enter(r)
}

// Release gives back a unit got by [Server.Seize].
func (s *Server) Release() {
	if s.busy <= len(s.jobs) {
		s.k.Fail(fmt.Errorf("server %s: release of a unit that nobody holds", s.cfg.Name))
		return
	}
	s.leave()
}

// Submit asks for a job to be served. It reports whether the job was accepted,
// which it is unless the queue is full. A negative service time fails the run.
func (s *Server) Submit(j Job) bool {
	if j.Service < 0 {
		s.k.Fail(fmt.Errorf("server %s: service of %d s", s.cfg.Name, int64(j.Service)))
		return false
	}
	r := s.request()
	r.priority, r.isJob, r.job, r.left, r.started = j.Priority, true, j, j.Service, false
	return s.enter(r)
}

// enter serves a customer, lets it wait or turns it away.
func (s *Server) enter(r *request) bool {
	if s.full() {
		s.discard(r)
		return false
	}
	s.arrivals++
	r.order = s.arrivals
	s.queue.push(r)
	s.dispatch()
	return true
}

// full reports whether an arrival has neither a free unit nor a place to wait.
func (s *Server) full() bool {
	if s.cfg.QueueLimit == 0 {
		return false
	}
	places := max(s.cfg.QueueLimit, 0)
	if s.open() {
		places += max(s.Free(), 0)
	}
	return s.queue.len() >= places
}

func (s *Server) open() bool { return s.cfg.Calendar.IsOpen(int64(s.k.now)) }

// dispatch serves the queue as far as units allow. Callbacks may call the server
// again: such a call only changes its state, and the loop carries on with it, so
// that a long queue doesn't become a deep stack.
func (s *Server) dispatch() {
	if s.dispatching {
		return
	}
	s.dispatching = true
	for s.queue.len() > 0 && s.Free() > 0 {
		if !s.open() {
			s.awaitOpening()
			break
		}
		s.begin(s.queue.pop())
	}
	s.dispatching = false
}

// awaitOpening makes sure that the queue is looked at when work begins again.
func (s *Server) awaitOpening() {
	if s.opening.Pending() {
		return
	}
	t := Time(s.cfg.Calendar.NextOpen(int64(s.k.now)))
	s.opening = s.k.At(t, s.openName, s.dispatch)
}

// begin gives a unit to a customer.
func (s *Server) begin(r *request) {
	s.setBusy(s.busy + 1)
	if !r.isJob {
		granted := r.granted
		s.discard(r)
		granted()
		return
	}
	r.begun, r.hours = s.k.now, s.cfg.Calendar
	s.jobs = append(s.jobs, r)
	r.finish = s.k.At(s.finishTime(r), s.doneName, r.finished)
	if !r.started {
		r.started = true
		call(r.job.Started)
	}
}

// finishTime is when a job that begins now will be served.
func (s *Server) finishTime(r *request) Time {
	if s.cfg.Shift == PauseJob {
		return Time(r.hours.AddWork(int64(s.k.now), int64(r.left)))
	}
	return s.k.now.Add(r.left)
}

// finish ends a job. Its unit goes to the next in the queue before Done is
// called, so a job that Done submits comes behind those already waiting.
func (s *Server) finish(r *request) {
	s.removeJob(r)
	done := r.job.Done
	s.discard(r)
	s.leave()
	call(done)
}

func (s *Server) removeJob(r *request) {
	i := slices.Index(s.jobs, r)
	s.jobs = s.jobs[:i+copy(s.jobs[i:], s.jobs[i+1:])] // the record is kept anyway
}

// leave takes a unit back and gives it to whoever is next, if it is not to go
// down.
func (s *Server) leave() {
	s.setBusy(s.busy - 1)
	if s.failing > 0 {
		s.failing--
		s.goDown()
	}
	s.dispatch()
}

func call(fn func()) {
	if fn != nil {
		fn()
	}
}
