package plant

import (
	"time"

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
	// Waited is how long solids waited, warm-up included, measured by the
	// level of the cake held and by each load's and lot's own wait: kg dry of
	// cake × days. The months' Waits charge the same time to causes.
	Waited float64
	// Events is the number of events executed, and Fingerprint a hash of
	// their times, priorities and names in order.
	Events      uint64
	Fingerprint uint64
}

// Month holds the sums and extremes of one month. Masses in kg, volumes in m3.
type Month struct {
	Year  int
	Month time.Month

	FeedDry, FeedWet         float64 // cake produced and feedstocks brought in
	FeedstockDry             float64 // of which feedstocks
	DivertedDry, DivertedWet float64 // cake that did not fit the holding
	CakeWaited               float64 // kg dry × days, of the cake mixed
	OldestCake               float64 // days, longest wait of cake mixed
	CakeDelayed              float64 // kg dry × days, for what was short, of the cake held
	DueWaited                float64 // kg dry of cake × days, of loads due and still in their vessels

	Batches, Loads, PartFilled float64
	MixedDry                   float64 // cake mixed
	MixWet, MixDry, MixVolume  float64
	LoadWet, LoadDry           float64
	LoadMoisture               float64 // sum over loads of the moisture fraction
	HoursShortOfChips          float64
	Waits                      Waits   // of cake held, loads due and lots cured
	Moves                      float64 // of vessels, by truck
	AirVolume, AirPeak         float64 // of all vessels, m3 and m3/h; followed only where Air has a limit
	HoursOverAir               float64
	StoreFull                  float64 // hours during which a lot waited for room in the product store
	OperatorHours, LoaderHours float64 // of work that needs one, person-hours and machine-hours
	MachineEnergy              float64 // of mixer and screen, kWh
	Tools                      [numTools]Use

	Released, Early, Failed float64
	Late                    float64 // released loads that stayed on to comply
	Unstable                float64 // lots screened at the longest curing time, not yet stable
	FailedDry               float64 // whole loads
	FailedCakeDry           float64 // the cake that went into them
	Residence               float64 // sum over released loads, days
	ReleasedMoisture        float64 // sum over released loads

	ChipsBought, ChipsBoughtDry       float64 // delivered
	Truckloads                        float64
	ChipsUsed, ChipsFreshUsed         float64 // m3 mixed
	ChipsRecovered, ChipsRecoveredDry float64 // with the fines they carry
	CoarseRecovered, CoarseScreened   float64 // kg dry coarse
	ChipsStorePeak, ChipsStoreEnd     float64 // fresh chips on hand
	MediaVolume                       float64 // fresh chips into the biofilter
	// ChipsFreshByDay are the fresh chips taken on each day of the month, into
	// mixes and into the biofilter.
	ChipsFreshByDay [31]float64

	Screened, ScreenedMoisture float64 // lots; sum over lots
	CuringDays, ScreenHours    float64
	// ScreenWork is what the lots screened would measure if they were dry enough
	// to take the same time, m3, and ScreenedCakeDry the cake in them.
	ScreenWork, ScreenedCakeDry float64
	// CuringRoom is the room on the pad that the lots that began to cure need,
	// m3 × days, and CuringCakeDry the cake in them.
	CuringRoom, CuringCakeDry     float64
	ProductCakeDry                float64 // cake in the product stored
	RejectsWet, RejectsDry        float64
	ProductVolume                 float64 // screened
	ProductWet, ProductDry        float64
	TakenVolume, TakenDry         float64
	Shortage                      float64 // m3 of demand not met
	PadPeak                       float64
	ProductPeak, ProductEnd       float64 // in the product store
	Vapour, Leachate, Ammonia     float64
	CarbonDioxide, BlowerEnergy   float64 // kg; kWh, vessels and pad
	Oxidised                      float64 // volatile solids
	VesselsMean                   float64
	VesselsPeak, VesselsInstalled float64
	DaysInMonth                   float64
}

// Untreated returns the dry cake that left the plant as it came: diverted, or
// in loads that failed, kg.
func (m *Month) Untreated() float64 { return m.DivertedDry + m.FailedCakeDry }

// UntreatedShare returns the share of the dry solids of some months that left
// untreated, 0…1: of all that came in. When loads of earlier months are hauled away,
// more may leave untreated than came in. The share is then of what left untreated
// itself, and so 1: no solids of these months are known to be treated.
func UntreatedShare(months []Month) float64 {
	untreated, fed := 0.0, 0.0
	for i := range months {
		untreated += months[i].Untreated()
		fed += months[i].FeedDry
	}
	return share(untreated, max(fed, untreated))
}

// CakeDelay returns how long a kilogram of the cake of some months waited in the
// mean before it was mixed because something was short, days: time in which a load
// came together, or nobody was there, is not counted.
func CakeDelay(months []Month) float64 {
	delayed, fed := 0.0, 0.0
	for i := range months {
		delayed += months[i].CakeDelayed
		fed += months[i].FeedDry
	}
	if fed == 0 {
		return 0
	}
	return delayed / fed
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
