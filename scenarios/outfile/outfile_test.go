package outfile

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func mustWrite(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func holds(t *testing.T, path, want string) {
	t.Helper()
	if got, err := os.ReadFile(path); err != nil || string(got) != want {
		t.Errorf("%s holds %q (%v), want %q", path, got, err, want)
	}
}

func refused(t *testing.T, err error, reason string) {
	t.Helper()
	if r := (*RefusedError)(nil); !errors.As(err, &r) || !strings.Contains(r.Reason, reason) {
		t.Errorf("got %v, want a refusal: %s", err, reason)
	}
}

// left returns the temporary names below a folder.
func left(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".part") {
			names = append(names, e.Name())
		}
	}
	return names
}

func set(text string) []File {
	return []File{{"a.csv", []byte(text)}, {"pictures/b.svg", []byte(text)}}
}

// A new folder gets its files and a list of them; a second run replaces them
// since they are unchanged, and the list is the same for the same files.
func TestFolderIsReplaced(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "out")
	var lists []string
	for _, text := range []string{"first", "second, longer", "first"} {
		var p Policy
		if err := p.CheckFolder(dir); err != nil {
			t.Fatal(err)
		}
		if err := p.WriteFolder(t.Context(), dir, set(text)); err != nil {
			t.Fatal(err)
		}
		holds(t, filepath.Join(dir, "a.csv"), text)
		holds(t, filepath.Join(dir, "pictures/b.svg"), text)
		data, err := os.ReadFile(filepath.Join(dir, ListName))
		if err != nil {
			t.Fatal(err)
		}
		lists = append(lists, string(data))
	}
	if lists[0] != lists[2] || lists[0] == lists[1] || strings.Count(lists[0], "\n") != 3 {
		t.Errorf("lists:\n%s", strings.Join(lists, "\n"))
	}
	for _, at := range []string{dir, filepath.Dir(dir), filepath.Join(dir, "pictures")} {
		if names := left(t, at); len(names) > 0 {
			t.Errorf("left in %s: %v", at, names)
		}
	}
}

// A file that its owner has changed, or that was never ours, stands: the check
// beforehand and the writing both refuse, and nothing else is written. Force
// replaces it.
func TestFolderRefuses(t *testing.T) {
	for _, c := range []struct{ name, file, reason string }{
		{"changed", "a.csv", "changed since"},
		{"never ours", "c.csv", "not ours"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			if err := (Policy{}).WriteFolder(t.Context(), dir, set("old")); err != nil {
				t.Fatal(err)
			}
			mustWrite(t, filepath.Join(dir, c.file), "mine")
			files := append(set("new"), File{"c.csv", []byte("new")})
			refused(t, Policy{}.WriteFolder(t.Context(), dir, files), c.reason)
			holds(t, filepath.Join(dir, c.file), "mine")
			holds(t, filepath.Join(dir, "pictures/b.svg"), "old")
			if c.file == "a.csv" {
				refused(t, Policy{}.CheckFolder(dir), c.reason)
			}
			force := Policy{Force: true}
			if err := errors.Join(force.CheckFolder(dir), force.WriteFolder(t.Context(), dir, files)); err != nil {
				t.Fatal(err)
			}
			holds(t, filepath.Join(dir, c.file), "new")
		})
	}
}

// Before anything is computed: a folder of somebody else's files, a file where
// a folder should be and a file on the way to it are refused; hidden files and
// an empty folder are not in the way.
func TestCheckFolder(t *testing.T) {
	dir := t.TempDir()
	var p Policy
	mustWrite(t, filepath.Join(dir, ".hidden"), "")
	if err := p.CheckFolder(dir); err != nil {
		t.Errorf("an empty folder: %v", err)
	}
	mine := filepath.Join(dir, "mine")
	mustWrite(t, mine, "")
	refused(t, p.CheckFolder(dir), "not in this folder")
	refused(t, p.CheckFolder(mine), "not a folder")
	refused(t, Policy{Force: true}.CheckFolder(filepath.Join(mine, "sub", "out")), "not a folder")
	mustWrite(t, filepath.Join(dir, ListName), "mine too")
	refused(t, Policy{Force: true}.CheckFolder(dir), "it is not ours")
}

