package outfile

import (
	"os"
	"path/filepath"
	"testing"
)

// A folder of ours becomes another one in one step: what the new files do not replace
// stays, what nobody listed is not touched, and a folder in which somebody works is
// written in its place.
func TestFolderIsExchanged(t *testing.T) {
	if !exchanges(t) {
		t.Skip("folders cannot be exchanged here")
	}
	number := func(dir string) os.FileInfo {
		info, err := os.Stat(dir)
		if err != nil {
			t.Fatal(err)
		}
		return info
	}
	for _, c := range []struct {
		name      string
		prepare   func(dir string)
		exchanged bool
	}{
		{"ours alone", func(string) {}, true},
		{"left by a run that was killed", func(dir string) { mustWrite(t, filepath.Join(dir, ".loamcast-999999999-1.part"), "half") }, true},
		{"somebody else's file", func(dir string) { mustWrite(t, filepath.Join(dir, "notes.txt"), "mine") }, false},
		{"a hidden file", func(dir string) { mustWrite(t, filepath.Join(dir, ".hidden"), "mine") }, false},
		{"started in it", func(dir string) { t.Chdir(dir) }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			if err := (Policy{}).WriteFolder(t.Context(), dir, append(set("old"), File{"c.csv", []byte("kept")})); err != nil {
				t.Fatal(err)
			}
			if err := os.Chmod(dir, 0o750); err != nil {
				t.Fatal(err)
			}
			c.prepare(dir)
			before := number(dir)
			if err := (Policy{}).WriteFolder(t.Context(), dir, set("new")); err != nil {
				t.Fatal(err)
			}
			after := number(dir)
			if os.SameFile(before, after) == c.exchanged || after.Mode() != before.Mode() {
				t.Errorf("the folder is another: %v; its mode %v, was %v", !os.SameFile(before, after), after.Mode(), before.Mode())
			}
			holds(t, filepath.Join(dir, "a.csv"), "new")
			holds(t, filepath.Join(dir, "pictures", "b.svg"), "new")
			holds(t, filepath.Join(dir, "c.csv"), "kept")
			for _, theirs := range []string{"notes.txt", ".hidden"} {
				if _, err := os.Stat(filepath.Join(dir, theirs)); err == nil {
					holds(t, filepath.Join(dir, theirs), "mine")
				}
			}
			if names := append(left(t, dir), left(t, filepath.Dir(dir))...); len(names) > 0 {
				t.Errorf("left: %v", names)
			}
			if err := (Policy{}).WriteFolder(t.Context(), dir, set("newer")); err != nil {
				t.Errorf("the next run: %v", err)
			}
		})
	}
}

// What somebody puts into the folder after it was looked through is brought over.
func TestLastMoment(t *testing.T) {
	from, to := t.TempDir(), t.TempDir()
	mustWrite(t, filepath.Join(from, "a.csv"), "old")
	mustWrite(t, filepath.Join(from, "notes.txt"), "mine")
	mustWrite(t, filepath.Join(to, "a.csv"), "new")
	if err := rescue(from, to); err != nil {
		t.Fatal(err)
	}
	holds(t, filepath.Join(to, "a.csv"), "new")
	holds(t, filepath.Join(to, "notes.txt"), "mine")
}
