package plant

import "math"

// Windrow is the cross-section of a long curing pile: a trapezoid, or a triangle
// when it has no flat top. All in m.
type Windrow struct {
	Height float64
	Width  float64 // at the base
	Top    float64 // width of the flat top
	Aisle  float64 // between one pile and the next
}

// ReposeAngle is the slope, in degrees, at which the sides of a pile of mix or
// compost are taken to stand when nothing else is said; common practice, no
// source.
const ReposeAngle = 45

// TopAtRepose returns the width of the flat top of a pile whose sides stand at
// an angle, in degrees from the level:
//
//	top = width − 2·height / tan(angle)
//
// It is negative when a pile of that width cannot be so high.
func TopAtRepose(height, width, angle float64) float64 {
	return width - 2*height/math.Tan(angle*math.Pi/180)
}

// CrossSection returns the area of the cross-section, m2: that of a trapezoid,
// height·(width + top)/2.
func (w Windrow) CrossSection() float64 { return w.Height * (w.Width + w.Top) / 2 }

// PadVolume returns what a pad of an area, m2, holds in piles side by side, m3.
// Every pile covers its width and one aisle, so that
//
//	volume = area · cross-section / (width + aisle)
//
// (derived). The sloping ends of the piles are counted as full: the area is what
// piles and the aisles between them cover, without roads and margins.
func (w Windrow) PadVolume(area float64) float64 {
	return area * w.CrossSection() / (w.Width + w.Aisle)
}
