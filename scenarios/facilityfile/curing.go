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
	out := &r.m.Curing
	read(c, curingTimeRows, out)
	out.Longest = 2 * out.Time
	read(c, curingRows, out)
	if c.Good("time", "longest_time") && out.Longest < out.Time {
		c.Error("longest_time", "shorter than the curing time", "write at least "+units.Format(float64(out.Time), units.Duration, r.units)+", or shorten time")
	}
	r.curingAir(c.MapIf("aeration"))
	r.rewet(c, c.MapIf("rewet"))
	r.handling(c)
	r.pad(c)
}

// pad reads what the curing pad holds: as a volume, or as its area and the piles
// that stand on it.
func (r *reader) pad(c *yamlfile.Map) {
	out := &r.m.Curing
	byArea, piles := c.Has("pad_area"), c.MapIf("pile")
	if !byArea && !piles.Present() {
		read(c, padRows, out)
		return
	}
	pile, good := r.pile(piles) // even where it is out of place, so that its keys are known
	switch {
	case byArea && c.Has("pad"):
		c.Error("pad_area", "the pad is given already, by its volume", "keep one of pad and pad_area")
		return
	case !byArea && c.Has("pad"):
		c.Error("pile", "piles need the area that they stand on", "write pad_area instead of pad, or remove pile")
		return
	case byArea && !piles.Present() && c.Good("pile"):
		c.Error("pad_area", "what an area holds depends on the piles", "add a line such as pile: {height: 8 ft, width: 20 ft, aisle: 12 ft}")
		return
	}
	area := c.Quantity(padArea.Path, padArea.Dimension, padArea.checks()...)
	if good && c.Good("pad_area") {
		out.Capacity = pile.PadVolume(area)
	}
}

// pile reads the cross-section of the piles on the pad.
func (r *reader) pile(m *yamlfile.Map) (w plant.Windrow, good bool) {
	read(m, pileRows, &w)
	top := plant.TopAtRepose(w.Height, w.Width, plant.ReposeAngle)
	w.Top = math.Max(0, top)
	read(m, pileTopRows, &w)
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
