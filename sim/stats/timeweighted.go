package stats

import (
	"fmt"
	"math"
)

// TimeWeighted follows a level over time: a queue's length, a store's contents.
// Between the instants that it is told of, the level stays as it was set, or has
// moved in a straight line to where RampTo puts it. The zero value begins at second 0 with
// a level of 0.
type TimeWeighted struct {
	start, last int64 // seconds
	level       float64
	area        float64 // level × seconds, from start to last
	high        float64
	counts      []int64 // seconds at each whole level, when counting
	counting    bool
}

// NewTimeWeighted begins at an instant with a level.
func NewTimeWeighted(start int64, level float64) *TimeWeighted {
	w := &TimeWeighted{level: level}
	w.Reset(start)
	return w
}

// Reset forgets the past, as at the end of a warm-up or of a year, and keeps the
// level. Counting stays in force.
func (w *TimeWeighted) Reset(t int64) {
	w.start, w.last = t, t
	w.area = 0
	w.high = w.level
	clear(w.counts)
}

// Set says that the level becomes v at instant t, until when it stayed as it
// was. A level that is not a number, or an instant before the last one told,
// panics: it is a mistake in the model.
func (w *TimeWeighted) Set(t int64, v float64) {
	w.advance(t, w.level)
	w.jump(v)
}

// Add changes the level by dv at instant t.
func (w *TimeWeighted) Add(t int64, dv float64) { w.Set(t, w.level+dv) }

// RampTo says that the level has moved in a straight line since the last instant
// told, and arrives at v at instant t.
func (w *TimeWeighted) RampTo(t int64, v float64) {
	w.advance(t, v)
	w.jump(v)
}

// jump changes the level at the present instant.
func (w *TimeWeighted) jump(v float64) {
	if !(v <= w.high) { // mostly it has been higher
		w.rise(v)
	}
	w.level = v
}

// rise notes the highest level.
func (w *TimeWeighted) rise(v float64) {
	if math.IsNaN(v) {
		panic(fmt.Errorf("stats: level is not a number at second %d", w.last))
	}
	w.high = v
}

// advance books the time until t, over which the level goes straight to end.
func (w *TimeWeighted) advance(t int64, end float64) {
	seconds := t - w.last
	if seconds == 0 {
		return
	}
	if seconds < 0 {
		panic(fmt.Errorf("stats: instant %d is before the last one, %d", t, w.last))
	}
	w.area += float64(seconds) * (w.level + end) / 2
	if w.counting {
		w.count(seconds)
	}
	w.last = t
}

// Max returns the highest level since the start or the last Reset.
func (w *TimeWeighted) Max() float64 { return w.high }

// Area returns the integral of the level until an instant, in level × seconds.
func (w *TimeWeighted) Area(until int64) float64 {
	w.advance(until, w.level)
	return w.area
}

// Mean returns the average level over time until an instant; with no time
// passed, the level.
func (w *TimeWeighted) Mean(until int64) float64 {
	area := w.Area(until)
	if until == w.start {
		return w.level
	}
	return area / float64(until-w.start)
}

// CountLevels begins to keep the time spent at each whole level, for levels that
// count things: whole, not negative, and changed by Set and Add only.
func (w *TimeWeighted) CountLevels() { w.counting = true }

// count books seconds at the present level.
func (w *TimeWeighted) count(seconds int64) {
	n := int(w.level)
	if float64(n) != w.level || n < 0 {
		panic(fmt.Errorf("stats: level %v is not a count", w.level))
	}
	for len(w.counts) <= n {
		w.counts = append(w.counts, 0)
	}
	w.counts[n] += seconds
}

// Histogram returns the seconds spent at level 0, 1, 2 and so on until an
// instant. It needs [TimeWeighted.CountLevels].
func (w *TimeWeighted) Histogram(until int64) []int64 {
	w.advance(until, w.level)
	return append([]int64(nil), w.counts...)
}

// Covering returns the lowest level that was enough for a share q of the time:
// the level at or below which at least that share was spent. It needs
// [TimeWeighted.CountLevels].
func (w *TimeWeighted) Covering(q float64, until int64) int {
	counts := w.Histogram(until)
	need := q * float64(until-w.start)
	var spent float64
	for n, seconds := range counts {
		spent += float64(seconds)
		if spent >= need {
			return n
		}
	}
	return max(len(counts)-1, 0)
}
