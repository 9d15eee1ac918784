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
}

// String names it as it stands in a sentence: "space on the curing pad".
func (l Lack) String() string {
	if l.Failing {
		return "loads that comply"
	}
	return answer.Lack(l.Waits)
}

// Name names it for files.
func (l Lack) Name() string {
	if l.Failing {
		return l.String()
	}
	return l.Waits.String()
}

// Shortage returns what is short in some years: loads that comply, where those that do
// not are by themselves too much, and most of what leaves untreated; else what solids wait
// for so much longer in the months in which some of them leave untreated or wait too long.
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

// Near returns the years simulated in which the target is about to be missed, or is:
// those that bring as much as makes a share of them miss.
func (found *Capability) Near(share float64) []*Sums {
	var out []*Sums
	for _, run := range found.Runs {
		for _, t := range run {
			if t.Sums != nil && (found.Curve == nil || t.Load >= found.Curve.Load(share)) {
				out = append(out, t.Sums)
			}
		}
	}
	return out
}
