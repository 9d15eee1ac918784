package facilityfile

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"loamcast/scenarios/units"
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

// shifts are the working hours of the yard or of one stage.
type shifts struct {
	at   *yamlfile.Map // the group that holds the week
	work *calendar.Work
	good bool // they were read without complaint
}

// hours reads the working hours of the yard, and of the stages that have their
// own. Without them, work never stops.
func (r *reader) hours() {
	always := calendar.Always()
	yard := shifts{work: always, good: true}
	mixing, screening, dewatering := yard, yard, yard
	if h := r.root.MapIf("hours"); h.Present() {
		holidays, good := r.readHolidays(h)
		r.holidays = holidays
		yard = r.shifts(h, good)
		mixing = r.stage(h, "mixing", yard, good)
		screening = r.stage(h, "screening", yard, good)
		dewatering = r.stage(h, "dewatering", yard, good)
		if h.Has("dewatering") && !r.dewateringGroup.Present() && r.root.Good("dewatering") && h.Good("dewatering") {
			h.Error("dewatering", "cake is at hand as soon as it is held, so that no dewatering keeps these hours",
				`add a group such as "dewatering: {rate_dry: 0.4 t/h}", or remove this one`)
		}
	}
	r.staffed(mixing, yard)
	r.staffed(screening, yard)
	r.meet(mixing, dewatering, yard)
	r.keepsUp(dewatering)
	m := r.m
	m.Vessels.Hours, m.Mixer.Hours, m.Screening.Hours, m.Dewatering.Hours = yard.work, mixing.work, screening.work, dewatering.work
}

// stage returns the hours of a stage: its own, or those of the yard.
func (r *reader) stage(h *yamlfile.Map, key string, yard shifts, holidaysGood bool) shifts {
	if own := h.MapIf(key); own.Present() {
		return r.shifts(own, holidaysGood)
	}
	return yard
}

// shifts reads the week in a group. While something is wrong, work is always.
func (r *reader) shifts(m *yamlfile.Map, holidaysGood bool) shifts {
	s := shifts{at: m, work: calendar.Always()}
	week, good := r.week(m.Map("week"))
	if !good || !holidaysGood || !m.Good("week", "holidays") || !r.root.Good("start", "warm_up") {
		return s
	}
	s.work, s.good = r.calendar(m, week)
	return s
}

// calendar builds the working hours of a week that stands in a group.
func (r *reader) calendar(m *yamlfile.Map, week calendar.Week) (*calendar.Work, bool) {
	w, err := calendar.NewWork(r.clock(), week, r.holidays...)
	if err != nil {
		m.Error("week", strings.TrimPrefix(err.Error(), "calendar: "), "give at least one weekday a shift such as [07:00-15:30]")
		return calendar.Always(), false
	}
	return w, true
}

func (r *reader) clock() calendar.Clock { return calendar.Clock{Start: r.m.Begin()} }

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
			if slices.Contains(week[i], shift) {
				ok = false
				r.doc.ErrorAt(m.ItemPos(day, j), fmt.Sprintf("%s.%s[%d]: this shift is there already", m.Path(), day, j+1), "remove one of the two")
				continue
			}
			if text, hint := overlong(shift); text != "" {
				r.doc.WarnAt(m.ItemPos(day, j), fmt.Sprintf("%s.%s[%d]: %s", m.Path(), day, j+1, text), hint)
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
	return s, s.Open != s.Close && s.Close <= midnight
}

const noon, midnight = 12 * 60, 24 * 60 // min

// overlong says of a shift over midnight that it is longer than one works, and what may
// have been meant; nothing of another.
func overlong(s calendar.Shift) (text, hint string) {
	worked := midnight - s.Open + s.Close
	if s.Close > s.Open || worked <= noon {
		return "", ""
	}
	text = fmt.Sprintf("this shift runs over midnight and is %s hours long", units.FormatNumber(float64(worked)/60))
	if meant := s.Close + noon; meant > s.Open && meant <= midnight {
		return text, fmt.Sprintf("write %s-%s if it ends in the afternoon", minutesText(s.Open), minutesText(meant))
	}
	return text, "check when it ends; hours go from 00:00 to 24:00"
}

func minutesText(m int) string { return fmt.Sprintf("%02d:%02d", m/60, m%60) }

func (r *reader) readHolidays(h *yamlfile.Map) (out []calendar.Holiday, ok bool) {
	ok = true
	for i, text := range h.Texts("holidays") {
		holiday, good := parseHoliday(text)
		if !good {
			ok = false
			r.doc.ErrorAt(h.ItemPos("holidays", i), fmt.Sprintf("%s.holidays[%d]: %s is not a holiday", h.Path(), i+1, strconv.Quote(text)),
				"write month-day (07-04), a date (2027-11-26), or a rule such as: last mon may")
			continue
		}
		if slices.Contains(out, holiday) {
			ok = false
			r.doc.ErrorAt(h.ItemPos("holidays", i), fmt.Sprintf("%s.holidays[%d]: this holiday is there already", h.Path(), i+1), "remove one of the two")
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
