package setback

import (
	"fmt"
	"strconv"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/sim/stats"
)

// columns are those of the screen behind the first, which say what a row is.
func columns(first ...doc.Col[row]) []doc.Col[row] {
	const more, misses = "more, {units} dry", "misses, %"
	one := func(group string, heads []string, q doc.Quantity, decimals int, of func(*Begin) float64) doc.Col[row] {
		return doc.Num(group, heads, q, decimals, func(r *row) float64 { return of(r.Begin) })
	}
	share := func(head string, of func(*Begin) stats.Interval) doc.Col[row] {
		return doc.Txt(misses, []string{head, ""}, doc.Count, func(r *row) any { return doc.BareShare(of(r.Begin).Estimate) })
	}
	return append(first,
		one(more, []string{"mean", ""}, doc.Mass, 1, func(b *Begin) float64 { return b.Untreated.Mean }),
		doc.Txt(more, []string{"90 % sure", ""}, doc.Mass, func(r *row) any { return between(r.Untreated.Interval) }),
		one(more, []string{"P10", ""}, doc.Mass, 1, func(b *Begin) float64 { return b.Untreated.P10 }),
		one(more, []string{"P90", ""}, doc.Mass, 1, func(b *Begin) float64 { return b.Untreated.P90 }),
		one("", []string{"days", "more"}, doc.Count, 1, func(b *Begin) float64 { return b.Delay.Mean }),
		share("without", func(b *Begin) stats.Interval { return b.Without }),
		share("with", func(b *Begin) stats.Interval { return b.Missed }),
		doc.Left([]string{"target", ""}, func(r *row) any { return judged(r.Verdict) }),
		doc.Txt("", []string{"felt,", "months"}, doc.Count, func(r *row) any { return strconv.Itoa(r.Felt) }))
}

// row is a beginning with what it is of.
type row struct {
	*Begin
	setback *Setback
	year    *Year
}

// between writes the ends of an interval of masses.
func between(i stats.Interval) doc.Text {
	return doc.Say("%s to %s", doc.Fixed(i.Low, doc.Mass, 1), doc.Fixed(i.High, doc.Mass, 1))
}

// judged says on which side of what the target leaves a chance lies.
func judged(v stats.Verdict) string {
	switch v {
	case stats.Below:
		return "kept"
	case stats.Above:
		return "missed"
	}
	return "open"
}

// byMonth is the table of the months in which vessels may fail in a year.
func (a *Answer) byMonth(s *Setback, y *Year) doc.Table {
	var rows []row
	for i := range y.Begins {
		rows = append(rows, row{&y.Begins[i], s, y})
	}
	t := doc.TableOf(doc.Table{In: doc.Screen, More: "; %d months that cost next to nothing are left out", Title: doc.Say("%s in %s, by the month in which it begins: what more leaves untreated, and how many days longer cake waits", doc.Capital(doc.Name(s.Name, longestName)), y.inWords(a))},
		rows, columns(begins)...)
	for i := range t.Rows {
		if b := &y.Begins[i]; b.Nothing() && b.Delay.Mean < waitsFrom && i != y.Least && i != y.Most {
			t.Rows[i].Rank = 1
		}
	}
	return t
}

// seasons is the table of all seasons.
func (a *Answer) seasons() doc.Table {
	var rows []row
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		for k := range s.Years {
			for n := range s.Years[k].Begins {
				if s.Season() {
					rows = append(rows, row{&s.Years[k].Begins[n], s, &s.Years[k]})
				}
			}
		}
	}
	name := doc.Left([]string{"season", ""}, func(r *row) any { return doc.Name(r.setback.Name, longestName) })
	name.Shrink = 9
	return doc.TableOf(doc.Table{In: doc.Screen, Title: doc.Words("Seasons that are not as usual: what more leaves untreated, and how many days longer cake waits")}, rows, columns(name, begins)...)
}

// begins is the month in which a setback begins.
var begins = doc.Left([]string{"begins", ""}, func(r *row) any { return fmt.Sprintf("%s %d", r.From.Month.String()[:3], r.From.Year) })

// longestName is how much of a setback's name the screen has room for.
const longestName = 30

