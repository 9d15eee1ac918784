package vesselplan

import (
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// line is a row of the staircase within its growth scenario.
type line struct {
	growth *Growth
	*Row
	name string // of the growth where it begins
}

// most rows of a growth scenario that the screen has room for, and of the one
// that is believed in most.
const mostRows, mostMainRows = 4, 8

// lines are the rows that the screen has room for: the first ones of each growth
// scenario and the last.
func (a *Answer) lines() []line {
	var list []line
	main := a.Main()
	for i := range a.Growths {
		g, most := &a.Growths[i], mostRows
		if g == main {
			most = mostMainRows
		}
		name := doc.Name(g.Name, 18)
		for k := range g.Rows {
			if k < most-1 || k == len(g.Rows)-1 {
				list = append(list, line{g, &g.Rows[k], name})
				name = ""
			}
		}
	}
	return list
}

// leavesOut reports whether the screen has no room for some rows.
func (a *Answer) leavesOut() bool {
	all := 0
	for i := range a.Growths {
		all += len(a.Growths[i].Rows)
	}
	return len(a.lines()) < all
}

// shown is the staircase on the screen.
func (a *Answer) shown() doc.Table {
	const target, next, handbook = "service target", "next vessels by end of", "handbook short from"
	col := func(group, head, second string, of func(*line) any) doc.Col[line] {
		return doc.Txt(group, []string{head, second}, doc.Count, of)
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("What each number of vessels lasts for")}, a.lines(),
		doc.Left([]string{"Growth", ""}, func(l *line) any { return l.name }),
		col("", "vessels", "", func(l *line) any { return l.Vessels }),
		col(target, "kept", "through", func(l *line) any { return a.year(l.LastKept) }),
		col(target, "missed", "from", func(l *line) any { return a.year(l.FirstMissed) }),
		col(target, "by runs", "%", func(l *line) any { return l.missing() }),
		col(next, "there", "", func(l *line) any { return quarter(a.Needed(l.growth, l.Row)) }),
		col(next, "ordered", "", func(l *line) any { return quarter(a.Ordered(l.growth, l.Row)) }),
		col(handbook, "mean", "", func(l *line) any { return a.year(l.StaticAverage) }),
		col(handbook, "peak", "month", func(l *line) any { return a.year(l.StaticPeak) }))
}

// year is a year's label, nothing outside the horizon.
func (a *Answer) year(year int) any {
	if year < 0 || year >= a.Horizon {
		return nil
	}
	return a.Label(year)
}

// quarter is that of something due, nothing where nothing is.
func quarter(due Due, more bool) any {
	if !more {
		return nil
	}
	return due.String()
}

// day is that of something due, nothing where nothing is.
func day(due Due, more bool) any {
	if !more {
		return nil
	}
	return due.Day
}

// missing is the runs that miss the first year missed, with their interval.
func (l *line) missing() any {
	y, ok := l.Of(l.FirstMissed)
	if !ok {
		return nil
	}
	part := func(v float64) doc.Number { return doc.Fixed(v, doc.Share, 0) }
	return doc.Say("%s (%s–%s)", part(y.Share.Estimate), part(y.Share.Low), part(y.Share.High))
}

// files is the staircase of every growth scenario in files.
func (a *Answer) files() doc.Table {
	main := a.Main()
	return doc.TableOf(doc.Table{In: doc.Files, Name: "growths"}, a.Growths,
		doc.Key("growth", func(g *Growth) any { return g.Name }),
		doc.Any("believed_in_most", func(g *Growth) any { return g == main }),
		doc.Any("advice", func(g *Growth) any { return adviceNames[a.Advice(g)] }),
		doc.Any("more_vessels_help", func(g *Growth) any { return g.VesselsHelp() }),
		doc.Any("short_beside_vessels", func(g *Growth) any {
			if a.Advice(g) != NoHelp {
				return nil
			}
			return answer.Lack(g.Rows[len(g.Rows)-1].Limit)
		}),
		doc.Any("vessels_to_the_end", func(g *Growth) any {
			if r, reach := a.Enough(g); reach == ToTheEnd {
				return r.Vessels
			}
			return nil
		}),
		doc.In("vessels", func(g *Growth) any { return a.rows(g) }),
		doc.Any("next_limit", func(g *Growth) any {
			if c, known := g.NextLimit(); known {
				return c.Stage.String()
			}
			return nil
		}),
		doc.In("limits", func(g *Growth) any {
			return doc.TableOf(doc.Table{In: doc.Files, File: "when-limits"}, g.Next,
				doc.Any("stage", func(c *plant.Capacity) any { return c.Stage.String() }),
				doc.Val("can_carry_dry", doc.MassPerDay, func(c *plant.Capacity) float64 { return c.CakeDry }))
		}))
}

