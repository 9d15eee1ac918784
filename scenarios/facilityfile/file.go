package facilityfile

import (
	"errors"
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// Format is the version of the file's format that this program reads.
const Format = 1

// File is a facility file that has been read and found sound.
type File struct {
	Name         string // of the facility
	Path         string // where it was read
	Model        plant.Model
	Units        units.System // how the user wants results shown
	Replications int
	Seed         uint64
	Warnings     []yamlfile.Diagnostic
}

// Error is anything wrong with a facility file: bad input, not a failed run.
type Error struct{ Err error }

func (e *Error) Error() string { return e.Err.Error() }
func (e *Error) Unwrap() error { return e.Err }

// Open reads a facility file. Any error is an *Error.
func Open(path string) (*File, error) {
	doc, err := yamlfile.Open(path)
	if err != nil {
		return nil, &Error{err}
	}
	return read(doc)
}

// Parse reads the content of a facility file; name is for messages. Any error
// is an *Error.
func Parse(name string, data []byte) (*File, error) {
	doc, err := yamlfile.Parse(name, data)
	if err != nil {
		return nil, &Error{err}
	}
	return read(doc)
}

func read(doc *yamlfile.Document) (*File, error) {
	root := doc.Root()
	f := &File{Path: doc.Name()}
	if v := root.Int("format"); root.Good("format") && v != Format {
		root.Error("format", fmt.Sprintf("this program reads format %d, not %d", Format, v), "write format: 1")
	}
	f.Name = root.Text("name")
	f.Units, _ = units.ParseSystem(root.OneOfOr("units", "us", "us", "si"))
	f.Replications = root.IntOr("replications", 20, yamlfile.Between(1, 100_000))
	f.Seed = uint64(root.IntOr("seed", 1, yamlfile.NonNegative()))

	r := &reader{doc: doc, root: root, m: &f.Model}
	r.period()
	r.site()
	r.solids()
	r.materials()
	r.holding()
	r.mix()
	r.vessels()
	r.curing()
	r.screen()
	r.product()
	r.hours()
	r.criteria()
	r.aeration()
	r.together()
	if err := doc.Err(); err != nil {
		return nil, &Error{err}
	}
	// What remains concerns several keys at once and has no single place.
	if err := f.Model.Validate(); err != nil {
		return nil, &Error{fmt.Errorf("%s: %w", doc.Name(), oneLine(err))}
	}
	f.Warnings = doc.Warnings()
	return f, nil
}

// reader fills a model from a document.
type reader struct {
	doc  *yamlfile.Document
	root *yamlfile.Map
	m    *plant.Model
}

const secondsPerYear = 365.25 * calendar.SecondsPerDay

// period reads when the run starts and how long it is.
func (r *reader) period() {
	start := r.root.Date("start")
	r.m.Start = calendar.Date{Year: start.Year(), Month: start.Month(), Day: start.Day()}
	if r.root.Good("start") && start.Day() != 1 {
		r.root.Error("start", "the reported years begin with a month", fmt.Sprintf("write %04d-%02d-01", start.Year(), start.Month()))
	}
	r.m.Years = r.years("horizon", r.root.Quantity("horizon", units.Duration, yamlfile.Between(secondsPerYear, 60*secondsPerYear)))
	r.m.WarmUp = r.years("warm_up", r.root.QuantityOr("warm_up", units.Duration, secondsPerYear, yamlfile.Between(0, 10*secondsPerYear)))
}

// years refuses parts of a year.
func (r *reader) years(key string, seconds float64) int {
	n := int(seconds/secondsPerYear + 0.5)
	if d := seconds/secondsPerYear - float64(n); r.root.Good(key) && (d > 0.01 || d < -0.01) {
		r.root.Error(key, "only whole years can be simulated", fmt.Sprintf("write %d year", n))
	}
	return n
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
