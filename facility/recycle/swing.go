package recycle

import "math"

// Swing is between what a time went to and fro from load to load while it was free to
// lengthen and shorten, h. It is zero where the loop comes to rest by itself.
//
// Such a loop has no steady load: the chips of one make the next miss a criterion, and
// those of that one make the one after meet it again. What is told then is the load of
// the longer time, kept from getting shorter: neither a vessel nor the pad is promised
// sooner than half of the loads leave it.
type Swing struct{ Shortest, Longest float64 }

// Some reports whether there is a swing.
func (s Swing) Some() bool { return s.Longest > s.Shortest }

// A loop swings if a time turns at least this often within so many loads, by more than
// the step in which criteria are judged.
const (
	turns   = 3
	watched = 10   // loads
	notable = 0.75 // h
)

// swingOf looks at the times of the loads watched.
func swingOf(hours []float64) Swing {
	s := Swing{math.Inf(1), 0}
	turned, way := 0, 0.0
	for i, h := range hours {
		s.Shortest, s.Longest = min(s.Shortest, h), max(s.Longest, h)
		if i == 0 || math.Abs(h-hours[i-1]) < notable {
			continue
		}
		next := h - hours[i-1]
		if next*way < 0 {
			turned++
		}
		way = next
	}
	if turned < turns {
		return Swing{}
	}
	return s
}
