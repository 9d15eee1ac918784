package filetest

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"strings"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/yamlfile/edit"
	"loamcast/sim/random"
)

// runs is how many plants TestChangedPlantsRun simulates, and longest for how long
// each at most.
var (
	runs    = flag.Int("runs", 6, "changed plants that are simulated")
	longest = flag.Duration("longest", 5*time.Minute, "time that one of them may take")
	first   = flag.Uint64("first", 0, "seed of the first of them")
	bounds  = flag.Bool("bounds", false, "simulate every plant with a key at its bound")
)

// A plant of which keys were changed within their bounds runs: no panic, masses are
// conserved, and everything recorded is a number.
func TestChangedPlantsRun(t *testing.T) {
	if testing.Short() {
		*runs = min(*runs, 2)
	}
	names := examples.Names()
	for i := range *runs {
		seed := *first + uint64(i)
		name := names[seed%uint64(len(names))]
		text, err := Short(string(examples.Data(name)))
		if err != nil {
			t.Fatal(err)
		}
		_, done, f, err := Valid(text, seed)
		if err != nil {
			t.Fatal(err)
		}
		began := time.Now()
		if err := simulated(t.Context(), f.Model); err != nil {
			t.Errorf("seed %d of %s: %s: %v", seed, name, strings.Join(done, "; "), err)
		}
		if took := time.Since(began); took > *longest/10 {
			t.Logf("seed %d of %s: %s: %v", seed, name, strings.Join(done, "; "), took)
		}
	}
}

// simulated runs a plant once.
func simulated(ctx context.Context, m plant.Model) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("panic: %v", r)
		}
	}()
	ctx, cancel := context.WithTimeout(ctx, *longest)
	defer cancel()
	p, err := plant.New(m)
	if err != nil {
		return err
	}
	record, err := p.Run(ctx, random.Key{Seed: 1})
	if err != nil {
		return err
	}
	if !(record.Worst <= material.Tolerance) {
		return fmt.Errorf("residual %g of throughput at %s", record.Worst, record.WorstAt)
	}
	_, err = json.Marshal(record.Months) // refuses what is no number
	return err
}

// A plant runs with any of its keys at either of its bounds, where the reader takes
// that. It takes some ten minutes, and is left out without -bounds; a few keys of
// which too small or too large a value broke a run are tried always.
func TestPlantsAtTheBoundsRun(t *testing.T) {
	once := map[string]bool{"mix.batch_volume": true, "mix.batch_scale": true, "aeration.wall_loss": true}
	sound := []string{readFile(t, "small.yaml"), readFile(t, "yard.yaml"), string(examples.Data(examples.Demo))}
	if *bounds { // those that have every key
		sound = append(sound, soundTexts(t)...)
	}
	var texts []string
	for _, text := range sound {
		short, err := Short(text)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, short)
	}
	ran := 0
	for _, k := range facilityfile.Keys() {
		number := k.Kind == facilityfile.Quantity || k.Kind == facilityfile.Months || k.Kind == facilityfile.Count
		if !number || kept(k.Path) || k.UsedBy != facilityfile.ForRuns || !*bounds && (!once[k.Path] || testing.Short()) {
			continue
		}
		text, path, _ := where(t, texts, k.Path)
		if path == "" {
			continue
		}
		for _, bound := range []float64{k.Low, k.High} {
			value := Written(bound, k.Dimension)
			changed, err := edit.Set(text, path, value)
			if err != nil {
				t.Fatal(err)
			}
			f, err := facilityfile.Parse("plant.yaml", []byte(changed))
			if err != nil {
				continue // it has to do with another key
			}
			ran++
			began := time.Now()
			if err := simulated(t.Context(), f.Model); err != nil {
				t.Errorf("%s: %s: %v", path, value, err)
			}
			if took := time.Since(began); took > *longest/10 {
				t.Logf("%s: %s: %v", path, value, took)
			}
		}
	}
	if ran < 3 && !testing.Short() {
		t.Errorf("only %d plants ran", ran)
	}
}
