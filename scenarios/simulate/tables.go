package simulate

import (
	"fmt"
	"strings"
	"time"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// shown is the table of chosen years.
func (a *Answer) shown() doc.Table {
	const use, needed, handbook, chips = "In use", "Needed", "Handbook", "Chips"
	col := func(group, name string, q doc.Quantity, of func(*Year) any) doc.Col[Year] {
		return doc.Txt(group, []string{name, "{unit}"}, q, of)
	}
	amount := func(group, name string, q doc.Quantity, of func(*Year) answer.Spread) doc.Col[Year] {
		return col(group, name, q, func(y *Year) any { return doc.Bare(of(y).P50, q) })
	}
	number := func(group, name string, write func(float64) string, of func(*Year) float64) doc.Col[Year] {
		return col(group, name, doc.Count, func(y *Year) any { return write(of(y)) })
	}
	need := func(name string, of func(*Year) float64) doc.Col[Year] {
		return col(needed, name, doc.Count, func(y *Year) any {
			if y.OtherShort {
				return nil
			}
			return whole(of(y))
		})
	}
	picks := a.shownYears()
	years := make([]Year, len(picks))
	for i, p := range picks {
		years[i] = a.Years[p.place]
	}
	cols := []doc.Col[Year]{col("", "Year", doc.Count, func(y *Year) any { return y.Label })}
	if len(a.Feedstocks) > 0 {
		cols = append(cols, amount("Dry", "cake", doc.Mass, func(y *Year) answer.Spread { return y.Brought.CakeDry }),
			amount("Dry", "other", doc.Mass, func(y *Year) answer.Spread { return y.Brought.FeedstockDry }))
	} else {
		cols = append(cols, amount("Cake", "dry", doc.Mass, func(y *Year) answer.Spread { return y.FeedDry }))
	}
	cols = append(cols,
		number(use, "mean", tenth, func(y *Year) float64 { return y.VesselsMean.P50 }),
		number(use, "peak", whole, func(y *Year) float64 { return y.VesselsPeak.P50 }),
		need("P50", func(y *Year) float64 { return y.VesselsNeeded.P50 }),
		need(answer.QuantileName(a.Level.High), func(y *Year) float64 { return y.VesselsNeeded.P90 }),
		number("", "Installed", whole, func(y *Year) float64 { return float64(y.Installed) }),
		number(handbook, "mean", tenth, func(y *Year) float64 { return y.StaticAverage }),
		number(handbook, "peak", tenth, func(y *Year) float64 { return y.StaticPeak }),
		amount(chips, "fresh", doc.Volume, func(y *Year) answer.Spread { return y.ChipsBought }),
		amount(chips, "recovered", doc.Volume, func(y *Year) answer.Spread { return y.ChipsRecovered }),
		amount("", "Product", doc.Volume, func(y *Year) answer.Spread { return y.ProductVolume }),
		doc.Spared(spareTable, col("", "Diverted", doc.Share, func(y *Year) any { return tenth(100 * y.DivertedShare.P50) })))
	if a.Hauls {
		cols = append(cols, col("", "Contract", doc.Share, func(y *Year) any { return tenth(100 * y.ContractShare.P50) }))
	}
	t := doc.TableOf(doc.Table{In: doc.Screen, Least: leastShown}, years, cols...)
	for i, p := range picks {
		t.Rows[i].Rank = p.rank
	}
	return t
}

func whole(v float64) string { return fmt.Sprintf("%.0f", v) }

// tenth writes tenths below a hundred.
func tenth(v float64) string {
	if v >= 100 {
		return whole(v)
	}
	return fmt.Sprintf("%.1f", v)
}

func (a *Answer) years() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "years", File: "years"}, a.Years, a.yearColumns()...)
}

func (a *Answer) months() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "months", File: "months"}, a.Months, a.monthColumns()...)
}

// failures are the criteria that failed loads missed.
func (a *Answer) failures() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "failed_by"}, a.FailedBy,
		doc.Key("criterion", func(c *Cause) any { return c.Name }),
		doc.Val("share", doc.Share, func(c *Cause) float64 { return c.Share }))
}

// waitColumns have the waiting for each cause in a year or month.
func waitColumns[T any](waits []Wait, of func(*T, *Wait) float64) []doc.Col[T] {
	cols := make([]doc.Col[T], len(waits))
	for i := range waits {
		w := &waits[i]
		cols[i] = doc.Val(strings.ReplaceAll(w.Cause, " ", "_"), doc.MassDays, func(t *T) float64 { return of(t, w) }).
			Means("solids that wait, by how long they wait, charged to: "+w.Cause, doc.Dry)
	}
	return cols
}

