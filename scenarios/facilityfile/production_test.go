package facilityfile

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
)

// smallAmount, smallGrowth and smallSeason are what the small file has.
const (
	smallAmount = "  dry_per_day: 85 kg/day\n"
	smallGrowth = "  growth: {compound: 2.2 %/year}\n"
	smallSeason = "  by_month: [0.90, 0.90, 0.93, 0.95, 0.96, 1.00, 1.12, 1.22, 1.22, 1.06, 0.90, 0.88]\n"
	smallSolids = "  cake_solids: 20 %\n"
	shortTon    = 907.18474 // kg, NIST Handbook 44 App. C, from memory
)

func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*math.Abs(want) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// The ways to say how much comes, by hand. The small file's season has the mean
// 12.04/12, and where the solids content is 20 % all year it plays no part.
func TestAmounts(t *testing.T) {
	for text, want := range map[string]float64{
		"dry_per_day: 190 lb/day":            190 * 0.45359237,
		"wet_per_day: 2.2 short ton/day":     2.2 * shortTon * 0.20,
		"dry_per_year: 40 short ton/year":    40 * shortTon / 365.25,
		"wet_per_year: 200 short ton/year":   200 * shortTon / 365.25 * 0.20,
		"wet_per_day: 80 short ton per year": 80 * shortTon / 365.25 * 0.20,
	} {
		m := parse(t, smallAmount, "  "+text+"\n").Model
		near(t, text, m.Feed.Base, want)
	}
}

// Wet cake whose solids content has a season. In eleven months 1 part dry comes at
// 20 %, 5 parts wet, in the twelfth 2 parts at 10 %, 20 parts wet: 13 parts dry in 75
// parts wet, 17.333 % and not the mean of the months, 19.167 %. Of 750 kg of wet
// cake a day, 130 kg are dry.
func TestWetCakeIsWeighedByTheMonths(t *testing.T) {
	m := parse(t, smallAmount, "  wet_per_day: 750 kg/day\n",
		smallSeason, "  by_month: [1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 2]\n",
		smallSolids, "  cake_solids: [20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 10 %]\n").Model
	near(t, "dry solids", m.Feed.Base, 130)
}

// Masses of months: of 31 days 31 t and so on, a t a day, but for February of 28
// days with 56 t, 2 t a day: a mean of 13/12 t a day of which the months have 12/13
// and 24/13 times. Wet, with February's cake at 40 % and the others' at 20 %: 0.2 t and 0.8 t
// dry a day, the mean 3/12 t.
func TestMassesOfMonths(t *testing.T) {
	masses := "[31 t, 56 t, 31 t, 30 t, 31 t, 30 t, 31 t, 31 t, 30 t, 31 t, 30 t, 31 t]"
	m := parse(t, smallAmount, "  dry_by_month: "+masses+"\n", smallSeason, "").Model
	near(t, "dry solids", m.Feed.Base, 1000*13.0/12)
	near(t, "February", m.Feed.Month[1]/mean(m.Feed.Month[:]), 24.0/13)
	near(t, "March", m.Feed.Month[2]/mean(m.Feed.Month[:]), 12.0/13)

	m = parse(t, smallAmount, "  wet_by_month: "+masses+"\n", smallSeason, "",
		smallSolids, "  cake_solids: [20 %, 40 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %, 20 %]\n").Model
	near(t, "dry solids of wet cake", m.Feed.Base, 250)
	near(t, "February of wet cake", m.Feed.Month[1]/mean(m.Feed.Month[:]), 0.8/0.25)
}

// Masses of years. 2027 has 365 days and 2028 has 366: 36.5 t are 100 kg a day, and
// 43.92 t are 120, from the first of January of their year on. 2029 lies half way between
// 2028 and 2030's 51.1 t, 140 kg a day, by the 366 of 731 days. The last goes on. The
// first year's 365.25 days have a quarter of a day of 2028.
func TestMassesOfYears(t *testing.T) {
	const firstYear = 100 + 20*0.25/365.25
	const table = "  dry_by_year: {2026: 30 t, 2027: 36.5 t, 2028: 43.92 t, 2030: 51.1 t}\n"
	for text, want := range map[string]float64{table: 1, strings.Replace(table, "dry", "wet", 1): 0.2} {
		f := parse(t, smallAmount, text, smallGrowth, "")
		near(t, "dry solids", f.Model.Feed.Base, firstYear*want)
		for years, perDay := range map[float64]float64{0.5: 100, 1.5: 120, 2.5: 120 + 20*366.0/731, 3.5: 140, 9.5: 140} {
			near(t, fmt.Sprintf("after %g years", years), f.Model.Feed.Base*f.Model.Feed.Growth.Factor(years), perDay*want)
			near(t, "the growth that is expected", f.Planning.Growths[0].Growth.Factor(years), f.Model.Feed.Growth.Factor(years))
		}
	}

	// A growth that is written has its way after the first year.
	f := parse(t, smallAmount, table)
	near(t, "first year", f.Model.Feed.Base, firstYear)
	if f.Model.Feed.Growth != (plant.Compound{Rate: 0.022}) {
		t.Errorf("growth %#v", f.Model.Feed.Growth)
	}

	// From 1 July 2027 on, the first year has 184 of its 366 days in 2027, counted in
	// years of 365.25 days: 100 · 184/365.25 + 120 · 181.25/365.25 kg a day.
	f = parse(t, smallAmount, table, smallGrowth, "", "start: 2027-01-01", "start: 2027-07-01")
	near(t, "first year from July", f.Model.Feed.Base, (100*184+120*181.25)/365.25)

	// Measured years alone: production stays, and the file is told so.
	f = parse(t, smallAmount, "  dry_by_year: {2024: 36.6 t, 2025: 40.15 t}\n", smallGrowth, "")
	near(t, "the last year measured", f.Model.Feed.Base, 110)
	if f.Model.Feed.Growth != (plant.Compound{}) || len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0].Message, "the table ends with 2025") {
		t.Errorf("growth %#v, warnings %v", f.Model.Feed.Growth, f.Warnings)
	}
}

