package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"loamcast/sim/calendar"
)

// colours of series, which most readers can tell apart, as RGB.
var colours = []string{"0072B2", "D55E00", "009E73", "CC79A7", "56B4E9", "E69F00", "7A5195", "666666", "8C6D31", "B07AA1", "2F4B7C", "A05195", "9C9C9C"}

// series is a row of numbers of a chart: the cell that holds its name, and the cells of
// its numbers.
type series struct{ name, values string }

// drawn is a chart.
type drawn struct {
	kind            excelize.ChartType
	title, x, y     string
	categories      string
	series          []series
	width, height   uint
	format          string // of the numbers along y
	dates           bool
	skip            int  // every so many categories are named
	dashedBeyondOne bool // the first is the middle, the others its range
}

// chart puts a chart at a cell. Colours of lines and letters are all named: programs that
// show a book do not agree on what is meant where they are left out.
func (s *sheet) chart(column, row int, d drawn) {
	letters := func(size float64, bold bool) *excelize.Font {
		return &excelize.Font{Family: "Calibri", Size: size, Bold: bold, Color: ink}
	}
	titled := func(text string, size float64) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text, Font: letters(size, true)}}}
	}
	white := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FFFFFF"}}
	edge := excelize.LineOptions{Type: excelize.LineSolid, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{line}}, Width: 0.75}
	c := &excelize.Chart{
		Type: d.kind, Title: titled(d.title, 12), Fill: white, Border: edge,
		PlotArea:  excelize.ChartPlotArea{Fill: white},
		Legend:    excelize.ChartLegend{Position: "bottom", Font: letters(9, false)},
		Dimension: excelize.ChartDimension{Width: s.overFolded(column, d.width), Height: d.height},
		XAxis:     excelize.ChartAxis{Font: *letters(9, false), Title: titled(d.x, 10)},
		YAxis:     excelize.ChartAxis{Font: *letters(9, false), Title: titled(d.y, 10), MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: d.format}},
	}
	if d.kind == excelize.BarStacked {
		c.XAxis.ReverseOrder = true // so that the first is on top
		c.XAxis.TickLabelPosition = excelize.ChartTickLabelLow
	}
	c.XAxis.TickLabelSkip = d.skip
	if d.dates {
		c.XAxis.Alignment = excelize.Alignment{TextRotation: -90}
		c.XAxis.NumFmt = excelize.ChartNumFmt{CustomNumFmt: monthFormat}
	}
	for i, one := range d.series {
		fill := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colours[i%len(colours)]}}
		item := excelize.ChartSeries{
			Name: one.name, Categories: d.categories, Values: one.values, Fill: fill,
			Line: excelize.LineOptions{Type: excelize.LineSolid, Fill: fill, Width: 2}, Marker: excelize.ChartMarker{Symbol: "none"},
		}
		if d.dashedBeyondOne && i > 0 {
			item.Line.Dash, item.Line.Width = excelize.LineDashDash, 1.25
		}
		c.Series = append(c.Series, item)
	}
	s.b.failed(s.b.file.AddChart(s.name, at(column, row), c))
}

// overFolded is the width of a chart that begins at a column, with that of the columns
// under it that are folded away: the library measures it over them, and without them it
// would be seen as narrow as what is left.
func (s *sheet) overFolded(column int, width uint) uint {
	const digit, padding = 7, 5 // of a column as wide as one digit, pixels
	seen, folded := uint(0), uint(0)
	for k := column; seen < width; k++ {
		name, err := excelize.ColumnNumberToName(k)
		s.b.failed(err)
		wide, err := s.b.file.GetColWidth(s.name, name)
		s.b.failed(err)
		shown, err := s.b.file.GetColVisible(s.name, name)
		s.b.failed(err)
		if s.b.err != nil {
			break
		}
		if pixels := uint(wide*digit+0.5) + padding; shown {
			seen += pixels
		} else {
			folded += pixels
		}
	}
	return width + folded
}

// cells are those of a column between two rows, as formulas of other sheets name them.
func (s *sheet) cells(column, from, to int) string {
	return fmt.Sprintf("%s!%s:%s", quoted(s.name), fixed(column, from), fixed(column, to))
}

// mostSeries is how many numbers of vessels a chart tells apart.
const mostSeries = 6

// vesselsChart draws for the first growth, which is that over all where there are several,
// the share of runs that miss each year, a line for each number of vessels.
func vesselsChart(s *sheet, g *grid, first int) {
	growth, vessels, year, missing := g.place("growth"), g.place("vessels"), g.place("year"), g.place("missing")
	if growth < 0 || vessels < 0 || year < 0 || missing < 0 {
		return
	}
	d := drawn{
		kind: excelize.Line, title: "Runs that miss the service target, by number of vessels", x: "year", y: "runs that miss it, " + g.columns[missing].unit,
		width: 860, height: 340, format: whole,
	}
	column := len(g.columns) + 2
	for i := 0; i < len(g.rows) && g.rows[i][growth] == g.rows[0][growth] && len(d.series) < mostSeries; {
		end := i
		for end+1 < len(g.rows) && g.rows[end+1][growth] == g.rows[0][growth] && g.rows[end+1][vessels] == g.rows[i][vessels] {
			end++
		}
		if d.categories == "" {
			d.categories = s.cells(year+1, first, first+end)
		}
		if known(g, missing, i, end) {
			// The chart, which lies over them, takes its names from these cells.
			at := first + len(d.series)
			s.put(column, at, fmt.Sprintf("%v vessels", g.rows[i][vessels]), look{kind: note})
			d.series = append(d.series, series{s.cells(column, at, at), s.cells(missing+1, first+i, first+end)})
		}
		i = end + 1
	}
	if len(d.series) > 0 {
		s.chart(column, first, d)
	}
}

// known reports whether a column has a number in every row from one to another.
func known(g *grid, k, from, to int) bool {
	for i := from; i <= to; i++ {
		if g.rows[i][k] == nil {
			return false
		}
	}
	return true
}

// chipsChart draws the fresh chips that are mixed month by month, in the mean and at P90,
// which nine runs in ten do not pass.
func chipsChart(s *sheet, g *grid, first int) {
	month, mixed := g.place("month"), g.place("chips fresh mixed")
	if month < 0 || mixed < 0 {
		return
	}
	if _, ok := g.rows[0][month].(calendar.Date); !ok {
		return
	}
	last := first + len(g.rows) - 1
	const mean, p90 = 0, 3 // of the columns of a spread
	head := first - 1
	d := drawn{
		kind: excelize.Line, title: "Fresh chips by month", x: "month", y: "fresh chips mixed, " + g.columns[mixed].unit,
		categories: s.cells(month+1, first, last), width: 860, height: 340, format: whole, dates: true, dashedBeyondOne: true, skip: 1 + len(g.rows)/13,
		series: []series{
			{s.cells(mixed+1+mean, head, head), s.cells(mixed+1+mean, first, last)},
			{s.cells(mixed+1+p90, head, head), s.cells(mixed+1+p90, first, last)},
		},
	}
	s.b.failed(s.b.file.InsertPageBreak(s.name, at(1, last+2)))
	s.chart(1, last+3, d)
}
