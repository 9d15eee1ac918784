package vesselplan

import (
	"context"
	"fmt"
	"os"
	"strconv"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

func TestScratchBrute(t *testing.T) {
	f, err := facilityfile.Open(os.Getenv("BF_FILE"))
	if err != nil {
		t.Fatal(err)
	}
	n, _ := strconv.Atoi(os.Getenv("BF_N"))
	s, _ := study.New(f, 0)
	out, _ := os.Create(os.Getenv("BF_OUT"))
	defer out.Close()
	fmt.Fprintln(out, "case,rep,year,factor,missed,untreated,delay,fed")
	for g := range f.Planning.Growths {
		for _, exp := range []bool{false, true} {
			if exp && g != MainGrowth(&f.Planning) {
				continue
			}
			c := study.Case{Growth: g, Expected: exp}
			rows, err := study.Each(context.Background(), s, study.Runs(&c, 0, n), func(r *study.Result) (string, error) {
				o := ""
				for y := 0; y < f.Model.Years; y++ {
					months := r.Record.Months[12*y : 12*y+12]
					fac := 0.0
					for m := range 12 {
						fac += r.Plant.Feed.Growth.Factor(float64(y)+(float64(m)+.5)/12) / 12
					}
					fed := 0.0
					for i := range months {
						fed += months[i].FeedDry
					}
					miss := 0
					if f.Planning.Target.Missed(months) {
						miss = 1
					}
					o += fmt.Sprintf("%s-%v,%d,%d,%.6f,%d,%.6g,%.6g,%.6g\n", f.Planning.Growths[g].Name, exp, r.Replication, y, fac, miss, plant.UntreatedShare(months), plant.CakeDelay(months), fed)
				}
				return o, nil
			}, nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range rows {
				fmt.Fprint(out, r)
			}
		}
	}
}
