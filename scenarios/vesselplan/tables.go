package vesselplan

import (
	"math"

	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// line is a row of the staircase within its growth scenario.
type line struct {
	growth *Growth
	*Row
	name string // of the growth where it begins
}

// mostRows is how many rows the screen has room for, of the first staircase; of the
// others it has the first row.
const mostRows = 4

// staircases are that over all growths, where there are several, and those of each.
func (a *Answer) staircases() []*Growth {
	var list []*Growth
	if len(a.Growths) > 1 {
		list = append(list, &a.All)
	}
	for i := range a.Growths {
		list = append(list, &a.Growths[i])
	}
	return list
}

// lines are the rows that the screen has room for: the first ones over all growths
// and the last, and the vessels installed in each growth scenario.
func (a *Answer) lines() []line {
	var list []line
	for i, g := range a.staircases() {
		name := doc.Name(g.Name, 18)
		for k := range g.Rows {
			if k == 0 || i == 0 && (k < mostRows-1 || k == len(g.Rows)-1) {
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
	for _, g := range a.staircases() {
		all += len(g.Rows)
	}
	return len(a.lines()) < all
}

// shown is the staircase on the screen.
func (a *Answer) shown() doc.Table {
	const target, next, handbook = "service target", "next vessels by end of", "handbook short from"
	col := func(group, head, second string, of func(*line) any) doc.Col[line] {
		return doc.Txt(group, []string{head, second}, doc.Count, of)
	}
	cols := []doc.Col[line]{
		doc.Left([]string{"Growth", ""}, func(l *line) any { return l.name }),
		col("", "vessels", "", func(l *line) any { return l.Vessels }),
		col(target, "kept", "through", func(l *line) any { return a.year(l.LastKept) }),
		col(target, "missed", "from", func(l *line) any { return a.year(l.FirstMissed) }),
		col(target, "by runs", "%", func(l *line) any { return l.missing() }),
		col(next, "there", "", func(l *line) any { return quarter(a.Needed(l.growth, l.Row)) }),
		col(next, "ordered", "", func(l *line) any { return quarter(a.Ordered(l.growth, l.Row)) }),
	}
	if a.Next != nil {
		cols = append(cols, col("", "next", "class", func(l *line) any {
			if _, more := a.Ordered(l.growth, l.Row); !more {
				return nil
			}
			return doc.Name(a.nextClass(l.Row), 12)
		}))
	}
	title := "What each number of vessels lasts for"
	if a.Committed {
		title += ", beside those that the file adds"
	}
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words(title)}, a.lines(), append(cols,
		doc.Spared(2, col(handbook, "mean", "", func(l *line) any { return a.year(l.StaticAverage) })),
		doc.Spared(2, col(handbook, "peak", "month", func(l *line) any { return a.year(l.StaticPeak) })))...)
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

// missing is the share of runs that miss the first year missed, with its range.
func (l *line) missing() any {
	if l.Shares == nil || l.FirstMissed >= len(l.Shares) {
		return nil
	}
	y := l.Shares[l.FirstMissed]
	part := func(v float64) doc.Number { return doc.Fixed(v, doc.Share, 0) }
	return doc.Say("%s (%s–%s)", part(y.Estimate), part(y.Low), part(y.High))
}

// files is the staircase of every growth scenario in files.
func (a *Answer) files() doc.Table {
	main := a.Main()
	var all []Growth
	for _, g := range a.staircases() {
		all = append(all, *g)
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "growths"}, all,
		doc.Key("growth", func(g *Growth) any { return g.Name }).Means("growth scenario of the file, or all by their weights"),
		doc.Any("believed_in_most", func(g *Growth) any { return g.Name == main.Name }),
		doc.Any("over_all", func(g *Growth) any { return g.Name == a.All.Name }),
		doc.Any("advice", func(g *Growth) any { return adviceNames[a.Advice(g)] }),
		doc.Any("more_vessels_help", func(g *Growth) any { return g.VesselsHelp() }),
		doc.Any("short_beside_vessels", func(g *Growth) any {
			if a.Advice(g) != NoHelp {
				return nil
			}
			return g.Rows[len(g.Rows)-1].Limit.String()
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
				doc.Any("stage", func(c *plant.Capacity) any { return c.Stage.String() }).Means("part of the plant that may limit what it passes on"),
				doc.Val("can_carry_dry", doc.MassPerDay, func(c *plant.Capacity) float64 { return c.CakeDry }).Means("production that the stage passes on for ever with so many vessels", doc.Dry))
		}))
}

// adviceNames say in files what to do.
var adviceNames = [...]string{NoOrder: "no order", NoHelp: "more vessels do not help", OrderAtOnce: "order at once", OrderInTime: "order in time"}

// rows has a row for each number of vessels. An empty cell is not within the
// horizon.
func (a *Answer) rows(g *Growth) doc.Table {
	short := func(of func(*Row) int) func(*Row) any {
		return func(r *Row) any {
			if r.Shares == nil {
				return nil
			}
			return a.year(of(r) / quarters)
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
	cols := []doc.Col[Row]{
		doc.Val("weight", doc.Share, func(*Row) float64 { return g.Weight }).Means("weight of the growth scenario"),
		doc.Key("vessels", func(r *Row) any { return r.Vessels }).Means("vessels that the plant has"),
		doc.Any("kept_through", func(r *Row) any { return a.year(r.LastKept) }).Means("last year that keeps the service target with so many vessels"),
		doc.Any("missed_from", func(r *Row) any { return a.year(r.FirstMissed) }).Means("first year that misses the service target with so many vessels"),
		doc.Any("needed_by", func(r *Row) any { return day(a.Needed(g, r)) }).Means("day by which the next vessels must be in use"),
		doc.Any("needed_by_end_of", func(r *Row) any { return quarter(a.Needed(g, r)) }).Means("quarter by whose end the next vessels must be in use"),
		doc.Any("order_by", func(r *Row) any { return day(a.Ordered(g, r)) }).Means("last day of order that is in time"),
		doc.Any("order_by_end_of", func(r *Row) any { return quarter(a.Ordered(g, r)) }).Means("quarter by whose end the next vessels must be ordered"),
		doc.Any("order_is_late", func(r *Row) any { due, more := a.Ordered(g, r); return more && due.AtOnce }).Means("whether the last day of order that is in time is past on the first day of the run"),
	}
	if a.Next != nil {
		cols = append(cols, doc.Any("next_class", func(r *Row) any { return a.nextClass(r) }).Means("class of the vessels that are ordered next"))
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "when"}, g.Rows, append(cols,
		doc.Any("short_from_low90", short(func(r *Row) int { return r.Short })).Means("earliest year of the first miss, in the interval of 90 %"),
		doc.Any("short_from_high90", short(func(r *Row) int { return r.ShortTo })).Means("latest year of the first miss, in the interval of 90 %"),
		doc.Any("order_by_end_of_low90", doubt(func(_ Doubt, from, _ Due) any { return from.String() })).Means("earliest quarter of the order, in the interval of 90 %"),
		doc.Any("order_by_end_of_high90", doubt(func(kind Doubt, _, to Due) any {
			if kind == AnyTime || kind == NotBefore {
				return nil
			}
			return to.String()
		})).Means("latest quarter of the order, in the interval of 90 %"),
		doc.Any("handbook_mean_short_from", func(r *Row) any { return a.year(r.StaticAverage) }).Means("first year in which handbook arithmetic on the mean wants more vessels"),
		doc.Any("handbook_peak_month_short_from", func(r *Row) any { return a.year(r.StaticPeak) }).Means("first year in which handbook arithmetic on the highest month wants more vessels"),
		doc.In("years", func(r *Row) any { return a.years(r) }))...)
}

// standingNames say in files on which side of the target a year lies.
var standingNames = [...]string{Kept: "kept", TooNear: "too near to tell", Missed: "missed", Later: "after the first missed"}

// years has a row for each year of a number of vessels.
func (a *Answer) years(r *Row) doc.Table {
	type year struct {
		at    int
		share stats.Interval
	}
	all := make([]year, a.Horizon)
	for i := range all {
		all[i] = year{i, stats.Interval{Estimate: math.NaN(), Low: math.NaN(), High: math.NaN()}}
		if r.Shares != nil {
			all[i].share = r.Shares[i]
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, File: "when-years"}, all,
		doc.Any("year", func(y *year) any { return a.Label(y.at) }).Means("year of the horizon"),
		doc.Any("verdict", func(y *year) any { return standingNames[r.Standing(y.at)] }).Means("on which side of the target the year lies"),
		doc.Val("missing", doc.Share, func(y *year) float64 { return y.share.Estimate }).Means("part of the runs that miss the target in the year"),
		doc.Val("low", doc.Share, func(y *year) float64 { return y.share.Low }).Means("low end of the interval of the part of the runs that miss the target in the year"),
		doc.Val("high", doc.Share, func(y *year) float64 { return y.share.High }).Means("high end of the interval of the part of the runs that miss the target in the year"))
}
