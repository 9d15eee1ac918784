// Package recycle follows one load of a facility from the mixer through vessel
// and curing pad to the screen, and finds the load that recycling of the chips
// settles on if one month went on for ever.
//
// Where no load is like the one before it, as the chips of one decide how the next
// does, it says so and between what the times go to and fro (Swing), and ends with a
// load of the longer one.
//
// It is the steady, undisturbed plant: no queues, no noise, no calendar but the
// month in whose middle a load is begun. It obeys the release rules that a run
// obeys, that on lots too wet for the screen among them. It knows no files and no screens.
//
// Units: kg, m3, hours, °C, fractions 0…1.
package recycle
