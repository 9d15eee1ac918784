package questions_test

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/cycleplan"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/question"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// asksOfClass asks what looks at one vessel for that of a class.
func asksOfClass(t *testing.T, s *study.Study, q *question.Question, class string) (string, error) {
	t.Helper()
	values, err := question.Read(q.Options, map[string]string{"class": class})
	if err != nil {
		t.Fatal(err)
	}
	a, err := q.Ask(context.Background(), s, answer.Setup{}, values)
	if err != nil {
		return "", err
	}
	return strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.US)), " "), nil
}

// `cycle` and `mix` look at the vessel of the class that is named: large ones hold 60
// yd3, small ones 40, and are full by that.
func TestOneVesselOfAClass(t *testing.T) {
	s := sallowFord(t)
	for class, want := range map[string][2]string{
		"large": {"short tons wet, 60 yd3,", "(large) takes"},
		"small": {"short tons wet, 40 yd3,", "(small) takes"},
	} {
		for i, q := range []*question.Question{&cycleplan.Question, &mixplan.Question} {
			text, err := asksOfClass(t, s, q, class)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(text, want[i]) || !strings.Contains(text, class) {
				t.Errorf("%s of %s does not say %q:\n%s", q.Name, class, want[i], text)
			}
		}
	}
}

// A class that there is not, and any class of a plant of one, is a mistake that says what
// is there.
func TestNoSuchClass(t *testing.T) {
	data, err := os.ReadFile("../facilityfile/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for want, s := range map[string]*study.Study{
		`class "huge": no class of vessels has that name; there are large, small`: sallowFord(t),
		`class "huge": the vessels of this file are of one class; leave it out`:   prepared(t, "small.yaml", data),
	} {
		_, err := asksOfClass(t, s, &cycleplan.Question, "huge")
		if wrong := (*answer.OptionError)(nil); !errors.As(err, &wrong) || wrong.Error() != want {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
