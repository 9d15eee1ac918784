package cache

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
)

// A table of few points: a pad that no load is judged on.
func pad() *process.Responses {
	m := process.DefaultCuringModel()
	m.Criteria = nil
	return process.NewResponses(m, 500)
}

// load is one of many that lie far apart.
func load(i int) material.Parcel {
	rng := rand.New(rand.NewPCG(31, uint64(i)))
	cake := material.Spec{Name: "cake", Moisture: 0.7 + 0.1*rng.Float64(), Volatile: 0.75, Readily: 0.3 * rng.Float64(), Slowly: 0.2,
		Nitrogen: 0.045, BulkDensity: 1000}
	chips := material.Spec{Name: "chips", Moisture: 0.4, Volatile: 0.98, Readily: 0.03, Slowly: 0.5, Nitrogen: 0.002, Coarse: 0.9, BulkDensity: 300}
	return cake.OfWet(10000).Plus(chips.OfWet(3000 + 6000*rng.Float64()))
}

// after asks a table about some loads, and returns what becomes of them.
func after(t *testing.T, r *process.Responses, loads ...int) (out []material.Parcel) {
	t.Helper()
	for _, i := range loads {
		p := load(i)
		var s process.Response
		if err := r.Of(&s, &p, time.Month(1+i%12)); err != nil {
			t.Error(err) // it may be asked in a goroutine
			return append(out, p)
		}
		s.Apply(&p, 0, 400)
		out = append(out, p)
	}
	return out
}

// integrated counts the courses that a table had to integrate.
func integrated(r *process.Responses) (n int) {
	for range r.Added() {
		n++
	}
	return n
}

// open opens a cache in a folder.
func open(t *testing.T, dir string) *Cache {
	t.Helper()
	c, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// through asks a table that is kept in a folder about loads, keeps it, and returns what
// becomes of them and how many courses were integrated for it.
func through(t *testing.T, dir string, loads ...int) (out []material.Parcel, n int) {
	t.Helper()
	c, r := open(t, dir), pad()
	c.Keep(r)
	c.Keep(r) // as a table that classes share is
	out = after(t, r, loads...)
	n = integrated(r)
	if err := c.Save(); err != nil {
		t.Fatal(err)
	}
	return out, n
}

// A table that was kept is read and not integrated, and answers as one that never was.
func TestKeptTableIsRead(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not", "there yet")
	want := after(t, pad(), 0, 1, 2)
	for i, integrates := range []bool{true, false, false} {
		got, n := through(t, dir, 0, 1, 2)
		if !slices.Equal(got, want) || (n > 0) != integrates {
			t.Errorf("time %d: %d courses integrated; %v, not %v", i+1, n, got, want)
		}
	}
	if size := Size(dir); size.Tables.Files != 1 || size.Tables.Bytes < 10_000 || size.Runs.Files > 0 {
		t.Errorf("%+v", size)
	}
	if err := Clear(dir); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(dir); !os.IsNotExist(err) {
		t.Errorf("the folder is still there: %v", err)
	}
	if err := Clear(dir); err != nil {
		t.Errorf("clearing what is not there: %v", err)
	}
}

// Whatever happens to a file, answers are the same, and afterwards the table is whole
// again.
func TestDamagedTables(t *testing.T) {
	want := after(t, pad(), 0, 1)
	at := func(part float64, change func([]byte)) func([]byte) []byte {
		return func(b []byte) []byte { change(b[int(part*float64(len(b)-1)):]); return b }
	}
	flip := func(b []byte) { b[0] ^= 0x10 }
	for name, spoil := range map[string]func([]byte) []byte{
		"flipped in the magic":  at(0, flip),
		"another version":       func(b []byte) []byte { b[len("loamcast courses ")] = '2'; return b },
		"flipped in the key":    func(b []byte) []byte { flip(b[len(ofTables.magic):]); return b },
		"flipped in the count":  func(b []byte) []byte { flip(b[len(b)-tailSize:]); return b },
		"a count far too large": func(b []byte) []byte { copy(b[len(b)-tailSize:], "\xff\xff\xff\xff"); return b },
		"flipped in the sum":    func(b []byte) []byte { flip(b[len(b)-1:]); return b },
		"flipped in the index":  func(b []byte) []byte { flip(b[len(b)-tailSize-ofTables.entrySize():]); return b },
		"flipped in a length":   func(b []byte) []byte { flip(b[len(b)-tailSize-8:]); return b },
		"flipped in a course":   at(0.6, flip),
		"flipped in the first":  func(b []byte) []byte { flip(b[len(ofTables.head(key{})):]); return b },
		"a hole":                at(0.5, func(b []byte) { clear(b[:2000]) }),
		"cut in the head":       func(b []byte) []byte { return b[:20] },
		"cut in the index":      func(b []byte) []byte { return b[:len(b)-ofTables.entrySize()] },
		"cut in a course":       func(b []byte) []byte { return b[:len(b)*2/3] },
		"too long":              func(b []byte) []byte { return append(b, 0) },
		"empty":                 func([]byte) []byte { return nil },
		"text":                  func([]byte) []byte { return []byte(strings.Repeat("nothing\n", 5000)) },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			_, all := through(t, dir, 0, 1)
			path := files(dir)[0].path
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, spoil(data), 0o600); err != nil {
				t.Fatal(err)
			}
			got, n := through(t, dir, 0, 1)
			if !slices.Equal(got, want) || n == 0 || n > all {
				t.Errorf("with damage: %d of %d courses integrated; %v, not %v", n, all, got, want)
			}
			got, n = through(t, dir, 0, 1)
			if !slices.Equal(got, want) || n > 0 {
				t.Errorf("after it: %d of %d courses integrated; %v, not %v", n, all, got, want)
			}
			if tables := Size(dir).Tables; tables.Files != 1 {
				t.Errorf("%d files are left", tables.Files)
			}
		})
	}
}

