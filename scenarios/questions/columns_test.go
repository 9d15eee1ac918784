package questions_test

import (
	"slices"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/question"
	"loamcast/scenarios/questions"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Of files that have what others have not (feedstocks, several sources of chips,
// amendments, classes of vessels, contracts), too, every column is explained.
func TestColumnsOfRareFiles(t *testing.T) {
	for _, name := range []string{"yard", "thistle", "classes", "contract"} {
		f, err := facilityfile.Open("../facilityfile/testdata/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		s, err := study.New(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, asked := range []string{"check", "run", "chips"} {
			q := questions.All[slices.IndexFunc(questions.All, func(q *question.Question) bool { return q.Name == asked })]
			written := map[string]string{}
			if asked != "check" {
				written["replications"] = "1"
			}
			values, err := question.Read(q.Options, written)
			if err != nil {
				t.Fatal(err)
			}
			a, err := q.Ask(t.Context(), s, answer.Setup{}, values)
			if err != nil {
				t.Fatalf("%s of %s: %v", asked, name, err)
			}
			d := a.Document()
			d.Add(inputs.Table(f))
			tables, err := render.CSV(d, units.SI)
			if err != nil {
				t.Fatal(err)
			}
			dictionary, err := render.Dictionary([]*document.Document{d}, units.SI)
			if err != nil {
				t.Fatal(err)
			}
			rendertest.Explained(t, append(tables, dictionary))
		}
	}
}
