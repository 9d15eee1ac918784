package answer

import (
	"fmt"
	"math"
)

// Thresholds of the headline, as shares.
const (
	// AtRiskShare of the replications short of vessels makes a year one of
	// risk: worse than one run in ten.
	AtRiskShare = 0.1
	// ShortShare of the replications short of vessels makes a year short: the
	// median run does not have enough.
	ShortShare = 0.5
	// DivertedLimit is the part of a year's dry solids that the default
	// service target allows to be hauled away untreated.
	DivertedLimit = 0.01
)

// Headline is the answer to "when do we need more vessels", decided from the
// years of an Answer. The pointers are nil where there is no such year.
type Headline struct {
	First, Last   *Year // of the horizon
	LastEnough    *Year // the year before FirstShort, or Last if none is short
	FirstAtRisk   *Year // more than AtRiskShare of the replications are short
	FirstShort    *Year // at least ShortShare of the replications are short
	FirstDiverted *Year // the median diverted share exceeds DivertedLimit

	// FewestBefore and MostBefore are the least and the most vessels
	// installed in the years up to LastEnough.
	FewestBefore, MostBefore int
}

// Headline decides the headline from the years.
func (a *Answer) Headline() Headline {
	var h Headline
	for i := range a.Years {
		y := &a.Years[i]
		if i == 0 {
			h.First = y
		}
		h.Last = y
		if h.FirstAtRisk == nil && y.ShortOfVessels > AtRiskShare {
			h.FirstAtRisk = y
		}
		if h.FirstDiverted == nil && y.DivertedShare.P50 > DivertedLimit {
			h.FirstDiverted = y
		}
		if h.FirstShort == nil && y.ShortOfVessels >= ShortShare {
			h.FirstShort = y
		}
		if h.FirstShort == nil {
			h.enough(y)
		}
	}
	return h
}

// enough notes a year before the first short one.
func (h *Headline) enough(y *Year) {
	if h.LastEnough == nil {
		h.FewestBefore, h.MostBefore = y.Installed, y.Installed
	}
	h.LastEnough = y
	h.FewestBefore = min(h.FewestBefore, y.Installed)
	h.MostBefore = max(h.MostBefore, y.Installed)
}

// MedianNeed returns the whole number of vessels that the median replication
// needs at its peak. Where half of the replications exactly are short, the
// median lies between two numbers, and the greater one counts.
func (y *Year) MedianNeed() int {
	need := int(math.Ceil(y.VesselsNeeded.P50 - 1e-9))
	if y.ShortOfVessels >= ShortShare {
		need = max(need, y.Installed+1)
	}
	return need
}

// String says when vessels run short in one sentence.
func (h Headline) String() string {
	switch {
	case h.First == nil:
		return "The run covers no whole year, so it cannot say when vessels run short."
	case h.FirstShort == nil:
		return fmt.Sprintf("%s through %s, when the median run needs %d at its peak.",
			h.suffice(), h.Last.Label, h.Last.MedianNeed())
	case h.LastEnough == nil:
		return fmt.Sprintf("%s too few from the start: in %s the median run needs %d at its peak%s.",
			vessels(h.First.Installed, "is", "are"), h.First.Label, h.First.MedianNeed(), h.later())
	}
	return fmt.Sprintf("%s through %s; in %s the median run needs %d at its peak%s.",
		h.suffice(), h.LastEnough.Label, h.FirstShort.Label, h.FirstShort.MedianNeed(), h.later())
}

// suffice is the beginning of the sentence, up to the verb.
func (h Headline) suffice() string {
	if h.FewestBefore != h.MostBefore {
		return fmt.Sprintf("The %d to %d vessels installed suffice", h.FewestBefore, h.MostBefore)
	}
	return vessels(h.MostBefore, "suffices", "suffice")
}

// later says what the last year needs, where that is another year, and what is
// installed by then, where that is another number.
func (h Headline) later() string {
	if h.Last == h.FirstShort {
		return ""
	}
	text := fmt.Sprintf(", and %d by %s", h.Last.MedianNeed(), h.Last.Label)
	if h.Last.Installed != h.FirstShort.Installed {
		text += fmt.Sprintf(", when %d are installed", h.Last.Installed)
	}
	return text
}

// Details returns the sentences that belong under the headline: the first year
// of risk, if it is earlier than the first short year, and the first year of
// more diverted solids than the default target allows.
func (h Headline) Details() []string {
	var list []string
	if h.FirstAtRisk != nil && h.FirstAtRisk != h.FirstShort {
		list = append(list, fmt.Sprintf("First year in which more than 1 run in %.0f is short of vessels: %s.",
			1/AtRiskShare, h.FirstAtRisk.Label))
	}
	if y := h.FirstDiverted; y != nil {
		list = append(list, fmt.Sprintf("First year in which the median run diverts more than %g %% of its dry solids: %s.",
			100*DivertedLimit, y.Label))
	} else if h.Last != nil {
		list = append(list, fmt.Sprintf("In no year does the median run divert more than %g %% of its dry solids.",
			100*DivertedLimit))
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
