package facilityfile

import (
	"slices"
	"testing"
)

// Steps of one name are numbered, past what is committed and past a name that is numbered
// already; told apart again, they keep their names, and what was given is left alone.
func TestStepsAreToldApart(t *testing.T) {
	names := func(steps []Step) (out []string) {
		for _, s := range steps {
			out = append(out, s.Name)
		}
		return out
	}
	var given []Step
	for _, name := range []string{"pad", "one vessel", "one vessel", "one vessel (2)", "one vessel"} {
		s := Step{}
		s.Name = name
		given = append(given, s)
	}
	p := Planning{Committed: given[:1]}
	apart := p.ToldApart(given)
	want := []string{"pad (2)", "one vessel", "one vessel (2)", "one vessel (2) (2)", "one vessel (3)"}
	if got := names(apart); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if got := names(p.ToldApart(apart)); !slices.Equal(got, want) {
		t.Errorf("told apart again: %q, want %q", got, want)
	}
	if given[2].Name != "one vessel" {
		t.Errorf("what was given is %q now", given[2].Name)
	}
}
