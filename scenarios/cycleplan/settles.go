package cycleplan

import (
	"errors"
	"fmt"
	"time"

	"loamcast/facility/recycle"
	"loamcast/facility/screening"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
)

// settles reports whether loads of the month come to rest by themselves.
func (l *Load) settles() bool {
	return !l.StaySwing.Some() && !l.CuringSwing.Some() && !l.WateredInTurn
}

// swings tells of a load that does not settle.
func (l *Load) swings(d *doc.Document) {
	say := func(what string, s recycle.Swing) {
		if s.Some() {
			d.Para("! No load is like the one before it: %s goes to and fro between %s and %s, as the chips of one load decide how the next does. What is told is a load of the longer time.",
				what, inDays(s.Shortest), inDays(s.Longest))
		}
	}
	say("the stay in the vessel", l.StaySwing)
	say("the time on the pad", l.CuringSwing)
	if l.WateredInTurn {
		d.Para("! No load is like the one before it: a lot is dry enough to get water only in turn, as the chips of one that got it make the next wetter. What is told is a lot that gets it.")
	}
}

// inWords names the month of an error, and says of a plant without a steady load why
// that is.
func inWords(path string, month time.Month, err error) error {
	say := func(why string) error {
		return &facilityfile.Error{Err: fmt.Errorf("%s: there is no steady load in %s: %s", path, month, why)}
	}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, screening.ErrAlternates):
		return say("loads swing between a few states, each of which gives back the chips of the next; look at residence, criteria and screen")
	case errors.Is(err, screening.ErrNotSteady):
		return say("what chips and screen take from one load changes the next without end; look at chips and screen")
	}
	return fmt.Errorf("%s load: %w", month, err)
}
