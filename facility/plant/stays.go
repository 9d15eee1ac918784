package plant

import (
	"context"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Phase is what a vessel is in, as somebody at the plant sees it.
type Phase int

// The phases of a vessel, in the order in which a load meets them.
const (
	StandsEmpty Phase = iota
	Filling           // until it is closed
	FullWaits         // closed, until it is fetched
	OnAir             // the load composts
	DriesOn           // the load is due and complies, and is kept until it is dry
	DueWaits          // the load is due, until it is taken off
	TurnedRound       // carried, tipped, inspected or brought back
	Serviced          // out of use for maintenance
	OutOfUse          // failed
)

// Stay is a time that a vessel is in one phase with one load. Waits is what a vessel
// waits for in the phases that are waiting.
type Stay struct {
	Vessel   int    // by place, counted from 0
	Class    int    // of the vessel, by place in [Vessels.Classes]
	Load     uint64 // by number, 0 if there is none
	Phase    Phase
	Waits    Cause
	From, To sim.Time
}

// RunWatched is Run that then tells each of every stay of every vessel, warm-up included,
// in the order in which they ended; the last ends with the run. The record is the same as
// Run's.
func (p *Plant) RunWatched(ctx context.Context, key random.Key, each func(Stay)) (*Record, error) {
	left, err := p.recalled(key, true, func() (left Played, err error) {
		w := &watch{each: func(s Stay) { left.Stays = append(left.Stays, s) }}
		left.Record, err = p.play(ctx, key.Replication, key, func(s *plant) { s.watch = w })
		if err != nil {
			return left, err
		}
		clock := calendar.Clock{Start: p.Begin()}
		for i := range w.now {
			w.end(i, sim.Time(clock.SecondOf(p.Start.AddYears(p.Years))))
		}
		return left, nil
	})
	if err != nil {
		return nil, err
	}
	for _, s := range left.Stays {
		each(s)
	}
	return left.Record, nil
}

// watch follows the vessels of a run.
type watch struct {
	each func(Stay)
	now  []Stay // by vessel; To is not known yet
}

// end tells of the stay of a vessel that ends.
func (w *watch) end(i int, t sim.Time) {
	if s := &w.now[i]; s.From < t {
		s.To = t
		w.each(*s)
	}
}

// look notes what has changed since the plant last settled.
func (w *watch) look(p *plant) {
	now := p.k.Now()
	for i := range p.vessels {
		s := p.stay(i)
		s.Vessel, s.From = i, now
		if i == len(w.now) {
			w.now = append(w.now, s)
			continue
		}
		if was := w.now[i]; was.Load != s.Load || was.Phase != s.Phase || was.Waits != s.Waits {
			w.end(i, now)
			w.now[i] = s
		}
	}
}

// stay says what a vessel is in.
func (p *plant) stay(i int) Stay {
	v := &p.vessels[i]
	s := Stay{Class: v.class}
	if v.load != nil {
		s.Load = v.load.number
	}
	switch v.state {
	case vesselLoading:
		s.Phase = Filling
		if v.load != p.loading {
			s.Phase, s.Waits = FullWaits, p.waiting.full
		}
	case vesselActive:
		switch l := v.load; {
		case l.ready <= p.k.Now():
			s.Phase, s.Waits = DueWaits, p.waiting.due
		case l.complied && l.drying > 0:
			s.Phase = DriesOn
		default:
			s.Phase = OnAir
		}
	case vesselMoving, vesselLeaving, vesselTurning:
		s.Phase = TurnedRound
	case vesselInService:
		s.Phase = Serviced
	case vesselOut:
		s.Phase = OutOfUse
	}
	return s
}
