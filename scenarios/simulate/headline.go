package simulate

import (
	"fmt"
	"math"

	"loamcast/scenarios/facilityfile"
)

// Headline says what the runs of the file's own values show of the service target,
// decided from the years of an Answer, of which there is one at least. It is no
// date to order by: that is for the question of when. LastKept, FirstMissed,
// FirstAbove and FirstOver are nil where there is no such year.
type Headline struct {
	First, Last *Year // of the horizon
	LastKept    *Year // the year before FirstMissed, or Last if none misses
	FirstMissed *Year // more of the replications miss the target than may
	FirstAbove  *Year // the median need passes what is installed
	FirstOver   *Year // the median run has more in use than needed

	// Most is the year that most of the runs miss, the first of several.
	Most *Year

	runs   int
	target facilityfile.Target
}

// Headline decides the headline from the years.
func (a *Answer) Headline() Headline {
	h := Headline{First: &a.Years[0], Last: a.last(), Most: &a.Years[0], runs: a.Replications, target: a.Target}
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
			h.LastKept = y
		}
		if y.MissesTarget > h.Most.MissesTarget {
			h.Most = y
		}
	}
	return h
}

// MedianNeed returns the whole number of vessels that the median replication
// would have in use at once if none were ever missing.
func (y *Year) MedianNeed() int { return int(math.Ceil(y.VesselsNeeded.P50 - 1e-9)) }

// String says which share of the runs misses the target in the worst year, of how many
// runs of what, and where the answer is that an order can rest on. It names no first
// year: a few runs of the file's own values would tell another than that question.
func (h Headline) String() string {
	return h.shares() + " How long the vessels last with what is uncertain, and when to order: loamcast when."
}

// shares is the sentence on the runs.
func (h Headline) shares() string {
	const (
		one  = "The one run with the file's own values"
		many = "In %d runs with the file's own values "
	)
	switch missed := h.FirstMissed; {
	case h.runs == 1 && missed == nil:
		return fmt.Sprintf(one+" does not miss the service target through %s.", h.Last.Label)
	case h.runs == 1:
		return fmt.Sprintf(one+" misses the service target in %s and perhaps later, %s.", missed.Label, h.cause())
	case missed != nil:
		return fmt.Sprintf("%s, %s; %.0f %% may.", h.worst(), h.cause(), 100*h.target.MissShare)
	case h.Most.MissesTarget == 0:
		return fmt.Sprintf(many+"none misses the service target through %s.", h.runs, h.Last.Label)
	}
	return fmt.Sprintf(many+"no more than the %.0f %% that may miss the service target do so through %s: most in %s, %s.",
		h.runs, 100*h.target.MissShare, h.Last.Label, h.Most.Label, h.missing(h.Most))
}

// worst begins the sentence where more miss the worst year than may.
func (h Headline) worst() string {
	const of, year = "%d runs with the file's own values ", " the service target in the worst year, %s"
	switch math.Round(h.Most.MissesTarget * float64(h.runs)) {
	case float64(h.runs): // in that year, the first of several, and perhaps even more so later
		return fmt.Sprintf("All "+of+"miss the service target by %s", h.runs, h.Most.Label)
	case 1:
		return fmt.Sprintf("Of "+of+"%s misses"+year, h.runs, h.missing(h.Most), h.Most.Label)
	}
	return fmt.Sprintf("Of "+of+"%s miss"+year, h.runs, h.missing(h.Most), h.Most.Label)
}

// Title is the same for a picture, where there is room for a line.
func (h Headline) Title() string {
	if h.Most.MissesTarget > 0 {
		return fmt.Sprintf("Of %d runs of the values in the file %s miss the target in %s", h.runs, h.missing(h.Most), h.Most.Label)
	}
	return fmt.Sprintf("Of %d runs of the values in the file none misses the target", h.runs)
}

// missing is how many runs miss the target in a year.
func (h Headline) missing(y *Year) string {
	return fmt.Sprintf("%.0f (%.0f %%)", y.MissesTarget*float64(h.runs), 100*y.MissesTarget)
}

// cause says with how many vessels the worst year misses the target, or that they
// are not to blame.
func (h Headline) cause() string {
	if h.Most.Failing {
		return "for too many loads fail (see loamcast cycle)"
	}
	if h.Most.MissesUnlimited > h.target.MissShare || h.Most.OtherShort {
		return "for something else than vessels is short"
	}
	return "with " + vessels(h.Most.Installed)
}

// moreInUseThanNeeded reports whether the median run has more vessels in use at once
// than it would if none were ever missing. That is so only after loads have waited:
// what waited is worked off later, or stands in vessels for want of a place.
func (y *Year) moreInUseThanNeeded() bool {
	return !y.OtherShort && y.VesselsPeak.P50 > float64(y.MedianNeed())
}

// Details returns the sentences that belong under the headline.
func (h Headline) Details() []string {
	list := []string{fmt.Sprintf("Service target: %v.", h.target)}
	if h.First.OtherShort || h.Last.OtherShort {
		return append(list, "How many vessels are needed cannot be told in years without a figure: loads would only pile up in them, for something else is short (see what solids wait for).")
	}
	need := fmt.Sprintf("With no wait for vessels the median run would use %d at once in %s",
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

// vessels counts vessels.
func vessels(n int) string {
	if n == 1 {
		return "1 vessel"
	}
	return fmt.Sprintf("%d vessels", n)
}
