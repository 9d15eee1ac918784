package setback

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// invented is a beginning with figures that are invented: so much leaves untreated, kg dry,
// and so many of 64 runs miss the target, with it and without.
func invented(a *Answer, from calendar.Date, untreated, days float64, missed, without int) Begin {
	around := func(x float64) []float64 {
		xs := make([]float64, 64)
		for i := range xs {
			xs[i] = x * float64(1+i%3) / 2
		}
		return xs
	}
	b := Begin{From: from, solids: 240_000, untreated: around(untreated), delay: around(days)}
	b.Untreated, b.Delay, b.Tipping = excessOf(b.untreated), excessOf(b.delay), excessOf(around(untreated/2))
	b.Failed, b.Lost = excessOf(around(0)), excessOf(around(0))
	b.Missed, b.Verdict = a.chance(missed, 64)
	b.Without, b.VerdictWithout = a.chance(without, 64)
	b.FullestWithout, b.Fullest = rendertest.Around(0.6), rendertest.Around(0.9)
	b.PeakHeldWithout, b.PeakHeld = rendertest.Around(3000), rendertest.Around(4500)
	if untreated > 0 {
		b.Felt = 3
	}
	return b
}

// sample is an answer about a vessel out and a wet winter in two years.
func sample() *Answer {
	a := &Answer{Basis: rendertest.Basis().Replicated(64), Wrong: 0.05, Assumed: true, Money: true}
	a.Target = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}
	a.Start, a.Horizon = calendar.Date{Year: 2027, Month: 1, Day: 1}, 20
	fails := Setback{Setback: facilityfile.Setback{Name: "vessel out", Vessels: 1, For: calendar.Span{Days: 42}}, LoadDry: 1900}
	winter := Setback{Setback: facilityfile.Setback{Name: "wet winter", Begins: time.December, For: calendar.Span{Months: 3}}}
	winter.Spell.CakeSolids, winter.Spell.ChipMoisture, winter.Spell.Temperature, winter.Spell.Humidity, winter.Spell.Production = -0.015, 0.05, -2, 0.05, 0.05
	for year := 0; year < 7; year += 6 {
		first := calendar.Date{Year: 2027 + year, Month: 1, Day: 1}
		y := Year{Year: year, LastKept: year > 0}
		for month := range 12 {
			lost := 0.0
			if month > 4 && month < 10 {
				lost = float64(year) * float64(100*(month-4))
			}
			y.Begins = append(y.Begins, invented(a, first.AddMonths(month), lost, lost/1000, int(lost)/200, year/6))
		}
		y.rank(0.05)
		fails.Years = append(fails.Years, y)
		y = Year{Year: year, LastKept: year > 0, Begins: []Begin{invented(a, first.AddMonths(11), 4000, 0.4, 40, year/6)}}
		y.Begins[0].Failed = y.Begins[0].Untreated
		y.rank(0.05)
		winter.Years = append(winter.Years, y)
	}
	a.Setbacks = []Setback{fails, winter}
	return a
}

// lone is an answer about a season of the file's own in one year, without prices.
func lone() *Answer {
	a := sample()
	a.Assumed, a.Money, a.PricesOf, a.Invented = false, false, 0, false
	a.Setbacks = a.Setbacks[1:]
	a.Setbacks[0].Years = a.Setbacks[0].Years[:1]
	return a
}

// alike is an answer about vessels of a class whose loss depends on no month.
func alike() *Answer {
	a := sample()
	a.Assumed, a.Classes = false, true
	s := &a.Setbacks[0]
	s.Class, s.Vessels, s.For = "large", 2, calendar.Span{Months: 1, Days: 3}
	a.Setbacks, s.Years = a.Setbacks[:1], s.Years[:1]
	y := &s.Years[0]
	for i := range y.Begins {
		y.Begins[i] = invented(a, y.Begins[i].From, 900, 0.3, 1, 0)
	}
	y.Alike = nil
	y.rank(0.05)
	return a
}

// out is an answer about a vessel out in one year of a file that lists it.
func out() *Answer {
	a := sample()
	a.Assumed = false
	a.Setbacks = a.Setbacks[:1]
	a.Setbacks[0].Years = a.Setbacks[0].Years[1:]
	return a
}

