package workbook

import (
	"math"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"loamcast/sim/calendar"
)

// look is how a cell looks.
type look struct {
	format string // of numbers; empty for words
	kind   kind
}

type kind int

const (
	plain       kind = iota
	title            // of a sheet
	section          // of a part of a sheet
	note             // in small print
	warning          // stands out
	heading          // over a column of words
	headingOver      // over a column of numbers
	beside           // words beside a number
	figureWords      // words among numbers
	cellWords        // words of a table
	wrapped          // words of several lines
	input            // may be changed
	result           // what follows
)

// Colours, as RGB.
const (
	ink, pale, dark, changeable, alarm = "222222", "666666", "1F3B57", "FFF4C2", "9C2A00"
	headed, line                       = "DCE6EE", "B8C4CE"
)

// style returns the style of a look, the same for all cells that have it.
func (b *book) style(l look) int {
	if id, ok := b.styles[l]; ok {
		return id
	}
	s := &excelize.Style{Font: &excelize.Font{Family: "Calibri", Size: 10, Color: ink}, Alignment: &excelize.Alignment{Vertical: "top"}}
	border := []excelize.Border{{Type: "bottom", Color: line, Style: 1}}
	fill := func(colour string) excelize.Fill {
		return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
	}
	switch l.kind {
	case title:
		s.Font.Size, s.Font.Bold, s.Font.Color = 15, true, dark
	case section:
		s.Font.Size, s.Font.Bold, s.Font.Color = 12, true, dark
	case note:
		s.Font.Color, s.Alignment.WrapText = pale, true
	case warning:
		s.Font.Color, s.Font.Bold, s.Alignment.WrapText = alarm, true, true
	case heading, headingOver:
		s.Font.Bold, s.Fill, s.Border = true, fill(headed), border
		s.Alignment.WrapText, s.Alignment.Vertical = true, "bottom"
		if l.kind == headingOver {
			s.Alignment.Horizontal = "right"
		} else {
			s.Alignment.Horizontal, s.Alignment.Indent = "left", 1
		}
	case figureWords:
		s.Alignment.Horizontal, s.Alignment.WrapText = "right", true
	case beside:
		s.Alignment.Horizontal, s.Alignment.Indent = "left", 1
	case wrapped:
		s.Alignment.WrapText = true
	case cellWords:
		s.Alignment.Horizontal, s.Alignment.WrapText, s.Alignment.Indent = "left", true, 1
	case input:
		s.Fill, s.Border = fill(changeable), border
	case result:
		s.Font.Bold = true
	}
	if l.format != "" {
		s.CustomNumFmt = &l.format
	}
	id, err := b.file.NewStyle(s)
	b.failed(err)
	b.styles[l] = id
	return id
}

// Formats of numbers.
const (
	whole, dayFormat, monthFormat = "#,##0", "yyyy-mm-dd", "mmm yyyy"
	yearFormat, percentFormat     = "0", "0.0##"
	general                       = "General"
)

// formatOf is the number format that fits numbers up to a size, three digits or whole ones.
func formatOf(most float64, integers bool) string {
	switch {
	case integers || most >= 100:
		return whole
	case most >= 10:
		return "0.0"
	case most >= 1:
		return "0.00"
	case most >= 0.1:
		return "0.000"
	case most == 0:
		return whole
	}
	return "0.0E+00"
}

// sheet is a sheet in the making.
type sheet struct {
	b     *book
	name  string
	row   int // the next one
	width map[int]float64
	texts []text // that run across
}

// text runs across a row, of which the height is known once the columns have widths.
type text struct {
	row   int
	words string
}

// sheet begins a sheet with its title and whose figures it holds.
func (b *book) sheet(name, heading string) *sheet {
	_, err := b.file.NewSheet(name)
	b.failed(err)
	s := &sheet{b: b, name: name, row: 1, width: map[int]float64{}}
	none, landscape, width, height, paper := false, "landscape", 1, 0, 9
	if !b.sys.Metric() {
		paper = 1 // letter
	}
	b.failed(b.file.SetSheetView(name, 0, &excelize.ViewOptions{ShowGridLines: &none}))
	b.failed(b.file.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &width, FitToHeight: &height, Size: &paper}))
	b.failed(b.file.SetHeaderFooter(name, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"}))
	s.set(1, heading, look{kind: title})
	s.tall(1, titleLines)
	s.row++
	mark := look{kind: note}
	if b.report.Basis.Invented {
		mark.kind = warning
	}
	s.across(b.whose(), mark)
	return s
}

// across writes a text over several columns in a row of its own.
func (s *sheet) across(words string, l look) {
	if words == "" {
		return
	}
	s.set(1, words, l)
	s.texts = append(s.texts, text{s.row, words})
	s.row++
}

// done finishes a sheet whose columns have their widths.
func (s *sheet) done() {
	fit := true // after filters, which forget it
	s.b.failed(s.b.file.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	const broad, mostColumns = 120, 80 // as one reads, and where to stop at the latest
	room, to := 0.0, 0
	for room < broad && to < mostColumns {
		to++
		room += s.room(to)
	}
	for _, t := range s.texts {
		s.b.failed(s.b.file.MergeCell(s.name, at(1, t.row), at(to, t.row)))
		lines := 0
		for _, line := range strings.Split(t.words, "\n") {
			lines += 1 + int(float64(utf8.RuneCountInString(line))/(room*perWidth))
		}
		s.tall(t.row, lines)
	}
}

// usualWidth is that of a column of which nothing is said.
const usualWidth = 9.0

// broaden sets the width of a column, in characters; one that is folded away takes none.
func (s *sheet) broaden(column int, characters float64, folded bool) {
	name, err := excelize.ColumnNumberToName(column)
	s.b.failed(err)
	s.b.failed(s.b.file.SetColWidth(s.name, name, name, characters))
	s.width[column] = characters
	if folded {
		s.b.failed(s.b.file.SetColOutlineLevel(s.name, name, 1))
		s.b.failed(s.b.file.SetColVisible(s.name, name, false))
		s.width[column] = 0
	}
}

// at is the name of a cell.
func at(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		panic(err) // no table has so many
	}
	return name
}

// fixed is the name of a cell that does not move when a formula is copied.
func fixed(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row, true)
	if err != nil {
		panic(err)
	}
	return name
}

