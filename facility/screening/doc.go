// Package screening divides compost into product, recovered bulking agent and
// rejects, and finds the state that recycling of the bulking agent runs into.
//
// It is a pure calculation on parcels. It knows no time: how long a screen
// takes follows from Settings.Throughput and is the business of the caller.
// What a screen passes is product; what it keeps are the overs, of which a part
// is rejected and the rest recovered.
//
// Units: kg, m3/h, openings in m, fractions 0…1; moisture is water per wet mass.
package screening
