package answer

import (
	"time"

	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// Answer is what one run says about a facility.
type Answer struct {
	Facility     string // its name
	Source       string // file, or built-in example
	Invented     bool   // a built-in example with invented data
	Version      string // of the program
	Seed         uint64
	Replications int
	Start        calendar.Date
	Level        Level // of the intervals called P10 and P90
	Target       facilityfile.Target

	Load     Load
	FailedBy []Cause // why loads failed, if any did
	Years    []Year
	Months   []Month
	Flows    []Flow
	Waits    []Wait // the bottleneck account, by cause
	Tools    []Tool
	// Capacities set what each stage could sustain beside what it carried, in
	// order of Years.
	Capacities []CapacityYear
	Triggered  []Triggered // changes that wait for a trigger
	AirLimit   float64     // of blowers and biofilter together, m3/h; 0 if there is none
	Balance    Balance
	Cautions   []Caution
}

// Level names the quantiles that a Spread holds.
type Level struct{ Low, High float64 }

// Spread is a quantity over the replications.
type Spread struct {
	Mean          float64
	P10, P50, P90 float64
}

// Load describes a typical vessel load over the whole horizon.
type Load struct {
	Wet           Spread // kg
	Moisture      Spread // fraction, at loading
	OutMoisture   Spread // fraction, leaving the vessel
	Residence     Spread // days
	DryLoss       Spread // fraction of the dry solids loaded that is oxidised, vessel and curing together
	ScreenedAt    Spread // moisture fraction of the cured mix at the screen
	ChipRecovery  Spread // fraction of coarse chips that the screen gives back
	Failed        Spread // fraction of loads that never met their criteria
	Late          Spread // fraction of loads that stayed longer to meet them
	Unstable      Spread // fraction of lots screened before they were stable
	CakePerLoad   float64
	BatchesALoad  Spread
	ChipsPerCakeV float64 // volume ratio asked for
}

// Cause is a reason and its share of the failed loads, all replications
// together.
type Cause struct {
	Name  string
	Share float64
}

// Year is one year of the horizon, counted from the start.
type Year struct {
	Label string // "2027", or "2027/28" when it does not begin in January
	From  calendar.Date

	FeedDry       Spread // kg dry cake produced
	FeedWet       Spread // kg wet cake produced
	DivertedDry   Spread // kg dry, cake and failed loads
	DivertedShare Spread // of FeedDry
	CakeWait      Spread // days, mean wait of cake before mixing
	OldestCake    Spread // days, longest wait
	CakeDelay     Spread // days, mean wait of cake for what was short

	Loads          Spread
	VesselsMean    Spread // in use, time average
	VesselsPeak    Spread // in use, most at one time
	Installed      int    // at the end of the year, in the median replication
	VesselsNeeded  Spread // most in use at one time if none were ever missing
	NeedMost       Spread // enough for 95 % of the hours if none were ever missing
	StaticAverage  float64
	StaticPeak     float64
	ShortOfVessels float64 // share of replications whose need at its peak passes Installed
	// MissesTarget is the share of replications that miss the target in the year,
	// and MissesUnlimited the same with a vessel for every load.
	MissesTarget, MissesUnlimited float64
	// OtherShort says that with a vessel for every load the loads would pile up in
	// them, waiting for something else that is short. What is needed of vessels is
	// then unknown, NaN.
	OtherShort bool

	ChipsBought    Spread // m3 fresh
	ChipsRecovered Spread // m3 from the screen, with the fines they carry
	ChipsUsed      Spread // m3 into the mixer
	Truckloads     Spread

	ProductVolume Spread // m3 screened
	ProductWet    Spread // kg
	ProductDry    Spread // kg
	TakenVolume   Spread // m3
	Shortage      Spread // m3 of demand not met
	Rejects       Spread // kg wet

	WaterRemoved  Spread // kg evaporated, vessels and curing
	CarbonDioxide Spread // kg
	Ammonia       Spread // kg
	Leachate      Spread // kg

	Work
	Air *Air // nil if there is no limit
}

// Month is one calendar month of the horizon.
type Month struct {
	Year  int
	Month time.Month

	FeedDry, DivertedDry      Spread // kg dry
	VesselsMean, VesselsPeak  Spread
	VesselsNeeded             Spread
	Installed                 int
	ChipsBought, ChipsRecover Spread // m3
	ChipsUsed, Truckloads     Spread
	ChipsStorePeak            Spread // m3
	ProductVolume, Taken      Spread // m3
	ProductStorePeak          Spread // m3
	PadPeak                   Spread // m3
	OldestCake                Spread // days

	Work
	Air *Air // nil if there is no limit
}

// Flow is a mean yearly flow between two stores, kg.
type Flow struct {
	Name, From, To               string
	Wet, Dry, Carbon, Nitrogen   float64 // kg per year; Wet is the total
	Water, Fixed, VolatileSolids float64
}

// Balance is the mass balance of the whole run.
type Balance struct {
	Worst      float64 // largest residual, relative to throughput
	WorstAt    string
	Bound      float64
	Components []ComponentBalance // means over years and replications, kg per year
}

// ComponentBalance is one component through the fence, kg per year.
type ComponentBalance struct {
	Name                      string
	In, Out, Change, Residual float64
}

// Caution is a warning that belongs with the numbers, and where it comes from.
type Caution struct{ Text, Source string }
