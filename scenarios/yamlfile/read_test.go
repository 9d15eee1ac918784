package yamlfile

import (
	"errors"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/infile"
	"loamcast/scenarios/units"
)

func parse(t *testing.T, text string) *Document {
	t.Helper()
	doc, err := Parse("plant.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func day(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

// Every kind of value arrives as it was written, in base units. The expected
// numbers are the exact conversions that package units proves.
func TestReadWhole(t *testing.T) {
	doc, err := Open("testdata/whole.yaml")
	if err != nil {
		t.Fatal(err)
	}
	got := readPlant(doc)
	if err := doc.Err(); err != nil {
		t.Fatal(err)
	}
	want := plant{
		name: "Fennick Valley", start: day(2027, 7, 1),
		volume: 40 * 0.764554857984, payload: 20 * 907.18474, solids: 0.22, wait: 43200,
		count: 1200, policy: "early", sizes: []float64{10, 1000 * 0.028316846592},
		holidays:     []string{"2027-01-01", "2027-12-25"},
		monthFactor:  [12]float64{1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1, 1.1},
		humidity:     [12]float64{.80, .78, .72, .65, .60, .58, .55, .57, .63, .70, .77, .81},
		weekFactor:   [7]float64{1, 1, 1, 1, 1, 0.5, 0},
		tipFee:       55 / 907.18474,
		crewStarts:   []string{"07:30", "24:00"},
		crewOwners:   []bool{true, false},
		vesselPlaced: Position{12, 1},
	}
	if math.Abs(got.sizes[1]-want.sizes[1]) < 1e-12 && math.Abs(got.volume-want.volume) < 1e-12 {
		got.sizes, got.volume = want.sizes, want.volume
	}
	got.tipFee, got.payload = math.Round(got.tipFee*1e9), math.Round(got.payload*1e6)
	want.tipFee, want.payload = math.Round(want.tipFee*1e9), math.Round(want.payload*1e6)
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

// A key that is absent gives its default, and an absent group gives the
// defaults of all its keys; neither is complained of.
func TestDefaults(t *testing.T) {
	doc := parse(t, "name: x\n")
	m := doc.Root()
	m.Has("name")
	gone := m.MapIf("gone")
	if gone.Present() || gone.MapIf("deeper").Present() || gone.List("list") != nil {
		t.Error("an absent group has content")
	}
	for _, c := range []struct{ got, want any }{
		{gone.QuantityOr("a", units.Mass, 5), 5.0},
		{gone.Quantity("b", units.Mass, Positive()), 0.0},
		{gone.IntOr("c", 3), 3},
		{gone.TextOr("d", "text"), "text"},
		{gone.BoolOr("e", true), true},
		{gone.OneOfOr("f", "x", "x", "y"), "x"},
		{gone.MonthlyOr("i", units.Mass, [12]float64{1}), [12]float64{1}},
		{m.QuantityOr("k", units.Mass, -5, Positive()), -5.0}, // a default is the caller's own
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("got %v, want %v", c.got, c.want)
		}
	}
	if err := doc.Err(); err != nil {
		t.Error(err)
	}
}

// Good guards checks over several keys: it is true for values that were read
// and keys that may be absent, false for those complained of.
func TestGood(t *testing.T) {
	m := parse(t, "a: 1 t\nb: 5\nc: -1 t\n").Root()
	m.Quantity("a", units.Mass)
	m.Quantity("b", units.Mass)
	m.Quantity("c", units.Mass, Positive())
	m.Quantity("needed", units.Mass)
	m.QuantityOr("spare", units.Mass, 0)
	for key, want := range map[string]bool{"a": true, "b": false, "c": false, "needed": false, "spare": true} {
		if got := m.Good(key); got != want {
			t.Errorf("Good(%q) = %v", key, got)
		}
	}
	if m.Good("a", "b") || !m.Good("a", "spare") {
		t.Error("Good of several keys is not that of each")
	}
}

// Positions are kept for later checks, whose complaints are sorted in with the
// rest; warnings do not make an error.
func TestLaterChecks(t *testing.T) {
	doc := parse(t, "low: 5 t\nhigh: 3 t\nlist: [1 t, 2 t]\nnamed: {b: 1 t, a: 2 t}\n")
	m := doc.Root()
	low, high := m.Quantity("low", units.Mass), m.Quantity("high", units.Mass)
	m.Quantities("list", units.Mass)
	named := m.Map("named")
	if got := strings.Join(named.Names(), " "); got != "b a" {
		t.Errorf("names are %q, not those of the file in its order", got)
	}
	if m.IsMap("low") || !m.IsMap("named") || !m.IsList("list") || m.IsList("absent") {
		t.Error("kinds are mistaken")
	}
	for _, c := range []struct{ got, want Position }{
		{m.Pos("high"), Position{2, 7}},
		{m.Pos("absent"), Position{1, 1}},
		{m.ItemPos("list", 1), Position{3, 13}},
		{m.ItemPos("list", 2), Position{3, 7}},
		{named.Position(), Position{4, 1}},
		{named.Pos("a"), Position{4, 20}},
	} {
		if c.got != c.want {
			t.Errorf("position %v, want %v", c.got, c.want)
		}
	}
	if err := doc.Err(); err != nil {
		t.Fatal(err)
	}
	m.Warn("list", "is short", "")
	if doc.Err() != nil || len(doc.Warnings()) != 1 {
		t.Error("a warning is not just a warning")
	}
	doc.ErrorAt(m.ItemPos("list", 1), "too much", "")
	named.Error("a", "is wrong", "make it right")
	if low > high {
		m.Error("high", "is less than low", "swap them")
	}
	want := `plant.yaml:2:7: error: high: is less than low
     2 | high: 3 t
       |       ^
         swap them
plant.yaml:3:13: error: too much
     3 | list: [1 t, 2 t]
       |             ^
plant.yaml:4:20: error: named.a: is wrong
     4 | named: {b: 1 t, a: 2 t}
       |                    ^
         make it right`
	if err := doc.Err(); err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// The same group asked for twice is the same cursor, so that no key of it is
// taken for unknown because another part of the program read it.
func TestSameCursor(t *testing.T) {
	doc := parse(t, "a: {b: 1, c: 2}\n")
	doc.Root().Map("a").Int("b")
	doc.Root().Map("a").Int("c")
	if err := doc.Err(); err != nil {
		t.Error(err)
	}
}

// Whole numbers, dates and words are read strictly.
func TestScalarsRefused(t *testing.T) {
	for _, text := range []string{"7.5", "6.0", "0x10", "010", "1_000", "1,00", "+6", "1e3", "99999999999999999999"} {
		if n, f := whole(text); f == nil {
			t.Errorf("%q was read as the whole number %d", text, n)
		}
	}
	for _, text := range []string{"2027-02-29", "2027-7-1", "07/01/2027", "2027-07-01T00:00:00Z"} {
		if d, f := date(text); f == nil {
			t.Errorf("%q was read as the date %v", text, d)
		}
	}
	for _, text := range []string{"True", "yes", "on", "1", ""} {
		if _, f := truth(text); f == nil {
			t.Errorf("%q was read as true or false", text)
		}
	}
}

// A check holds on its own limits, except for Positive.
func TestChecks(t *testing.T) {
	for _, c := range []struct {
		name  string
		check Check
		in    []float64
		out   []float64
	}{
		{"Positive", Positive(), []float64{1e-300, 1e300}, []float64{0, -1}},
		{"AtMost", AtMost(2), []float64{2, -1e300}, []float64{2.001}},
		{"Between", Between(1, 2), []float64{1, 1.5, 2}, []float64{0.999, 2.001, math.NaN()}},
		{"Usually", Usually(1, 2, "source"), []float64{1, 2}, []float64{0, 3}},
	} {
		for _, x := range c.in {
			if !c.check.holds(x) {
				t.Errorf("%s refuses %v", c.name, x)
			}
		}
		for _, x := range c.out {
			if c.check.holds(x) {
				t.Errorf("%s accepts %v", c.name, x)
			}
		}
	}
}

// A file of 50 MB is refused by its size, and a device without end by its kind.
func TestTooLarge(t *testing.T) {
	large := t.TempDir() + "/large.yaml"
	if err := os.WriteFile(large, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(large, 50e6); err != nil {
		t.Fatal(err)
	}
	_, err := Open(large)
	if _, ok := err.(*Problems); !ok || !strings.Contains(err.Error(), "larger than 1 MiB") {
		t.Errorf("%s: %v", large, err)
	}
	if _, err := Open("/dev/zero"); !errors.As(err, new(*infile.RefusedError)) {
		t.Errorf("/dev/zero: %v", err)
	}
}

// A file that cannot be read is an error of the system, not of the content.
func TestOpenFails(t *testing.T) {
	if _, err := Open(t.TempDir() + "/none.yaml"); !os.IsNotExist(err) {
		t.Errorf("got %v", err)
	}
	if _, err := Open(t.TempDir()); err == nil {
		t.Error("a directory was read")
	}
}

// The greatest file that is read, full of small entries, costs no more time
// or memory than a person would notice.
func BenchmarkParseLargest(b *testing.B) {
	text := []byte("list: [" + strings.Repeat("1,", (MaxSize-20)/2) + "1]\n")
	for b.Loop() {
		if _, err := Parse("large.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}

// Each form that needs its key says so if it is absent, with a line to add
// that reads without complaint when it is added.
func TestRequiredForms(t *testing.T) {
	read := func(doc *Document) {
		m := doc.Root()
		m.OneOf("choice", "hold", "early")
		m.Date("date")
		m.Int("int")
		m.Text("text")
		m.Quantity("mass", units.Mass)
		m.Monthly("months", units.Fraction)
	}
	doc := parse(t, "other: 1\n")
	doc.Root().Has("other")
	read(doc)
	doc.Root().Done()
	var lines []string
	for _, d := range doc.Diagnostics() {
		_, line, found := strings.Cut(strings.TrimSuffix(d.Hint, `"`), `add a line such as "`)
		if !found {
			t.Fatalf("hint %q", d.Hint)
		}
		lines = append(lines, line)
	}
	if len(lines) != 6 {
		t.Fatalf("%d keys are missed, not 6: %q", len(lines), lines)
	}
	mended := parse(t, strings.Join(lines, "\n")+"\n")
	read(mended)
	if err := mended.Err(); err != nil {
		t.Error(err)
	}
}

// A list that is needed has an entry; its entries are named by number, from 1.
func TestList(t *testing.T) {
	doc := parse(t, "full: [{a: 1}, {a: 2}]\nempty: []\nnames: [x, y]\n")
	m := doc.Root()
	for i, entry := range m.List("full") {
		if got, want := entry.Path(), []string{"full[1]", "full[2]"}[i]; got != want {
			t.Errorf("path %q, want %q", got, want)
		}
		if got := entry.Int("a"); got != i+1 {
			t.Errorf("entry %d holds %d", i, got)
		}
	}
	if got := m.Texts("names"); !reflect.DeepEqual(got, []string{"x", "y"}) {
		t.Errorf("names %q", got)
	}
	m.List("empty")
	if err := doc.Err(); err == nil || !strings.Contains(err.Error(), doc.Name()+":2:8: error: empty: the list is empty") {
		t.Errorf("got %v", err)
	}
}

// A value too long to show is cut in the message.
func TestLongValue(t *testing.T) {
	doc := parse(t, "start: "+strings.Repeat("x", 5000)+"\n")
	doc.Root().Date("start")
	list := doc.Diagnostics()
	if len(list) != 1 || len(list[0].Message) > 120 || len(list[0].String()) > 400 {
		t.Errorf("got %v", list)
	}
}
