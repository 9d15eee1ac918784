// Package mixplan designs the batch of a facility for a month: how much fresh
// chips, recovered chips and amendments to load for the month's cake, at least
// cost, so that the mix meets its targets; what is nearest when it cannot; and
// how that changes with the solids content of the cake.
//
// Recovered chips have the composition and the amount that the design itself
// leads to when it is loaded again and again.
//
// Units: kg wet unless a name says dry, m3, kg/m3, fractions 0…1, USD.
package mixplan
