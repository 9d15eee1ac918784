package simulate_test

import "loamcast/facility/plant"

// What the keys of drying move, and the small file with drying on the pad and in the
// vessel; there all criteria are then met in the vessel.
var (
	keptDry   = total("room for lots that get dry", func(m *plant.Month) float64 { return m.Drying.Room })
	daysDried = total("days of drying in vessels", func(m *plant.Month) float64 { return m.Drying.Days })

	driesFirst    = []string{"moisture_limit: 46 %", "moisture_limit: 46 %\n  wet_lots: dry first"}
	driesInVessel = []string{
		"mean_above: 45 °C, for: 10 day", "mean_above: 45 °C, for: 5 day",
		"  wall_loss: 25 W/K\n", "  wall_loss: 25 W/K\n  drying: {air: 60 m3/t·h, until: 52 %, longest: 6 day}\n",
	}
)
