package capability

import (
	"gonum.org/v1/gonum/floats"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
)

// Lack is what a plant lacks where it misses its target.
type Lack struct {
	Waits plant.Cause // what solids wait for
	// Failing says that it is no room: most of what leaves untreated went into loads that
	// did not meet all criteria.
	Failing bool
	// Room says that it is room to hold cake, over weekends and holidays and until a load
	// has come together: nothing else makes solids wait notably longer.
	Room bool
}

// String names it as it stands in a sentence: "space on the curing pad".
func (l Lack) String() string {
	switch {
	case l.Failing:
		return "loads that comply"
	case l.Room:
		return "room to hold cake"
	}
	return answer.Lack(l.Waits)
}

// Name names it for files.
func (l Lack) Name() string {
	if l.Failing || l.Room {
		return l.String()
	}
	return l.Waits.String()
}

// nextToNothing is the part of the time for which solids wait in bad months, whatever for,
// below which no cause explains that they are bad. On the built-in plants it is a tenth and
// more; where the holding is too small for a weekend, a thousandth.
const nextToNothing = 0.02

// Shortage returns what is short in some years: loads that comply, where those that do
// not are by themselves too much, and most of what leaves untreated; else what solids wait
// for so much longer in the months in which some of them leave untreated or wait too long, or
// room to hold cake where that is next to nothing.
func Shortage(years []*Sums, t facilityfile.Target) Lack {
	var left Untreated
	var short, enough wait
	for _, s := range years {
		left.failed, left.all, left.fed = left.failed+s.failed, left.all+floats.Sum(s.Untreated[:]), left.fed+s.fed
		short.join(&s.short)
		enough.join(&s.enough)
	}
	if left.Failing(t) {
		return Lack{Failing: true}
	}
	most, by := plant.Cause(0), 0.0
	for i := range short.days {
		cause := plant.Cause(i)
		longer := short.mean(cause) - enough.mean(cause)
		if cause.Shortage() && longer > by {
			most, by = cause, longer
		}
	}
	if short.fed > 0 && by < nextToNothing*short.days.Total()/short.fed {
		return Lack{Room: true}
	}
	return Lack{Waits: most}
}

// Untreated adds up what leaves untreated in years that are shown to it, kg dry.
type Untreated struct {
	failed, all float64 // in loads that did not meet all criteria, and in any way
	fed         float64 // of what came in
}

// Add shows it a year.
func (u *Untreated) Add(months []plant.Month) {
	u.failed += plant.Sum(months, func(m *plant.Month) float64 { return m.Release.FailedCakeDry })
	u.all += plant.Sum(months, (*plant.Month).Untreated)
	u.fed += plant.Sum(months, func(m *plant.Month) float64 { return m.Feed.Dry })
}

// Failing reports whether loads that do not comply are by themselves too much, and most of
// it: see [Shortage].
func (u *Untreated) Failing(t facilityfile.Target) bool {
	return u.failed > t.DivertedLimit*u.fed && u.failed > u.all/2
}

// wait adds up how long solids waited, by cause, kg dry × days, and the solids
// that came in, kg dry.
type wait struct {
	days plant.Waits
	fed  float64
}

func (w *wait) add(m *plant.Month) {
	for cause, days := range m.Waits {
		w.days[cause] += days
	}
	w.fed += m.Feed.Dry
}

// join adds what another has added up.
func (w *wait) join(other *wait) {
	for cause, days := range other.days {
		w.days[cause] += days
	}
	w.fed += other.fed
}

// mean returns the days for which a kg waited.
func (w *wait) mean(c plant.Cause) float64 {
	if w.fed == 0 {
		return 0
	}
	return w.days[c] / w.fed
}

// mild is a production, in spreads of the curve, below which few years miss the
// target but those that would miss it whatever came in.
const mild = -1.7

// Near returns the years simulated in which the target is about to be missed, or is:
// those that bring as much as makes a share of them miss. Where as many miss whatever
// comes in, it is those that do although little does.
func (found *Capability) Near(share float64) []*Sums {
	near := func(Trial) bool { return true }
	if c := found.Curve; c != nil && share <= c.Background {
		near = func(t Trial) bool { return t.Missed && found.at(t.Load) < mild }
	} else if c != nil {
		near = func(t Trial) bool { return t.Load >= c.Load(share) }
	}
	var out []*Sums
	for _, run := range found.Runs {
		for _, t := range run {
			if t.Sums != nil && near(t) {
				out = append(out, t.Sums)
			}
		}
	}
	return out
}
