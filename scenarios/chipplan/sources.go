package chipplan

import (
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
)

// Sources is what comes of each source of chips; it has none where chips come from one.
type Sources struct {
	Months []SourceMonth // source by source
	Years  []SourceYear  // the same
}

// SourceFlows are volumes of a source in a month or year, m3 as it comes.
type SourceFlows struct {
	Volume     answer.Spread // delivered, or come by itself
	Truckloads answer.Spread
	Turned     answer.Spread // of what comes by itself, for which there was no room
	Spend      answer.Spread // USD of the day; 0 if no price is known
}

// SourceMonth is a month of one source.
type SourceMonth struct {
	Name string
	fiscal.Month
	SourceFlows
}

// SourceYear is a fiscal year of one source; see [Year]. Budget is 0 without a price.
type SourceYear struct {
	Name, Label string
	SourceFlows
	Budget float64
}

// orOwn says that chips come by themselves, too, where they do.
func (s *Sources) orOwn() string {
	for i := range s.Years {
		if y := &s.Years[i]; y.Truckloads.Mean == 0 && y.Volume.Mean > 0 {
			return " or come by itself"
		}
	}
	return ""
}

// sourceFacts are what a month of one replication brought of a source.
type sourceFacts struct {
	plant.MonthlyChipSource
	spend float64
}

func (p *planner) sourceFacts(m *fiscal.Goods, e *facilityfile.Economy, years float64) []sourceFacts {
	if m.Chips.Sources == nil {
		return nil
	}
	out := make([]sourceFacts, len(m.Chips.Sources))
	for i, s := range m.Chips.Sources {
		out[i] = sourceFacts{s, p.spend(e, s.Volume*e.ChipSources[i][m.Month-1], years)}
	}
	return out
}

// sources puts what comes of each source into a plan.
func (p *planner) sources(t fiscal.Tally[facts], into *Sources) {
	sources := p.study.File.Model.Chips.Sources
	into.Months = make([]SourceMonth, len(sources)*len(p.years.Months))
	into.Years = make([]SourceYear, len(sources)*len(p.years.Labels))
	for i := range sources {
		flows := func(into *SourceFlows, in fiscal.Time[facts]) {
			over := func(into *answer.Spread, get func(*sourceFacts) float64) {
				t.Over(into, in(func(f *facts) float64 { return get(&f.sources[i]) }, fiscal.Sum))
			}
			over(&into.Volume, func(s *sourceFacts) float64 { return s.Volume })
			over(&into.Truckloads, func(s *sourceFacts) float64 { return s.Truckloads })
			over(&into.Turned, func(s *sourceFacts) float64 { return s.Turned })
			over(&into.Spend, func(s *sourceFacts) float64 { return s.spend })
		}
		for n, month := range p.years.Months {
			m := &into.Months[i*len(p.years.Months)+n]
			m.Name, m.Month = sources[i].Name, month
			flows(&m.SourceFlows, fiscal.InMonth[facts](n))
		}
		for y, label := range p.years.Labels {
			year := &into.Years[i*len(p.years.Labels)+y]
			year.Name, year.Label = sources[i].Name, label
			flows(&year.SourceFlows, fiscal.InYear[facts](y))
			if p.price.Known {
				t.Last(func() { year.Budget = figure(year.Spend.P90) })
			}
		}
	}
}

// sourceColumns are those of a month or year in files.
func (a *Answer) sourceColumns() []doc.Col[SourceFlows] {
	cols := []doc.Col[SourceFlows]{
		doc.Spr("came", doc.Volume, func(f *SourceFlows) answer.Spread { return f.Volume }).Means("chips that came from the source, loose"),
		doc.Spr("truckloads", doc.Count, func(f *SourceFlows) answer.Spread { return f.Truckloads }).Means("truckloads delivered by the source"),
		doc.Spr("turned_away", doc.Volume, func(f *SourceFlows) answer.Spread { return f.Turned }).Means("chips that came by themselves and found no room, loose"),
	}
	if a.Price.Known {
		cols = append(cols, doc.Spr("spend", doc.Money, func(f *SourceFlows) answer.Spread { return f.Spend }).Means("what is paid to the source, money of the day"))
	}
	return cols
}

// tellSources adds the sources to a document.
func (a *Answer) tellSources(d *doc.Document) {
	if len(a.Sources.Years) == 0 {
		return
	}
	shown := []doc.Col[SourceYear]{
		doc.Left([]string{"Source of chips", ""}, func(y *SourceYear) any { return doc.Name(y.Name, 25) }),
		doc.Left([]string{"Year", ""}, func(y *SourceYear) any { return y.Label }),
		doc.Num("", []string{"comes", "{unit}"}, doc.Volume, 0, func(y *SourceYear) float64 { return y.Volume.Mean }),
		doc.Num("", []string{"P90", "{unit}"}, doc.Volume, 0, func(y *SourceYear) float64 { return y.Volume.P90 }),
		doc.Num("", []string{"truck-", "loads"}, doc.Count, 1, func(y *SourceYear) float64 { return y.Truckloads.Mean }),
		doc.Num("", []string{"turned", "away"}, doc.Volume, 0, func(y *SourceYear) float64 { return y.Turned.Mean }),
	}
	years := []doc.Col[SourceYear]{
		doc.Key("source", func(y *SourceYear) any { return y.Name }).Means("supplier, or wood of the plant's own"),
		doc.Key("fiscal_year", func(y *SourceYear) any { return y.Label }).Means("year of the budget"),
	}
	years = append(years, doc.Lift(func(y *SourceYear) *SourceFlows { return &y.SourceFlows }, a.sourceColumns()...)...)
	if a.Price.Known {
		shown = append(shown, doc.Num("", []string{"spend", "mean"}, doc.Money, 0, func(y *SourceYear) float64 { return y.Spend.Mean }),
			doc.Num("", []string{"budget", "{unit}"}, doc.Money, 0, func(y *SourceYear) float64 { return y.Budget }))
		years = append(years, doc.Val("budget", doc.Money, func(y *SourceYear) float64 { return y.Budget }).Means("budget for the source that the asked part of the runs keeps, money of the day"))
	}
	table := doc.TableOf(doc.Table{In: doc.Screen, More: "; %d more in chip-source-years.csv (--out)",
		Title: doc.Say("Sources of chips by %s, suppliers in the order in which they are asked", a.Word())}, a.Sources.Years, shown...)
	for i := range a.Sources.Years { // later years make room
		if a.Sources.Years[i].Label != a.Sources.Years[0].Label {
			table.Rows[i].Rank = 2
		}
	}
	months := []doc.Col[SourceMonth]{
		doc.Key("source", func(m *SourceMonth) any { return m.Name }).Means("supplier, or wood of the plant's own"),
		doc.ByMonth(func(m *SourceMonth) (int, time.Month) { return m.Year, m.Month.Month }),
	}
	months = append(months, doc.Lift(func(m *SourceMonth) *SourceFlows { return &m.SourceFlows }, a.sourceColumns()...)...)
	d.Add(table, doc.TableOf(doc.Table{In: doc.Files, Name: "source_years", File: "chip-source-years"}, a.Sources.Years, years...),
		doc.TableOf(doc.Table{In: doc.Files, Name: "source_months", File: "chip-source-months"}, a.Sources.Months, months...))
}
