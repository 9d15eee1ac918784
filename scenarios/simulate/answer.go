package simulate

import (
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/sim/calendar"
)

// Answer is what one run says about a facility.
type Answer struct {
	answer.Basis

	Load       Load
	FailedBy   []Cause // why loads failed, if any did
	Years      []Year
	Months     []Month
	Flows      []Flow
	Waits      []Wait // the bottleneck account, by cause
	Resources  []Resource
	Amendments []Amendment // of the recipe, by year; none if it has none
	Classes    []Class     // of the vessels, by year; none where there is one only
	// Capacities set what each stage could sustain beside what it carried, in
	// order of Years.
	Capacities []CapacityYear
	Triggered  []Triggered // changes that wait for a trigger
	AirLimit   float64     // of blowers and biofilter together, m3/h; 0 if there is none
	Dryness    []Dryness   // of lots at the screen, by month of the year
	MindsWet   bool        // the plant dries or holds what is too wet
	Hauls      bool        // a contract hauls cake, from the start or later
	OwnChips   bool        // some of the chips are wood of the plant's own
	Balance    Balance
	Occupancy  Occupancy // empty if nobody watched the vessels
	ByNitrogen bool      // ammonia is reckoned from the nitrogen that decay releases
}

// Load describes a typical vessel load over the whole horizon.
type Load struct {
	Wet         answer.Spread // kg
	Moisture    answer.Spread // fraction, at loading
	OutMoisture answer.Spread // fraction, leaving the vessel
	Residence   answer.Spread // days
	DryLoss     answer.Spread // fraction of the dry solids loaded that is oxidised, vessel and curing together
	// VolatileDestroyed is the fraction of the volatile solids loaded that is oxidised,
	// vessel and curing together, and CakeDestroyed that of those of the cake.
	VolatileDestroyed, CakeDestroyed answer.Spread
	ScreenedAt                       answer.Spread // moisture fraction of the cured mix at the screen
	ChipRecovery                     answer.Spread // fraction of coarse chips that the screen gives back
	Failed                           answer.Spread // fraction of loads that never met their criteria
	Late                             answer.Spread // fraction of loads that stayed longer to meet them
	Unstable                         answer.Spread // fraction of lots screened before they were stable
	CakePerLoad                      float64
	BatchesALoad                     answer.Spread
	ChipsPerCakeV                    float64 // volume ratio asked for
}

// Cause is a reason and its share of the failed loads, all replications
// together, or of the waiting.
type Cause struct {
	Name  string
	Share float64
}

// MainFailure returns the criterion that most failed loads missed; ok is false if
// in the median replication none failed.
func (a *Answer) MainFailure() (top Cause, ok bool) {
	for _, c := range a.FailedBy {
		if c.Share > top.Share {
			top = c
		}
	}
	return top, top.Share > 0 && a.Load.Failed.P50 > 0
}

// last is the last year of the horizon.
func (a *Answer) last() *Year { return &a.Years[len(a.Years)-1] }

// Year is one year of the horizon, counted from the start.
type Year struct {
	Label string // "2027", or "2027/28" when it does not begin in January
	From  calendar.Date

	FeedDry       answer.Spread // kg dry, cake and feedstocks
	FeedWet       answer.Spread // kg wet
	Brought       Brought
	DivertedDry   answer.Spread // kg dry, cake and failed loads
	DivertedShare answer.Spread // of FeedDry
	Contract
	CakeWait     answer.Spread // days, mean wait of cake before mixing
	OldestCake   answer.Spread // days, longest wait
	CakeDelay    answer.Spread // days, mean wait of cake for what was short
	HoldingPeak  answer.Spread // kg dry, most held at once
	HoldingShare answer.Spread // of the room in the holding, the most that was filled

	Loads          answer.Spread
	VesselsMean    answer.Spread // in use, time average
	VesselsPeak    answer.Spread // in use, most at one time
	Installed      int           // at the end of the year, in the median replication
	VesselsNeeded  answer.Spread // most in use at one time if none were ever missing
	NeedMost       answer.Spread // enough for 95 % of the hours if none were ever missing
	StaticAverage  float64
	StaticPeak     float64
	ShortOfVessels float64 // share of replications whose need at its peak passes Installed
	// MissesTarget is the share of replications that miss the target in the year,
	// and MissesUnlimited the same with a vessel for every load.
	MissesTarget, MissesUnlimited float64
	// Failing says that, where the target is missed, too many loads do not comply.
	Failing bool
	// OtherShort says that with a vessel for every load the loads would pile up in
	// them, waiting for something else that is short. What is needed of vessels is
	// then unknown, NaN.
	OtherShort bool

	ChipsBought    answer.Spread // m3 fresh
	ChipsRecovered answer.Spread // m3 from the screen, with the fines they carry
	ChipsUsed      answer.Spread // m3 into the mixer
	Truckloads     answer.Spread

	ProductVolume answer.Spread // m3 screened
	ProductWet    answer.Spread // kg
	ProductDry    answer.Spread // kg
	TakenVolume   answer.Spread // m3
	Shortage      answer.Spread // m3 of demand not met
	Rejects       answer.Spread // kg wet

	WaterRemoved  answer.Spread // kg evaporated, vessels and curing
	CarbonDioxide answer.Spread // kg
	Ammonia       answer.Spread // kg
	Leachate      answer.Spread // kg
	WaterAdded    answer.Spread // kg, to lots put up to cure
	Rewetted      answer.Spread // of the lots, those that got it
	Nitrogen      Nitrogen

	Work
	Air *Air // nil if there is no limit
}

// Brought is what came in, cake and feedstocks apart, kg, and the chips of the plant's
// own wood, m3.
type Brought struct{ CakeDry, CakeWet, FeedstockDry, FeedstockWet, OwnChips answer.Spread }

// Month is one calendar month of the horizon.
type Month struct {
	Year  int
	Month time.Month

	FeedDry, DivertedDry answer.Spread // kg dry
	Brought              Brought
	Contract
	VesselsMean, VesselsPeak  answer.Spread
	VesselsNeeded             answer.Spread
	Installed                 int
	ChipsBought, ChipsRecover answer.Spread // m3
	ChipsUsed, Truckloads     answer.Spread
	ChipsStorePeak            answer.Spread // m3
	ProductVolume, Taken      answer.Spread // m3
	ProductStorePeak          answer.Spread // m3
	PadPeak                   answer.Spread // m3
	OldestCake                answer.Spread // days
	HoldingPeak, HoldingShare answer.Spread // see Year

	Work
	Air *Air // nil if there is no limit
}

// Flow is a mean yearly flow between two stores, kg.
type Flow struct {
	Kind                         plant.Flow
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
