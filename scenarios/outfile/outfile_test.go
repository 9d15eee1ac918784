package outfile

import (
	"os"
	"path/filepath"
	"testing"
)

// Files arrive whole, in folders made on the way, and replace older ones.
func TestWriteAllReplaces(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "out")
	for _, text := range []string{"first", "second, longer"} {
		if err := WriteAll(dir, []File{{"a.csv", []byte(text)}, {"pictures/b.svg", []byte(text)}}); err != nil {
			t.Fatal(err)
		}
		for _, name := range []string{"a.csv", "pictures/b.svg"} {
			got, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil || string(got) != text {
				t.Errorf("%s holds %q (%v), want %q", name, got, err, text)
			}
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".*.part")); len(left) > 0 {
		t.Errorf("temporary files left: %v", left)
	}
}

// When one file cannot be written, the others keep their old content and no
// temporary file stays.
func TestWriteAllFailsWhole(t *testing.T) {
	dir := t.TempDir()
	if err := WriteAll(dir, []File{{"a.csv", []byte("old")}}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "blocked"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	err := WriteAll(dir, []File{{"a.csv", []byte("new")}, {"blocked/b.csv", []byte("new")}})
	if err == nil {
		t.Fatal("a file was written below a file")
	}
	if got, _ := os.ReadFile(filepath.Join(dir, "a.csv")); string(got) != "old" {
		t.Errorf("a.csv holds %q, want the old content", got)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".*.part")); len(left) > 0 {
		t.Errorf("temporary files left: %v", left)
	}
}

// A name cannot climb out of the folder.
func TestWriteAllStaysInside(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"../x", "/tmp/x", ""} {
		if err := WriteAll(dir, []File{{name, nil}}); err == nil {
			t.Errorf("%q was written", name)
		}
	}
}
