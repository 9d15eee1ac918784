package simulate_test

import "testing"

const (
	inVessels = "  vessels:\n    - {loaded: 2026-12-26, cake_dry: 1 t}\n"
	firstDay  = `
opening:
  holding: {cake_dry: 1 t, oldest: 1 day}
` + inVessels + `  pad:
    - {tipped: 2026-12-20, volume: 10 m3, moisture: 48 %, temperature: 40 °C}
    - {tipped: 2026-12-24, wet_mass: 5 t}
  chips: {fresh: 20 m3, recovered: 5 m3}
  product: 4 m3
`
)

// openings are the keys of what is there on the first day.
var openings = []option{
	{key: "opening.holding.cake_dry", old: "{cake_dry: 1 t, oldest", new: "{cake_dry: 0.5 t, oldest"},
	{key: "opening.holding.oldest", old: "oldest: 1 day", new: "oldest: 30 day"},
	{key: "opening.vessels.loaded", old: "loaded: 2026-12-26", new: "loaded: 2026-12-22"},
	{key: "opening.vessels.cake_dry", old: "26, cake_dry: 1 t", new: "26, cake_dry: 0.8 t"},
	{key: "opening.vessels_in_use", base: []string{inVessels, "  vessels_in_use: 1\n"}, old: "vessels_in_use: 1", new: "vessels_in_use: 0"},
	{key: "opening.pad.tipped", old: "tipped: 2026-12-20", new: "tipped: 2026-12-12"},
	{key: "opening.pad.volume", old: "volume: 10 m3", new: "volume: 9 m3"},
	{key: "opening.pad.wet_mass", old: "wet_mass: 5 t", new: "wet_mass: 4 t"},
	{key: "opening.pad.moisture", old: "moisture: 48 %", new: "moisture: 58 %"},
	{key: "opening.pad.temperature", old: "temperature: 40 °C", new: "temperature: 60 °C"},
	{key: "opening.chips.fresh", old: "fresh: 20 m3", new: "fresh: 2 m3"},
	{key: "opening.chips.recovered", old: "recovered: 5 m3", new: "recovered: 15 m3"},
	{key: "opening.product", old: "product: 4 m3", new: "product: 8 m3"},
}

// Every key of what is there on the first day moves what is simulated.
func TestEveryOpeningMatters(t *testing.T) { everyOptionMatters(t, readSmall(t)+firstDay, openings) }
