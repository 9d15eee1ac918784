package report

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
)

// Quantities that only the mix and the course of a load have.
var (
	density  = quantity{units.MassPerVolume, 1}
	costUSD  = quantity{units.Money, 1}
	perDry   = quantity{units.MoneyPerMass, 1}
	degrees  = quantity{units.Temperature, 1}
	hours    = quantity{units.Duration, 3600}
	airFlow  = quantity{units.AirFlow, 24}              // from m3/h
	airPerT  = quantity{units.VolumePerMassTime, 0.024} // from m3/h per t
	percent  = quantity{units.Fraction, 0.01}           // from %
	energyKJ = quantity{units.Energy, 1}
	energyKW = quantity{units.Energy, 3600} // from kWh
	area     = quantity{units.Area, 1}
	length   = quantity{units.Length, 1}
	bedLoad  = quantity{units.VolumePerAreaTime, 24} // from m3/m2·h
)

// scaleMass is a mass as a batch scale shows it: small enough a unit to be read
// off in whole numbers.
func scaleMass(kg float64, sys units.System) (number, label string) {
	if sys == units.US {
		return units.FormatNumber(kg / 0.45359237), "lb"
	}
	return units.FormatNumber(kg), "kg"
}

// page is lines of text under construction in one system of units.
type page struct {
	summary
	text []string
}

func newPage(sys units.System) *page { return &page{summary: summary{sys: sys}} }

// para adds a paragraph.
func (p *page) para(format string, args ...any) {
	p.text = append(p.text, wrap(fmt.Sprintf(format, args...), "", "  ")...)
}

// labelled adds a paragraph that hangs from a label.
func (p *page) labelled(name, format string, args ...any) {
	p.text = append(p.text, wrap(fmt.Sprintf(format, args...), label(name), label(""))...)
}

// table adds a table with a title.
func (p *page) table(title string, columns []column) {
	lines := layOut(columns, screenColumns)
	if strings.TrimSpace(lines[0]) == "" {
		lines = lines[1:]
	}
	p.text = append(append(p.text, "", title), lines...)
}

func (p *page) blank() { p.text = append(p.text, "") }

func (p *page) writeTo(w io.Writer) error {
	var b strings.Builder
	for _, line := range p.text {
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// words is a column of text, aligned left.
func words(headings, cells []string) column {
	width := 0
	for _, s := range append(append([]string{}, headings...), cells...) {
		width = max(width, utf8.RuneCountInString(s))
	}
	pad := func(list []string) []string {
		out := make([]string, len(list))
		for i, s := range list {
			out[i] = s + strings.Repeat(" ", width-utf8.RuneCountInString(s))
		}
		return out
	}
	return column{headings: pad(headings), cells: pad(cells)}
}

// cellsOf writes a cell for each record.
func cellsOf[T any](records []T, cell func(*T) string) []string {
	list := make([]string, len(records))
	for i := range records {
		list[i] = cell(&records[i])
	}
	return list
}

// fixed writes v in the shown unit with a fixed number of decimals; thousands
// are parted where there are none.
func (p *page) fixed(v float64, q quantity, decimals int) string {
	if shown := q.in(v, p.sys); decimals == 0 && math.Abs(shown) >= 1000 {
		return units.FormatNumber(shown)
	}
	text := fmt.Sprintf("%.*f", decimals, q.in(v, p.sys))
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// with is fixed, with its unit.
func (p *page) with(v float64, q quantity, decimals int) string {
	text := p.fixed(v, q, decimals) + " " + plural(q.label(p.sys))
	return strings.ReplaceAll(strings.TrimSpace(text), " ", noBreak)
}

// list joins words: "a", "a and b", "a, b and c".
func list(parts []string) string {
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// plainSpaces is for text that nothing will wrap.
func plainSpaces(s string) string { return strings.ReplaceAll(s, noBreak, " ") }

// writeJSON writes members as one object, the elements of lists one to a line.
func writeJSON(w io.Writer, members []member) error {
	var b bytes.Buffer
	b.WriteString("{\n")
	for i, m := range members {
		b.WriteString("  ")
		if err := writeLines(&b, m); err != nil {
			return err
		}
		if i < len(members)-1 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
	}
	b.WriteString("}\n")
	_, err := w.Write(b.Bytes())
	return err
}

// render draws pictures as files.
func render(pictures []picture.Picture) ([]File, error) {
	var files []File
	for _, p := range pictures {
		png, err := p.PNG()
		if err != nil {
			return nil, err
		}
		svg, err := p.SVG()
		if err != nil {
			return nil, err
		}
		files = append(files, File{Name: p.Name + ".png", Data: png}, File{Name: p.Name + ".svg", Data: svg})
	}
	return files, nil
}
