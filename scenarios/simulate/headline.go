package simulate

import (
	"fmt"
	"math"

	"loamcast/scenarios/facilityfile"
)

// Headline is the answer to "how long do the vessels last", decided from the
// years of an Answer, of which there is one at least. LastKept, FirstMissed,
// FirstAbove and FirstOver are nil where there is no such year.
type Headline struct {
	First, Last *Year // of the horizon
	LastKept    *Year // the year before FirstMissed, or Last if none misses
	FirstMissed *Year // more of the replications miss the target than may
	FirstAbove  *Year // the median need passes what is installed
	FirstOver   *Year // the median run has more in use than needed

	// FewestBefore and MostBefore are the least and the most vessels
	// installed in the years up to LastKept.
	FewestBefore, MostBefore int

	target facilityfile.Target
}

// Headline decides the headline from the years.
func (a *Answer) Headline() Headline {
	h := Headline{First: &a.Years[0], Last: a.last(), target: a.Target}
	for i := range a.Years {
		y := &a.Years[i]
		if h.FirstOver == nil && y.moreInUseThanNeeded() {
			h.FirstOver = y
		}
		if h.FirstAbove == nil && !y.OtherShort && y.MedianNeed() > y.Installed {
			h.FirstAbove = y
		}
		if h.FirstMissed == nil && y.MissesTarget > a.Target.MissShare {
			h.FirstMissed = y
		}
		if h.FirstMissed == nil {
			h.kept(y)
		}
	}
	return h
}

// kept notes a year before the first that misses the target.
func (h *Headline) kept(y *Year) {
	if h.LastKept == nil {
		h.FewestBefore, h.MostBefore = y.Installed, y.Installed
	}
	h.LastKept = y
	h.FewestBefore = min(h.FewestBefore, y.Installed)
	h.MostBefore = max(h.MostBefore, y.Installed)
}

// MedianNeed returns the whole number of vessels that the median replication
// would have in use at once if none were ever missing.
func (y *Year) MedianNeed() int { return int(math.Ceil(y.VesselsNeeded.P50 - 1e-9)) }

// String says how long the service target is kept, in one sentence.
func (h Headline) String() string {
	switch {
	case h.FirstMissed == nil:
		return fmt.Sprintf("%s the service target in every year through %s.", h.keep(), h.Last.Label)
	case h.LastKept == nil:
		return fmt.Sprintf("%s the service target from the start: %s%s.",
			vessels(h.First.Installed, "misses", "miss"), h.missed(), h.cause())
	}
	return fmt.Sprintf("%s the service target through %s; %s%s.", h.keep(), h.LastKept.Label, h.missed(), h.cause())
}

// keep is the beginning of the sentence, up to the verb.
func (h Headline) keep() string {
	if h.FewestBefore != h.MostBefore {
		return fmt.Sprintf("The %d to %d vessels installed keep", h.FewestBefore, h.MostBefore)
	}
	return vessels(h.MostBefore, "keeps", "keep")
}

// missed says how many replications miss the target in its first bad year.
func (h Headline) missed() string {
	return fmt.Sprintf("in %s %.0f %% of runs miss it", h.FirstMissed.Label, 100*h.FirstMissed.MissesTarget)
}

// cause says whether vessels are to blame.
func (h Headline) cause() string {
	if h.FirstMissed.MissesUnlimited > h.target.MissShare || h.FirstMissed.OtherShort {
		return ", and would with any number of vessels: something else is short"
	}
	return ""
}

// moreInUseThanNeeded reports whether the median run has more vessels in use at once
// than it would if none were ever missing. That is so only after loads have waited:
// what waited is worked off later, or stands in vessels for want of a place.
func (y *Year) moreInUseThanNeeded() bool {
	return !y.OtherShort && y.VesselsPeak.P50 > float64(y.MedianNeed())
}

// Details returns the sentences that belong under the headline. A run keeps to the
// file's values and counts its few replications, so that it may name a later year
// than `when` does: the first sentence says so.
func (h Headline) Details() []string {
	list := []string{fmt.Sprintf("Service target: %v. `when` tests each year with more runs, and varies what the file calls uncertain.", h.target)}
	if h.First.OtherShort || h.Last.OtherShort {
		return append(list, "How many vessels are needed cannot be told in years without a figure: loads would only pile up in them, for something else is short (see what solids wait for).")
	}
	need := fmt.Sprintf("If no load ever waited for a vessel, the median run would have %d in use at once in %s",
		h.First.MedianNeed(), h.First.Label)
	if h.Last != h.First {
		need += fmt.Sprintf(" and %d in %s", h.Last.MedianNeed(), h.Last.Label)
	}
	list = append(list, need+".")
	if h.FirstOver != nil {
		list = append(list, fmt.Sprintf("In %s it has more in use, %.0f: what had waited for a vessel or a place is worked off.", h.FirstOver.Label, h.FirstOver.VesselsPeak.P50))
	}
	return list
}

// vessels counts vessels and adds the verb in the right number.
func vessels(n int, one, many string) string {
	if n == 1 {
		return "1 vessel " + one
	}
	return fmt.Sprintf("%d vessels %s", n, many)
}
