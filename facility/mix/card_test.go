package mix

import "testing"

// Shows that the card loads bulking agent first and cake last, that its scale
// runs to the weight of the batch, and that its last line is the mix.
func TestLoadingCard(t *testing.T) {
	d := plantDesign()
	d.Materials[2].Available = 1500
	r := mustSolve(t, d)
	card := d.LoadingCard(r)
	if len(card) < 3 || card[len(card)-1].Name != "cake" || !d.Materials[card[0].Material].Kind.IsChips() {
		t.Fatalf("card %+v", card)
	}
	scale := 0.0
	for i, s := range card {
		scale += s.Add
		near(t, s.Name+": scale, kg", s.Scale, scale, 1e-8)
		near(t, s.Name+": added, kg", s.Add, r.Mass[s.Material], 0)
		if i > 0 && d.Materials[s.Material].Kind < d.Materials[card[i-1].Material].Kind {
			t.Errorf("%s goes in after %s", s.Name, card[i-1].Name)
		}
	}
	last := card[len(card)-1]
	near(t, "weight, kg", last.Scale, r.Weight, 1e-8)
	near(t, "volume, m3", last.Volume, r.Volume, 1e-9)
	near(t, "moisture", last.Moisture, r.Moisture, 1e-12)
	near(t, "C:N", last.CarbonToNitrogen, r.CarbonToNitrogen, 1e-9)
	near(t, "free air space", last.FreeAirSpace, r.FreeAirSpace, 1e-12)
}

// Shows how many batches fill a vessel, by volume and by payload; 20 short
// tons is what a roll-off truck lifts (common practice, no source).
func TestFill(t *testing.T) {
	const shortTon = 907.18474
	batch := Result{Weight: 4500, Volume: 7.5}
	rows := []struct {
		vessel Vessel
		want   Fill
	}{
		{Vessel{Volume: 30}, Fill{Batches: 4, Whole: 4, Wet: 18000, Volume: 30}},
		{Vessel{Volume: 33}, Fill{Batches: 4.4, Whole: 4, Wet: 19800, Volume: 33}},
		{Vessel{Volume: 33, Payload: 9000}, Fill{Batches: 2, Whole: 2, Wet: 9000, Volume: 15, ByPayload: true}},
		{Vessel{Volume: 30, Payload: 20 * shortTon}, Fill{Batches: 4, Whole: 4, Wet: 18000, Volume: 30}},
		{Vessel{}, Fill{}},
	}
	for _, row := range rows {
		got := batch.Fill(row.vessel)
		near(t, "batches", got.Batches, row.want.Batches, 1e-9)
		near(t, "wet, kg", got.Wet, row.want.Wet, 1e-6)
		near(t, "volume, m3", got.Volume, row.want.Volume, 1e-9)
		if got.Whole != row.want.Whole || got.ByPayload != row.want.ByPayload {
			t.Errorf("%+v: %+v, want %+v", row.vessel, got, row.want)
		}
	}
}

// Shows that wetter cake of the same solids needs more chips, and that the
// point at the cake's own solids content is the design itself.
func TestSweepCakeSolids(t *testing.T) {
	d := plantDesign()
	points, err := d.SweepCakeSolids([]float64{0.16, 0.20, 0.24})
	if err != nil {
		t.Fatal(err)
	}
	dry := testCake.OfWet(d.Cake).Dry()
	for _, p := range points {
		near(t, "cake, kg", p.Result.Cake, dry/p.CakeSolids, 1e-6)
	}
	own := mustSolve(t, d)
	near(t, "cost at its own solids content", points[1].Result.Cost, own.Cost, 1e-9*own.Cost)
	if !(points[0].Result.Cost > own.Cost && own.Cost > points[2].Result.Cost) {
		t.Errorf("costs %g, %g, %g should fall", points[0].Result.Cost, own.Cost, points[2].Result.Cost)
	}
	if d.Materials[0].Composition != testCake.OfWet(1) {
		t.Error("the sweep changed the design")
	}
	for _, bad := range []float64{0, -0.1, 1.2} {
		if _, err := d.SweepCakeSolids([]float64{bad}); err == nil {
			t.Errorf("solids content %g accepted", bad)
		}
	}
}
