package mixplan

import (
	"time"

	"loamcast/facility/mix"
	"loamcast/scenarios/answer"
)

// Answer is the design for one month, with all that is shown of it.
type Answer struct {
	answer.Basis
	Month time.Month
	// Class is that of the vessel, the first of the file; empty where there is one only.
	Class string

	CakeSolids float64
	WhatIf     bool // CakeSolids was asked for and is not the file's

	Design Batch // the design
	AsRun  Batch // what a run uses: the file's chips-to-cake ratio, or its month's design
	// RunsDesign says that the file leaves the recipe of a run to the designs of its months.
	RunsDesign bool

	Materials  []Material
	Card       []Step     // of one batch
	Properties []Property // targets first to last
	Binding    []mix.Target
	Misses     []mix.Miss // empty if every target is met
	UsedUp     []string   // materials of which there is no more
	// Settled is false if the search came to rest only by damping: the mix is
	// sound, but a cheaper or nearer one may exist.
	Settled bool
	Notes   []Note
	Sweep   []Point // by cake solids; empty unless asked for
}

// Batch is a recipe in a full vessel.
type Batch struct {
	ChipsToCake float64 // loose volumes
	Batches     int     // equal ones, that fill a vessel
	ByPayload   bool    // the truck's payload, not the volume, ends the filling

	Load, LoadVolume       float64 // of the vessel, kg and m3
	Cake, CakeDry          float64 // in it, kg
	CakeVolume             float64 // loose, m3
	FreshVolume            float64 // loose, m3
	RecoveredVolume        float64
	RecoveredShare         float64 // of the chips, by volume
	Moisture, FreeAirSpace float64
	CarbonToNitrogen       float64
	BulkDensity            float64
	Cost, CostPerDry       float64 // USD, and USD per kg of dry cake; 0 unless Priced
	Priced                 bool
	Unmet                  []string // criteria that a load of this mix does not meet
	ScreenedAt, Recovery   float64  // moisture at the screen, and share of the coarse that comes back there
}

// Material is something on hand, as the design met it.
type Material struct {
	Name             string
	Amendment        bool
	Moisture         float64
	CarbonToNitrogen float64
	Nitrogen         float64 // of the dry mass
	BulkDensity      float64 // loose
	Used             float64 // in a vessel load, m3 loose
	Available        float64 // for it, m3 loose; +Inf without limit
}

// Step is one line of the loading card: what to add to a batch, in order, and
// what scale and mixer show then.
type Step struct {
	Name        string
	Loose       float64 // volume to add, m3
	Add         float64 // kg
	Scale       float64 // running reading, kg
	Volume      float64 // in the mixer, m3
	Moisture    float64
	CarbonRatio float64 // C:N
	AirSpace    float64 // free
}

// Property is a quality of the mix against its target.
type Property struct {
	Name   Quality
	Window mix.Window // what is asked; a zero end is not asked
	Design float64
	AsRun  float64
	// Margin is how far the design lies inside the nearer end; negative if
	// outside.
	Margin float64
	Asked  bool
	Binds  bool // the design lies on a bound
}

// Quality names a property of a mix.
type Quality int

// The qualities in the order of Answer.Properties.
const (
	Moisture Quality = iota
	CarbonToNitrogen
	FreeAirSpace
	BulkDensity
	ChipsToCake
)

// Note is a published range that the design leaves.
type Note struct {
	Name   Quality
	Value  float64
	Range  mix.Window
	Source string
}

// Point is the design at another solids content of the cake.
type Point struct {
	CakeSolids float64
	Design     Batch
	Binding    []mix.Target
	Misses     []mix.Miss
	Settled    bool // as in Answer
}
