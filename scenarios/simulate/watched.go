package simulate

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Watched is the first replication of a plant and all that its vessels were in, of which
// any three months can be told as [Ask] tells them.
type Watched struct {
	basis  answer.Basis
	plant  *plant.Plant
	record *plant.Record
	stays  []plant.Stay
}

// Watch plays the first replication. An error carries the simulated date and the event, or
// is ctx's.
func Watch(ctx context.Context, s *study.Study, setup answer.Setup) (*Watched, error) {
	w := &Watched{basis: setup.Basis(s.File), plant: s.Base()}
	w.basis.Replications = 1
	var err error
	w.record, err = w.plant.RunWatched(ctx, random.Key{Seed: s.File.Seed}, func(s plant.Stay) { w.stays = append(w.stays, s) })
	if err != nil {
		return nil, err
	}
	return w, nil
}

// Quarters are the first days of those of the calendar that lie within the horizon.
func (w *Watched) Quarters() []calendar.Date {
	var out []calendar.Date
	for i := 0; i+quarter <= len(w.record.Months); i++ {
		if m := &w.record.Months[i]; (int(m.Month)-1)%quarter == 0 {
			out = append(out, calendar.Date{Year: m.Year, Month: m.Month, Day: 1})
		}
	}
	return out
}

// In tells of the three months that begin with one such as 2031-07; "" chooses as [Ask]
// does. An error is an *answer.OptionError.
func (w *Watched) In(from string) (*Occupancy, error) {
	if from == "" {
		o := occupancy(w.plant, w.record, w.stays, fullestQuarter(w.record.Months), false)
		return &o, nil
	}
	first, err := monthOf(from, w.plant.Start, w.plant.Years)
	if err != nil {
		return nil, err
	}
	o := occupancy(w.plant, w.record, w.stays, first, true)
	return &o, nil
}

// Document tells of some three months of it: the picture of `run`, and what each load
// waited for.
func (w *Watched) Document(o *Occupancy) *doc.Document {
	d := doc.New(Question.Name, w.basis, o.headline())
	if waits := o.waits(); len(waits.Rows) > 0 {
		d.Add(waits)
	}
	d.Para("One run, replication %d of seed %d: another meets other days, and the same months in it look otherwise.", o.Replication, w.basis.Seed)
	d.Figures = append(d.Figures, o.figure(&w.basis))
	return d
}

// headline says what loads wait for in the vessels, and how much of the waiting each is.
func (o *Occupancy) headline() doc.Text {
	_, waits, causes := o.shares()
	if waits < hardly {
		return doc.Say("In %s loads hardly ever wait in the vessels.", o.name())
	}
	var parts []doc.Text
	for _, c := range causes {
		if len(causes) == 1 {
			return doc.Say("In %s loads wait in the vessels %s of the time, %s.", o.name(), doc.ShareText(waits), waitsFor(c.Name))
		}
		if c.Share >= leastWait {
			parts = append(parts, doc.Say("%s (%s)", waitsFor(c.Name), doc.ShareText(c.Share)))
		}
	}
	return doc.Say("In %s loads wait in the vessels %s of the time: %s.", o.name(), doc.ShareText(waits), doc.Join(", ", parts...))
}

// shortestWait is the shortest that has a row of its own, days: what is shorter
// hardly shows as a bar.
const shortestWait = 0.25

// waits has a row for each load that waited.
func (o *Occupancy) waits() doc.Table {
	var stays []Stay
	for _, s := range o.Stays {
		if s.waiting() && s.To-s.From >= shortestWait {
			stays = append(stays, s)
		}
	}
	day := func(days float64) any { return doc.Day(o.From.AddDays(int(days))) }
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("What each load waited for, where that was six hours or more")}, stays,
		doc.Left([]string{"vessel"}, func(s *Stay) any { return o.Vessels[s.Vessel] }),
		doc.Txt("", []string{"load"}, doc.Count, func(s *Stay) any {
			if s.Load == 0 {
				return "-"
			}
			return int(s.Load)
		}),
		doc.Left([]string{"it is"}, func(s *Stay) any { return phaseNames[s.Phase] }),
		doc.Left([]string{"from"}, func(s *Stay) any { return day(s.From) }),
		doc.Num("", []string{"days"}, doc.Days, 1, func(s *Stay) float64 { return s.To - s.From }),
		doc.Left([]string{"waits"}, func(s *Stay) any { return waitsFor(plant.CauseNames[s.Waits]) }))
}
