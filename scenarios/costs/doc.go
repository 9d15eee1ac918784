// Package costs makes the money plan of one simulated run: what the plant of
// that run used and sold year by year, and what was built and when.
//
// It joins the record of a run to the file's prices; the arithmetic of worth is
// that of package money. It simulates nothing and chooses nothing.
//
// Units: those of money: USD in the prices of the stated year, years since the
// first day reported, h, kWh, m3, kg.
package costs
