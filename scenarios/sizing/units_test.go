package sizing

import (
	"math"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// Units of the file count: two screens sustain twice what one does. A load of the demo
// has five batches, which take three mixers two rounds instead of five. A third
// screen that a change brings counts at the end of the horizon and not in the first year.
func TestMixersAndScreensCount(t *testing.T) {
	parse := func(more ...string) *Answer {
		text := strings.NewReplacer(more...).Replace(string(examples.Data(examples.Demo)))
		f, err := facilityfile.Parse("plant.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return ask(t, f)
	}
	one := parse()
	more := parse("  batch_time: 25 min\n", "  batch_time: 25 min\n  mixers: 3\n", "  opening: 0.375 in\n", "  opening: 0.375 in\n  screens: 2\n")
	f := example(t, examples.Demo)
	f.Model.Changes = append(f.Model.Changes, plant.Change{Name: "screens", Date: calendar.Date{Year: f.Model.Start.Year + 2, Month: 1, Day: 1}, Screens: 2})
	later := ask(t, f)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"two screens", more.stage(plant.AtScreen).first(), 2 * one.stage(plant.AtScreen).first()},
		{"three mixers", more.stage(plant.AtMixer).first(), 5.0 / 2 * one.stage(plant.AtMixer).first()},
		{"screens to come, at first", later.stage(plant.AtScreen).first(), one.stage(plant.AtScreen).first()},
		{"screens to come, at last", later.stage(plant.AtScreen).last(), 3 * one.stage(plant.AtScreen).last()},
	} {
		if math.Abs(c.got/c.want-1) > 1e-9 {
			t.Errorf("%s: %g kg a day, want %g", c.what, c.got, c.want)
		}
	}
}
