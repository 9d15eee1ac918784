package facilityfile

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/process"
)

// A part of the program arrives with its ramp and with what it waits for, and blowers
// with their turndown; what the file leaves out has the defaults, and its parts are by the
// clock. The program of a file that has none waits, or goes by the clock if it says so.
func TestProgramThatWaits(t *testing.T) {
	const part = "for: 7 day, setpoint: 62 °C"
	m := parse(t).Model.Active
	if s := m.Program[0]; s.Ramp != process.DefaultRamp || s.Until != nil || m.Blower.Turndown != process.DefaultTurndown {
		t.Errorf("left out: %+v, turndown %g", s, m.Blower.Turndown)
	}
	m = parse(t, part, part+", ramp_per_hour: 1.8 °F, until: pathogen reduction, longest: 14 day",
		"for: 10 day, setpoint: 50 °C", "for: 2 day, setpoint: 50 °C, held: 45 °C, held_for: 3 day, longest: 6 day",
		"  blower_per_vessel: 350 cfm", "  turndown: 25 %\n  blower_per_vessel: 350 cfm").Model.Active
	if s := m.Program[0]; math.Abs(s.Ramp-1) > 1e-12 || s.Hours != 168 || !reflect.DeepEqual(s.Until, &process.Ending{Criterion: m.Criteria[0], Longest: 336}) {
		t.Errorf("first part %+v, %+v", s, s.Until)
	}
	held := &process.Ending{Criterion: process.Criterion{Name: "temperature held", Temperature: 45, Hours: 72}, Own: true, Longest: 144}
	if s := m.Program[1]; s.Hours != 48 || !reflect.DeepEqual(s.Until, held) {
		t.Errorf("second part %+v, %+v", s, s.Until)
	}
	if m.Program[2].Until != nil || m.Blower.Turndown != 0.25 {
		t.Errorf("third part %+v, turndown %g", m.Program[2], m.Blower.Turndown)
	}
	text := readSmall(t)
	from, to := strings.Index(text, "  program:\n"), strings.Index(text, "  blower_per_vessel: 350 cfm")
	for with, want := range map[string][]process.Segment{
		"": process.DefaultHold(m.Criteria),
		"  built_in: until the criteria are met\n": process.DefaultHold(m.Criteria),
		"  built_in: by the clock\n":               process.DefaultVesselModel().Program,
	} {
		if got := parse(t, text[from:to], with).Model.Active.Program; !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %+v, want %+v", with, got, want)
		}
	}
}

// What makes no sense in a program is refused where it stands, with what to write.
func TestProgramThatCannotWait(t *testing.T) {
	const first, last = "for: 7 day, setpoint: 62 °C", "for: 11 day, setpoint: 40 °C"
	for _, c := range []struct{ at, with, says, hint string }{
		{first, first + ", until: nothing, longest: 9 day", `there is no criterion "nothing"`, "pathogen reduction"},
		{first, first + ", until: pathogen reduction", "longest", ""},
		{first, first + ", until: pathogen reduction, longest: 6 day", "shorter than the least time", "shorten for"},
		{first, first + ", longest: 9 day", "waits for nothing", "add until or held"},
		{first, first + ", held: 55 °C, longest: 9 day", "held_for", ""},
		{first, first + ", held: 55 °C, held_for: 3 day, until: pathogen reduction, longest: 9 day", "waits for a temperature already", "keep one"},
		{last, last + ", until: pathogen reduction, longest: 19 day", "goes on until the load is unloaded", "add a part after it"},
		{"  program:", "  built_in: by the clock\n  program:", "given already", "keep one"},
	} {
		text := readSmall(t)
		_, err := Parse("small.yaml", []byte(strings.Replace(text, c.at, c.with, 1)))
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), c.hint) {
			t.Errorf("%s: %v", c.with, err)
		}
	}
}
