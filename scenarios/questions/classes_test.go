package questions_test

import (
	"os"
	"strings"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
)

// sallowFord is a study of the invented plant with two large vessels and four small
// ones, after edits of its file: old, new, old, new …
func sallowFord(t *testing.T, edits ...string) *study.Study {
	t.Helper()
	data, err := os.ReadFile("../facilityfile/testdata/classes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(edits); i += 2 {
		if n := strings.Count(text, edits[i]); n != 1 {
			t.Fatalf("%q is there %d times", edits[i], n)
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return prepared(t, "classes.yaml", []byte(text))
}

// prepared is a study of a file.
func prepared(t *testing.T, name string, data []byte) *study.Study {
	t.Helper()
	f, err := facilityfile.Parse(name, data)
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// says asks a question and returns its screen in one line, which must have some words.
func says(t *testing.T, s *study.Study, name string, words []string) (a question.Answer, screen string) {
	t.Helper()
	a = asked[question.Answer](t, s, name)
	screen = strings.Join(strings.Fields(rendertest.Text(t, a.Document(), s.File.Units)), " ")
	for _, w := range words {
		if !strings.Contains(screen, w) {
			t.Errorf("%s does not say %q:\n%s", name, w, screen)
		}
	}
	return a, screen
}

// Every answer that counts vessels says of which class they are, on the screen and in
// files.
func TestAnswersNameTheClass(t *testing.T) {
	if testing.Short() {
		t.Skip("asks seven questions; the round without -short has it")
	}
	s := sallowFord(t)
	for name, want := range map[string]struct {
		screen []string
		json   string
	}{
		"check":   {[]string{"2 large, 0.", "4 small, 0."}, `"vessel_classes"`},
		"run":     {[]string{"large: 2 installed", "small: 4 installed"}, `"vessel_classes"`},
		"cycle":   {[]string{"of one class of the file: large"}, `"vessel_class":"large"`},
		"mix":     {[]string{"A vessel (large) takes"}, `"vessel_class":"large"`},
		"expand":  {[]string{"(1 small)", "(1 large)"}, `"brings":"1 small"`},
		"options": {[]string{"“a large vessel” 1 large", "“two small vessels” 2 small"}, `"brings":"2 small"`},
		"when": {[]string{"Order 1 vessel (large) by the end of", "2 large and 4 small are installed",
			"large (room for 1 more), then small (room for 4 more)"}, `"order_by_class":"large"`},
	} {
		a, _ := says(t, s, name, want.screen)
		if json := string(rendertest.JSON(t, a.Document(), units.SI)); !strings.Contains(json, want.json) {
			t.Errorf("%s has no %s in its JSON", name, want.json)
		}
	}
}

// A large vessel, which comes first, is ordered 15 months before it is needed and a small
// one nine.
func TestEachClassHasItsLeadTime(t *testing.T) {
	if testing.Short() {
		t.Skip("asks when; the round without -short has it")
	}
	s := sallowFord(t, "dry_per_day: 0.55", "dry_per_day: 0.64")
	a := asked[*vesselplan.Answer](t, s, "when")
	if len(a.All.Rows) < 2 || !a.All.Rows[0].RunsShort(a.Horizon) || !a.All.Rows[1].RunsShort(a.Horizon) {
		t.Fatalf("nothing to order: %+v", a.All.Rows)
	}
	for i, months := range []int{15, 9} {
		if r := a.All.Rows[i]; r.OrderBy.AddMonths(months) != r.NeededBy {
			t.Errorf("with %d vessels: ordered by %v, needed by %v", r.Vessels, r.OrderBy, r.NeededBy)
		}
	}
	if a.Lead.Months != 15 || a.Next[0] != "large" || a.Next[1] != "small" {
		t.Errorf("the next vessels are %q, the first takes %d months", a.Next, a.Lead.Months)
	}
}

// Two classes that are the same get the answer that one has with their sum.
func TestWhenOfSameClasses(t *testing.T) {
	if testing.Short() {
		t.Skip("asks when twice; the round without -short has it")
	}
	data, err := os.ReadFile("../facilityfile/testdata/classes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(data), "  classes:\n")
	listed, _, _ := strings.Cut(rest, "  lead_time: 9 month\n")
	_, plans, _ := strings.Cut(string(data), "options:\n")
	ask := func(classes string) *vesselplan.Answer {
		return asked[*vesselplan.Answer](t, sallowFord(t, "  classes:\n"+listed, classes, "options:\n"+plans, ""), "when")
	}
	one := ask("  installed: 6\n  room_for: 9\n")
	two := ask("  classes: [{name: a, installed: 2, room_for: 3}, {name: b, installed: 4, room_for: 6}]\n")
	if len(one.All.Rows) != len(two.All.Rows) {
		t.Fatalf("%d rows, and %d of two classes", len(one.All.Rows), len(two.All.Rows))
	}
	short := false
	for i := range one.All.Rows {
		a, b := one.All.Rows[i], two.All.Rows[i]
		if a.Short != b.Short || a.LastKept != b.LastKept || a.FirstMissed != b.FirstMissed || a.OrderBy != b.OrderBy || a.StaticPeak != b.StaticPeak {
			t.Errorf("with %d vessels: %+v, and of two classes %+v", a.Vessels, a, b)
		}
		short = short || a.RunsShort(one.Horizon)
	}
	if !short {
		t.Error("no number of vessels runs short")
	}
}
