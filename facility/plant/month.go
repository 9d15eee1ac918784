package plant

import "time"

// Month is what one month measured, along the way of the solids through the plant
// and then what it took. What is not said to be a mean, a peak or as of the month's
// end is a sum over the month. Masses are in kg, volumes in m3; "dry" is mass without
// water, "wet" with it.
type Month struct {
	Year  int
	Month time.Month
	Days  float64 // in the month

	Feed    MonthlyFeed
	Holding MonthlyHolding
	Mixing  MonthlyMixing
	Loads   MonthlyLoads
	Release MonthlyRelease
	Curing  MonthlyCuring
	Screen  MonthlyScreen
	Drying  MonthlyDrying
	Product MonthlyProduct

	Chips MonthlyChips
	// Amendments are those of the model, in its order; nil if it has none.
	Amendments []MonthlyAmendment
	Vessels    MonthlyVessels
	// Classes are those of the vessels, in the model's order; nil if there is one only.
	Classes []MonthlyClass
	Air     MonthlyAir
	Losses  MonthlyLosses
	Work    MonthlyWork
	Use     [numResources]Use // of machines and crews, by Resource
	Waits   Waits             // of cake held, loads due and lots cured
}

// MonthlyFeed is what came in: cake produced and feedstocks brought.
type MonthlyFeed struct {
	Dry, Wet                   float64
	FeedstockDry, FeedstockWet float64 // of these
}

// CakeDry and CakeWet return the cake that came in without the feedstocks, kg.
func (f *MonthlyFeed) CakeDry() float64 { return f.Dry - f.FeedstockDry }
func (f *MonthlyFeed) CakeWet() float64 { return f.Wet - f.FeedstockWet }

// MonthlyHolding is what became of the cake held before it was mixed.
type MonthlyHolding struct {
	DivertedDry, DivertedWet float64 // did not fit the holding
	ContractDry, ContractWet float64 // hauled by contract
	Calls                    float64 // of a contract
	// Contracts are those under which cake was hauled, each with its part of it.
	Contracts []MonthlyContract
	Waited    float64 // kg dry × days, of the cake mixed
	Oldest    float64 // days, peak: longest wait of cake mixed
	Delayed   float64 // kg dry × days, for what was short, of the cake held
	Peak      float64 // kg dry, peak: the most held at once
	Fullest   float64 // peak of what was held over the room there was then, 0…1
}

// MonthlyMixing is what the mixer made.
type MonthlyMixing struct {
	Batches          float64
	CakeDry          float64 // cake mixed
	Dry, Wet, Volume float64 // of the mix
}

// MonthlyLoads is what the vessels were filled with.
type MonthlyLoads struct {
	Filled     float64 // loads
	PartFilled float64 // of Filled
	Dry, Wet   float64
	Moisture   float64 // sum over loads of the moisture fraction
	// Volatile are the volatile solids of the mix, and CakeVolatile those of the cake
	// in it, with the feedstocks held with it.
	Volatile, CakeVolatile float64
}

// MonthlyRelease is what left the vessels.
type MonthlyRelease struct {
	Loads         float64
	Early, Late   float64 // of Loads: before the residence aimed at; stayed on to comply
	Failed        float64 // of Loads: met not all criteria
	FailedDry     float64 // whole loads
	FailedCakeDry float64 // the cake that went into them
	Residence     float64 // sum over loads, days
	Moisture      float64 // sum over loads of the moisture fraction
	Waited        float64 // kg dry of cake × days, of loads due and still in their vessels
}

// MonthlyCuring is what the curing pad held.
type MonthlyCuring struct {
	Days float64 // sum over the lots that ended curing
	// Room is the room on the pad that the lots that began to cure need, m3 × days,
	// and CakeDry the cake in them.
	Room, CakeDry float64
	Unstable      float64 // lots that began to cure and are not stable at the longest curing time
	PadPeak       float64 // m3, peak
	Water         float64 // kg added to lots that were too dry
	Rewetted      float64 // lots that got it
}

// MonthlyScreen is what the screen took and what it parted.
type MonthlyScreen struct {
	Lots     float64
	Moisture float64 // sum over lots of the moisture fraction
	Hours    float64 // of running
	// Work is what the lots would measure if they were dry enough to take the same
	// time, m3, and CakeDry the cake in them.
	Work, CakeDry              float64
	CoarseFed, CoarseRecovered float64 // kg dry of coarse matter
	RejectsDry, RejectsWet     float64
}

