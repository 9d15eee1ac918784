package mixplan_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"loamcast/facility/mix"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
)

// sampleMix is a design with invented figures.
func sampleMix() *mixplan.Answer {
	batch := func(ratio, moisture, cn float64) mixplan.Batch {
		return mixplan.Batch{
			ChipsToCake: ratio, Batches: 4, ByPayload: true,
			Load: 18100, LoadVolume: 26, Cake: 8400, CakeDry: 1640, CakeVolume: 7.7,
			FreshVolume: 8.1, RecoveredVolume: 9.9, RecoveredShare: 0.55,
			Moisture: moisture, CarbonToNitrogen: cn, FreeAirSpace: 0.4, BulkDensity: 698,
			Priced: true, Cost: 130, CostPerDry: 0.079, ScreenedAt: 0.55, Recovery: 0.64,
		}
	}
	a := &mixplan.Answer{
		Basis: rendertest.Basis().Replicated(0), Month: time.January, CakeSolids: 0.195,
		Design: batch(2.9, 0.65, 23), AsRun: batch(2.5, 0.66, 21.3),
		Materials: []mixplan.Material{
			{Name: "cake", Moisture: 0.805, CarbonToNitrogen: 8.4, Nitrogen: 0.052, BulkDensity: 1090, Used: 7.7, Available: math.Inf(1)},
			{Name: "fresh chips", Moisture: 0.39, CarbonToNitrogen: 363, Nitrogen: 0.0015, BulkDensity: 305, Used: 8.1, Available: math.Inf(1)},
			{Name: "recovered chips", Moisture: 0.57, CarbonToNitrogen: 29, Nitrogen: 0.0171, BulkDensity: 537, Used: 9.9, Available: 9.9},
			{Name: "sawdust", Amendment: true, Moisture: 0.35, CarbonToNitrogen: 272, Nitrogen: 0.002, BulkDensity: 237, Used: 1.5, Available: 2.3},
		},
		Card: []mixplan.Step{
			{Name: "fresh chips", Loose: 2, Add: 620, Scale: 620, Volume: 2, Moisture: 0.39, CarbonRatio: 363, AirSpace: 0.77},
			{Name: "recovered chips", Loose: 2.5, Add: 1330, Scale: 1950, Volume: 4.2, Moisture: 0.51, CarbonRatio: 46, AirSpace: 0.65},
			{Name: "sawdust", Loose: 0.4, Add: 89, Scale: 2039, Volume: 4.3, Moisture: 0.5, CarbonRatio: 48, AirSpace: 0.64},
			{Name: "cake", Loose: 1.9, Add: 2100, Scale: 4139, Volume: 6.5, Moisture: 0.65, CarbonRatio: 23, AirSpace: 0.4},
		},
		Properties: []mixplan.Property{
			{Name: mixplan.Moisture, Window: mix.Window{High: 0.65}, Design: 0.65, AsRun: 0.661, Asked: true, Binds: true},
			{Name: mixplan.CarbonToNitrogen, Window: mix.Window{Low: 20, High: 40}, Design: 22.8, AsRun: 21.3, Margin: 2.8, Asked: true},
			{Name: mixplan.FreeAirSpace, Window: mix.Window{Low: 0.3}, Design: 0.399, AsRun: 0.366, Margin: 0.099, Asked: true},
			{Name: mixplan.BulkDensity, Window: mix.Window{High: 712}, Design: 698, AsRun: 733, Margin: 14, Asked: true},
			{Name: mixplan.ChipsToCake, Design: 2.9, AsRun: 2.5, Margin: math.Inf(1)},
		},
		Binding: []mix.Target{mix.SolidsLow}, UsedUp: []string{"recovered chips"}, Settled: true,
		Notes: []mixplan.Note{{Name: mixplan.FreeAirSpace, Value: 0.399, Range: mix.Window{Low: 0.4}, Source: "a handbook"}},
	}
	a.Sweep = []mixplan.Point{
		{CakeSolids: 0.16, Design: batch(4, 0.67, 26), Binding: []mix.Target{mix.ChipsToCakeHigh},
			Misses: []mix.Miss{{Target: mix.SolidsLow, Required: 0.35, Reached: 0.33}}},
		{CakeSolids: 0.2, Design: batch(2.7, 0.65, 22), Binding: []mix.Target{mix.SolidsLow, mix.BulkDensityHigh}, Settled: true},
	}
	return a
}

// missedMix is a design that meets neither moisture nor the density.
func missedMix() *mixplan.Answer {
	a := sampleMix()
	a.WhatIf, a.CakeSolids, a.Sweep = true, 0.11, nil
	a.Misses = []mix.Miss{
		{Target: mix.SolidsLow, Required: 0.35, Reached: 0.313},
		{Target: mix.BulkDensityHigh, Required: 712, Reached: 731},
	}
	a.Binding, a.UsedUp, a.Settled = []mix.Target{mix.CarbonToNitrogenHigh}, []string{"recovered chips", "sawdust"}, false
	a.Design.Unmet = []string{"pathogen reduction"}
	a.Properties[0].Binds, a.Properties[0].Design, a.Properties[0].Margin = false, 0.687, -0.037
	return a
}

