package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// Key is what is known of one key of the file. From the table of keys come the
// reading of the file and its checks, the comments of a starter file, the inputs
// that may be uncertain with their names, and the schema for editors.
type Key struct {
	// Path is where the key stands: "vessels.residence". An entry of a list is
	// written with brackets: "changes[].cost".
	Path  string
	Words string // what it says, without a full stop
	Kind  Kind
	// Dimension of a quantity, and of each of several. Low and High are what it may
	// be, both included, in the base unit of Dimension: wide enough for every plant
	// that is ever built, and so that arithmetic stays finite.
	Dimension units.Dimension
	Low, High float64
	Usual     *Usual   // what it mostly is; nil if nothing is published
	Choices   []string // of a choice; beside a quantity, words that stand for it
	Default   *Default // what holds where it is left out; nil if it is needed
	// When says when a key without a default is needed, if not always; such as
	// "with loading".
	When      string
	OneOf     bool         // of a group: that it has exactly one of its keys
	Example   string       // what to write, where the default or the dimension's example do not do
	Uncertain *Uncertainty // nil if it must be certain
	UsedBy    Use

	// Get and Set reach the value in what was read, in the base unit of Dimension.
	// They are nil for what is not a single number, and in lists.
	Get func(Parts) float64
	Set func(Parts, float64)
}

// Parts is what the keys of a file set.
type Parts struct {
	File     *File
	Model    *plant.Model
	Mix      *MixDesign
	Planning *Planning
	Economy  *Economy
}

// Parts returns the parts of a file, to be read and set by keys.
func (f *File) Parts() Parts {
	return Parts{File: f, Model: &f.Model, Mix: &f.Mix, Planning: &f.Planning, Economy: &f.Planning.Economy}
}

// Kind is what stands behind a key.
type Kind int

// The kinds.
const (
	Quantity   Kind = iota // one quantity
	Count                  // a whole number
	Months                 // twelve quantities, or one that holds all year
	Weekdays               // seven quantities, or one that holds all week
	Choice                 // one of some words
	Flag                   // true or false
	Text                   // words of the user's own
	Date                   // year, month and day
	Quantities             // a list of quantities
	Years                  // quantities by calendar year
	Shifts                 // a list of times such as 07:00-15:30
	Texts                  // a list of words of the user's own
	Value                  // a quantity of the dimension that the input beside it has
	Values                 // a list of such
	Group                  // a group of keys
	List                   // a list of groups of keys
	Unwritten              // in no file: an input that is uncertain and nothing else
)

// Use is what a key counts for.
type Use int

// The uses.
const (
	ForRuns     Use = iota // the simulation of the plant, and so every answer
	ForPlanning            // the planning answers alone
	ForMixing              // the design of a mix alone
	ForShowing             // how and under what names results are shown
)

// Usual is a range outside of which a value is warned of, in the base unit of the
// key's dimension, and who gives it.
type Usual struct {
	Low, High float64
	Source    string
}

// Default is what holds where a key is left out.
type Default struct {
	Known bool
	Value float64 // if Known, in the base unit of the key's dimension
	Words string  // else what holds, such as "that of residence"
	// Source is where it is from; an assumption says so.
	Source string
}

const assumption = "assumption"

// orElse is a default that is a number.
func orElse(value float64, source string) *Default {
	return &Default{Known: true, Value: value, Source: source}
}

// elseAs is a default that is no number, or that other keys decide.
func elseAs(words, source string) *Default { return &Default{Words: words, Source: source} }

// checks are what reading asks of a value.
func (k *Key) checks() []yamlfile.Check {
	list := []yamlfile.Check{yamlfile.Between(k.Low, k.High)}
	if u := k.Usual; u != nil {
		list = append(list, yamlfile.Usually(u.Low, u.High, u.Source))
	}
	if example := k.like(); example != "" {
		list = append(list, yamlfile.Like(example))
	}
	return list
}

// Needed reports whether a file must have the key wherever it has its group.
func (k *Key) Needed() bool { return k.Default == nil && k.When == "" && k.Kind != Unwritten }