// files is the table of everything.
func (a *Answer) files() doc.Table {
	type list = doc.Col[row]
	excess := func(name string, q doc.Quantity, of func(*Begin) *Excess) []list {
		return []list{
			doc.Spr(name, q, func(r *row) answer.Spread { return of(r.Begin).Spread }),
			doc.Est(name+"_of_mean", q, func(r *row) stats.Interval { return of(r.Begin).Interval }),
		}
	}
	cols := []list{
		doc.Key("name", func(r *row) any { return r.setback.Name }),
		doc.Key("begins", func(r *row) any { return r.From }),
		doc.Any("year", func(r *row) any { return a.Label(r.year.Year) }),
		doc.Any("vessels_out", func(r *row) any { return r.setback.Vessels }),
		doc.Any("months", func(r *row) any { return r.setback.For.Months }),
		doc.Any("days", func(r *row) any { return r.setback.For.Days }),
	}
	cols = append(cols, excess("untreated_more", doc.Mass, func(b *Begin) *Excess { return &b.Untreated })...)
	cols = append(cols, excess("untreated_in_failed_loads_more", doc.Mass, func(b *Begin) *Excess { return &b.Failed })...)
	cols = append(cols, excess("cake_waits_longer", doc.Days, func(b *Begin) *Excess { return &b.Delay })...)
	cols = append(cols, excess("loads_lost_more", doc.Count, func(b *Begin) *Excess { return &b.Lost })...)
	if a.Money {
		cols = append(cols, excess("tipping_more", doc.Money, func(b *Begin) *Excess { return &b.Tipping })...)
	}
	cols = append(cols,
		doc.Est("misses_target_without", doc.Share, func(r *row) stats.Interval { return r.Without }),
		doc.Est("misses_target", doc.Share, func(r *row) stats.Interval { return r.Missed }),
		doc.Any("target_without", func(r *row) any { return judged(r.VerdictWithout) }),
		doc.Any("target", func(r *row) any { return judged(r.Verdict) }),
		doc.Spr("holding_fullest_without", doc.Share, func(r *row) answer.Spread { return r.FullestWithout }),
		doc.Spr("holding_fullest", doc.Share, func(r *row) answer.Spread { return r.Fullest }),
		doc.Spr("cake_held_most_without", doc.Mass, func(r *row) answer.Spread { return r.PeakHeldWithout }),
		doc.Spr("cake_held_most", doc.Mass, func(r *row) answer.Spread { return r.PeakHeld }),
		doc.Any("felt_months", func(r *row) any { return r.Felt }),
	)
	if a.Classes {
		cols = append(cols, doc.Any("vessel_class", func(r *row) any { return r.setback.Class }))
	}
	var rows []row
	for i := range a.Setbacks {
		s := &a.Setbacks[i]
		for k := range s.Years {
			for n := range s.Years[k].Begins {
				rows = append(rows, row{&s.Years[k].Begins[n], s, &s.Years[k]})
			}
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "setbacks", File: "setbacks"}, rows, cols...)
}

// decisions is the table of what was decided of each setback in each year.
func (a *Answer) decisions() doc.Table {
	type decided struct {
		*Setback
		*Year
	}
	date := func(of func(*decided) int) func(*decided) any {
		return func(d *decided) any { return d.Begins[of(d)].From }
	}
	var rows []decided
	for i := range a.Setbacks {
		for k := range a.Setbacks[i].Years {
			rows = append(rows, decided{&a.Setbacks[i], &a.Setbacks[i].Years[k]})
		}
	}
	return doc.TableOf(doc.Table{In: doc.Files, Name: "decisions", File: "setback-decisions"}, rows,
		doc.Key("name", func(d *decided) any { return d.Name }),
		doc.Key("year", func(d *decided) any { return a.Label(d.Year.Year) }),
		doc.Any("last_kept", func(d *decided) any { return d.LastKept }),
		doc.Any("harmless", func(d *decided) any { return d.harmless() }),
		doc.Any("least_from", date(func(d *decided) int { return d.Least })),
		doc.Any("months_as_good", func(d *decided) any {
			months := make([]int, len(d.Alike))
			for i, at := range d.Alike {
				months[i] = int(d.Begins[at].From.Month)
			}
			return months
		}),
		doc.Any("most_from", date(func(d *decided) int { return d.Most })),
		doc.Any("told_apart", func(d *decided) any { return d.Told() }),
		doc.Any("by_waiting", func(d *decided) any { return d.ByDelay }),
		doc.Val("load_dry", doc.Mass, func(d *decided) float64 { return d.LoadDry }),
	)
}
