// Package recycle follows one load of a facility from the mixer through vessel
// and curing pad to the screen, and finds the load that recycling of the chips
// settles on if one month went on for ever.
//
// It is the steady, undisturbed plant: no queues, no noise, no calendar but the
// month in whose middle a load is begun. It obeys the release rules that a run
// obeys, that on lots too wet for the screen among them. It knows no files and no screens.
//
// Units: kg, m3, hours, °C, fractions 0…1.
package recycle
