// Package process turns time into decomposition: it takes a load of mixed
// material, an enclosure with forced or natural air, a temperature program and
// the weather of a month, and follows temperature, rates, air and water.
package process
