package cycleplan

import (
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/recycle"
	"loamcast/scenarios/answer"
)

// Answer is the course of a load in one month, or in each.
type Answer struct {
	answer.Basis
	// Landmark is the highest temperature that a criterion names, 55 °C if
	// none does.
	Landmark float64
	Loads    []Load // by month
	// Class is that of the vessel, the first of the file; empty where there is one only.
	Class string
}

// Load is one load from the mixer to the screen.
type Load struct {
	Month       time.Month // in whose middle it is begun
	CuringMonth time.Month // in whose weather it cures

	Wet, Dry, Volume       float64
	CakeDry                float64
	ChipsToCake            float64 // loose volumes
	RecoveredShare         float64 // of the chips, by volume
	Moisture, FreeAirSpace float64
	Reached                float64 // share of the load that air reaches
	CarbonToNitrogen       float64

	Passes   Moment // Landmark
	Criteria []Criterion
	Complies bool // every criterion is met
	Aimed    float64
	Stay     float64 // in the vessel
	HeldFor  string  // criterion for which it stays longer than aimed at
	Cured    float64 // on the pad
	Findings []process.Finding

	// ReadilyLeft is the share of the readily degradable solids loaded that is
	// left at the screen, and ReadilyAsked the most that the file allows, 1 if
	// it asks for nothing. A lot that is not Stable is screened at the longest
	// curing time.
	ReadilyLeft, ReadilyAsked float64
	Stable                    bool

	MoistureOut, MoistureScreened float64
	WaterAdded, MoistureCured     float64 // as the lot is put up to cure, and what it then has
	Ammonia                       Ammonia
	StaySwing, CuringSwing        recycle.Swing // what they go to and fro between
	WateredInTurn                 bool          // not every load is dry enough to get water
	// DriedInVessel and DriedOnPad are the hours of Stay and of Cured in which the load
	// was dried, or held, to be screened. MindsWet says that the plant does that.
	DriedInVessel, DriedOnPad float64
	MindsWet                  bool
	// Remedy is further drying that would bring the lot to the screen's moisture
	// limit; nothing if it is dry enough.
	Remedy         plant.Remedy
	Vessel, Curing Stage
	Biofilter      Biofilter

	// Carried says that a lot begins to cure at what it was Tipped with, less handling;
	// otherwise CuringStart is the model's.
	Carried             bool
	Tipped, CuringStart float64
	Heat                recycle.Heat // from the mixer to the screen

	Segments []Segment // of the vessel's temperature program, then the pad's
	Days     []Row     // at the end of each day in the vessel, then of each week on the pad
	Samples  []Row     // at the end of each step of the integration
}

// Moment is when something happens, if it does.
type Moment struct {
	OK    bool
	Hours float64 // from the start of the load
}

// Criterion is a requirement and how the load meets it.
type Criterion struct {
	process.Criterion
	Met   Moment
	OnPad bool // met after the load has left the vessel
	// Longest is the longest unbroken time at or above Temperature, h, in the
	// vessel or, if the criterion says so, in vessel and curing.
	Longest float64
	Reached float64 // share of the load that air reaches, of a criterion that asks for it
}

// Segment is a part of the temperature program as it was carried out.
type Segment struct {
	Name     string
	From, To float64 // h from the start of the load
	Setpoint float64 // +Inf for none
}

// Row is the state at one moment.
type Row struct {
	Hours       float64 // from the start of the load
	OnPad       bool
	Segment     string
	Temperature float64
	Moisture    float64
	DryLeft     float64 // of the dry solids loaded, fraction
	Flow        float64 // mean since the row before
	Oxygen      float64 // in the pores, least since the row before
	Uptake      float64 // mg O2 per g of volatile solids and hour
	Water       float64 // evaporated and drained since the start of the load
	Ammonia     float64 // given off since the start of the load
	Blower      float64 // kWh since the start of the load
}

// Stage sums up vessel or pad.
type Stage struct {
	DryIn, DryLoss      float64
	Volatile, Cake      Destruction
	Vapour              float64 // water evaporated, net
	Condensate          float64 // evaporated and run back from lid and walls
	Leachate, Ammonia   float64
	Air                 float64 // m3
	AirMean, AirPeak    float64
	MeanPerDry          float64 // m3/h per t dry at the start of the stage
	PeakPerDry          float64
	Blower              float64 // kWh
	PeakTemperature     float64
	LeastOxygen         float64
	Energy              process.Energy
	EnergyResidual      float64 // of the heat set free
	MassResidual        float64 // largest of total, water, carbon and nitrogen, of what went in
	MassResidualIsWorst string  // which of them
}

// Destruction is the volatile solids that a stage took in and lost: of all its matter,
// or of the cake in it.
type Destruction struct{ In, Lost float64 }

// Biofilter is the bed that the vessels' exhaust would need.
type Biofilter struct {
	Vessels   int     // at the site
	Mean      float64 // flow with all in use
	Staggered float64 // largest flow with all in use and their loads begun at even intervals
	AtOnce    float64 // if every vessel were at its peak
	Loading   float64 // m3/h per m2
	Depth     float64 // m
	Area      float64 // m2, for Staggered
	Residence float64 // s in the empty bed at Staggered
}
