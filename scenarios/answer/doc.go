// Package answer turns the records of a run into the one plain data structure
// that every rendering shows. A renderer converts units and draws; it computes
// nothing that is not here.
//
// Values are SI: kg, m3, days, fractions 0…1; kg of solids are dry and of
// everything else wet, as the field says. Nothing here knows files, terminals
// or pictures.
package answer
