package prose

import (
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/plaintext"
	"loamcast/scenarios/render/cells"
	"loamcast/scenarios/units"
)

// Report is a report in words. No text holds a character that XML cannot.
type Report struct {
	Title, Subtitle string
	Invented        string // empty if the data is not
	Version, Hash   string // of the program and of the file
	Chapters        []Chapter
	Cautions        []answer.Caution
}

// Chapter is a part of a report, with the name by which it is linked to.
type Chapter struct {
	Name, Title string
	Parts       []Part
}

// Part is an answer. It has a title where a chapter has several.
type Part struct {
	Title, Headline string
	Blocks          []Block
	Figures         []Figure
}

// Block is one of a heading, a paragraph or a table.
type Block struct {
	Heading   string
	Label     string // stands before the paragraph
	Paragraph string
	Caution   bool // the paragraph warns
	Table     *Table
}

// Figure is a picture, and what it shows in words.
type Figure struct {
	document.Figure
	Shows string
}

// Of puts a report into words.
func Of(r *document.Report, sys units.System) Report {
	sys = sys.With(r.Basis.Currency)
	out := Report{
		Title: plaintext.XML(r.Basis.Facility), Version: r.Basis.Version, Hash: r.Basis.FileHash, Cautions: r.Cautions,
		Subtitle: document.Say("Planning report for %d years from %v", r.Basis.Horizon, r.Basis.Start).In(sys),
	}
	if r.Basis.Invented {
		out.Invented = document.Invented
	}
	for _, c := range r.Chapters {
		chapter := Chapter{Name: c.Name, Title: c.Title}
		for _, from := range c.Parts {
			part := partOf(from, sys)
			if len(c.Parts) == 1 {
				part.Title = ""
			}
			chapter.Parts = append(chapter.Parts, part)
		}
		out.Chapters = append(out.Chapters, chapter)
	}
	return out
}

// OfAnswer puts one answer into words.
func OfAnswer(d *document.Document, sys units.System) Part {
	return partOf(document.ReportPart{Document: d}, sys.With(d.Basis.Currency))
}

// partOf writes one answer.
func partOf(from document.ReportPart, sys units.System) Part {
	p := Part{Title: from.Title, Headline: said(from.Headline, sys)}
	for _, b := range from.Blocks {
		switch b := b.(type) {
		case document.Heading:
			p.Blocks = append(p.Blocks, Block{Heading: string(b)})
		case document.Paragraph:
			if b.Terminal {
				continue
			}
			text, caution := strings.CutPrefix(said(b.Text, sys), "! ")
			p.Blocks = append(p.Blocks, Block{Label: b.Label, Paragraph: text, Caution: caution})
		case document.Table:
			if t := tableOf(b, sys); t != nil {
				p.Blocks = append(p.Blocks, Block{Table: t})
			}
		}
	}
	for _, f := range from.Figures {
		shows := said(f.Title, sys)
		if about := said(f.Subtitle, sys); about != "" {
			shows += ". " + about
		}
		p.Figures = append(p.Figures, Figure{f, shows})
	}
	return p
}

// said writes a text. What XML cannot hold is dropped: a name in a file may hold it.
func said(t document.Text, sys units.System) string { return plaintext.XML(t.In(sys)) }

// Table is one for a person: rows of headings with how many columns each spans.
type Table struct {
	Title string
	Heads [][]Heading
	Rows  [][]Cell
	Words bool // holds long texts, which are wrapped
}

// Heading stands over one column, or as a group over several. That of a group may be
// empty.
type Heading struct {
	Text  string
	Span  int
	Words bool // aligned left
	Group bool
}

// Cell is a text of a table.
type Cell struct {
	Text  string
	Words bool // aligned left
	Head  bool // says what the row is of
}

// wrapped is the length in characters from which the words of a cell are wrapped.
const wrapped = 40

// tableOf lays out a table that is for the eyes, or returns nil.
func tableOf(t document.Table, sys units.System) *Table {
	if !t.In.On(document.Screen) || len(t.Rows) == 0 {
		return nil
	}
	columns := cells.Of(t, sys)
	if len(columns) == 0 {
		return nil
	}
	out := &Table{Title: said(t.Title, sys), Heads: headings(columns)}
	for i := range t.Rows {
		row := make([]Cell, len(columns))
		for k, c := range columns {
			row[k] = Cell{Text: plaintext.XML(strings.TrimSpace(c.Cells[i])), Words: c.Words, Head: k == 0}
			out.Words = out.Words || len(row[k].Text) > wrapped
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// headings are the groups, where there are any, and below them the lines of each
// heading as one.
func headings(columns []cells.Column) [][]Heading {
	var groups, heads []Heading
	grouped := false
	for i, c := range columns {
		if i > 0 && c.Group != "" && c.Group == columns[i-1].Group {
			groups[len(groups)-1].Span++
		} else {
			groups = append(groups, Heading{Text: plaintext.XML(c.Group), Span: 1, Group: true})
		}
		grouped = grouped || c.Group != ""
		text := strings.TrimSpace(strings.Join(c.Headings, " "))
		heads = append(heads, Heading{Text: plaintext.XML(text), Span: 1, Words: c.Words})
	}
	if !grouped {
		return [][]Heading{heads}
	}
	return [][]Heading{groups, heads}
}
