package workbook_test

import (
	"archive/zip"
	"bytes"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/units"
)

// cached is the value beside a formula.
var cached = regexp.MustCompile(`</f><v>[^<]*</v>`)

// unreckoned takes the values of formulas out of a book, so that whoever opens it must
// reckon them.
func unreckoned(t *testing.T, book []byte) []byte {
	t.Helper()
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	out := zip.NewWriter(&b)
	for _, f := range in.File {
		from, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(from)
		if err != nil {
			t.Fatal(err)
		}
		to, err := out.Create(f.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := to.Write(cached.ReplaceAll(data, []byte("</f>"))); err != nil {
			t.Fatal(err)
		}
	}
	if err := out.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Another program reckons all formulas of the book to the same values, finds no error in
// any cell, and changes no word. It is asked only where it is installed. LOAMCAST_BOOKS
// names folders of reports, separated by colons, of which the books are tried as well.
func TestAnotherProgramReckonsTheSame(t *testing.T) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("LOAMCAST_REQUIRE_TOOLS") == "1" {
			t.Fatalf("soffice is required (LOAMCAST_REQUIRE_TOOLS=1): %v", err)
		}
		t.Skip("soffice is not installed: no other program reckons the book")
	}
	books := map[string][]byte{"shared": written(t, shared(t), units.US)}
	for _, folder := range filepath.SplitList(os.Getenv("LOAMCAST_BOOKS")) {
		if books[folder], err = os.ReadFile(filepath.Join(folder, "report.xlsx")); err != nil {
			t.Fatal(err)
		}
	}
	for name, book := range books {
		t.Run(filepath.Base(name), func(t *testing.T) { compareBooks(t, office, book) })
	}
}

func compareBooks(t *testing.T, office string, book []byte) {
	dir := t.TempDir()
	path := filepath.Join(dir, "in", "book.xlsx")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, unreckoned(t, book), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(office, "-env:UserInstallation=file://"+filepath.Join(dir, "profile"), "--headless", "--convert-to", "xlsx", "--outdir", dir, path)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(filepath.Join(dir, "book.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	ours, theirs := open(t, book), open(t, data)
	numbers := 0
	for _, sheet := range ours.GetSheetList() {
		want, err := ours.GetRows(sheet, raw)
		if err != nil {
			t.Fatal(err)
		}
		got, err := theirs.GetRows(sheet, raw)
		if err != nil {
			t.Fatal(err)
		}
		for i, row := range want {
			for k, cell := range row {
				there := ""
				if i < len(got) && k < len(got[i]) {
					there = got[i][k]
				}
				for _, wrong := range []string{"#", "Err:"} {
					if strings.HasPrefix(there, wrong) {
						t.Errorf("%s, row %d, column %d: %s", sheet, i+1, k+1, there)
					}
				}
				a, err := strconv.ParseFloat(cell, 64)
				if err != nil {
					if there != cell {
						t.Errorf("%s, row %d, column %d: %q became %q", sheet, i+1, k+1, cell, there)
					}
					continue
				}
				numbers++
				if b, err := strconv.ParseFloat(there, 64); err != nil || math.Abs(a-b) > 1e-9*math.Abs(a)+1e-9 {
					t.Errorf("%s, row %d, column %d: %s, and there %q", sheet, i+1, k+1, cell, there)
				}
			}
		}
	}
	asSimulated(t, theirs)
	if numbers < 1000 {
		t.Errorf("%d numbers were compared", numbers)
	}
}

// asSimulated looks whether the costs of a book that has a sheet on money are what the
// runs came to.
func asSimulated(t *testing.T, f *excelize.File) {
	t.Helper()
	if !slices.Contains(f.GetSheetList(), "money") {
		return
	}
	rows, err := f.GetRows("money", raw)
	if err != nil {
		t.Fatal(err)
	}
	const present, simulated = 1, 4 // columns
	at := slices.IndexFunc(rows, func(row []string) bool { return len(row) > 0 && row[0] == "choice" })
	n := 0
	for _, row := range rows[at+1:] {
		if len(row) <= simulated {
			break
		}
		got, err := strconv.ParseFloat(row[present], 64)
		want, also := strconv.ParseFloat(row[simulated], 64)
		if err != nil || also != nil || !near(got, want, 1e-9) {
			t.Errorf("%s costs %s, and as simulated %s", row[0], row[present], row[simulated])
		}
		n++
	}
	if n < 2 {
		t.Errorf("%d choices", n)
	}
}
