package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"loamcast/facility/mix"
	"loamcast/scenarios/mixplan"
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
		Facility: "Fennick Valley compost plant", Source: "built-in example fennick-valley", Invented: true,
		Version: "0", Month: time.January, CakeSolids: 0.195,
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

func mixText1(t *testing.T, a *mixplan.Answer, sys units.System) string {
	t.Helper()
	var b bytes.Buffer
	if err := MixTerminal(&b, a, sys); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The design reads as reviewed, met and missed, in both systems of units.
func TestMixGolden(t *testing.T) {
	for _, sys := range systems {
		golden(t, "mix_"+sys.String()+".txt", []byte(mixText1(t, sampleMix(), sys)))
		golden(t, "mix_missed_"+sys.String()+".txt", []byte(mixText1(t, missedMix(), sys)))
	}
}

// No line is wider than the screen, and the first words are the answer.
func TestMixFits(t *testing.T) {
	for _, sys := range systems {
		for _, a := range []*mixplan.Answer{sampleMix(), missedMix()} {
			text := mixText1(t, a, sys)
			for _, line := range strings.Split(text, "\n") {
				if n := utf8.RuneCountInString(line); n > screenColumns {
					t.Errorf("%d columns: %q", n, line)
				}
			}
			begin := "Load 2.90 "
			if !a.Met() {
				begin = "The targets cannot be met in January, because moisture comes to 68.7 %"
			}
			if !strings.HasPrefix(text, begin) {
				t.Errorf("does not begin with %q:\n%.200s", begin, text)
			}
		}
	}
}

// The names of the JSON fields and CSV columns are part of the output format.
func TestMixFilesGolden(t *testing.T) {
	for _, sys := range systems {
		golden(t, "mix_files_"+sys.String()+".txt", fileNames(t, func() ([]File, error) { return MixFiles(missedAndSwept(), sys) }))
	}
}

func missedAndSwept() *mixplan.Answer {
	a := missedMix()
	a.Sweep = sampleMix().Sweep
	return a
}

// fileNames lists the files, with the columns of tables and the fields of JSON.
func fileNames(t *testing.T, make func() ([]File, error)) []byte {
	t.Helper()
	files, err := make()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, f := range files {
		b.WriteString(f.Name + "\n")
		switch {
		case strings.HasSuffix(f.Name, ".csv"):
			header, _, _ := strings.Cut(string(f.Data), "\n")
			b.WriteString("  " + strings.ReplaceAll(header, ",", "\n  ") + "\n")
		case strings.HasSuffix(f.Name, ".json"):
			b.WriteString("  " + strings.ReplaceAll(strings.TrimSpace(keyPaths(t, bytes.NewReader(f.Data))), "\n", "\n  ") + "\n")
		}
	}
	return []byte(b.String())
}

// JSON carries the same numbers as the answer, in the units of its names.
func TestMixJSONValues(t *testing.T) {
	var b bytes.Buffer
	if err := MixJSON(&b, sampleMix(), units.US); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Met      bool
		Headline string
		Design   map[string]float64
		Card     []map[string]any `json:"loading_card"`
		Sweep    []struct{ Misses []map[string]any }
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if !got.Met || len(got.Card) != 4 || len(got.Sweep) != 2 || len(got.Sweep[0].Misses) != 1 {
		t.Fatalf("%+v", got)
	}
	if v := got.Design["load_wet_short_ton"]; math.Abs(v-18100/907.18474) > 1e-4 {
		t.Errorf("load %v short tons", v)
	}
	if !strings.HasPrefix(mixText1(t, sampleMix(), units.US), got.Headline[:40]) {
		t.Errorf("headline %q", got.Headline)
	}
}
