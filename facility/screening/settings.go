package screening

import (
	"errors"
	"fmt"
	"math"
)

// Settings describe a screen and how it works on wet material. Above the
// moisture limit particles stick together: less of the coarse matter is
// recovered, it takes more fine matter along, and the screen is slower.
type Settings struct {
	Opening       float64 // m; for the record, see DefaultSettings
	Recovery      float64 // coarse dry matter kept in the overs, up to the limit
	MoistureLimit float64
	RecoveryFall  float64 // share of Recovery lost per unit of moisture above the limit
	CarryOver     float64 // kg dry fine in the overs per kg dry coarse in them, up to the limit
	CarryOverRise float64 // growth of CarryOver, as a share, per unit of moisture above the limit
	Rejects       float64 // share of the overs that is thrown out
	Attrition     float64 // share of the coarse dry matter worn to fine per cycle
	// MoistureSplit is the water per kg dry coarse over the water per kg dry
	// fine matter.
	MoistureSplit  float64
	Capacity       float64 // of feed, up to the limit, m3/h
	CapacityImpact float64 // slowing: the capacity is divided by 1 + this × moisture above the limit
}

// Openings for which DefaultSettings is meant, m.
const (
	SmallestOpening = 0.006
	LargestOpening  = 0.013
)

// DefaultSettings returns what may be expected of a screen with the given
// opening, m. Recovery of 65–85 % of the coarse matter with openings of
// 6–13 mm, and a moisture limit of 45–50 %, are from memory and common
// practice, no source; that the small opening recovers most follows from
// geometry, the straight line between is an assumption, and openings beyond
// take the value of the nearer end. The other values are assumptions to be
// replaced by a plant's own.
func DefaultSettings(opening float64) Settings {
	part := (opening - SmallestOpening) / (LargestOpening - SmallestOpening)
	return Settings{
		Opening:        opening,
		Recovery:       0.85 - 0.20*min(max(part, 0), 1),
		MoistureLimit:  0.50,
		RecoveryFall:   4,
		CarryOver:      0.25,
		CarryOverRise:  10,
		Rejects:        0.02,
		Attrition:      0.05,
		MoistureSplit:  1,
		Capacity:       60,
		CapacityImpact: 10,
	}
}

// Default returns the settings of a screen in the middle of those openings.
func Default() Settings { return DefaultSettings((SmallestOpening + LargestOpening) / 2) }

// Validate returns every reason why the settings make no sense, joined.
func (s Settings) Validate() error {
	var errs []error
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"recovery", s.Recovery}, {"moisture limit", s.MoistureLimit},
		{"rejects", s.Rejects}, {"attrition", s.Attrition},
	} {
		if !(f.value >= 0 && f.value <= 1) {
			errs = append(errs, fmt.Errorf("screen: %s %.4g %% is not between 0 and 100 %%", f.name, 100*f.value))
		}
	}
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"fall of recovery with moisture", s.RecoveryFall}, {"carry-over", s.CarryOver},
		{"rise of carry-over with moisture", s.CarryOverRise}, {"impact of moisture on capacity", s.CapacityImpact},
	} {
		if !(f.value >= 0) || math.IsInf(f.value, 0) {
			errs = append(errs, fmt.Errorf("screen: %s %g must be finite and not negative", f.name, f.value))
		}
	}
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"opening", s.Opening}, {"moisture split", s.MoistureSplit}, {"capacity", s.Capacity},
	} {
		if !(f.value > 0) || math.IsInf(f.value, 0) {
			errs = append(errs, fmt.Errorf("screen: %s %g must be finite and positive", f.name, f.value))
		}
	}
	return errors.Join(errs...)
}

// excess is the moisture above the limit.
func (s Settings) excess(moisture float64) float64 { return max(0, moisture-s.MoistureLimit) }

// RecoveryAt returns the share of the coarse dry matter kept in the overs.
func (s Settings) RecoveryAt(moisture float64) float64 {
	return s.Recovery * max(0, 1-s.RecoveryFall*s.excess(moisture))
}

// CarryOverAt returns kg of dry fine matter in the overs per kg of dry coarse.
func (s Settings) CarryOverAt(moisture float64) float64 {
	return s.CarryOver * (1 + s.CarryOverRise*s.excess(moisture))
}

// Throughput returns the capacity for feed of the given moisture, m3/h.
func (s Settings) Throughput(moisture float64) float64 {
	return s.Capacity / (1 + s.CapacityImpact*s.excess(moisture))
}
