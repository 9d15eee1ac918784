package yamlfile

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/units"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// plant is what the tests read from a file: one value of each kind.
type plant struct {
	name         string
	start        time.Time
	volume       float64
	payload      float64
	solids       float64
	wait         float64
	count        int
	policy       string
	sizes        []float64
	holidays     []string
	monthFactor  [12]float64
	humidity     [12]float64
	weekFactor   [7]float64
	tipFee       float64
	crewStarts   []string
	crewOwners   []bool
	vesselPlaced Position
}

// readPlant reads a plant as a schema would, with every kind of method.
func readPlant(doc *Document) plant {
	m := doc.Root()
	p := plant{
		name:        m.Text("name"),
		monthFactor: m.MonthlyOr("month_factor", units.Dimensionless, [12]float64{}, Positive()),
		humidity:    m.MonthlyOr("humidity", units.Fraction, [12]float64{}, Between(0, 1)),
		weekFactor:  m.WeeklyOr("week_factor", units.Dimensionless, [7]float64{1, 1, 1, 1, 1, 0, 0}),
		holidays:    m.Texts("holidays"),
		tipFee:      m.QuantityOr("tip_fee", units.MoneyPerMass, 0.06, Between(0, 10)),
	}
	if m.Has("start") {
		p.start = m.Date("start")
	}
	v := m.Map("vessel")
	p.vesselPlaced = v.Position()
	p.volume = v.Quantity("useful_volume", units.Volume, Positive())
	p.payload = v.Quantity("payload", units.Mass, AtMost(30000), Usually(5000, 20000, "common practice, no source"))
	p.solids = v.QuantityOr("solids", units.Fraction, 0.2, Between(0.05, 0.6))
	p.wait = v.QuantityOr("wait", units.Duration, 86400, Between(0, 1e7))
	p.count = v.IntOr("count", 6, Between(1, 10_000))
	p.policy = v.OneOfOr("policy", "hold", "hold", "early", "divert")
	p.sizes = v.Quantities("sizes", units.Volume, Positive())
	for _, c := range m.ListIf("crew") {
		p.crewStarts = append(p.crewStarts, c.Text("starts"))
		p.crewOwners = append(p.crewOwners, c.BoolOr("owner", false))
	}
	return p
}

// complaints returns all that a file's reader is told.
func complaints(name string, data []byte) string {
	doc, err := Parse(name, data)
	if err != nil {
		return err.Error()
	}
	readPlant(doc)
	var lines []string
	if err := doc.Err(); err != nil {
		lines = append(lines, err.Error())
	}
	for _, w := range doc.Warnings() {
		lines = append(lines, w.String())
	}
	return strings.Join(lines, "\n")
}

// The exact text for each kind of mistake, line, column and caret included.
// Run with -update to rewrite the files, and read the difference.
func TestErrorTexts(t *testing.T) {
	files, err := filepath.Glob("testdata/errors/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("found %d files, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		got := complaints(filepath.Base(file), data) + "\n"
		golden := strings.TrimSuffix(file, ".yaml") + ".txt"
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s:\n--- got\n%s--- want\n%s", file, got, want)
		}
	}
}
