package simulate

import "slices"

// How many years are shown where not all can be: as many as usually fit, and no
// fewer than the first, the last and the first that misses the target.
const (
	mostShown  = 8
	leastShown = 3
)

// shownYear is a year by its place in Answer.Years. Where there is less room,
// those of the highest rank are left out first; those of rank 0 never are.
type shownYear struct{ place, rank int }

// shownYears picks years in order: the first, the last, the first that misses
// the service target, and others evenly between. Of the others those are ranked
// higher that lie closer to their neighbours, as they say least.
func (a *Answer) shownYears() []shownYear {
	places := evenly(len(a.Years), mostShown)
	missed := a.Headline().FirstMissed
	fixed := []int{0, len(a.Years) - 1}
	for i := range a.Years {
		if &a.Years[i] == missed {
			replaceNearest(places, i)
			fixed = append(fixed, i)
		}
	}
	shown := make([]shownYear, len(places))
	for i, p := range places {
		shown[i].place = p
	}
	for rest := slices.Clone(places); len(rest) > len(fixed); {
		least := leastTelling(rest, fixed)
		if least < 0 {
			break
		}
		shown[slices.Index(places, rest[least])].rank = len(rest)
		rest = slices.Delete(rest, least, least+1)
	}
	return shown
}

// evenly picks at most n places of so many, the first and the last among them.
func evenly(count, n int) []int {
	n = min(n, count)
	places := make([]int, n)
	for i := range places {
		if n > 1 {
			places[i] = (i*(count-1) + (n-1)/2) / (n - 1)
		}
	}
	return places
}

// leastTelling finds the place, not fixed, whose neighbours lie closest
// together, the later of two; −1 if all are fixed.
func leastTelling(places, fixed []int) int {
	least := -1
	gap := func(i int) int { return places[i+1] - places[i-1] }
	for i, p := range places {
		if !slices.Contains(fixed, p) && (least < 0 || gap(i) <= gap(least)) {
			least = i
		}
	}
	return least
}

// replaceNearest puts want in place of the nearest inner element of an
// ascending list, unless it is there; the order stays.
func replaceNearest(places []int, want int) {
	if slices.Contains(places, want) {
		return
	}
	best := -1
	for i := 1; i < len(places)-1; i++ {
		if best < 0 || distance(places[i], want) < distance(places[best], want) {
			best = i
		}
	}
	if best >= 0 {
		places[best] = want
	}
}

func distance(a, b int) int { return max(a-b, b-a) }