// An input is never replaced, by whatever name it goes and even by force.
func TestInputStands(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	mustWrite(t, "plant.yaml", "plant")
	if err := errors.Join(os.Symlink("plant.yaml", "soft"), os.Link("plant.yaml", "hard"), os.Mkdir("sub", 0o755)); err != nil {
		t.Fatal(err)
	}
	p := Policy{Inputs: []string{"none", "plant.yaml"}, Force: true}
	for _, name := range []string{"plant.yaml", "./sub/../plant.yaml", filepath.Join(dir, "plant.yaml"), "soft", "hard"} {
		refused(t, p.CheckFile(name, "plant"), "it is the input")
		refused(t, p.WriteFile(t.Context(), name, []byte("new"), "plant"), "it is the input")
	}
	refused(t, p.WriteFolder(t.Context(), ".", []File{{"plant.yaml", nil}}), "it is the input")
	holds(t, "plant.yaml", "plant")
}

// A single file of ours is known by how it begins; others stand without force,
// and what is not a regular file with it.
func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "new", "trace.csv")
	for range 2 {
		if err := (Policy{}).WriteFile(t.Context(), path, []byte("time,load\n1,2\n"), "time,load"); err != nil {
			t.Fatal(err)
		}
	}
	for _, text := range []string{"", "tim", "mine, all mine"} {
		mustWrite(t, path, text)
		refused(t, Policy{}.CheckFile(path, "time,load"), "not ours")
	}
	if err := (Policy{Force: true}).WriteFile(t.Context(), path, []byte("new"), "time,load"); err != nil {
		t.Fatal(err)
	}
	refused(t, Policy{}.CheckFile(path, ""), "it exists")
	refused(t, Policy{Force: true}.CheckFile(dir, ""), "not a regular file")
	refused(t, Policy{Force: true}.CheckFile("/dev/null", ""), "not a regular file")
}

// With a disk that is full after some files, the old files stand, no temporary
// file stays and a folder that was not there is not there afterwards.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "old")
	if err := (Policy{}).WriteFolder(t.Context(), old, set("old")); err != nil {
		t.Fatal(err)
	}
	before := put
	defer func() { put = before }()
	for room := range 4 {
		for _, out := range []string{old, filepath.Join(dir, "new", "out")} {
			files := 0
			put = func(w io.Writer, data []byte) error {
				if files++; files > room && files > 0 {
					w.Write(data[:len(data)/2])
					return syscall.ENOSPC
				}
				return before(w, data)
			}
			err := Policy{}.WriteFolder(t.Context(), out, set("new"))
			if room == 3 && (out != old || exchanges(t)) {
				if err != nil { // two files and the list: there was room
					t.Error(err)
				}
				continue
			}
			if !errors.Is(err, syscall.ENOSPC) {
				t.Errorf("room for %d: %v", room, err)
			}
			if _, err := os.Stat(filepath.Join(dir, "new")); err == nil {
				t.Errorf("room for %d: a new folder stays", room)
			}
			holds(t, filepath.Join(old, "a.csv"), "old")
			for _, at := range []string{dir, old, filepath.Join(old, "pictures")} {
				if names := left(t, at); len(names) > 0 {
					t.Errorf("left in %s: %v", at, names)
				}
			}
		}
	}
}

// A name cannot climb out of the folder, nor be the list's.
func TestFolderStaysInside(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"../x", "/tmp/x", "", ListName} {
		if err := (Policy{}).WriteFolder(t.Context(), dir, []File{{name, nil}}); err == nil {
			t.Errorf("%q was written", name)
		}
	}
}