// The answer reads as reviewed, fits the screen, and begins with the decision.
func TestDocumentReads(t *testing.T) {
	for name, a := range map[string]*Answer{"setback": sample(), "setback_lone": lone(), "setback_alike": alike(), "setback_out": out()} {
		rendertest.Reads(t, name, a.Document())
		rendertest.Leaves(t, name, a.Document())
	}
	for prefix, a := range map[string]*Answer{
		"One vessel out for 6 weeks in 2033 costs least when it begins in Jan to May, Nov and Dec (nothing is lost) and most from October 2033 on": sample(),
		"“wet winter”, 3 months from December 2027 on: ":                      lone(),
		"Two vessels (large) out for 1 month and 3 days in 2027 costs about ": alike(),
	} {
		if got := strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.SI)), " "); !strings.HasPrefix(got, strings.ReplaceAll(prefix, document.NoBreak, " ")) {
			t.Errorf("it begins with %.160q, not %q", got, prefix)
		}
	}
}

// Screen, JSON, CSV and picture have the same decision.
func TestDocumentDecidesOnce(t *testing.T) {
	d := sample().Document()
	var told struct {
		Decisions []struct {
			Name, Year string
			Least      string `json:"least_from"`
			Most       string `json:"most_from"`
			Alike      []int  `json:"months_as_good"`
			Apart      bool   `json:"told_apart"`
			Harmless   bool
		}
		Setbacks []struct {
			Begins, Target string
		}
	}
	if err := json.Unmarshal(rendertest.JSON(t, d, units.SI), &told); err != nil {
		t.Fatal(err)
	}
	if n := len(told.Decisions); n != 4 {
		t.Fatalf("%d decisions", n)
	}
	last := told.Decisions[1]
	if last.Year != "2033" || last.Least != "2033-01-01" || last.Most != "2033-10-01" || !last.Apart || last.Harmless || fmt.Sprint(last.Alike) != "[2 3 4 5 11 12]" {
		t.Errorf("JSON decides %+v", last)
	}
	if first := told.Decisions[0]; !first.Harmless || first.Apart {
		t.Errorf("of the first year JSON decides %+v", first)
	}
	if n := len(told.Setbacks); n != 26 {
		t.Errorf("%d rows in JSON", n)
	}
	files, err := render.Files(d, units.SI)
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, f := range files {
		switch text := string(f.Data); f.Name {
		case "setback-decisions.csv":
			found++
			if !strings.Contains(text, "vessel out,2033,true,false,2033-01-01,2; 3; 4; 5; 11; 12,2033-10-01,true,false,") {
				t.Errorf("the decisions in CSV are %s", text)
			}
		case "setbacks.csv":
			found++
			for _, s := range told.Setbacks {
				if !strings.Contains(text, s.Begins) {
					t.Errorf("CSV has no %s", s.Begins)
				}
			}
		}
	}
	if found != 2 {
		t.Errorf("%d of two tables are files", found)
	}
	rendertest.Draws(t, d, units.US, []string{"costs least when begun in Jan to May, Nov and Dec, most from October on", "short tons dry", "what the", "wet winter", "from December 2033"}, nil)
	rendertest.Draws(t, d, units.SI, []string{"t dry"}, []string{"short tons"})
}

// What no run showed may yet happen, and a verdict that is open is told as open.
func TestChancesInWords(t *testing.T) {
	a := sample()
	for want, b := range map[string]Begin{
		"stays at less than 4 %": invented(a, a.Start, 0, 0, 0, 0),
		"is 5 % (open: the target leaves 5 %), and no run misses it without": invented(a, a.Start, 0, 0, 3, 0),
		"rises from 2 % to 31 % (missed: the target leaves 5 %)":             invented(a, a.Start, 0, 0, 20, 1),
		"is 2 %, 5 % without it (open: the target leaves 5 %)":               invented(a, a.Start, 0, 0, 1, 3),
	} {
		if got := document.PlainSpaces(a.chances(&b)); !strings.Contains(got, want) {
			t.Errorf("%q, not %q", got, want)
		}
	}
}

// Of months that cannot be told apart the dearest is named, so that none looks cheaper than
// it is: in the year of 2033 that from January on, which loses nothing, and that from June
// on, which loses 0.6 t, if runs could not tell the two apart.
func TestLeastCostIsThatOfTheDearest(t *testing.T) {
	y := out().Setbacks[0].Years[0]
	says := func() string { return y.leastCost().Plain(units.SI) }
	if got := says(); got != "nothing is lost" {
		t.Errorf("of months that lose nothing: %q", got)
	}
	y.Alike = append(y.Alike, 5)
	if got, want := says(), mass(y.Begins[5].Untreated.Mean).Plain(units.SI)+" at most in the mean; 64 runs do not tell them apart"; got != want || !strings.HasPrefix(got, "0.6") {
		t.Errorf("with June: %q, want %q", got, want)
	}
	y.Least, y.Alike = 5, nil
	if got, want := says(), mass(y.Begins[5].Untreated.Mean).Plain(units.SI); got != want {
		t.Errorf("of June alone: %q, want %q", got, want)
	}
}
