// Package calendar ties whole seconds of simulated time to civil dates, adds
// months and days to dates, and says when people work: shifts by weekday, holidays,
// and the arithmetic of working time.
//
// It is not a clock of the real world: there are no time zones, no daylight
// saving and no leap seconds; every day has 86,400 seconds. It knows nothing of
// events.
//
// Units: instants are int64 seconds since the start of the run (midnight at the
// beginning of Clock.Start); hours of a shift are minutes since midnight.
package calendar
