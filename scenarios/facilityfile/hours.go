package facilityfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

var (
	weekdays  = []string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}
	months    = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}
	ordinals  = []string{"first", "second", "third", "fourth", "fifth"}
	shiftText = regexp.MustCompile(`^([01]?\d|2[0-3]):([0-5]\d)\s*-\s*([01]?\d|2[0-4]):([0-5]\d)$`)
	dayText   = regexp.MustCompile(`^(\d\d)-(\d\d)$`)
)

// hours reads the working hours of the yard. Without them, work never stops.
func (r *reader) hours() {
	h := r.root.MapIf("hours")
	work := calendar.Always()
	if h.Present() {
		week, weekOK := r.week(h.Map("week"))
		holidays, holidaysOK := r.holidays(h)
		if weekOK && holidaysOK && h.Good("week", "holidays") && r.root.Good("start", "warm_up") {
			w, err := calendar.NewWork(calendar.Clock{Start: r.m.Begin()}, week, holidays...)
			if err != nil {
				h.Error("week", strings.TrimPrefix(err.Error(), "calendar: "), "give at least one weekday a shift such as [07:00-15:30]")
			} else {
				work = w
			}
		}
	}
	r.m.Mixer.Hours, r.m.Vessels.Hours, r.m.Screening.Hours = work, work, work
}

func (r *reader) week(m *yamlfile.Map) (week calendar.Week, ok bool) {
	ok = true
	for i, day := range weekdays {
		if m.Has(day) && !m.IsList(day) {
			m.Error(day, "a list of shifts is needed", "write the shifts in brackets, e.g. [07:00-15:30]")
			continue
		}
		for j, text := range m.Texts(day) {
			shift, good := parseShift(text)
			if !good {
				ok = false
				r.doc.ErrorAt(m.ItemPos(day, j), fmt.Sprintf("%s.%s[%d]: %s is not a shift", m.Path(), day, j+1, strconv.Quote(text)),
					"write from-to within a day, e.g. 07:00-15:30; a night shift is 22:00-06:00")
				continue
			}
			week[i] = append(week[i], shift)
		}
	}
	return week, ok && m.Good(weekdays...)
}

func parseShift(text string) (calendar.Shift, bool) {
	p := shiftText.FindStringSubmatch(text)
	if p == nil {
		return calendar.Shift{}, false
	}
	minutes := func(h, m string) int {
		hours, _ := strconv.Atoi(h)
		mins, _ := strconv.Atoi(m)
		return hours*60 + mins
	}
	s := calendar.Shift{Open: minutes(p[1], p[2]), Close: minutes(p[3], p[4])}
	return s, s.Open != s.Close && s.Close <= 24*60
}

func (r *reader) holidays(h *yamlfile.Map) (out []calendar.Holiday, ok bool) {
	ok = true
	for i, text := range h.Texts("holidays") {
		holiday, good := parseHoliday(text)
		if !good {
			ok = false
			r.doc.ErrorAt(h.ItemPos("holidays", i), fmt.Sprintf("%s.holidays[%d]: %s is not a holiday", h.Path(), i+1, strconv.Quote(text)),
				"write month-day (07-04), a date (2027-11-26), or a rule such as: last mon may")
			continue
		}
		out = append(out, holiday)
	}
	return out, ok
}

// parseHoliday reads "07-04", "2027-11-26", "fourth thu nov" or "last mon may".
func parseHoliday(text string) (calendar.Holiday, bool) {
	if p := dayText.FindStringSubmatch(text); p != nil {
		month, _ := strconv.Atoi(p[1])
		day, _ := strconv.Atoi(p[2])
		d := calendar.Date{Year: 2000, Month: time.Month(month), Day: day} // a leap year
		return calendar.Yearly(d.Month, d.Day), d.Valid()
	}
	if d, err := calendar.ParseDate(text); err == nil {
		return calendar.OnDate(d), true
	}
	words := strings.Fields(strings.ToLower(text))
	if len(words) != 3 {
		return calendar.Holiday{}, false
	}
	weekday, month := index(weekdays, words[1]), index(months, words[2])
	if weekday < 0 || month < 0 {
		return calendar.Holiday{}, false
	}
	if words[0] == "last" {
		return calendar.LastWeekday(time.Weekday(weekday), time.Month(month+1)), true
	}
	n := index(ordinals, words[0])
	return calendar.NthWeekday(n+1, time.Weekday(weekday), time.Month(month+1)), n >= 0
}

func index(words []string, word string) int {
	for i, w := range words {
		if w == word {
			return i
		}
	}
	return -1
}