// MonthlyProduct is the compost made and taken.
type MonthlyProduct struct {
	Volume, Dry, Wet float64 // screened
	CakeDry          float64 // the cake in it
	TakenVolume      float64
	TakenDry         float64
	Shortage         float64 // m3 of demand not met
	StorePeak        float64 // m3, peak
	StoreEnd         float64 // m3, at the month's end
	HoursFull        float64 // during which a lot waited for room in the store
}

// MonthlyChips is the chips bought, used and recovered.
type MonthlyChips struct {
	Bought, BoughtDry       float64 // delivered
	Truckloads              float64
	Used                    float64 // m3 mixed
	FreshUsed               float64 // of Used
	Recovered, RecoveredDry float64 // with the fines they carry
	// Lost is what was mixed, m3, into the lots that were screened or hauled away, less
	// what the screen gave back of them: decayed, worn to fines, in the product, rejected.
	// Where amendments have coarse matter that comes back as chips it is less by that.
	Lost      float64
	Biofilter float64 // m3 of fresh chips, as its media
	// FreshByDay are the fresh chips taken on each day of the month, into mixes and
	// into the biofilter, m3.
	FreshByDay [31]float64
	StorePeak  float64 // m3 of fresh chips on hand, peak
	StoreEnd   float64 // the same at the month's end
	HoursShort float64 // during which mixing waited for chips
	// Sources are those of the model, in its order, nil if it has none: what suppliers
	// bring is Bought, and what comes by itself Own, m3.
	Sources []MonthlyChipSource
	Own     float64
}

// MonthlyVessels is how the vessels were used.
type MonthlyVessels struct {
	Mean      float64 // in use, mean over time
	Peak      float64 // in use at once, peak
	Installed float64 // at the month's end
	Moves     float64 // by truck
}

// MonthlyAir is the air of all vessels, followed only where [Air] has a limit.
type MonthlyAir struct {
	Volume    float64 // m3
	Peak      float64 // m3/h, peak
	HoursOver float64 // above the limit
}

// MonthlyLosses is what composting took from the solids, in vessels and on the pad; see
// [Plant.AirByYear].
type MonthlyLosses struct {
	Oxidised         float64 // volatile solids
	OxidisedCake     float64 // of Oxidised: of the cake, not of chips or recovered compost
	Vapour, Leachate float64 // water
	CarbonDioxide    float64
	Ammonia          float64
	VesselAmmonia    float64 // of Ammonia: with the air of the vessels, to the biofilter
}

// MonthlyWork is the work of people and machines.
type MonthlyWork struct {
	OperatorHours, LoaderHours float64 // that need one: person-hours, machine-hours
	MachineEnergy              float64 // of mixer and screen, kWh
	BlowerEnergy               float64 // of vessels and pad, kWh; see [Plant.AirByYear]
}

// Sum adds up one measure of some months.
func Sum(months []Month, of func(*Month) float64) float64 {
	sum := 0.0
	for i := range months {
		sum += of(&months[i])
	}
	return sum
}

// Untreated returns the dry cake that left the plant as it came: diverted, or
// in loads that failed, kg. Cake hauled by contract is not in it, though it is as it came:
// a [Contract] is a way out that the plant has chosen, and is told by itself.
func (m *Month) Untreated() float64 { return m.Holding.DivertedDry + m.Release.FailedCakeDry }

// UntreatedShare returns the share of the dry solids of some months that left
// untreated, 0…1: of all that came in. When loads of earlier months are hauled away,
// more may leave untreated than came in. The share is then of what left untreated
// itself, and so 1: no solids of these months are known to be treated.
func UntreatedShare(months []Month) float64 {
	untreated := Sum(months, (*Month).Untreated)
	return share(untreated, max(fedDry(months), untreated))
}

// ContractShare returns the share of the dry solids that came in some months which was
// hauled by contract; above 1 if more was hauled than came.
func ContractShare(months []Month) float64 {
	return share(Sum(months, func(m *Month) float64 { return m.Holding.ContractDry }), fedDry(months))
}

// CakeDelay returns how long a kilogram of the cake of some months waited in the
// mean before it was mixed because something was short, days: time in which a load
// came together, or nobody was there, is not counted.
func CakeDelay(months []Month) float64 {
	fed := fedDry(months)
	if fed == 0 {
		return 0
	}
	return Sum(months, func(m *Month) float64 { return m.Holding.Delayed }) / fed
}

func fedDry(months []Month) float64 {
	return Sum(months, func(m *Month) float64 { return m.Feed.Dry })
}
