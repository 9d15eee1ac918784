package vesselplan_test

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"loamcast/facility/plant"
	"loamcast/scenarios/vesselplan"
)

// What fills over many years is not seen in single ones. Of the compost of the plant
// of the hand cases almost all is taken: the store fills slowly, and is full long
// before a year by itself says that anything is short. Whole runs tell, and take the
// place of single years.
func TestWholeRunsContradict(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	f := handFile(t)
	f.Model.Feed.Base, f.Planning.Growths[0].Growth = 700, plant.Linear{Rate: 0.01}
	carried := 0.0 // by the demand for compost, kg dry of cake per day
	for _, c := range plan(t, f, vesselplan.Options{UpTo: 8, Runs: 32}).Growths[0].Next {
		if c.Stage == plant.AtDemand {
			carried = c.CakeDry
		}
	}
	demand := &f.Model.Product.Demand
	of := stat.Mean(demand[:], nil) / carried // m3 of compost of a kg
	for i := range demand {
		demand[i] = 690 * of
	}
	f.Model.Product.Capacity, f.Model.Curing.Capacity = 200*365*of, 1500
	a := plan(t, f, vesselplan.Options{UpTo: 8, Runs: 32})
	if !strings.Contains(a.Calendar, "whole runs miss") || !a.All.Rows[0].RunsShort(a.Horizon) {
		t.Errorf("%q; short in quarter %d, checked %+v", a.Calendar, a.All.Rows[0].Short, a.Check)
	}
}
