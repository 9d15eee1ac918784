package cycleplan

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/recycle"
	"loamcast/facility/screening"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

// Shows that a run and `cycle` agree on constant inputs: the steady load of
// recovered chips comes to the screen with the same moisture, to 0.1 points,
// whether its courses are read from the response table, as a run does, or
// integrated, as here; that a run is otherwise the same loop is shown in
// facility/recycle. On the built-in plants, on a small invented yard, and on one
// whose chips hold readily degradable matter. A tenth of a point is what answers show.
func TestScreenedMoistureOfTable(t *testing.T) {
	plants := map[string][]byte{}
	for _, name := range examples.Names() {
		plants[name] = examples.Data(name)
	}
	yard, err := os.ReadFile(filepath.Join("..", "facilityfile", "testdata", "yard.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	plants["yard"] = yard
	plants["bark"] = examples.Data(examples.Demo)
	for name, data := range plants {
		t.Run(name, func(t *testing.T) {
			f, err := facilityfile.Parse(name, data)
			if err != nil {
				t.Fatal(err)
			}
			m := f.Model
			if name == "bark" {
				m.Chips.Fresh.Readily, m.Chips.Fresh.Slowly, m.Chips.Fresh.Nitrogen = 0.03, 0.5, 0.004
			}
			m.Drying = plant.Drying{} // it would end at the same moisture in both
			run := tablesOf(&m)
			for _, month := range []time.Month{time.January, time.April, time.July, time.October} {
				l := recycle.New(&m, month)
				want, err := l.Steady(t.Context(), recycle.AsRun(&m, month))
				if err != nil {
					t.Fatal(err)
				}
				byTable, integrated := run.screened(t, l, want.Journey), want.Journey.End()
				low, high, end := 100*slices.Min(byTable), 100*slices.Max(byTable), 100*integrated.Moisture()
				t.Logf("%v: %.3f to %.3f %% by the table, %.3f integrated: %+.3f, %+.3f", month, low, high, end, low-end, high-end)
				if !(high-end <= 0.1 && end-low <= 0.1) {
					t.Errorf("%v: screened at %.3f to %.3f %% moisture by the table, %.3f integrated", month, low, high, end)
				}
			}
		})
	}
}

// tables are the response tables of a run.
type tables struct{ vessel, pad *process.Responses }

func tablesOf(m *plant.Model) tables {
	pad := *m.Pile
	pad.Criteria = nil
	return tables{process.NewResponses(m.Active, m.Vessels.Maximum.Hours()), process.NewResponses(&pad, m.Curing.Longest.Hours())}
}

// screened returns the moistures with which a dozen loads come to the screen once the
// loop is steady, with the stays of a journey. Where two loads in turn fall on either
// side of a rule of the table's, they may go on to differ a little.
func (s tables) screened(t *testing.T, l recycle.Loop, j *recycle.Journey) (moisture []float64) {
	m := l.Model
	along := func(r *process.Responses, p material.Parcel, month time.Month, start, hours float64) (material.Parcel, float64) {
		var course process.Response
		if err := r.From(&course, &p, month, start); err != nil {
			t.Fatal(err)
		}
		course.Apply(&p, 0, hours)
		return p, course.Temperature(hours)
	}
	cake, chips := l.Cake(), l.FreshChips()
	var recovered material.Parcel
	for range 40 { // far more than recycling needs
		have := m.Bulk.Volume(recovered)
		if most := m.Recipe.ChipsPerCake; have > most {
			recovered, have = recovered.Times(most/have), most
		}
		batch := cake.Plus(recovered).Plus(chips.Times(m.Recipe.ChipsPerCake - have))
		full := l.Full(batch)
		out, tipped := along(s.vessel, batch.Times(full), l.Month, math.NaN(), j.Stay())
		cured, _ := along(s.pad, out, j.CuringMonth, m.PadStart(tipped, out, 0, j.CuringMonth), j.Cured())
		cured = cured.Times(1 / full)
		recovered = screening.Screen(cured, m.Screening.Settings).Recovered
		moisture = append(moisture, cured.Moisture())
	}
	slices.Reverse(moisture)
	return moisture[:12]
}
