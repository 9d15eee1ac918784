package process

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestPoreOxygenBalances shows that the oxygen found satisfies its own mass
// balance, lies between nothing and fresh air, and rises with the air.
func TestPoreOxygenBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		potential := rapid.Float64Range(1e-6, 1e3).Draw(t, "potential")
		air := rapid.Float64Range(1e-6, 1e6).Draw(t, "air")
		half := rapid.Float64Range(0.1, 10).Draw(t, "half")
		c := poreOxygen(potential, air, half)
		if !(c > 0 && c < inletOxygen) {
			t.Fatalf("oxygen %g %%", c)
		}
		balance := inletOxygen - airPerOxygen*potential/air*c/(c+half)
		if math.Abs(balance-c) > 1e-6*inletOxygen {
			t.Errorf("balance gives %g %%, root %g %%", balance, c)
		}
		if poreOxygen(potential, 1.1*air, half) <= c {
			t.Errorf("more air does not raise oxygen above %g %%", c)
		}
	})
}

// TestPoreOxygenLimits shows the ends: no air and no uptake.
func TestPoreOxygenLimits(t *testing.T) {
	if c := poreOxygen(1, 0, 2); c != 0 {
		t.Errorf("uptake without air: %g %%, want 0", c)
	}
	if c := poreOxygen(0, 0, 2); c != inletOxygen {
		t.Errorf("neither uptake nor air: %g %%, want that of air", c)
	}
	if c := poreOxygen(0, 5, 2); !within(c, inletOxygen, 1e-12) {
		t.Errorf("air without uptake: %g %%, want that of air", c)
	}
}

// TestAirForOxygen shows that the air asked for leads to the oxygen asked for.
func TestAirForOxygen(t *testing.T) {
	for _, c := range []float64{2, 5, 10, 18} {
		if got := poreOxygen(3, airFor(3, c, 2), 2); !within(got, c, 1e-9) {
			t.Errorf("air for %g %% gives %g %%", c, got)
		}
	}
}

// TestAirForOxygenInMoles shows the flow of a load that takes up 1 kg of oxygen an
// hour, counted in moles: 1,000/31.998 mol are the share by which the oxygen of
// the dry air falls, from 20.95 % to 10.95 % of its 28.966 g/mol (derived).
func TestAirForOxygenInMoles(t *testing.T) {
	const fall, left, half = 10.0, 10.95, 2.0
	moles := 1000 / 31.998 / (fall / 100)
	want := moles * 28.966 / 1000 // kg
	if got := airFor((left+half)/left, left, half); !within(got, want, 1e-9) {
		t.Errorf("air %g kg/h, want %g", got, want)
	}
	if got := poreOxygen((left+half)/left, want, half); !within(got, left, 1e-9) {
		t.Errorf("oxygen left %g %%, want %g", got, left)
	}
}

// TestAirToHoldBalances shows that the flow which holds a temperature takes away
// exactly the heat set free at the oxygen which that flow leaves, and that no
// flow is asked for when there is no heat to take away.
func TestAirToHoldBalances(t *testing.T) {
	held := 0
	rapid.Check(t, func(t *rapid.T) {
		potential := rapid.Float64Range(0.01, 100).Draw(t, "potential")
		cool := rapid.Float64Range(20, 800).Draw(t, "cool")
		stays := rapid.Float64Range(-1e5, 1e6).Draw(t, "stays")
		air := airToHold(potential, 14000, stays, cool, 2)
		if 14000*potential <= stays && air != 0 {
			t.Fatalf("air %g although nothing is to be taken away", air)
		}
		if air == 0 {
			return
		}
		held++
		c := poreOxygen(potential, air, 2)
		generated := 14000 * potential * c / (c + 2)
		if math.Abs(generated-stays-cool*air) > 1e-7*(generated+math.Abs(stays)) {
			t.Errorf("generated %g, stays %g, taken away %g", generated, stays, cool*air)
		}
		more := air * 1.01
		c = poreOxygen(potential, more, 2)
		if 14000*potential*c/(c+2)-stays-cool*more >= 0 {
			t.Error("more air does not cool")
		}
	})
	if held == 0 {
		t.Error("no case asked for air")
	}
}
