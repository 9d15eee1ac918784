package report

import (
	"bytes"
	"strings"
	"testing"
)

// fileNames lists the files, with the columns of tables and the fields of JSON.
func fileNames(t *testing.T, make func() ([]File, error)) []byte {
	t.Helper()
	files, err := make()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, f := range files {
		b.WriteString(f.Name + "\n")
		switch {
		case strings.HasSuffix(f.Name, ".csv"):
			header, _, _ := strings.Cut(string(f.Data), "\n")
			b.WriteString("  " + strings.ReplaceAll(header, ",", "\n  ") + "\n")
		case strings.HasSuffix(f.Name, ".json"):
			b.WriteString("  " + strings.ReplaceAll(strings.TrimSpace(keyPaths(t, bytes.NewReader(f.Data))), "\n", "\n  ") + "\n")
		}
	}
	return []byte(b.String())
}
