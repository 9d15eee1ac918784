package simulate

import (
	"context"
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Free is what is asked of a run with a vessel for every load: a part of its record that
// takes a hundredth of the room, so that thousands of replications can be held.
type Free struct {
	Worst   float64 // the largest residual of its balance, relative to throughput
	WorstAt string  // account and component of Worst
	Years   []FreeYear
	Peaks   []float64 // vessels in use at once, the most of each month
}

// FreeYear is a year of such a run.
type FreeYear struct {
	Peak, Cover int     // vessels in use at once: the most, and enough for 95 % of the time
	Misses      bool    // the service target
	DueWaited   float64 // days that the cake mixed waited, on average, in loads that were due
}

// freeOf takes from a record what is asked of it.
func freeOf(rec *plant.Record, t facilityfile.Target) *Free {
	f := &Free{Worst: rec.Worst, WorstAt: rec.WorstAt, Years: make([]FreeYear, len(rec.Years)), Peaks: make([]float64, len(rec.Months))}
	for y := range rec.Years {
		months := inYear(y)(rec)
		f.Years[y] = FreeYear{
			Peak: rec.Years[y].VesselsPeak, Cover: rec.Years[y].VesselsCover,
			Misses: t.Missed(months),
			DueWaited: perUnit(plant.Sum(months, func(m *plant.Month) float64 { return m.Release.Waited }),
				plant.Sum(months, func(m *plant.Month) float64 { return m.Mixing.CakeDry })),
		}
	}
	for i := range rec.Months {
		f.Peaks[i] = rec.Months[i].Vessels.Peak
	}
	return f
}

// withVessels plays a replication with a vessel for every load.
func withVessels(ctx context.Context, s *study.Study, replication int) (*Free, error) {
	free := s.Base().Unlimited().AirByYear().Unmarked()
	rec, err := free.Run(ctx, random.Key{Seed: s.File.Seed, Replication: replication})
	if err != nil {
		return nil, err
	}
	return freeOf(rec, s.File.Planning.Target), nil
}

// need is what vessels would be needed in year y and its months.
func (t *tally) need(y int) {
	year, first := &t.answer.Years[y], y*calendar.MonthsPerYear
	months := t.answer.Months[first : first+calendar.MonthsPerYear]
	t.free(&year.VesselsNeeded, func(f *Free) float64 { return float64(f.Years[y].Peak) })
	t.free(&year.NeedMost, func(f *Free) float64 { return float64(f.Years[y].Cover) })
	t.share(&year.ShortOfVessels, func(r *Replication) bool { return r.Free.Years[y].Peak > r.Usual.Years[y].Installed })
	for m := range months {
		t.free(&months[m].VesselsNeeded, func(f *Free) float64 { return f.Peaks[first+m] })
	}
	var waited answer.Spread
	t.free(&waited, func(f *Free) float64 { return f.Years[y].DueWaited })
	t.Last(func() {
		if year.OtherShort = waited.P50 > pileUp*t.plant.Vessels.Residence.Days(); !year.OtherShort {
			return
		}
		year.VesselsNeeded, year.NeedMost, year.ShortOfVessels = notFollowed, notFollowed, math.NaN()
		for m := range months {
			months[m].VesselsNeeded = notFollowed
		}
	})
}

// pileUp is the part of the residence aimed at for which loads that are due wait in
// their vessels, in the mean of a year, if these stand full for want of something
// else.
const pileUp = 0.25
