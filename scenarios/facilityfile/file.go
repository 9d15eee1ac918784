package facilityfile

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"sync"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// Format is the version of the file's format that this program reads.
const Format = 1

// MaxReplications is the most replications that a file may ask for.
const MaxReplications = 100_000

// File is a facility file that has been read and found sound.
type File struct {
	Name         string // of the facility
	Path         string // where it was read
	Hash         string // SHA-256 of its bytes as read, in hexadecimal
	Data         []byte // these bytes
	Model        plant.Model
	Mix          MixDesign
	Units        units.System // how the user wants results shown, with the file's currency
	Replications int
	Seed         uint64
	Planning     Planning
	Currency     string // code of the one currency of its amounts, [units.USD] if they name none
	Warnings     []yamlfile.Diagnostic

	written []yamlfile.Written
}

// Error is anything wrong with a facility file: bad input, not a failed run.
type Error struct{ Err error }

func (e *Error) Error() string { return e.Err.Error() }
func (e *Error) Unwrap() error { return e.Err }

// Open reads a facility file. Any error is an *Error.
func Open(path string) (*File, error) {
	doc, err := yamlfile.Open(path)
	if err != nil {
		return nil, &Error{inPlainWords(path, err)}
	}
	return readFile(doc)
}

// inPlainWords rewords what the operating system says of a file that cannot be
// read; what is wrong inside a file is left as it is.
func inPlainWords(path string, err error) error {
	var system *fs.PathError
	switch {
	case !errors.As(err, &system):
		return err
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no such file", path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s: you have no permission to read this file", path)
	}
	return fmt.Errorf("%s: the file cannot be read: %w", path, system.Err)
}

// Parse reads the content of a facility file; name is for messages. Any error
// is an *Error.
func Parse(name string, data []byte) (*File, error) {
	doc, err := yamlfile.Parse(name, data)
	if err != nil {
		return nil, &Error{err}
	}
	return readFile(doc)
}

// moneyPaths are the keys whose amounts may be money, those of uncertain inputs included,
// which have the dimension of the input.
var moneyPaths = sync.OnceValue(func() map[string]bool {
	paths := map[string]bool{}
	for _, k := range Keys() {
		switch k.Kind {
		case Quantity, Months, Weekdays, Quantities, Years:
			paths[k.Path] = k.Dimension.Monetary()
		case Value, Values:
			paths[k.Path] = true
		}
	}
	return paths
})

func readFile(doc *yamlfile.Document) (*File, error) {
	doc.MoneyAt(func(path string) bool { return moneyPaths()[path] })
	root := doc.Root()
	f := &File{Path: doc.Name(), Hash: doc.Hash(), Data: doc.Data(), Currency: doc.Currency(), written: doc.Written()}
	if v := root.Int("format"); root.Good("format") && v != Format {
		root.Error("format", fmt.Sprintf("this program reads format %d, not %d", Format, v), "write format: 1")
	}
	f.Name = root.Text("name")
	read(root, showingRows, f)
	f.Units = f.Units.With(f.Currency)

	r := &reader{doc: doc, root: root, groups: map[string]*yamlfile.Map{}, units: f.Units, m: &f.Model, p: &f.Planning, parts: f.Parts()}
	f.Mix = r.model()
	r.planning(f.Mix)
	f.Model.Vessels.Extra = f.NextClasses(1)[0]
	if err := doc.Err(); err != nil {
		return nil, &Error{err}
	}
	// What remains concerns several keys at once and has no single place.
	if err := f.Model.Validate(); err != nil {
		return nil, &Error{fmt.Errorf("%s: %w", doc.Name(), oneLine(err))}
	}
	r.recipeTogether()
	r.open()
	r.notDrawn()
	r.possible()
	if err := doc.Err(); err != nil {
		return nil, &Error{err}
	}
	r.airy()
	f.Warnings = doc.Warnings()
	return f, nil
}

// model reads the plant and its surroundings.
func (r *reader) model() MixDesign {
	r.period()
	r.site()
	r.solids()
	r.materials()
	r.feedstocks()
	r.holding()
	r.dewatering()
	r.mix()
	design := r.mixDesign()
	r.vessels()
	r.curing()
	r.screen()
	r.product()
	r.biofilter()
	r.yard()
	r.hours()
	r.criteria()
	r.aeration()
	r.decay()
	r.intake()
	r.ammonia()
	r.structure()
	r.classAir()
	r.opening()
	r.together()
	return design
}