// places counts records.
func places[T any](records []T) []int {
	out := make([]int, len(records))
	for i := range out {
		out[i] = i
	}
	return out
}

// waitsByYear is the waiting of every year by cause, for JSON.
func (a *Answer) waitsByYear() doc.Table {
	cols := []doc.Col[int]{doc.Key("year", func(y *int) any { return a.Years[*y].Label }).Means("year of the horizon")}
	cols = append(cols, waitColumns(a.Waits, func(y *int, w *Wait) float64 { return w.Years[*y] })...)
	return doc.TableOf(doc.Table{In: doc.Files, Name: "waits_dry"}, places(a.Years), cols...)
}

// waitsByMonth is the waiting of every month by cause, for CSV.
func (a *Answer) waitsByMonth() doc.Table {
	cols := []doc.Col[int]{
		doc.ByMonth(func(m *int) (int, time.Month) { return a.Months[*m].Year, a.Months[*m].Month }),
	}
	cols = append(cols, waitColumns(a.Waits, func(m *int, w *Wait) float64 { return w.Months[*m] })...)
	return doc.TableOf(doc.Table{In: doc.Files, File: "waits"}, places(a.Months), cols...)
}

// resourceRow is a year of a resource with its names. In files it is called a
// tool, as it has been from the beginning.
type resourceRow struct {
	name, year string
	*ResourceYear
}

func (a *Answer) resources() doc.Table {
	var rows []resourceRow
	for _, r := range a.Resources {
		for i := range r.Years {
			rows = append(rows, resourceRow{r.Name, a.Years[i].Label, &r.Years[i]})
		}
	}
	cols := []doc.Col[resourceRow]{
		doc.Key("tool", func(r *resourceRow) any { return r.name }).Means("machine or crew"),
		doc.Key("year", func(r *resourceRow) any { return r.year }).Means("year of the horizon"),
	}
	cols = append(cols, doc.Lift(func(r *resourceRow) *ResourceYear { return r.ResourceYear }, resourceColumns...)...)
	return doc.TableOf(doc.Table{In: doc.Files, Name: "tools", File: "tools"}, rows, cols...)
}

// capacitiesByYear has what each year brings and, within it, the stages, the
// tightest first, for JSON.
func (a *Answer) capacitiesByYear() doc.Table {
	cols := []doc.Col[CapacityYear]{doc.Key("year", func(y *CapacityYear) any { return y.Label }).Means("year of the horizon")}
	cols = append(cols, broughtColumns...)
	cols = append(cols, doc.In("stages", func(y *CapacityYear) any {
		return doc.TableOf(doc.Table{}, y.Stages, stageColumns...)
	}))
	return doc.TableOf(doc.Table{In: doc.Files, Name: "capacity"}, a.Capacities, cols...)
}

// stageRow is a stage in a year.
type stageRow struct {
	*CapacityYear
	*Stage
}

// capacitiesByStage has a row for each stage and year, for CSV.
func (a *Answer) capacitiesByStage() doc.Table {
	var rows []stageRow
	for i := range a.Capacities {
		y := &a.Capacities[i]
		for j := range y.Stages {
			rows = append(rows, stageRow{y, &y.Stages[j]})
		}
	}
	cols := []doc.Col[stageRow]{doc.Key("year", func(r *stageRow) any { return r.Label }).Means("year of the horizon")}
	cols = append(cols, doc.Lift(func(r *stageRow) *Stage { return r.Stage }, stageColumns...)...)
	cols = append(cols, doc.Lift(func(r *stageRow) *CapacityYear { return r.CapacityYear }, broughtColumns...)...)
	return doc.TableOf(doc.Table{In: doc.Files, File: "capacity"}, rows, cols...)
}

func (a *Answer) triggers() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "triggered", File: "triggered"}, a.Triggered, triggerColumns...)
}

func (a *Answer) flows() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "flows", File: "flows"}, a.Flows, flowColumns...)
}

func (a *Answer) components() doc.Table {
	return doc.TableOf(doc.Table{In: doc.Files, Name: "balance_by_component", File: "balance"}, a.Balance.Components, componentColumns...)
}
