package vesselplan_test

import (
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
)

// The first line answers whatever the answer is.
func TestHeadlines(t *testing.T) {
	for _, c := range []struct {
		name  string
		alter func(*vesselplan.Answer)
		want  string
	}{
		{"order", func(*vesselplan.Answer) {},
			"Order 2 vessels by the end of the second quarter of 2036, to be in use by 1 July 2037: the chance of missing the service target before then is 3 %. Waiting until the end of the second quarter of 2038: 12 %. That is the early end: it is 90 % sure that the order is due between Q2 2036 and Q2 2037. If growth is “as expected” (70 %) it is due by the end of the second quarter of 2037."},
		{"certain", between(42, 42), "It is 90 % sure that the order is due in Q2 2036."},
		{"perhaps at once", between(0, 46), "It is 90 % sure that the order is due by Q2 2037."},
		{"perhaps never", between(38, 80), "It is 90 % sure that no order is due before Q2 2035."},
		{"anything", between(0, 80), "When it is due can hardly be told: at once, or not within the horizon."},
		{"one growth", func(a *vesselplan.Answer) {
			a.Growths = a.Growths[1:]
			for i := range a.Orders {
				a.Orders[i].ByGrowth = a.Orders[i].ByGrowth[1:]
			}
		}, "Waiting until the end of the second quarter of 2038: 12 %. That is the early end: it is 90 % sure"},
		{"none needed", func(a *vesselplan.Answer) { a.All.Rows = a.All.Rows[2:] },
			"10 vessels keep the service target in every year through 2046: no more need be ordered."},
		{"late", late, "Order 2 vessels at once: the chance that 8 vessels miss the service target before more are in use, 12 months after the order, is 30 % even so. It is 90 % sure that the order is due at once."},
		{"how many is not known", func(a *vesselplan.Answer) { a.Batch.Vessels = 0 }, "Order more vessels by the end of"},
		{"no help", func(a *vesselplan.Answer) {
			for i := range a.All.Rows {
				a.All.Rows[i].Short = 42
			}
		}, "More vessels do not help: from 2037 the service target is missed with 8 vessels as with 10 vessels. Beside vessels, solids wait most for space on the curing pad."},
		{"no room to hold cake", func(a *vesselplan.Answer) {
			for i := range a.All.Rows {
				a.All.Rows[i].Short, a.All.Rows[i].Limit = 42, capability.Lack{Room: true}
			}
		}, "More vessels do not help: from 2037 the service target is missed with 8 vessels as with 10 vessels. The holding has not enough room for cake over weekends and holidays and until a load has come together."},
		{"loads fail", func(a *vesselplan.Answer) {
			for i := range a.All.Rows {
				a.All.Rows[i].Short, a.All.Rows[i].Limit.Failing = 42, true
			}
		}, "as with 10 vessels. Too many loads fail to comply: loamcast run says by what, loamcast cycle why."},
	} {
		a := sample()
		c.alter(a)
		if got := a.Document().Headline.Plain(units.US); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}

// The quarters of the table are whole ones to come, and there are none where vessels
// do not help. The sample starts on 1 January 2027.
func TestQuarters(t *testing.T) {
	day := func(year, month, day int) calendar.Date {
		return calendar.Date{Year: year, Month: time.Month(month), Day: day}
	}
	for _, c := range []struct {
		name             string
		needed, order    calendar.Date
		help             bool
		there, orderedBy string
	}{
		{"in time", day(2029, 4, 1), day(2028, 4, 1), true, "Q1 2029", "Q1 2028"},
		{"in the first quarter", day(2028, 2, 15), day(2027, 2, 15), true, "Q4 2027", "at once"},
		{"before the start", day(2027, 10, 1), day(2026, 10, 1), true, "Q3 2027", "at once"},
		{"needed at the start", day(2027, 1, 1), day(2026, 1, 1), true, "at once", "at once"},
		{"no help", day(2029, 4, 1), day(2028, 4, 1), false, "-", "-"},
	} {
		a := sample()
		g := &a.All
		if !c.help {
			noHelp(a)
		}
		r := &g.Rows[0]
		r.NeededBy, r.OrderBy = c.needed, c.order
		quarter := func(d vesselplan.Due, more bool) string {
			if !more {
				return "-"
			}
			return d.String()
		}
		if there, ordered := quarter(a.Needed(g, r)), quarter(a.Ordered(g, r)); there != c.there || ordered != c.orderedBy {
			t.Errorf("%s: there by %q, ordered by %q; want %q, %q", c.name, there, ordered, c.there, c.orderedBy)
		}
	}
}
