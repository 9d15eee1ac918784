package simulate_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

const amendedMaterials = `
materials:
  - {name: sawdust, moisture: 35 %, volatile_solids: 98 %, slowly_degradable: 25 %, nitrogen: 0.2 %, bulk_density: 240 kg/m3, cost: 12 USD/m3}
  - {name: yard waste, moisture: 45 %, volatile_solids: 85 %, readily_degradable: 5 %, slowly_degradable: 20 %, nitrogen: 0.8 %, bulk_density: 300 kg/m3, cost: 1 USD/m3}
`

const amendedRecipe = `mix:
  amendments:
    - {material: sawdust, to_cake: 0.2, store: 12 m3, bought: {reorder_at: 5 m3, order_up_to: 12 m3, truckload: 6 m3, lead_time: 120 day}}
    - {material: yard waste, to_cake: 0.3, when_short: do without, store: 4 m3, own_per_day: [0 m3/day, 0 m3/day, 0 m3/day, 1 m3/day, 1 m3/day, 1 m3/day, 1 m3/day, 1 m3/day, 1 m3/day, 1 m3/day, 0 m3/day, 0 m3/day]}
    - {material: product, to_cake: 0.1, kept: 2 m3}
`

// one runs a facility file once, and returns what its run is told as.
func one(t *testing.T, text string) (*simulate.Answer, *plant.Record, *plant.Plant) {
	t.Helper()
	p, rec := runOf(t, text)
	both := simulate.Replication{Usual: rec, Free: simulate.FreeOf(rec, facilityfile.Target{})}
	return simulate.AnswerOf(rendertest.Basis(), p, []simulate.Replication{both}), rec, p
}

// A run tells of every amendment of the recipe what its months add up to, on the screen
// and in a file, and of none where the recipe has none; and what comes and goes is what
// the store holds more at the end (derived: 12 m3 of sawdust at first, as stores of what
// is bought begin full, and nothing of yard waste).
func TestAmendmentsAreTold(t *testing.T) {
	plain, _, _ := one(t, readSmall(t))
	if _, there := tables(t, plain, units.SI)["amendments.csv"]; there || len(plain.Amendments) > 0 {
		t.Error("a recipe without amendments has a table of them")
	}
	a, rec, p := one(t, edited(t, readSmall(t), "mix:\n", amendedRecipe, "\nchips:\n", "\nchips:\n  price: 9 USD/m3\n")+amendedMaterials)
	rows := tables(t, a, units.SI)["amendments.csv"]
	files, err := render.Files(a.Document(), units.SI)
	if err != nil {
		t.Fatal(err)
	}
	rendertest.Explained(t, files)
	names := map[string]bool{}
	for _, row := range rows[1:] {
		names[row[0]] = true
	}
	if len(a.Amendments) != 3 || len(names) != 3 {
		t.Fatalf("%d amendments of a year, %d rows", len(a.Amendments), len(rows))
	}
	column := func(amendment, name string) float64 {
		i := slices.IndexFunc(rows, func(row []string) bool { return row[0] == amendment && strings.HasPrefix(row[2], name) })
		if i < 0 {
			t.Fatalf("no figure %s of %s", name, amendment)
		}
		v, err := strconv.ParseFloat(rows[i][4], 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for i := range a.Amendments {
		m := &a.Amendments[i]
		if m.Name != p.Amendments[i].Material.Name || !names[m.Name] || m.Used.Mean <= 0 {
			t.Errorf("amendment %d is %q, of %v in the file, mixed %g m3", i, m.Name, names, m.Used.Mean)
		}
		sum := func(of func(*plant.MonthlyAmendment) float64) float64 {
			return plant.Sum(rec.Months, func(m *plant.Month) float64 { return of(&m.Amendments[i]) })
		}
		for _, c := range []struct {
			name      string
			got, want float64
		}{
			{"bought", m.Bought.Mean, sum(func(a *plant.MonthlyAmendment) float64 { return a.Bought })},
			{"own", m.Own.Mean, sum(func(a *plant.MonthlyAmendment) float64 { return a.Own })},
			{"turned_away", m.Turned.Mean, sum(func(a *plant.MonthlyAmendment) float64 { return a.Turned })},
			{"mixed", m.Used.Mean, sum(func(a *plant.MonthlyAmendment) float64 { return a.Used })},
			{"done_without", m.Missed.Mean, sum(func(a *plant.MonthlyAmendment) float64 { return a.Missed })},
			{"mixing_waited_h", m.HoursShort.Mean, sum(func(a *plant.MonthlyAmendment) float64 { return a.HoursShort })},
		} {
			if math.Abs(c.got-c.want) > 1e-9*(1+c.want) || math.Abs(column(m.Name, c.name)-c.want) > 1e-3*(1+c.want) {
				t.Errorf("%s, %s: %g, %g in the file, %g in the months", m.Name, c.name, c.got, column(m.Name, c.name), c.want)
			}
		}
	}
	sawdust, waste := &a.Amendments[0], &a.Amendments[1]
	end := rec.Months[len(rec.Months)-1].Amendments
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"sawdust", sawdust.Bought.Mean - sawdust.Used.Mean, end[0].StoreEnd - 12},
		{"yard waste", waste.Own.Mean - waste.Used.Mean, end[1].StoreEnd},
	} {
		if math.Abs(c.got-c.want) > 1e-6 {
			t.Errorf("%s: the store holds %g m3 more, by what comes and goes %g", c.name, c.want, c.got)
		}
	}
	if waste.Missed.Mean <= 0 || sawdust.HoursShort.Mean <= 0 || waste.Bought.Mean != 0 || sawdust.Own.Mean != 0 {
		t.Errorf("sawdust %+v, yard waste %+v", *sawdust, *waste)
	}
	screen := strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.SI)), " ") // however lines are broken
	for _, want := range []string{"sawdust: ", "yard waste: ", "; loads did without ", "; mixing waited for it for "} {
		if !strings.Contains(screen, want) {
			t.Errorf("the screen says nothing of %q:\n%s", want, screen)
		}
	}
}