// People by calendar year, and what each gives in the units that are in use: 18.6 kg
// a year are 18.6/365.25 kg a day. 9,600 people in 2025 and 10,800 in 2029 make
// 10,200 on 1 January 2027, the middle to within a day, and 10,350 in the mean of 2027.
func TestPeopleByYear(t *testing.T) {
	const growth = "  growth: {population: {by_calendar_year: {2025: 9600, 2029: 10800}, per_person: %s, source: invented}}\n"
	for text, each := range map[string]float64{
		"0.051 kg/day": 0.051, "51 g/day": 0.051, "0.11 lb/day": 0.11 * 0.45359237, "18.6 kg/year": 18.6 / 365.25,
	} {
		m := parse(t, smallAmount, "", smallGrowth, fmt.Sprintf(growth, text)).Model
		if want := 10350 * each; math.Abs(m.Feed.Base/want-1) > 1e-4 {
			t.Errorf("%s: %g kg/day, want %g", text, m.Feed.Base, want)
		}
	}
}

// The same plant, said in any way, is the same plant to rounding: whatever comes,
// with whatever season and solids content.
func TestAmountsSayTheSame(t *testing.T) {
	write := func(values [12]float64, unit string) string {
		list := make([]string, 12)
		for i, v := range values {
			list[i] = fmt.Sprintf("%.17g%s", v, unit)
		}
		return "[" + strings.Join(list, ", ") + "]"
	}
	days := [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	rapid.Check(t, func(rt *rapid.T) {
		base := rapid.Float64Range(1, 1e4).Draw(rt, "base")
		var season, solids, percent, dry, wet [12]float64
		for i := range season {
			season[i] = rapid.Float64Range(0.5, 2).Draw(rt, "season")
			percent[i] = rapid.Float64Range(12, 35).Draw(rt, "solids")
			solids[i] = percent[i] / 100
		}
		wetMean, total := 0.0, mean(season[:])
		for i := range season {
			perDay := base * season[i] / total
			wetMean += perDay / solids[i] / 12
			dry[i], wet[i] = perDay*days[i], perDay*days[i]/solids[i]
		}
		seasonal := "  by_month: " + write(season, "") + "\n"
		for _, c := range [][2]string{
			{fmt.Sprintf("wet_per_day: %.17g kg/day", wetMean), seasonal},
			{fmt.Sprintf("dry_per_year: %.17g kg/year", base*365.25), seasonal},
			{fmt.Sprintf("wet_per_year: %.17g kg/year", wetMean*365.25), seasonal},
			{fmt.Sprintf("dry_by_year: {2027: %.17g kg}", base*365), seasonal},
			{fmt.Sprintf("wet_by_year: {2026: 1 t, 2027: %.17g kg}", wetMean*365), seasonal},
			{"dry_by_month: " + write(dry, " kg"), ""},
			{"wet_by_month: " + write(wet, " kg"), ""},
		} {
			if strings.Contains(c[0], "1 t,") && (wetMean*365 > 90_000 || wetMean*365 < 11) {
				continue // too steep a rise from the year before
			}
			m := parse(t, smallAmount, "  "+c[0]+"\n", smallSeason, c[1], smallSolids, "  cake_solids: "+write(percent, " %")+"\n").Model
			near(rt, c[0], m.Feed.Base, base)
			for i := range season {
				near(rt, c[0]+": season", m.Feed.Month[i]/mean(m.Feed.Month[:]), season[i]/total)
			}
		}
	})
}

// withSources reads the small file with sources in place of its one plant.
func withSources(t *testing.T, sources string, edits ...string) *File {
	t.Helper()
	return parse(t, append([]string{smallAmount, "", smallGrowth, "", smallSeason, "", smallSolids,
		"  sources:\n" + sources, "  by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}\n", ""}, edits...)...)
}

const (
	north = "    - {name: north plant, wet_per_day: 400 kg/day, cake_solids: 15 %, growth: {compound: 3 %/year}}\n"
	south = "    - {name: south plant, dry_per_day: 20 kg/day, cake_solids: 25 %, by_weekday: {mon: 1, tue: 1, wed: 1, thu: 1, fri: 1, sat: 0, sun: 0}}\n"
)

// Two plants, by hand: 400 · 0.15 = 60 kg dry and 20, together 80; wet 400 and 80, so
// that the mixed cake has 80/480 = 1/6 solids. On Sundays the north alone sends: 3/4. After
// a year the north's 60 are 3 % more.
func TestSources(t *testing.T) {
	f := withSources(t, north+south)
	feed := f.Model.Feed
	near(t, "together", feed.Base, 80)
	near(t, "mixed cake", feed.CakeSolids[4], 1.0/6)
	near(t, "Sunday", feed.Weekday[0], 0.75)
	near(t, "Monday", feed.Weekday[1], 0.75+0.25*7/5)
	first, second := feed.Growth.Factor(0.5), feed.Growth.Factor(1.5)
	northFirst := (plant.Compound{Rate: 0.03}).Factor(0.5)
	near(t, "growth", second/first, (60*1.03*northFirst+20)/(60*northFirst+20))
	near(t, "the growth that is expected", f.Planning.Growths[0].Growth.Factor(8), feed.Growth.Factor(8))
	if len(feed.Sources) != 2 || feed.Sources[0].Name != "north plant" || feed.Sources[1].Base != 20 {
		t.Errorf("%+v", feed.Sources)
	}

	// A growth of all leaves the parts.
	f = withSources(t, strings.Replace(north, ", growth: {compound: 3 %/year}", "", 1)+south+smallGrowth)
	if f.Model.Feed.Growth != (plant.Compound{Rate: 0.022}) || f.Model.Feed.PartsShift(20) {
		t.Errorf("growth %#v", f.Model.Feed.Growth)
	}
}

// Uncertain inputs of solids are told of all sources together: production in place of
// their sum, growth and points of solids content on top of each.
func TestUncertainSources(t *testing.T) {
	f := withSources(t, north+south)
	parts := f.Parts()
	set := func(key string, value float64) plant.Feed {
		in, known := InputNamed(key)
		if !known {
			t.Fatalf("%s may not be uncertain", key)
		}
		m := f.Model
		p := parts
		p.Model = &m
		in.Set(p, value)
		return m.Feed
	}
	near(t, "production", set("solids.dry_per_day", 160).Base, 160)
	thick := set("solids.cake_solids", 0.05)
	near(t, "thicker north", thick.Sources[0].CakeSolids[0], 0.20)
	near(t, "thicker mix", thick.CakeSolids[0], 80/(60/0.20+20/0.30))
	near(t, "the file's own", f.Model.Feed.Sources[0].CakeSolids[0], 0.15)
	if g := set("solids.growth", 0.02).Growth; !(g.Factor(5) > f.Model.Feed.Growth.Factor(5)*1.05) {
		t.Errorf("growth by 2 %% a year more: %g", g.Factor(5))
	}
	for _, key := range inputKeys() {
		if strings.Contains(key, "sources") {
			t.Errorf("%s is an input", key)
		}
	}
}

// One source that sends what the file's one plant sends is the same plant.
func TestOneSourceIsThePlant(t *testing.T) {
	one := parse(t)
	f := withSources(t, "    - {name: the plant, dry_per_day: 85 kg/day, cake_solids: 20 %, growth: {compound: 2.2 %/year}, "+strings.TrimSpace(smallSeason)+
		", by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}}\n")
	a, b := one.Model.Feed, f.Model.Feed
	near(t, "base", b.Base, a.Base)
	for i := range a.Month {
		near(t, "season", b.Month[i], a.Month[i]/mean(a.Month[:]))
		near(t, "solids", b.CakeSolids[i], a.CakeSolids[i])
	}
	near(t, "growth", b.Growth.Factor(3), a.Growth.Factor(3))
}

// A solids content that a change of the file brings is that of the thickest source.
func TestSolidsOfSourcesAfterChanges(t *testing.T) {
	_, err := Parse("small.yaml", []byte(strings.NewReplacer(smallAmount, "", smallGrowth, "", smallSeason, "",
		smallSolids, "  sources:\n"+strings.Replace(north, "15 %", "45 %", 1)+south,
		"  by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}\n", "").
		Replace(readSmall(t))+"changes: [{name: a, date: 2027-05-01, cake_solids: 8 %}]\n"))
	want := "with this change cake would have " + units.Format(0.53, units.Fraction, units.US) + " solids"
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%v, want %q", err, want)
	}
}
