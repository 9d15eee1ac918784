package page

import (
	"fmt"
	"net/http"
	"slices"

	"loamcast/scenarios/page/lab"
	"loamcast/scenarios/simulate"
	"loamcast/sim/calendar"
)

// quarterOf is a quarter that can be gone to.
type quarterOf struct {
	From, Name string
	Shown      bool
}

// yearOf are the quarters of a year.
type yearOf struct {
	Year     int
	Quarters []quarterOf
}

// vessels shows what each vessel was in over a quarter, and which others there are.
func (s *Server) vessels(w http.ResponseWriter, r *http.Request, in *request) (any, error) {
	out := newStream(w)
	f, problems := s.turned(in.Text, in.Dials)
	if f == nil {
		return nil, out.send("problems", problems)
	}
	run, err := s.lab.Watch(r.Context(), in.Tab, f, lab.Tell{Progress: out.progress})
	if err != nil {
		return nil, out.fail(err)
	}
	o, err := run.In(in.Quarter)
	if err != nil {
		return nil, out.fail(err)
	}
	text, err := s.answer(run.Document(o), f)
	if err != nil {
		return nil, err
	}
	list := run.Quarters()
	years, err := write("quarters", byYear(list, o))
	if err != nil {
		return nil, err
	}
	at := slices.Index(list, o.From)
	to := func(by int) string {
		if at < 0 || at+by < 0 || at+by >= len(list) {
			return ""
		}
		return monthName(list[at+by])
	}
	return nil, out.send("vessels", map[string]any{
		"html": text, "hash": f.Hash, "warnings": problems, "quarters": years,
		"to": map[string]string{"-4": to(-4), "-1": to(-1), "1": to(1), "4": to(4)},
	})
}

// monthName is a month as options of questions name it.
func monthName(day calendar.Date) string { return fmt.Sprintf("%d-%02d", day.Year, day.Month) }

// byYear are quarters by their years, of which one is shown.
func byYear(list []calendar.Date, shown *simulate.Occupancy) []yearOf {
	var out []yearOf
	for _, day := range list {
		if len(out) == 0 || out[len(out)-1].Year != day.Year {
			out = append(out, yearOf{Year: day.Year})
		}
		year := &out[len(out)-1]
		last := day.AddMonths(2)
		year.Quarters = append(year.Quarters, quarterOf{monthName(day), fmt.Sprintf("%s to %s %d", day.Month, last.Month, day.Year), day == shown.From})
	}
	return out
}
