package sim

import "fmt"

// Time is an instant: whole seconds since the start of the run.
type Time int64

// Duration is a span of simulated time in whole seconds.
type Duration int64

// Spans of common length.
const (
	Second Duration = 1
	Minute          = 60 * Second
	Hour            = 60 * Minute
	Day             = 24 * Hour
)

// maxTime is the last instant that the engine's float64 clock holds exactly.
const maxTime Time = 1 << 53

// Add returns the instant d after t.
func (t Time) Add(d Duration) Time { return t + Time(d) }

// Sub returns the span from u to t, negative when t is before u.
func (t Time) Sub(u Time) Duration { return Duration(t - u) }

// Days returns t in days since the start of the run.
func (t Time) Days() float64 { return float64(t) / float64(Day) }

// Hours returns d in hours.
func (d Duration) Hours() float64 { return float64(d) / float64(Hour) }

// Days returns d in days.
func (d Duration) Days() float64 { return float64(d) / float64(Day) }

// DurationOf rounds a length in seconds to the nearest whole second.
//
// A length that is not a number, infinite, negative or beyond the clock's range
// is a mistake in the model, not a condition to handle at each call: DurationOf
// panics with an error that names the value, and [Kernel.Run] turns a panic in
// an event into a [RunError] with the replication, date and event.
func DurationOf(seconds float64) Duration {
	if !(seconds >= 0 && seconds <= float64(maxTime)) {
		panic(notADuration(seconds))
	}
	whole := Duration(seconds)
	return whole + Duration(2*(seconds-float64(whole))) // 1 from a half on; both are exact
}

// notADuration is a number of seconds that is none.
type notADuration float64

func (d notADuration) Error() string {
	return fmt.Sprintf("sim: %v seconds is not a duration", float64(d))
}