// adviceNames say in files what to do.
var adviceNames = [...]string{NoOrder: "no order", NoHelp: "more vessels do not help", OrderAtOnce: "order at once", OrderInTime: "order in time"}

// rows has a row for each number of vessels. An empty cell is not within the
// horizon.
func (a *Answer) rows(g *Growth) doc.Table {
	between := func(of func(*Between) any) func(*Row) any {
		return func(r *Row) any {
			if r.Between == nil {
				return nil
			}
			return of(r.Between)
		}
	}
	doubt := func(of func(kind Doubt, from, to Due) any) func(*Row) any {
		return func(r *Row) any {
			kind, from, to, known := a.Doubt(r)
			if !known {
				return nil
			}
			return of(kind, from, to)
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "when"}, g.Rows,
		doc.Val("weight", doc.Share, func(*Row) float64 { return g.Weight }),
		doc.Key("vessels", func(r *Row) any { return r.Vessels }),
		doc.Any("kept_through", func(r *Row) any { return a.year(r.LastKept) }),
		doc.Any("missed_from", func(r *Row) any { return a.year(r.FirstMissed) }),
		doc.Any("needed_by", func(r *Row) any { return day(a.Needed(g, r)) }),
		doc.Any("needed_by_end_of", func(r *Row) any { return quarter(a.Needed(g, r)) }),
		doc.Any("order_by", func(r *Row) any { return day(a.Ordered(g, r)) }),
		doc.Any("order_by_end_of", func(r *Row) any { return quarter(a.Ordered(g, r)) }),
		doc.Any("order_is_late", func(r *Row) any { due, more := a.Ordered(g, r); return more && due.AtOnce }),
		doc.Any("first_missed_low90", between(func(b *Between) any { return a.year(b.From) })),
		doc.Any("first_missed_high90", between(func(b *Between) any { return a.year(b.To) })),
		doc.Any("order_by_end_of_low90", doubt(func(_ Doubt, from, _ Due) any { return from.String() })),
		doc.Any("order_by_end_of_high90", doubt(func(kind Doubt, _, to Due) any {
			if kind == AnyTime || kind == NotBefore {
				return nil
			}
			return to.String()
		})),
		doc.Any("handbook_mean_short_from", func(r *Row) any { return a.year(r.StaticAverage) }),
		doc.Any("handbook_peak_month_short_from", func(r *Row) any { return a.year(r.StaticPeak) }),
		doc.In("years", func(r *Row) any { return a.years(r) }))
}

// standingNames say in files on which side of the target a year lies.
var standingNames = [...]string{Kept: "kept", TooNear: "too near to tell", Missed: "missed", Later: "after the first missed"}

// years has a row for each year of a number of vessels.
func (a *Answer) years(r *Row) doc.Table {
	all := make([]Year, a.Horizon)
	for i := range all {
		all[i] = Year{Year: i, Share: stats.Interval{Estimate: math.NaN(), Low: math.NaN(), High: math.NaN()}}
		if at := slices.IndexFunc(r.Tested, func(y Year) bool { return y.Year == i }); at >= 0 {
			all[i] = r.Tested[at]
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "when-years"}, all,
		doc.Any("year", func(y *Year) any { return a.Label(y.Year) }),
		doc.Any("verdict", func(y *Year) any { return standingNames[r.Standing(y.Year)] }),
		doc.Any("simulated_runs", func(y *Year) any { return y.Trials }),
		doc.Val("missing", doc.Share, func(y *Year) float64 { return y.Share.Estimate }),
		doc.Val("low", doc.Share, func(y *Year) float64 { return y.Share.Low }),
		doc.Val("high", doc.Share, func(y *Year) float64 { return y.Share.High }))
}