// Several goroutines read a table at once, and each has what one alone has.
func TestManyReadAtOnce(t *testing.T) {
	dir := t.TempDir()
	want, _ := through(t, dir, 0, 1, 2, 3)
	c, r := open(t, dir), pad()
	c.Keep(r)
	var wait sync.WaitGroup
	for first := range 4 {
		wait.Go(func() {
			for k := range 4 {
				i := (first + k) % 4
				if got := after(t, r, i); got[0] != want[i] {
					t.Errorf("load %d: %v, not %v", i, got, want[i])
				}
			}
		})
	}
	wait.Wait()
	if n := integrated(r); n > 0 {
		t.Errorf("%d courses are integrated again", n)
	}
	if err := c.Save(); err != nil {
		t.Error(err)
	}
}

// Two processes at a time read what is there, each adds what it has integrated, and
// neither loses what the other has.
func TestTwoAtATime(t *testing.T) {
	dir := t.TempDir()
	through(t, dir, 0)
	one, other := open(t, dir), open(t, dir)
	a, b := pad(), pad()
	one.Keep(a)
	other.Keep(b)
	after(t, a, 0, 1, 2)
	after(t, b, 2, 3, 0)
	for _, c := range []*Cache{one, other} {
		if err := c.Save(); err != nil {
			t.Fatal(err)
		}
	}
	if got, n := through(t, dir, 3, 2, 1, 0); n > 0 || !slices.Equal(got, after(t, pad(), 3, 2, 1, 0)) {
		t.Errorf("%d courses are integrated again; %v", n, got)
	}
	points := map[string]bool{}
	for _, f := range files(dir) {
		for at := range openPart(f.path, ofTables, one.keyOf(a)).index {
			if points[at] {
				t.Fatal("a course is kept twice")
			}
			points[at] = true
		}
	}
}

