package document

import (
	"loamcast/scenarios/answer"
	"loamcast/sim/stats"
)

// Document is an answer as it is told.
type Document struct {
	Name  string // of the question, as files are named after it
	Basis answer.Basis
	// Headline is the answer in a sentence or two.
	Headline Text
	Blocks   []Block
	// Sheet says that the text is a page to print and work by: all of it is shown,
	// however long.
	Sheet    bool
	Figures  []Figure
	Cautions []answer.Caution
	// Money is what the costs of the answer are made of, where it compares some; nil else.
	Money *Reckoning
	// Parts are answers within the answer. In JSON each is a member, and in a folder
	// each leaves its own files.
	Parts []Section
}

// Section is an answer within an answer, and its name in JSON.
type Section struct {
	Name string
	*Document
}

// Block is a part of a document: a [Heading], a [Paragraph], a [Gap], a [Table] or
// [Facts].
type Block interface{ block() }

// Paragraph is running text for a person. Label, if there is one, stands before
// it, and the lines hang from it.
type Paragraph struct {
	Label string
	Text  Text
	// Item says that the label is the number of an item of a list.
	Item bool
	// Rank is as that of a [Row].
	Rank int
	// Terminal says that it speaks of the terminal or of the folder of results, and
	// has no place in a report.
	Terminal bool
	// Spare is above 0 where it may go on a screen that is still too short without all
	// that has a rank and without empty lines: the highest first.
	Spare int
}

// Heading begins a section.
type Heading string

// Gap is an empty line between blocks.
type Gap struct{}

func (Paragraph) block() {}
func (Heading) block()   {}
func (Gap) block()       {}
func (Table) block()     {}
func (Facts) block()     {}

// New begins the document of an answer.
func New(name string, basis answer.Basis, headline Text) *Document {
	return &Document{Name: name, Basis: basis, Headline: headline, Cautions: answer.Cautions()}
}

// Para adds a paragraph.
func (d *Document) Para(format string, args ...any) { d.Labelled("", format, args...) }

// Labelled adds a paragraph that hangs from a label.
func (d *Document) Labelled(label, format string, args ...any) {
	if format != "" {
		d.Add(Paragraph{Label: label, Text: Say(format, args...)})
	}
}

// Summarised says how well quantiles are known of more replications than they are exact of.
func (d *Document) Summarised() {
	if b := &d.Basis; b.Replications > answer.ExactRuns {
		d.Para("Of more than %s quantiles are those of a summary: %s, say, is the figure of one that ranks between %.1f and %.1f %% of them.",
			Counted(answer.ExactRuns, "replication"), answer.QuantileName(b.Level.Low), 100*(b.Level.Low-stats.RankError), 100*(b.Level.Low+stats.RankError))
	}
}

// Spared is Labelled for what may be spared, as [Paragraph.Spare] has it.
func (d *Document) Spared(spare int, label, format string, args ...any) {
	d.Add(Paragraph{Label: label, Text: Say(format, args...), Spare: spare})
}

// Add adds blocks.
func (d *Document) Add(blocks ...Block) { d.Blocks = append(d.Blocks, blocks...) }

// Fact adds a member of the answer's object in JSON.
func (d *Document) Fact(name string, q Quantity, value any) {
	d.Add(Facts{{name, q, value}})
}

// Invented is what stands beside the figures of a built-in example.
const Invented = "INVENTED DATA: this is an example; no such plant exists."
