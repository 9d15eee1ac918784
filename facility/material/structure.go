package material

import (
	"errors"
	"math"
)

// Structure is how a heap holds air between its particles. Chips count as what
// they look like from outside: the pores in them are no way for air.
//
// A heap settles under its own weight towards the state in which its chips touch
// and fine matter is pressed into their voids. Air that the touching chips keep
// open gives way as the skeleton does; the rest, between crumbs and where fine
// matter pushes chips apart, as wet fine matter does. Under a pressure σ each
// falls by exp(−σ/stiffness), so that the mean over a heap is
//
//	air = kept·m(ρ·g·H/Skeleton) + (loose − kept)·m(ρ·g·H/Fines),   m(x) = (1 − exp(−x))/x
//
// with ρ the wet bulk density and loose the air of the mix as it is filled. What
// touching chips keep open is their voids V less the fine matter and its water S,
// or nothing, rounded off where the one passes into the other:
//
//	kept² − (V − S)·kept − rounding·V·S = 0
type Structure struct {
	Between bool // count the air between particles only
	// Depth is the height of the heap when it is filled, m; 0 for one that does
	// not settle. A part-filled one is taken to be as deep: that warns sooner.
	Depth float64
	// Skeleton and Fines are the pressures, Pa, at which the air of touching chips
	// and that of fine matter have fallen to 1/e.
	Skeleton, Fines float64
}

// Stiffnesses that reproduce published free air (assumptions, fitted): 20 % at
// 1 volume of cake of 20–22 % solids to 2.5 of chips, measured with compaction
// (Eftoda & McCartney 2004, abstract, read), in a heap of DefaultDepth. They are
// of the order of a heap's own weight: a metre of such a mix presses with 6 kPa.
const (
	DefaultSkeleton = 1.2 * MetreOfWater // Pa
	DefaultFines    = 0.3 * MetreOfWater // Pa
	DefaultDepth    = 2.3                // m, of the built-in vessel
)

const gravity = 9.81 // m/s2

// MetreOfWater is the pressure under a metre of water, Pa.
const MetreOfWater = gravity * waterDensity

// DefaultStructure is the structure of a heap of some depth, m.
func DefaultStructure(depth float64) Structure {
	return Structure{Between: true, Depth: depth, Skeleton: DefaultSkeleton, Fines: DefaultFines}
}

// Validate reports what makes the structure impossible.
func (s Structure) Validate() error {
	switch {
	case !(s.Depth >= 0) || math.IsInf(s.Depth, 0):
		return errors.New("structure: a heap must have a finite depth")
	case s.Depth > 0 && !(s.Skeleton > 0 && s.Fines > 0):
		return errors.New("structure: what settles needs a stiffness of chips and of fine matter")
	case s.Depth > 0 && !s.Between:
		return errors.New("structure: settling is reckoned for the air between particles only")
	}
	return nil
}

// rounding is the share of the voids that stays open where fine matter could just
// fill them, squared: 7 %. It keeps free air smooth in the masses.
const rounding = 0.005

// heap is a parcel by volumes, m3.
type heap struct {
	coarse  float64 // of the chips, with the voids between them
	voids   float64 // between them
	fine    float64 // of the fine matter, with the air between its crumbs
	solid   float64 // of the fine matter and the water that chips do not hold
	filling float64 // of the fine matter, that takes no room as it lies in voids
}

func (h *heap) volume() float64 { return h.coarse + h.fine - h.filling }

// particles is what is not free air.
func (h *heap) particles() float64 { return h.coarse - h.voids + h.solid }

// heapOf returns the heap of p.
func (b *Bulk) heapOf(p *Parcel) heap {
	m := p.Matter()
	coarse := m.Coarse / b.CoarseDry
	solid, porosity := b.fineParts(m)
	h := heap{coarse: coarse, voids: b.CoarseVoids * coarse, fine: solid / (1 - porosity), solid: solid}
	h.filling = b.Filling * min(h.fine, h.voids)
	return h
}

// air is the free air of a heap of wet mass kg, settled, m3.
func (s *Structure) air(h *heap, wet float64) float64 {
	volume := h.volume()
	loose := volume - h.particles()
	if s.Depth == 0 || volume <= 0 {
		return loose
	}
	pressure := wet / volume * gravity * s.Depth
	excess := h.voids - h.solid
	kept := (excess + math.Sqrt(excess*excess+4*rounding*h.voids*h.solid)) / 2
	return kept*meanOfDecay(pressure/s.Skeleton) + (loose-kept)*meanOfDecay(pressure/s.Fines)
}

// meanOfDecay is the mean of exp(−t) from 0 to x.
func meanOfDecay(x float64) float64 {
	if x < 1e-9 {
		return 1 - x/2
	}
	return -math.Expm1(-x) / x
}

func (b *Bulk) betweenParticles(p *Parcel) float64 {
	h := b.heapOf(p)
	air, particles := b.Structure.air(&h, p.Total()), h.particles()
	return max(0, ratio(air, air+particles))
}

// Air returns the free air of p between its particles, settled, and what is not
// free air, m3.
func (b *Bulk) Air(p Parcel) (air, particles float64) {
	h := b.heapOf(&p)
	return b.Structure.air(&h, p.Total()), h.particles()
}

// AirOnBranch is Air by the formulas that hold on br, extended beyond it. Both
// grow in proportion to p.
func (b *Bulk) AirOnBranch(p Parcel, br Branch) (air, particles float64) {
	h, _ := b.heapOn(&p, br)
	return b.Structure.air(&h, p.Total()), h.particles()
}
