package pdf

import (
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
	"time"

	"codeberg.org/go-fonts/liberation/liberationmonoregular"
	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"

	"loamcast/scenarios/document"
	"loamcast/scenarios/render/picture"
	"loamcast/scenarios/render/prose"
	"loamcast/scenarios/units"
)

// Names of the letters, which are those of the pictures.
const (
	sans = "sans"
	mono = "mono"
)

// Sizes of type, of margins and of gaps, points.
const (
	titleSize   = 20
	chapterSize = 15
	partSize    = 12
	textSize    = 10
	noteSize    = 8
	margin      = 54
	leading     = 1.32 // height of a line in sizes of its type
	gap         = 5    // between paragraphs
)

// Greys and the colour of rules, as on other pages of reports.
var (
	ink   = [3]int{34, 34, 34}
	faded = [3]int{85, 85, 85}
	earth = [3]int{90, 70, 50}
	pale  = [3]int{216, 216, 216}
)

// Write writes a report: on Letter in US units, on A4 in others. The bytes depend on the
// report and the system alone.
func Write(w io.Writer, r *document.Report, sys units.System) error {
	words := prose.Of(r, sys)
	sys = sys.With(r.Basis.Currency)
	draft := newPaper(words, sys)
	draft.all(map[string]int{})
	final := newPaper(words, sys)
	final.all(draft.pages) // the contents are as long as in the draft
	var b bytes.Buffer
	if err := final.pdf.Output(&b); err != nil {
		return fmt.Errorf("the report cannot be laid out: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// paper is a report being laid out.
type paper struct {
	pdf           *fpdf.Fpdf
	words         prose.Report
	sys           units.System
	width, bottom float64 // of the text, and where a page ends
	pages         map[string]int
}

func newPaper(words prose.Report, sys units.System) *paper {
	size := "Letter"
	if sys.Metric() {
		size = "A4"
	}
	pdf := fpdf.New("P", "pt", size, "")
	pdf.AddUTF8FontFromBytes(sans, "", liberationsansregular.TTF)
	pdf.AddUTF8FontFromBytes(sans, "B", liberationsansbold.TTF)
	pdf.AddUTF8FontFromBytes(mono, "", liberationmonoregular.TTF)
	epoch := time.Unix(0, 0).UTC() // a date of its own would make each file another
	pdf.SetCreationDate(epoch)
	pdf.SetModificationDate(epoch)
	pdf.SetCatalogSort(true)
	pdf.SetTitle(words.Title+": planning report", true)
	pdf.SetCreator("loamcast "+words.Version, true)
	pdf.SetMargins(margin, margin, margin)
	pdf.SetAutoPageBreak(true, margin)
	pdf.SetCellMargin(0)
	pdf.AliasNbPages("{pages}")
	width, height := pdf.GetPageSize()
	p := &paper{pdf: pdf, words: words, sys: sys, width: width - 2*margin, bottom: height - margin, pages: map[string]int{}}
	pdf.SetFooterFunc(p.footer)
	return p
}

// footer says on every page whose it is, whether it is invented, and its number.
func (p *paper) footer() {
	p.font("", noteSize, faded)
	p.pdf.SetXY(margin, p.bottom+14)
	left := document.Name(p.words.Title, 60)
	if p.words.Invented != "" {
		left += " · invented data"
	}
	p.pdf.CellFormat(p.width/2, noteSize, left, "", 0, "L", false, 0, "")
	p.pdf.CellFormat(p.width/2, noteSize, fmt.Sprintf("page %d of {pages}", p.pdf.PageNo()), "", 0, "R", false, 0, "")
}

func (p *paper) font(weight string, size float64, colour [3]int) {
	p.pdf.SetFont(sans, weight, size)
	p.pdf.SetTextColor(colour[0], colour[1], colour[2])
}

// all lays out the report; the contents give the pages that are known.
func (p *paper) all(pages map[string]int) {
	p.pdf.AddPage()
	p.font("B", titleSize, ink)
	p.lines(p.words.Title, titleSize)
	p.font("", textSize, ink)
	p.lines(p.words.Subtitle, textSize)
	if p.words.Invented != "" {
		p.font("B", textSize, ink)
		p.lines(p.words.Invented, textSize)
	}
	p.contents(pages)
	for _, c := range p.words.Chapters {
		p.chapter(c.Name, c.Title)
		for _, part := range c.Parts {
			p.part(part)
		}
	}
	p.chapter(cautionsName, cautionsTitle)
	for i, c := range p.words.Cautions {
		p.paragraph(fmt.Sprintf("%d.", i+1), c.Text)
		p.font("", noteSize, faded)
		p.lines("Source: "+c.Source+".", noteSize)
	}
}

// The chapter of cautions, which every report has.
const cautionsName, cautionsTitle = "cautions", "Cautions"

// contents lists the chapters with their pages.
func (p *paper) contents(pages map[string]int) {
	p.space(2 * gap)
	line := func(name, title string) {
		p.font("", textSize, ink)
		p.pdf.SetX(margin)
		p.pdf.CellFormat(p.width-40, leading*textSize, title, "", 0, "L", false, 0, "")
		number := ""
		if n := pages[name]; n > 0 {
			number = fmt.Sprint(n)
		}
		p.pdf.CellFormat(40, leading*textSize, number, "", 1, "R", false, 0, "")
	}
	for _, c := range p.words.Chapters {
		line(c.Name, c.Title)
	}
	line(cautionsName, cautionsTitle)
}

// chapter begins on a page of its own.
func (p *paper) chapter(name, title string) {
	p.pdf.AddPage()
	p.pages[name] = p.pdf.PageNo()
	p.pdf.Bookmark(title, 0, -1)
	p.font("B", chapterSize, ink)
	p.lines(title, chapterSize)
	p.pdf.SetDrawColor(earth[0], earth[1], earth[2])
	p.pdf.SetLineWidth(0.8)
	p.pdf.Line(margin, p.pdf.GetY()+1, margin+p.width, p.pdf.GetY()+1)
	p.space(2 * gap)
}

// part writes one answer.
func (p *paper) part(part prose.Part) {
	if part.Title != "" {
		p.heading(part.Title, partSize)
	}
	if part.Headline != "" {
		p.text("", part.Headline, textSize+1)
	}
	for _, b := range part.Blocks {
		switch {
		case b.Heading != "":
			p.heading(b.Heading, textSize)
		case b.Table != nil:
			p.table(b.Table)
		case b.Caution:
			p.warn(b.Paragraph)
		default:
			p.paragraph(b.Label, b.Paragraph)
		}
	}
	for _, f := range part.Figures {
		p.figure(f)
	}
}

// room begins a new page unless so much of this one is left.
func (p *paper) room(height float64) {
	if p.pdf.GetY()+height > p.bottom {
		p.pdf.AddPage()
	}
}

func (p *paper) space(height float64) { p.pdf.SetY(min(p.pdf.GetY()+height, p.bottom)) }

// heading keeps together with the lines that follow.
func (p *paper) heading(text string, size float64) {
	p.room(6 * leading * size)
	p.space(gap)
	p.font("B", size, ink)
	p.lines(text, size)
	p.space(gap / 2)
}

// lines writes a text over the width of the page, in the type that is set.
func (p *paper) lines(text string, size float64) {
	p.pdf.SetX(margin)
	p.pdf.MultiCell(p.width, leading*size, text, "", "L", false)
}

func (p *paper) paragraph(label, text string) { p.text(label, text, textSize) }

// inBackticks is what is written as it is typed, such as a command.
var inBackticks = regexp.MustCompile("`[^`]+`")

// text writes running text behind a label.
func (p *paper) text(label, text string, size float64) {
	p.pdf.SetX(margin)
	if label != "" {
		p.font("B", size, ink)
		p.pdf.Write(leading*size, label+" ")
	}
	at := 0
	for _, typed := range inBackticks.FindAllStringIndex(text, -1) {
		p.font("", size, ink)
		p.pdf.Write(leading*size, text[at:typed[0]])
		p.pdf.SetFont(mono, "", size*0.95)
		p.pdf.Write(leading*size, strings.Trim(text[typed[0]:typed[1]], "`"))
		at = typed[1]
	}
	p.font("", size, ink)
	p.pdf.Write(leading*size, text[at:])
	p.pdf.Ln(leading * size)
	p.space(gap)
}

// warn writes a caution beside a bar.
func (p *paper) warn(text string) {
	const indent = 10
	p.font("", textSize, ink)
	lines := p.pdf.SplitText(text, p.width-indent)
	height := float64(len(lines)) * leading * textSize
	p.room(height)
	p.pdf.SetFillColor(179, 89, 0)
	p.pdf.Rect(margin, p.pdf.GetY(), 3, height, "F")
	for _, line := range lines {
		p.pdf.SetX(margin + indent)
		p.pdf.CellFormat(p.width-indent, leading*textSize, line, "", 1, "L", false, 0, "")
	}
	p.space(gap)
}

// smallestFigure is to what part of the width a picture may shrink to stay on the page of
// what it belongs to.
const smallestFigure = 0.65

// figure draws a picture over the width of the page, or somewhat smaller in what is left
// of it.
func (p *paper) figure(f prose.Figure) {
	scale := p.width / float64(picture.Width)
	full := scale * float64(picture.Height)
	height := full
	if left := p.bottom - p.pdf.GetY(); left < full && left >= smallestFigure*full {
		height = left
	}
	p.room(height)
	lower := p.pdf.GetY() + height
	picture.Of(f.Figure, p.sys).DrawOn(newCanvas(p.pdf, margin, lower, scale*height/full))
	p.pdf.SetY(lower)
	p.space(gap)
}