// set writes a cell of the row at hand.
func (s *sheet) set(column int, v any, l look) { s.put(column, s.row, v, l) }

// put writes a cell. Words stay words whatever they begin with.
func (s *sheet) put(column, row int, v any, l look) {
	f, cell := s.b.file, at(column, row)
	switch x := v.(type) {
	case nil:
	case string:
		s.b.failed(f.SetCellStr(s.name, cell, s.b.words(x)))
	case calendar.Date:
		s.b.failed(f.SetCellValue(s.name, cell, time.Date(x.Year, x.Month, x.Day, 0, 0, 0, 0, time.UTC)))
	case float64:
		if !math.IsNaN(x) && !math.IsInf(x, 0) {
			s.b.failed(f.SetCellFloat(s.name, cell, x, -1, 64))
		}
	case int:
		s.b.failed(f.SetCellInt(s.name, cell, int64(x)))
	case formula:
		s.b.failed(f.SetCellFormula(s.name, cell, string(x)))
		s.b.formulas = append(s.b.formulas, place{s.name, cell})
	default:
		panic("workbook: a cell of an unknown kind")
	}
	s.b.failed(f.SetCellStyle(s.name, cell, cell, s.b.style(l)))
}

// formula is one, without the equals sign.
type formula string

// heads writes a row of headings; those that begin with ">" stand over numbers.
func (s *sheet) heads(column int, names ...string) {
	lines := 1
	for k, name := range names {
		kind := heading
		if over, ok := strings.CutPrefix(name, ">"); ok {
			kind, name = headingOver, over
		}
		s.set(column+k, name, look{kind: kind})
		lines = max(lines, wrapsTo(name, s.room(column+k)-bold))
	}
	s.tall(s.row, lines)
}

// room is how wide a column is.
func (s *sheet) room(column int) float64 {
	if w, ok := s.width[column]; ok {
		return w
	}
	return usualWidth
}

// lines is how many lines words take in a column.
func (s *sheet) lines(column int, words string) int {
	return wrapsTo(words, perWidth*s.room(column))
}

// wrapsTo is how many lines words take in so much room.
func wrapsTo(words string, room float64) int {
	n := 0
	for _, line := range strings.Split(words, "\n") {
		at := 0.0
		n++
		for _, word := range strings.Fields(line) {
			long := float64(utf8.RuneCountInString(word))
			if at > 0 && at+1+long > room {
				n, at = n+1, 0
			}
			at += 1 + long
		}
	}
	return n
}

// bold is by how much a heading has less room, for its thick letters and its indent.
const bold = 2

// perWidth is how many letters there are in a width of one, in the mean: widths are of
// digits.
const perWidth = 1.12

// lineHeight is that of a line of letters, points.
const lineHeight = 13.5

// titleLines is how many of them a title takes, as its letters are larger.
const titleLines = 2

// mostLines is how many lines a row can have.
const mostLines = 30

// tall makes a row so many lines high.
func (s *sheet) tall(row, lines int) {
	lines = min(lines, mostLines)
	s.b.failed(s.b.file.SetRowHeight(s.name, row, lineHeight*float64(lines)+1.5))
}

// widths sets the widths of the first columns, in characters.
func (s *sheet) widths(characters ...float64) {
	for i, w := range characters {
		s.broaden(i+1, w, false)
	}
}

// freeze keeps what is above a row and left of a column in sight.
func (s *sheet) freeze(column, row int) {
	s.b.failed(s.b.file.SetPanes(s.name, &excelize.Panes{
		Freeze: true, XSplit: column - 1, YSplit: row - 1, TopLeftCell: at(column, row), ActivePane: "bottomRight",
	}))
	// On paper the heading stands on every page.
	if row > 1 {
		s.b.failed(s.b.file.SetDefinedName(&excelize.DefinedName{
			Name: "_xlnm.Print_Titles", RefersTo: quoted(s.name) + "!$" + rowName(row-1) + ":$" + rowName(row-1), Scope: s.name,
		}))
	}
}
