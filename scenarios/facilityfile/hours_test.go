package facilityfile

import (
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/sim/calendar"
)

// A shift is from-to within a day, or over midnight.
func TestShifts(t *testing.T) {
	for _, c := range []struct {
		text        string
		open, close int // minutes after midnight
		ok          bool
	}{
		{"07:00-15:30", 420, 930, true},
		{"7:00 - 15:30", 420, 930, true},
		{"00:00-24:00", 0, 1440, true},
		{"22:00-06:00", 1320, 360, true},
		{"18:00-24:00", 1080, 1440, true},
		{"23:59-00:00", 1439, 0, true},
		{"07:00-07:00", 0, 0, false},
		{"07:00-24:01", 0, 0, false},
		{"24:00-06:00", 0, 0, false},
		{"07:60-15:30", 0, 0, false},
		{"07-15", 0, 0, false},
		{"07:00", 0, 0, false},
		{"07:00-15:30-16:00", 0, 0, false},
		{"-07:00-15:30", 0, 0, false},
		{"", 0, 0, false},
	} {
		got, ok := parseShift(c.text)
		if ok != c.ok || ok && got != (calendar.Shift{Open: c.open, Close: c.close}) {
			t.Errorf("%q: %v, %v", c.text, got, ok)
		}
	}
}

// A holiday is a day of every year, one date, or a weekday's rule. The dates
// are those of the calendars of 2027 and 2028.
func TestHolidays(t *testing.T) {
	for _, c := range []struct {
		text     string
		year     int
		want     string // of the year; "-" for none
		sensible bool
	}{
		{"07-04", 2027, "2027-07-04", true},
		{"02-29", 2027, "-", true},
		{"02-29", 2028, "2028-02-29", true},
		{"2027-11-26", 2027, "2027-11-26", true},
		{"2027-11-26", 2028, "-", true},
		{"last mon may", 2027, "2027-05-31", true},
		{"Last MON May", 2028, "2028-05-29", true},
		{"first mon sep", 2027, "2027-09-06", true},
		{"fourth thu nov", 2027, "2027-11-25", true},
		{"fifth sun feb", 2027, "-", true},
		{"second sat oct", 2027, "2027-10-09", true},
		{"third fri jan", 2027, "2027-01-15", true},
		{"04-31", 0, "", false},
		{"13-01", 0, "", false},
		{"00-10", 0, "", false},
		{"2027-02-30", 0, "", false},
		{"sixth mon may", 0, "", false},
		{"last monday may", 0, "", false},
		{"last mon 5", 0, "", false},
		{"mon", 0, "", false},
		{"", 0, "", false},
	} {
		h, ok := parseHoliday(c.text)
		if ok != c.sensible {
			t.Errorf("%q: %v", c.text, ok)
		}
		if !ok || !c.sensible {
			continue
		}
		got := "-"
		if d, falls := h.In(c.year); falls {
			got = d.String()
		}
		if got != c.want {
			t.Errorf("%q in %d: %s, want %s", c.text, c.year, got, c.want)
		}
	}
}

// The hours of the file hold for mixing, vessels and screening alike: Friday 1
// January 2027 is a holiday, and work begins on Monday at seven.
func TestWorkingHours(t *testing.T) {
	m := parse(t).Model
	for name, hours := range map[string]*calendar.Work{"mixer": m.Mixer.Hours, "vessels": m.Vessels.Hours, "screen": m.Screening.Hours} {
		const monday = 3 * calendar.SecondsPerDay
		if got, want := hours.NextOpen(0), int64(monday+7*3600); got != want {
			t.Errorf("%s: work begins at second %d, want %d", name, got, want)
		}
		if got, want := hours.NextClose(0), int64(monday+15*3600+1800); got != want {
			t.Errorf("%s: the first shift ends at second %d, want %d", name, got, want)
		}
	}
	// With a warm-up the calendar begins a year earlier: 1 January 2026 is a
	// Thursday and a holiday, and the first shift is on Friday.
	got := parse(t, "warm_up: 0 year", "warm_up: 1 year").Model.Mixer.Hours.NextOpen(0)
	if want := int64(calendar.SecondsPerDay + 7*3600); got != want {
		t.Errorf("with a warm-up, work begins at second %d, want %d", got, want)
	}
}

// Shows that a shift over midnight of more than twelve hours is warned of, at its place and
// with what may have been meant (derived): 8:00-3:00 would be nineteen hours.
func TestOverlongShift(t *testing.T) {
	for _, c := range []struct{ text, warned string }{
		{"8:00-3:00", "runs over midnight and is 19 hours long\nwrite 08:00-15:00 if it ends in the afternoon"},
		{"23:00-22:00", "runs over midnight and is 23 hours long\ncheck when it ends; hours go from 00:00 to 24:00"},
		{"20:00-08:00", ""},
		{"06:00-22:00", ""},
	} {
		f, err := Parse("plant.yaml", []byte(strings.Replace(string(examples.Data(examples.Demo)), "week: {mon: [07:00-15:30]", "week: {mon: ["+c.text+"]", 1)))
		if err != nil {
			t.Errorf("%s: %v", c.text, err)
			continue
		}
		var got []string
		for _, d := range f.Warnings {
			got = append(got, d.Message+"\n"+d.Hint)
		}
		want := []string{"hours.week.mon[1]: this shift " + c.warned}
		if c.warned == "" {
			want = nil
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: warned %q, want %q", c.text, got, want)
		}
	}
}
