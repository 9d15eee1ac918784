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
