package main

import "testing"

// smallOpening is what small.yaml may have on its first day.
const smallOpening = `opening:
  holding: {cake_dry: 1 t, oldest: 1 day}
  vessels:
    - {loaded: 2026-12-28}
  pad:
    - {tipped: 2026-12-20, volume: 10 m3, moisture: 50 %}
    - {tipped: 2026-12-24, wet_mass: 5 t}
  chips: {fresh: 20 m3, recovered: 5 m3}
  product: 4 m3
`

// malformedOpenings are spoilt openings.
var malformedOpenings = []spoilt{
	{"opening of nothing", []string{smallOpening, "opening: {}\n"}},
	{"opening with a warm-up", []string{"warm_up: 0 year", "warm_up: 1 year"}},
	{"opening with a warm-up to be found", []string{"warm_up: 0 year", "warm_up: detected"}},
	{"opening product without a unit", []string{"  product: 4 m3\n", "  product: 4\n"}},
	{"opening moisture as a number", []string{"moisture: 50 %}", "moisture: 50}"}},
	{"opening load after the start", []string{"loaded: 2026-12-28", "loaded: 2027-01-02"}},
	{"opening load of long ago", []string{"loaded: 2026-12-28", "loaded: 2026-12-01"}},
	{"opening load beyond a vessel", []string{"{loaded: 2026-12-28}", "{loaded: 2026-12-28, cake_dry: 9 t}"}},
	{"opening pile after the start", []string{"tipped: 2026-12-24", "tipped: 2027-01-24"}},
	{"opening pile of the year 207", []string{"tipped: 2026-12-24", "tipped: 0207-12-24"}},
	{"opening pile of years ago", []string{"tipped: 2026-12-24", "tipped: 2006-12-24"}},
	{"opening pile beyond the pad", []string{"wet_mass: 5 t", "wet_mass: 50 t"}},
	{"opening pile measured twice", []string{"wet_mass: 5 t", "wet_mass: 5 t, volume: 10 m3"}},
	{"opening pile without a measure", []string{", wet_mass: 5 t", ""}},
	{"opening vessels beyond those installed", []string{"    - {loaded: 2026-12-28}\n", "    - {loaded: 2026-12-28}\n    - {loaded: 2026-12-29}\n"}},
	{"opening vessels in use beyond those installed", []string{"  vessels:\n    - {loaded: 2026-12-28}\n", "  vessels_in_use: 2\n"}},
	{"opening vessels listed and counted", []string{"  product: 4 m3\n", "  product: 4 m3\n  vessels_in_use: 1\n"}},
	{"opening cake beyond the holding", []string{"cake_dry: 1 t", "cake_dry: 3 t"}},
	{"opening chips beyond the store", []string{"fresh: 20 m3", "fresh: 200 m3"}},
	{"opening product beyond the store", []string{"product: 4 m3", "product: 40 m3"}},
	{"opening chips that the screen keeps", []string{"recovery: 80 %", "recovery: 0 %"}},
	{"opening key unknown", []string{"  product: 4 m3\n", "  produkt: 4 m3\n"}},
}

// Mistakes in what is there on the first day are refused as all others are.
func TestMalformedOpenings(t *testing.T) {
	refuseAllIn(t, readSmall(t)+"\n"+smallOpening, malformedOpenings)
}