// A table that grows part by part is put together, with all that was in its parts.
func TestPartsArePutTogether(t *testing.T) {
	dir, loads, most := t.TempDir(), []int{}, 0
	for i := range 2 * manyParts {
		loads = append(loads, i)
		through(t, dir, i)
		tables := Size(dir).Tables
		most = max(most, tables.Files)
	}
	if most != manyParts {
		t.Errorf("up to %d parts, not %d", most, manyParts)
	}
	if _, n := through(t, dir, loads...); n > 0 {
		t.Errorf("%d courses are lost", n)
	}
}

// No more is kept than may be: what was not used for the longest time goes first, and
// what a process left half-written when it is old.
func TestTablesAreBounded(t *testing.T) {
	dir := t.TempDir()
	through(t, dir, 0)
	kept := Size(dir).Tables
	one := kept.Bytes
	old := filepath.Join(dir, "old"+ofTables.ending)
	left, writing := filepath.Join(dir, temporary+"1"), filepath.Join(dir, temporary+"2")
	mine := filepath.Join(dir, "notes.txt")
	for _, path := range []string{old, left, writing, mine} {
		if err := os.WriteFile(path, make([]byte, one), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	before := time.Now().Add(-2 * abandoned)
	for _, path := range []string{old, left, mine} {
		if err := os.Chtimes(path, before, before); err != nil {
			t.Fatal(err)
		}
	}
	c, r := open(t, dir), pad()
	c.most = 3*one + one/2 // for the first, what is added, and what is being written
	c.Keep(r)
	after(t, r, 1)
	if err := c.Save(); err != nil {
		t.Fatal(err)
	}
	for path, stays := range map[string]bool{old: false, left: false, writing: true, mine: true} {
		if _, err := os.Stat(path); (err == nil) != stays {
			t.Errorf("%s: %v", filepath.Base(path), err)
		}
	}
	if _, n := through(t, dir, 0, 1); n > 0 {
		t.Errorf("%d courses that were used are gone", n)
	}
}

// Another build, or a machine that rounds otherwise, reads nothing of what is kept, nor does
// another model.
func TestOthersReadNothing(t *testing.T) {
	dir := t.TempDir()
	_, all := through(t, dir, 0)
	c, r := open(t, dir), pad()
	c.build[5]++
	c.Keep(r)
	after(t, r, 0)
	if n := integrated(r); n != all {
		t.Errorf("another build integrates %d of %d courses", n, all)
	}
	m := process.DefaultCuringModel()
	m.Criteria = nil
	m.Site.Altitude += 1
	c, r = open(t, dir), process.NewResponses(m, 500)
	c.Keep(r)
	after(t, r, 0)
	if n := integrated(r); n == 0 {
		t.Error("a plant that stands a metre higher reads the table")
	}
}

// Where no folder can be made, nothing is kept, and answers are the same.
func TestNowhereToKeep(t *testing.T) {
	path := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{path, filepath.Join(path, "below")} {
		c, r := open(t, dir), pad()
		c.Keep(r)
		if got := after(t, r, 0); !slices.Equal(got, after(t, pad(), 0)) {
			t.Errorf("%v", got)
		}
		if err := c.Save(); err == nil {
			t.Errorf("%s: it says that the table is kept", dir)
		}
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "mine" {
		t.Errorf("%q, %v", data, err)
	}
}

// The folder is the one of the environment, if that names any, and else among the user's
// caches; without any there is an error.
func TestFolder(t *testing.T) {
	t.Setenv(Variable, "/a/b")
	if dir, err := Folder(); dir != "/a/b" || err != nil {
		t.Errorf("%q, %v", dir, err)
	}
	t.Setenv(Variable, "")
	t.Setenv("XDG_CACHE_HOME", "/c")
	if dir, err := Folder(); err != nil || filepath.Base(dir) != "loamcast" {
		t.Errorf("%q, %v", dir, err)
	}
	t.Setenv("XDG_CACHE_HOME", "")
	t.Setenv("HOME", "")
	if dir, err := Folder(); err == nil {
		t.Errorf("without a home it is %q", dir)
	}
}