// planning reads changes to come, what they cost, and what is not known for sure.
func (r *reader) planning(design MixDesign) {
	r.money(design)
	r.standingContract()
	committed := r.changes()
	r.target()
	r.fiscalYear()
	r.scenarios()
	r.options(committed)
	r.catalogue(committed)
	r.setbacks(committed)
	r.uncertain()
	r.correlations()
}

// reader fills a model from a document.
type reader struct {
	doc    *yamlfile.Document
	root   *yamlfile.Map
	groups map[string]*yamlfile.Map // by key
	units  units.System             // of messages

	roomKnown   []bool // the room for vessels was read, by class
	solidsKnown bool   // the solids content of cake was read
	grown       grown  // growth of production, as the file expects it
	// What other groups ask about: the groups of crews and dewatering, which may
	// be absent, the days on which nobody works, and the vessels to come.
	yardGroup, dewateringGroup *yamlfile.Map
	holidays                   []calendar.Holiday
	// The solids content of cake, at most and at least, whatever changes come.
	thickest, thinnest float64
	capitalRise        float64       // of what is built, per year
	chipPriced         bool          // the sources of chips have prices
	chipPrice          float64       // USD/m3, to which theirs are told
	missingPriced      bool          // the file has a price of missing the target
	carbonPriced       bool          // and one of carbon
	uncertainAt        []uncertainAt // where the entries of Planning.Inputs stand

	m     *plant.Model
	p     *Planning
	parts Parts // of the file that is read

	classAt []*yamlfile.Map // where the classes of vessels stand

	specs    map[string]material.Spec // of the materials, by name
	recipeAt []*yamlfile.Map          // where the amendments of the recipe stand
	designed bool                     // the recipe is
	firstDay *firstDay                // nil where the run begins empty
}

// group returns the cursor on a group of the file that must be there. However
// often it is asked for, what is wrong with it is said once.
func (r *reader) group(key string) *yamlfile.Map {
	if r.groups[key] == nil {
		r.groups[key] = r.root.Map(key)
	}
	return r.groups[key]
}

// The years that dates and runs may have: a typing error such as 0207 for 2027
// is named here and not by odd results.
const (
	firstYear, lastYear   = 1900, 2200
	mostYears, mostWarmUp = 60, 10
)

// period reads when the run starts and how long it is.
func (r *reader) period() {
	start := r.root.Date("start")
	r.m.Start = dateOf(start)
	switch {
	case !r.root.Good("start"):
	case start.Year() < firstYear || start.Year() > lastYear:
		r.root.Error("start", fmt.Sprintf("the year %d is out of range", start.Year()), fmt.Sprintf("it must be from %d to %d", firstYear, lastYear))
	case start.Day() != 1:
		r.root.Error("start", "the reported years begin with a month", fmt.Sprintf("write %04d-%02d-01", start.Year(), start.Month()))
	}
	r.m.Years = r.years("horizon", r.root.Quantity("horizon", units.Duration), 1, mostYears)
	defer r.noWarmUp()
	if r.root.Is("warm_up", detected) {
		r.m.WarmUp, r.p.DetectWarmUp = mostWarmUp, true
		return
	}
	r.m.WarmUp = r.years("warm_up", r.root.QuantityOr("warm_up", units.Duration, calendar.SecondsPerYear), 0, mostWarmUp)
}

// years refuses parts of a year and what is not from least to most years. A
// year may be written as 365 or 366 days.
func (r *reader) years(key string, seconds float64, least, most int) int {
	years := seconds / calendar.SecondsPerYear
	whole := math.Round(years)
	switch {
	case !r.root.Good(key):
	case whole < float64(least) || whole > float64(most):
		r.root.Error(key, units.FormatNumber(years)+" years is out of range", fmt.Sprintf("it must be from %d to %d years", least, most))
	case math.Abs(years-whole) > 0.01:
		r.root.Error(key, "only whole years can be simulated", fmt.Sprintf("write %.0f year", whole))
	default:
		return int(whole)
	}
	return least
}

func dateOf(t time.Time) calendar.Date {
	return calendar.Date{Year: t.Year(), Month: t.Month(), Day: t.Day()}
}

// oneLine joins the lines of joined errors.
func oneLine(err error) error {
	var joined interface{ Unwrap() []error }
	if !errors.As(err, &joined) {
		return err
	}
	text := ""
	for i, e := range joined.Unwrap() {
		if i > 0 {
			text += "; "
		}
		text += e.Error()
	}
	return errors.New(text)
}
