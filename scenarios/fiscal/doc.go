// Package fiscal simulates some fiscal years of a facility and lays out what
// its replications did by month and by fiscal year, as purchase and sales plans
// want it.
//
// A fiscal year is twelve months from the first of any month on. It is called
// "2027" if it begins in January, and if it does not as the file names its fiscal
// years, "FY2028", or "2027/28" if the file has none. The growth
// scenarios of the file share the replications by their weights, or one of them
// has them all.
//
// It decides nothing and knows nothing of chips, compost or screens. Units are
// those of the quantities given to it.
package fiscal
