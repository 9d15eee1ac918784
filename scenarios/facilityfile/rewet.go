package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// tooDry is where decay falls strongly.
var tooDry = &Usual{0.35, 0.55, "below 35 to 40 % moisture the rate falls strongly, below 30 % it nearly stops, Cornell composting science pages, read"}

var rewetRows = []row[plant.Rewet]{
	{Key{Path: "below", Words: "moisture under which a lot gets water", Dimension: units.Fraction, Low: 0.05, High: 0.8, Usual: tooDry, Example: "42 %"},
		number(func(w *plant.Rewet) *float64 { return &w.Below })},
	{Key{Path: "up_to", Words: "moisture that it is brought to", Dimension: units.Fraction, Low: 0.05, High: 0.8,
		Usual: &Usual{0.40, 0.60, "40 to 65 %, preferably 50 to 55 %, LSU AgCenter 3838-D, read"}, Example: "50 %"},
		number(func(w *plant.Rewet) *float64 { return &w.UpTo })},
}

// rewet reads how dry lots get water when they are put up to cure.
func (r *reader) rewet(c, w *yamlfile.Map) {
	if !w.Present() {
		return
	}
	out := &r.m.Curing.Rewet
	read(w, rewetRows, out)
	if c.Good("time") && r.m.Curing.Time == 0 {
		c.Error("rewet", "nothing cures on this pad, and lots would go to the screen wet", "remove rewet, or lengthen time")
		return
	}
	if w.Good("below", "up_to") && out.UpTo < out.Below {
		w.Error("up_to", "less than the moisture below which water is added", "write at least "+units.Format(out.Below, units.Fraction, r.units))
	}
}
