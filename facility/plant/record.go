package plant

import (
	"loamcast/facility/material"
	"loamcast/sim/calendar"
)

// Record is what one replication measured, from the start date on; the warm-up
// is left out of Months and Years.
type Record struct {
	Replication int
	Months      []Month
	Years       []Year
	Stations    []Station // over the whole run, warm-up included
	Paths       []Path
	// FailedBy counts failed loads, warm-up included, by the first criterion
	// that they could not meet, in order of the model's criteria.
	FailedBy []float64
	// Worst is the largest mass-balance residual of any year, component and
	// store, relative to throughput, and WorstAt where it was.
	Worst   float64
	WorstAt string
	// Triggered are the changes that their triggers brought about.
	Triggered []Triggered
	// ChipOrders are the orders of fresh chips in their order, warm-up included.
	ChipOrders []ChipOrder
	// Waited is how long solids waited, warm-up included, measured by the
	// level of the cake held and by each load's and lot's own wait: kg dry of
	// cake × days. The months' Waits charge the same time to causes.
	Waited float64
	// Events is the number of events executed, and Fingerprint a hash of
	// their times, priorities and names in order.
	Events      uint64
	Fingerprint uint64
}

func newRecord(replication int, p *Plant) *Record {
	return &Record{
		Replication: replication,
		Months:      make([]Month, 0, calendar.MonthsPerYear*p.Years),
		Years:       make([]Year, 0, p.Years),
		FailedBy:    make([]float64, len(p.Active.Criteria)),
	}
}

// Year is twelve months from an anniversary of the start.
type Year struct {
	From        calendar.Date
	Balance     material.Period
	VesselsMean float64
	VesselsPeak int
	// VesselsCover is the number of vessels that was enough for 95 % of the
	// time.
	VesselsCover int
	Installed    int // at the end of the year
}

// coverShare is the share of the time that Year.VesselsCover speaks of.
const coverShare = 0.95
