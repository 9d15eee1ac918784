package facilityfile

import (
	"os"
	"strings"
	"testing"

	"loamcast/facility/process"
)

// withEnd is the small file with text at its end.
func withEnd(t *testing.T, text string) string {
	t.Helper()
	data, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data) + "\n" + text
}

// Shows that a file without decay and intake has the defaults, and that one with them
// has what it says in vessels and on the pad, where nothing needs to wake. A curve
// brings its own rates along, unless the file has others.
func TestDecayAndIntake(t *testing.T) {
	f, err := Parse("plant.yaml", []byte(withEnd(t, "")))
	if err != nil {
		t.Fatal(err)
	}
	alive := process.LivelyKinetics()
	alive.Awakening = process.Awakening{}
	if m := f.Model; m.Active.Kinetics != process.LivelyKinetics() || m.Pile.Kinetics != alive || m.Active.Intake != nil || m.Active.Heat.Fusion != 0 {
		t.Errorf("without: %+v, %+v", m.Active.Kinetics, m.Active.Intake)
	}

	f, err = Parse("plant.yaml", []byte(withEnd(t, `decay: {temperature_curve: cardinal, most_temperature: 80 °C, slowly: 0.2 %/day, first_activity: 2 %}
intake: {chips: 24 °F, freezing: true}
`)))
	if err != nil {
		t.Fatal(err)
	}
	want := process.LivelyKinetics()
	want.Curve.Cardinal.Most, want.Slowly, want.Awakening.First = 80, 0.002, 0.02
	m := f.Model
	if m.Active.Kinetics != want {
		t.Errorf("vessel: %+v, want %+v", m.Active.Kinetics, want)
	}
	want.Awakening = process.Awakening{}
	if m.Pile.Kinetics != want {
		t.Errorf("pad: %+v, want %+v", m.Pile.Kinetics, want)
	}
	if in := m.Active.Intake; in == nil || in.Cake[0] != 20 || in.Chips[6] > -4.4 || in.Chips[6] < -4.5 {
		t.Errorf("intake %+v", in)
	}
	f, err = Parse("plant.yaml", []byte(withEnd(t, "decay: {temperature_curve: rise and fall, readily: 3 %/day, first_activity: 100 %}\n")))
	if err != nil {
		t.Fatal(err)
	}
	old := process.DefaultKinetics()
	old.Readily = 0.03
	if got := f.Model.Active.Kinetics; got != old || f.Model.Pile.Kinetics != old {
		t.Errorf("rise and fall: %+v, want %+v", got, old)
	}
	if m.Active.Heat.Fusion != process.FusionHeat || m.Pile.Heat.Fusion != process.FusionHeat {
		t.Error("nothing freezes")
	}
}

// Shows that the chips of a file which says nothing of theirs come as without intake:
// at the mean outdoors, but not below 2 °C.
func TestIntakeLeavesChips(t *testing.T) {
	f, err := Parse("plant.yaml", []byte(withEnd(t, "intake: {cake: 15 °C}\n")))
	if err != nil {
		t.Fatal(err)
	}
	m := f.Model.Active
	for i, outdoors := range m.Site.Temperature {
		if m.Intake.Cake[i] != 15 || m.Intake.Chips[i] != max(outdoors, 2) {
			t.Errorf("month %d: cake at %g °C, chips at %g °C", i+1, m.Intake.Cake[i], m.Intake.Chips[i])
		}
	}
}

// Shows that what cannot be is refused where it stands, and said in words.
func TestDecayRefuses(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"decay: {temperature_curve: rise and fall, best_temperature: 50 °C}", "only the cardinal curve has such a temperature"},
		{"decay: {temperature_curve: cardinal, best_temperature: 33 °C}", "must lie above the middle"},
		{"decay: {temperature_curve: cardinal, best_temperature: 70 °C, most_temperature: 60 °C}", "must rise"},
		{"decay: {temperature_curve: round}", "rise and fall"},
		{"decay: {rapidly: 3 1/day}", "decay.rapidly"},
		{"decay: {temperature_curve: cardinal, least_temperature: 15 °C, rapidly: 1 1/day}", "within the hour"},
		{"intake: {cake: 90 °C}", "intake.cake"},
		{"intake: {freezing: perhaps}", "intake.freezing"},
	} {
		_, err := Parse("plant.yaml", []byte(withEnd(t, c.text)))
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "plant.yaml:") {
			t.Errorf("%s: %v", c.text, err)
		}
	}
	text := strings.Replace(withEnd(t, ""), "  slowly_degradable: 8 %", "  slowly_degradable: 8 %\n  rapidly_degradable: 40 %", 1)
	if _, err := Parse("plant.yaml", []byte(text)); err == nil || !strings.Contains(err.Error(), "rapidly, readily and slowly degradable parts add to more") {
		t.Errorf("more than all: %v", err)
	}
}
