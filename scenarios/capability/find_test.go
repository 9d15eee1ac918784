package capability

import (
	"context"
	"os"
	"strconv"
	"testing"
	"time"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

func TestScratchFind(t *testing.T) {
	f, err := facilityfile.Open(os.Getenv("BF_FILE"))
	if err != nil {
		t.Fatal(err)
	}
	seeds, _ := strconv.Atoi(os.Getenv("SEEDS"))
	for seed := range seeds {
		f.Seed = uint64(seed + 1)
		s, err := study.New(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		begin := time.Now()
		c, err := Find(context.Background(), s, study.Case{Expected: os.Getenv("EXP") != ""}, Replications)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("seed %d: %v %d years, half %.1f kg/d, 5%% %.1f, between %.4f within %.4f", seed+1, time.Since(begin), c.Simulated, c.Curve.Load(.5), c.Curve.Load(.05), c.Curve.Between, c.Curve.Within)
		mix := make([]float64, f.Model.Years)
		for g, growth := range f.Planning.Growths {
			d := DemandOf(f, g)
			line := growth.Name
			for y := 4; y < f.Model.Years; y++ {
				mix[y] += growth.Weight * d.Share(c.Curve, y)
				line += " " + strconv.FormatFloat(100*d.Share(c.Curve, y), 'f', 1, 64)
			}
			t.Log(line)
		}
		line := "mixture "
		for y := 4; y < f.Model.Years; y++ {
			line += " " + strconv.FormatFloat(100*mix[y], 'f', 1, 64)
		}
		t.Log(line)
	}
}
