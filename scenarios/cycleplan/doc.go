// Package cycleplan shows what one load of a facility does in the vessel and
// then on the curing pad: temperature, drying, air, the hours at which it meets
// the time-temperature criteria or why it does not, and what it takes and gives,
// for one month or for all.
//
// The load is the file's recipe with the chips that recycling settles on; its
// course is integrated directly. The package renders nothing.
//
// Units: kg, m3, hours, m3/h at the temperature and pressure of the air outside,
// °C, kWh, kJ, fractions 0…1; oxygen in % by volume.
package cycleplan
