package facilityfile

import (
	"fmt"
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

func (r *reader) curing() {
	c := r.group("curing")
	time := c.Quantity("time", units.Duration, yamlfile.Between(hour, 3*secondsPerYear),
		yamlfile.Usually(21*24*hour, 180*24*hour, "a month or more, common practice, no source"))
	longest := c.QuantityOr("longest_time", units.Duration, 2*time, yamlfile.Between(hour, 6*secondsPerYear))
	if c.Good("time", "longest_time") && longest < time {
		c.Error("longest_time", "shorter than the curing time", "write at least "+units.Format(time, units.Duration, r.units)+", or shorten time")
	}
	r.curingAir(c.MapIf("aeration"))
	r.m.Curing = plant.Curing{
		Capacity:    r.pad(c),
		Time:        duration(time),
		Longest:     duration(longest),
		ReadilyLeft: c.QuantityOr("readily_left", units.Fraction, 1, yamlfile.Positive(), yamlfile.AtMost(1)),
	}
}

// pad reads what the curing pad holds, m3: as a volume, or as its area and the
// piles that stand on it.
func (r *reader) pad(c *yamlfile.Map) float64 {
	byArea, piles := c.Has("pad_area"), c.MapIf("pile")
	if !byArea && !piles.Present() {
		return c.Quantity("pad", units.Volume, yamlfile.Positive())
	}
	pile, good := r.pile(piles) // even where it is out of place, so that its keys are known
	switch {
	case byArea && c.Has("pad"):
		c.Error("pad_area", "the pad is given already, by its volume", "keep one of pad and pad_area")
		return 0
	case !byArea && c.Has("pad"):
		c.Error("pile", "piles need the area that they stand on", "write pad_area instead of pad, or remove pile")
		return 0
	case byArea && !piles.Present() && c.Good("pile"):
		c.Error("pad_area", "what an area holds depends on the piles", "add a line such as pile: {height: 8 ft, width: 20 ft, aisle: 12 ft}")
		return 0
	}
	area := c.Quantity("pad_area", units.Area, yamlfile.Between(1, 1e6))
	if !good || !c.Good("pad_area") {
		return 0
	}
	return pile.PadVolume(area)
}

// The largest piles of chips and compost that a fire code allows, for fear of
// self-heating, m.
const (
	highestPile, widestPile = 7.6, 45.7
	fireCode                = "piles at most 7.6 m high and 45.7 m wide, they heat themselves, IFC 2808.3, read"
)

// pile reads the cross-section of the piles on the pad.
func (r *reader) pile(m *yamlfile.Map) (w plant.Windrow, good bool) {
	w.Height = m.Quantity("height", units.Length, yamlfile.Between(0.1, 30), yamlfile.Usually(0, highestPile, fireCode))
	w.Width = m.Quantity("width", units.Length, yamlfile.Between(0.1, 200), yamlfile.Usually(0, widestPile, fireCode))
	w.Aisle = m.Quantity("aisle", units.Length, yamlfile.Between(0, 100))
	top := plant.TopAtRepose(w.Height, w.Width, plant.ReposeAngle)
	w.Top = m.QuantityOr("top_width", units.Length, math.Max(0, top), yamlfile.NonNegative())
	switch {
	case !m.Present() || !m.Good("height", "width", "aisle", "top_width"):
		return w, false
	case w.Top > w.Width:
		m.Error("top_width", "wider than the pile is at its foot", "write at most "+units.Format(w.Width, units.Length, r.units))
	case top < 0 && !m.Has("top_width"):
		highest := w.Width / 2 * math.Tan(plant.ReposeAngle*math.Pi/180)
		m.Error("height", fmt.Sprintf("with sides of %d° a pile of this width is at most %s high", plant.ReposeAngle, units.Format(highest, units.Length, r.units)),
			"lower it, or give top_width if the sides stand steeper")
	}
	return w, m.Good("height", "top_width")
}
