package workbook

import (
	"strconv"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render/prose"
)

func rowName(row int) string { return strconv.Itoa(row) }

// summary is what the board reads, and what the book rests on.
func (b *book) summary(p prose.Report) {
	s := b.sheet("summary", p.Title)
	s.across(p.Subtitle, look{kind: note})
	s.widths(24, 14, 14, 14, 14, 14, 14, 14, 14)
	for _, c := range p.Chapters {
		switch c.Name {
		case "board":
			s.chapter(c)
		case "inputs", "equations", "words", "basis":
		default:
			if len(p.Chapters) > 0 && p.Chapters[0].Name == "board" {
				continue
			}
			s.headlines(c)
		}
	}
	for _, c := range p.Chapters {
		if c.Name == "basis" {
			s.basis(c)
		}
	}
	s.row++
	s.section("Cautions")
	for _, c := range p.Cautions {
		s.across(c.Text+" ("+c.Source+")", look{kind: wrapped})
	}
	s.row++
	s.section("Sheets")
	s.across("Every sheet has a row of headings that stays in sight, with filters. Mean, P10, P50 and P90 are over the runs: one run in ten is below P10, nine in ten are below P90. Yellow cells may be changed, and what depends on them follows.", look{kind: wrapped})
	s.done()
}

// section begins a part of a sheet.
func (s *sheet) section(name string) {
	s.set(1, name, look{kind: section})
	s.row++
}

// chapter writes the headings and paragraphs of a chapter.
func (s *sheet) chapter(c prose.Chapter) {
	for _, part := range c.Parts {
		s.across(part.Headline, look{kind: wrapped})
		for _, block := range part.Blocks {
			switch {
			case block.Heading != "":
				s.row++
				s.section(block.Heading)
			case block.Caution:
				s.across(block.Paragraph, look{kind: warning})
			case block.Paragraph == document.Invented: // it stands above
			case block.Paragraph != "":
				s.across(block.Paragraph, look{kind: wrapped})
			}
		}
	}
}

// headlines writes what the answers of a chapter say first.
func (s *sheet) headlines(c prose.Chapter) {
	s.row++
	s.section(c.Title)
	for _, part := range c.Parts {
		s.across(part.Headline, look{kind: wrapped})
	}
}

// basis writes what it takes to have the book again.
func (s *sheet) basis(c prose.Chapter) {
	s.row++
	s.section(c.Title)
	for _, part := range c.Parts {
		s.across(part.Headline, look{kind: wrapped})
		for _, block := range part.Blocks {
			if block.Table == nil {
				continue
			}
			for _, row := range block.Table.Rows {
				if len(row) < 2 || row[0].Text == "Data" {
					continue // it stands above
				}
				s.set(1, row[0].Text, look{})
				s.set(2, row[1].Text, look{})
				s.row++
			}
		}
	}
}