func missedAndSwept() *mixplan.Answer {
	a := missedMix()
	a.Sweep = sampleMix().Sweep
	return a
}

// The design reads as reviewed, met and missed, in both systems of units; no line is
// wider than the screen, and the first words are the answer.
func TestDocumentReads(t *testing.T) {
	for name, c := range map[string]struct {
		a     *mixplan.Answer
		begin string
	}{
		"mix":        {sampleMix(), "Load 2.90 "},
		"mix_missed": {missedMix(), "The targets cannot be met in January, because moisture comes to 68.7 %"},
	} {
		rendertest.Reads(t, name, c.a.Document())
		if text := rendertest.Text(t, c.a.Document(), units.US); !strings.HasPrefix(text, c.begin) {
			t.Errorf("does not begin with %q:\n%.200s", c.begin, text)
		}
	}
}

// The names of the files, of JSON members and CSV columns are part of the output
// format.
func TestDocumentLeaves(t *testing.T) {
	rendertest.Leaves(t, "mix", missedAndSwept().Document())
}

// JSON carries the same numbers as the answer, in the units of its names: a short
// ton is 907.18474 kg (NIST SP 811, from memory). What a file without prices or
// targets does not say is null.
func TestDocumentValues(t *testing.T) {
	a := sampleMix()
	a.AsRun.Priced = false
	var got struct {
		Met        bool
		Headline   string
		Design     map[string]float64
		AsRun      map[string]*float64 `json:"as_run"`
		Card       []map[string]any    `json:"loading_card"`
		Properties []map[string]any
		Sweep      []struct{ Misses []map[string]any }
	}
	if err := json.Unmarshal(rendertest.JSON(t, a.Document(), units.US), &got); err != nil {
		t.Fatal(err)
	}
	if !got.Met || len(got.Card) != 4 || len(got.Sweep) != 2 || len(got.Sweep[0].Misses) != 1 {
		t.Fatalf("%+v", got)
	}
	if v := got.Design["load_wet_short_ton"]; math.Abs(v-18100/907.18474) > 1e-4 {
		t.Errorf("load %v short tons", v)
	}
	if got.Design["cost_usd"] != 130 || got.AsRun["cost_usd"] != nil {
		t.Errorf("cost %v with prices, %v without", got.Design["cost_usd"], got.AsRun["cost_usd"])
	}
	if p := got.Properties[0]; p["at_least_percent"] != nil || p["at_most_percent"] != 65.0 {
		t.Errorf("moisture asked for: %v", p)
	}
	if got.Headline != a.Headline().Plain(units.US) {
		t.Errorf("headline %q", got.Headline)
	}
}

// What was decided reads the same on the screen, in JSON and in CSV: what is
// missed, what binds, what stands in the way, whether the file's ratio is the
// design's, and what other cake would hang on.
func TestDecisionsAreTheSameEverywhere(t *testing.T) {
	without := missedMix()
	without.Design.ChipsToCake = 0.001
	same := missedAndSwept()
	same.Misses, same.Settled, same.AsRun.ChipsToCake = nil, true, 2.86
	designed := missedAndSwept()
	designed.AsRun.ChipsToCake, designed.RunsDesign = 2.86, true
	for name, c := range map[string]struct {
		a                 *mixplan.Answer
		screen, json, csv []string
	}{
		"missed": {missedAndSwept(),
			[]string{"The targets cannot be met", "and the sawdust on hand", "misses by 3.7 points", "misses moisture (approximate)", "moisture and bulk density", "did not come to rest", "and not 2.90"},
			[]string{`"met":false,`, `"settled":false,`, `"no_chips":false,`, `"ratio_is_the_files":false`, `"binding":["highest C:N"]`, `"held_back_by":["sawdust"]`, `"standing":"missed"`, `"standing":"not asked"`},
			[]string{",highest chips-to-cake ratio,false,false\n", ",lowest solids content; highest bulk density,true,true\n"}},
		"met": {same,
			[]string{"Load 2.90 ", "What decides it: C:N of at most 40.0.", "The file's fixed ratio, 2.86, which `run` uses, is this one."},
			[]string{`"met":true,`, `"settled":true,`, `"ratio_is_the_files":true`}, nil},
		"designed": {designed,
			[]string{"The ratio designed for the file's cake in January, 2.86, which `run` uses, is this one."}, nil, nil},
		"without chips": {without,
			[]string{"The nearest mix is 0.19 yd3 of sawdust for each yd3 of cake, without chips: ", "Chips as the file has them do not help"},
			[]string{`"no_chips":true,`}, nil},
	} {
		d := c.a.Document()
		files, err := render.CSV(d, units.US)
		if err != nil {
			t.Fatal(err)
		}
		csv := ""
		for _, f := range files {
			csv += string(f.Data)
		}
		screen := strings.ReplaceAll(rendertest.Text(t, d, units.US), "\n  ", " ")
		for text, all := range map[string][]string{screen: c.screen, string(rendertest.JSON(t, d, units.US)): c.json, csv: c.csv} {
			for _, want := range all {
				if !strings.Contains(text, want) {
					t.Errorf("%s: %q is not in\n%s", name, want, text)
				}
			}
		}
	}
}
