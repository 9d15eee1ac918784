package questions_test

import (
	"os"
	"strings"
	"testing"

	"loamcast/scenarios/units"
)

// Plants of the kinds that users had and could not write down are told as they are: a yard
// with cake of two plants, yard waste, two suppliers of chips and wood of its own; and a
// plant in euros with its production by years and a fiscal year that begins in July.
// (A third, with vessels of two classes, is in TestAnswersNameTheClass.)
func TestPlantsAsTheyAre(t *testing.T) {
	if testing.Short() {
		t.Skip("asks six questions; the round without -short has it")
	}
	for file, questions := range map[string]map[string][]string{
		"thistle.yaml": {
			"check": {"river plant 0.336 short ton/day dry at 21 % solids", "hill plant 0.186 short ton/day dry at 25 % solids", "ground yard waste"},
			"run":   {"of wood of its own", "chips to 1 cake and feedstocks by volume", "ground yard waste"},
			"chips": {"sawmill", "chipper", "yard wood"},
		},
		"euros.yaml": {
			"check": {"Greyfell Basin works", "t/day"},
			"run":   {"t wet cake", "m3 fresh chips"},
			"chips": {"fresh chips in FY2028", "FY2028 is July 2027 to June 2028", "EUR of the day", "spend, EUR"},
		},
	} {
		data, err := os.ReadFile("../facilityfile/testdata/" + file)
		if err != nil {
			t.Fatal(err)
		}
		s := prepared(t, file, data)
		for name, want := range questions {
			_, screen := says(t, s, name, want)
			if strings.Contains(screen, units.USD) == (file == "euros.yaml") && name == "chips" {
				t.Errorf("%s of %s is in the wrong currency", name, file)
			}
		}
	}
}
