// Package productplan answers how much compost to expect: by month and fiscal
// year what is screened and taken away, what the store holds, when it is full
// and blocks the screen, when demand goes unmet, and what it brings.
//
// It is read off replications of the plant. The package renders nothing.
//
// Units: m3 and kg of product, hours, USD of the day that they are paid,
// fractions 0…1.
package productplan
