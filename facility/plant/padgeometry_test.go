package plant

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// What a pad holds is the geometry of trapezoids and triangles, worked out by
// hand (derived).
func TestPadVolume(t *testing.T) {
	for _, c := range []struct {
		name         string
		pile         Windrow
		area         float64
		cross, holds float64
	}{
		{"triangle", Windrow{Height: 2, Width: 4, Aisle: 4}, 800, 4, 400},
		{"trapezoid", Windrow{Height: 2, Width: 6, Top: 2, Aisle: 2}, 800, 8, 800},
		{"walls on both sides", Windrow{Height: 3, Width: 5, Top: 5}, 100, 15, 300},
		// 8 ft high, 20 ft wide, sides of 45°: a top of 4 ft and 96 ft2; with
		// aisles of 12 ft, 8,000 ft2 make 250 ft of pile and hold 24,000 ft3.
		{"feet", Windrow{Height: 8, Width: 20, Top: TopAtRepose(8, 20, ReposeAngle), Aisle: 12}, 8000, 96, 24000},
	} {
		if got := c.pile.CrossSection(); math.Abs(got-c.cross) > 1e-9*c.cross {
			t.Errorf("%s: cross-section %g, want %g", c.name, got, c.cross)
		}
		if got := c.pile.PadVolume(c.area); math.Abs(got-c.holds) > 1e-9*c.holds {
			t.Errorf("%s: holds %g, want %g", c.name, got, c.holds)
		}
	}
}

// The flat top follows from the slope of the sides: tan 45° = 1, tan 30° = 1/√3
// and tan 60° = √3.
func TestTopAtRepose(t *testing.T) {
	for _, c := range []struct{ height, width, angle, top float64 }{
		{2, 6, 45, 2},
		{3, 6, 45, 0},
		{4, 6, 45, -2},
		{1, 6, 30, 6 - 2*math.Sqrt(3)},
		{math.Sqrt(3), 6, 60, 4},
	} {
		if got := TopAtRepose(c.height, c.width, c.angle); math.Abs(got-c.top) > 1e-9 {
			t.Errorf("%g high, %g wide at %g°: top %g, want %g", c.height, c.width, c.angle, got, c.top)
		}
	}
}

// A pad never holds more than its area heaped to the pile's height, holds less
// with wider aisles, and twice as much on twice the area.
func TestPadVolumeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.Float64Range(1, 50).Draw(t, "width")
		p := Windrow{
			Height: rapid.Float64Range(0.5, 8).Draw(t, "height"),
			Width:  width,
			Top:    rapid.Float64Range(0, 1).Draw(t, "share of top") * width,
			Aisle:  rapid.Float64Range(0, 20).Draw(t, "aisle"),
		}
		area := rapid.Float64Range(10, 1e5).Draw(t, "area")
		holds := p.PadVolume(area)
		if !(holds > 0 && holds <= area*p.Height*(1+1e-12)) {
			t.Fatalf("%g m2 heaped %g m high hold %g m3", area, p.Height, holds)
		}
		wider := p
		wider.Aisle++
		if !(wider.PadVolume(area) < holds) {
			t.Fatal("a wider aisle costs nothing")
		}
		if twice := p.PadVolume(2 * area); math.Abs(twice-2*holds) > 1e-9*holds {
			t.Fatalf("twice the area holds %g, not twice %g", twice, holds)
		}
	})
}
