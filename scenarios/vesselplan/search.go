package vesselplan

import (
	"context"
	"fmt"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/stats"
)

const (
	// batch is how many replications of a year are made between two looks at the
	// test, and scouts how many tell where to look first.
	batch, scouts = 8, 3
	// enough replications of the year in which vessels run short tell the quarter.
	enough = 16

	undecided = stats.Undecided
)

// search is what all cells share.
type search struct {
	study  *study.Study
	target facilityfile.Target
	test   stats.ShareTest
	years  int  // of the horizon
	most   int  // replications of a year
	whole  bool // years lean on those before, and are simulated with them

	chance    bool // two replications differed
	simulated int  // years, warm-ups included
}

// enoughTimes the fewest replications with which a year can be told to be kept decide
// all years but those near the target.
const enoughTimes = 3.5

// newSearch returns a search by the service target of a study's file. A year is
// replicated at most so many times; 0 for enoughTimes the fewest that can tell. Its
// verdict is wrong with about a chance on either side, 0 for DefaultWrong.
func newSearch(s *study.Study, most int, wrong float64) (*search, error) {
	f := s.File
	if wrong == 0 {
		wrong = DefaultWrong
	}
	test := TestOf(f.Planning.Target, wrong)
	if err := test.Check(); err != nil {
		return nil, fmt.Errorf("the service target: %w", err)
	}
	least := test.Least()
	if most == 0 {
		most = int(enoughTimes * float64(least))
	}
	if most < least {
		return nil, fmt.Errorf("%d replications of a year cannot tell whether this target is kept; %d can at the least", most, least)
	}
	return &search{study: s, target: f.Planning.Target, test: test, years: f.Model.Years, most: most}, nil
}

func (s *search) cell(c study.Case) (*cell, error) {
	p, err := s.study.Plant(&c)
	if err != nil {
		return nil, err
	}
	out := &cell{Case: c, search: s, trials: map[int][]capability.Seen{}, tested: map[int]stats.Verdict{}, whole: s.whole || s.study.Triggered(&c)}
	out.relief = reliefs(p, out.whole)
	return out, nil
}

// boundary finds the last year up to which all are kept, and the first missed.
// Years up to kept are known to be kept, −1 for none, and the year missed to be
// missed, the number of years for none; guess is where the first missed year is
// expected, or −1.
func (c *cell) boundary(ctx context.Context, kept, missed, guess int) (lastKept, firstMissed int, err error) {
	return stretches{
		relief: c.relief,
		judge:  func(year int) (stats.Verdict, error) { return c.judge(ctx, year) },
		scout:  func(year int) (bool, error) { return c.scout(ctx, year) },
	}.boundary(kept, missed, guess)
}
