package cycleplan

import (
	"context"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/recycle"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/study"
	"loamcast/sim/replicate"
)

// Options are what a caller may choose beside the file.
type Options struct {
	Months []time.Month
	Stay   float64 // h aimed at in the vessel; 0 for the file's
	Class  int     // of the vessel, by place in [plant.Vessels.Classes]
}

// Ask follows a load in each of the months.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	one := s.File.Model.AsClass(o.Class)
	m := &one
	a := &Answer{Basis: setup.Basis(s.File), Landmark: landmark(m.Active.Criteria), Class: s.File.Model.Vessels.ClassName(o.Class)}
	var err error
	a.Loads, err = replicate.Run(ctx, len(o.Months), s.Workers, func(ctx context.Context, i int) (Load, error) {
		l, err := follow(ctx, m, o.Months[i], o.Stay, a.Landmark)
		return l, inWords(s.File.Path, o.Months[i], err)
	}, setup.Part("following"))
	if err != nil {
		return nil, err
	}
	return a, nil
}

// landmark returns the highest temperature that a criterion names.
func landmark(criteria []process.Criterion) float64 {
	top := 0.0
	for _, c := range criteria {
		top = max(top, c.Temperature, c.Peak)
	}
	if top == 0 {
		return process.PathogenReduction().Temperature
	}
	return top
}

// follow finds the month's load and follows it.
func follow(ctx context.Context, m *plant.Model, month time.Month, stay, landmark float64) (Load, error) {
	l := recycle.New(m, month)
	if stay > 0 {
		l.Stay = stay
	}
	recipe := recycle.AsRun(m, month)
	s, err := l.Steady(ctx, recipe)
	if err != nil {
		return Load{}, err
	}
	j := s.Journey
	end := j.End()
	cake := s.Parts.Cake.Fine
	vessel := stage(j.Vessel, &cake, &m.Chemistry)
	out := Load{
		Month: month, CuringMonth: j.CuringMonth,
		Wet: s.Load.Total(), Dry: s.Load.Dry(), Volume: s.Volumes.Load,
		CakeDry: s.Parts.Cake.Dry(), ChipsToCake: recipe.Chips,
		RecoveredShare: s.Volumes.Recovered / (s.Volumes.Fresh + s.Volumes.Recovered),
		Moisture:       s.Load.Moisture(), FreeAirSpace: m.Bulk.FreeAirSpace(s.Load),
		Reached:          j.Vessel.Reached,
		CarbonToNitrogen: s.Load.CarbonToNitrogen(),
		Passes:           passes(j, landmark),
		Complies:         j.Complies(),
		Aimed:            l.Stay,
		Stay:             j.Stay(),
		HeldFor:          j.HeldFor,
		Cured:            j.Cured(),
		ReadilyLeft:      j.ReadilyLeft(),
		ReadilyAsked:     m.Curing.ReadilyLeft,
		Stable:           j.Stable,
		MoistureOut:      j.Vessel.Final().Parcel.Moisture(),
		MoistureScreened: end.Moisture(),
		WaterAdded:       j.Curing.Initial.Water - j.Vessel.Final().Parcel.Water,
		MoistureCured:    j.Curing.Initial.Moisture(),
		StaySwing:        s.StaySwing,
		CuringSwing:      s.CuringSwing,
		WateredInTurn:    s.WateredInTurn,
		DriedInVessel:    j.VesselDrying,
		DriedOnPad:       j.PadDrying,
		MindsWet:         m.Drying.On(),
		Vessel:           vessel,
		Curing:           stage(j.Curing, &cake, &m.Chemistry),
		Biofilter:        biofilter(m, j.Vessel),
		Carried:          m.Pile.Tipped != nil,
		Tipped:           j.Vessel.Final().Temperature,
		CuringStart:      j.Curing.Start,
		Heat:             l.HeatOf(j),
		Segments:         segments(m, s),
		Days:             days(m, s),
		Samples:          samples(m, s),
	}
	out.Ammonia = ammonia(m, s, out.Biofilter)
	for _, v := range j.Verdicts {
		out.Criteria = append(out.Criteria, criterion(v, j))
	}
	if out.Remedy, err = remedy(m, j); err != nil {
		return out, err
	}
	if !out.Complies {
		if out.Findings, err = m.Active.Diagnose(s.Load, month, j.Stay()); err != nil {
			return out, err
		}
	}
	return out, nil
}

// passes returns when the load first has a temperature, in the vessel or later.
func passes(j *recycle.Journey, t float64) Moment {
	start := 0.0
	for _, c := range []*process.Course{j.Vessel, j.Curing} {
		hours, before := 0.0, c.Start
		for _, s := range c.Samples {
			if s.Temperature >= t {
				part := 1.0
				if s.Temperature > before {
					part = max(0, (t-before)/(s.Temperature-before))
				}
				return Moment{OK: true, Hours: start + hours + part*(s.Hours-hours)}
			}
			hours, before = s.Hours, s.Temperature
		}
		start += hours
	}
	return Moment{}
}

func criterion(v recycle.Verdict, j *recycle.Journey) Criterion {
	if v.Criterion.Kind == process.Aired {
		return Criterion{Criterion: v.Criterion, Met: Moment{v.Met, v.Hours}, Reached: j.Vessel.Reached}
	}
	history := j.Vessel.History()
	if v.Criterion.Where == process.InVesselAndCuring {
		history = append(history, j.Curing.History()...)
	}
	longest, now := 0.0, 0.0
	for _, r := range history {
		now += r.Hours
		if r.Temperature < v.Criterion.Temperature {
			now = 0
		}
		longest = max(longest, now)
	}
	return Criterion{Criterion: v.Criterion, Met: Moment{v.Met, v.Hours}, OnPad: v.OnPad, Longest: longest}
}
