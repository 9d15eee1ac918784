package cache

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/sim/digest"
)

// left is what an invented run leaves.
func left(run int) (out plant.Played) {
	fill(rand.New(rand.NewPCG(uint64(run), 3)), reflect.ValueOf(&out).Elem())
	return out
}

func name(run int) digest.Sum { return digest.Of(run) }

// ask asks a folder about runs, which are kept, and returns how many were not there.
func ask(t *testing.T, dir string, list ...int) (unknown int) {
	t.Helper()
	c := open(t, dir)
	unknown = askOpen(t, c.Runs(), list...)
	if err := c.Save(); err != nil {
		t.Fatal(err)
	}
	return unknown
}

// askOpen asks about runs, and keeps those that are not there.
func askOpen(t *testing.T, r plant.Runs, list ...int) (unknown int) {
	t.Helper()
	for _, run := range list {
		want := left(run)
		got, ok := r.Recall(name(run))
		switch {
		case !ok:
			unknown++
			r.Keep(name(run), want)
		case !same(reflect.ValueOf(got), reflect.ValueOf(want)):
			t.Errorf("run %d: %+v, not %+v", run, got, want)
		}
	}
	return unknown
}

// A run that was kept is there, in the same command and in later ones, each as it was; one
// that nothing was added to writes nothing.
func TestKeptRunsAreFound(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not", "there yet")
	for i, c := range []struct {
		runs    []int
		unknown int
		files   int
	}{{[]int{1, 2, 1, 2}, 2, 1}, {[]int{2, 1}, 0, 1}, {[]int{1, 2, 3}, 1, 2}, {[]int{3, 2, 1, 3}, 0, 2}} {
		if got := ask(t, dir, c.runs...); got != c.unknown {
			t.Errorf("time %d: %d runs are not there, not %d", i+1, got, c.unknown)
		}
		size := Size(dir)
		if size.Tables.Files > 0 || size.Runs.Files != c.files || size.Runs.Bytes < 1000 {
			t.Errorf("time %d: %+v", i+1, size)
		}
	}
	if err := Clear(dir); err != nil {
		t.Error(err)
	}
	if _, err := os.Stat(dir); !os.IsNotExist(err) {
		t.Errorf("the folder is still there: %v", err)
	}
}

// Whatever happens to a file, no run is found that is not as it was, and afterwards all are
// there again.
func TestDamagedRuns(t *testing.T) {
	at := func(part float64, change func([]byte)) func([]byte) []byte {
		return func(b []byte) []byte { change(b[int(part*float64(len(b)-1)):]); return b }
	}
	flip := func(b []byte) { b[0] ^= 0x10 }
	for what, spoil := range map[string]func([]byte) []byte{
		"flipped in the magic":  at(0, flip),
		"flipped in the key":    func(b []byte) []byte { flip(b[len(ofRuns.magic):]); return b },
		"flipped in the first":  func(b []byte) []byte { flip(b[len(ofRuns.head(key{})):]); return b },
		"flipped in the middle": at(0.5, flip),
		"a hole":                at(0.3, func(b []byte) { clear(b[:min(len(b), 2000)]) }),
		"flipped in the index":  func(b []byte) []byte { flip(b[len(b)-tailSize-ofRuns.entrySize():]); return b },
		"flipped in a length":   func(b []byte) []byte { flip(b[len(b)-tailSize-8:]); return b },
		"flipped in the sum":    func(b []byte) []byte { flip(b[len(b)-1:]); return b },
		"a table's":             func(b []byte) []byte { copy(b, ofTables.magic); return b },
		"cut in a run":          func(b []byte) []byte { return b[:len(b)/3] },
		"cut in the index":      func(b []byte) []byte { return b[:len(b)-ofRuns.entrySize()] },
		"empty":                 func([]byte) []byte { return nil },
		"text":                  func([]byte) []byte { return []byte(strings.Repeat("nothing\n", 5000)) },
	} {
		t.Run(what, func(t *testing.T) {
			dir := t.TempDir()
			all := []int{1, 2, 3, 4}
			ask(t, dir, all...)
			path := files(dir)[0].path
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, spoil(data), 0o600); err != nil {
				t.Fatal(err)
			}
			if n := ask(t, dir, all...); n == 0 {
				t.Error("with damage all runs are found")
			}
			for _, f := range files(dir) {
				if f.path == path {
					t.Error("the damaged file is still there")
				}
			}
			ask(t, dir, all...)
			if n := ask(t, dir, all...); n > 0 {
				t.Errorf("after it %d runs are not there", n)
			}
		})
	}
}

// Another build reads nothing of what is kept.
func TestOthersFindNoRuns(t *testing.T) {
	dir := t.TempDir()
	ask(t, dir, 1, 2)
	c := open(t, dir)
	c.build[3]++
	if n := askOpen(t, newRuns(dir, c.build, mostRuns), 1, 2); n != 2 {
		t.Errorf("another build finds %d runs", 2-n)
	}
	c.Discard()
}

// Two processes at a time each add what they have simulated, and neither loses what the
// other has.
func TestTwoKeepRuns(t *testing.T) {
	dir := t.TempDir()
	one, other := open(t, dir), open(t, dir)
	askOpen(t, one.Runs(), 1, 2)
	askOpen(t, other.Runs(), 2, 3)
	for _, c := range []*Cache{one, other} {
		if err := c.Save(); err != nil {
			t.Fatal(err)
		}
	}
	if n := ask(t, dir, 1, 2, 3); n > 0 {
		t.Errorf("%d runs are lost", n)
	}
}

// Several goroutines ask at once, and each has what was kept.
func TestRunsAskedAtOnce(t *testing.T) {
	dir := t.TempDir()
	ask(t, dir, 1, 2, 3)
	c := open(t, dir)
	var wait sync.WaitGroup
	for first := range 4 {
		wait.Go(func() {
			for k := range 6 {
				askOpen(t, c.Runs(), 1+(first+k)%6)
			}
		})
	}
	wait.Wait()
	if err := c.Save(); err != nil {
		t.Error(err)
	}
	if n := ask(t, dir, 1, 2, 3, 4, 5, 6); n > 0 {
		t.Errorf("%d runs are lost", n)
	}
}

// A command that fails leaves nothing, not even what it was writing.
func TestDiscardedRuns(t *testing.T) {
	dir := t.TempDir()
	ask(t, dir, 1)
	before := len(files(dir))
	c := open(t, dir)
	askOpen(t, c.Runs(), 1, 2)
	c.Discard()
	if n := len(files(dir)); n != before {
		t.Errorf("%d files are left, and before %d", n, before)
	}
	if n := ask(t, dir, 1, 2); n != 1 {
		t.Errorf("%d runs are not there", n)
	}
}

// Where no folder can be made, or the disk is full, nothing is kept, and nothing is left of
// what was.
func TestNowhereToKeepRuns(t *testing.T) {
	path := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	c := open(t, filepath.Join(path, "below"))
	if n := askOpen(t, c.Runs(), 1, 1); n != 2 {
		t.Errorf("%d runs are found", 2-n)
	}
	if err := c.Save(); err != nil {
		t.Error(err) // of what there is no room for nothing is told
	}

	dir := t.TempDir()
	c = open(t, dir)
	askOpen(t, c.Runs(), 1)
	c.runs.own.file.Close() // every write fails from now on
	if n := askOpen(t, c.Runs(), 1, 2, 2); n != 3 {
		t.Errorf("%d runs are found", 3-n)
	}
	if err := c.Save(); err == nil {
		t.Error("it says that the runs are kept")
	}
	if left := files(dir); len(left) > 0 {
		t.Errorf("%v is left", left)
	}
}

// The runs of a command take no more than they may, and those that were kept by then stay;
// of all files those go first that were not used for the longest time.
func TestRunsAreBounded(t *testing.T) {
	dir := t.TempDir()
	ask(t, dir, 1)
	one := Size(dir).Runs
	c := open(t, dir)
	c.runs.most = 3 * one.Bytes
	for run := 2; run < 40; run++ {
		askOpen(t, c.Runs(), run)
	}
	if err := c.Save(); err != nil {
		t.Fatal(err)
	}
	if both := Size(dir).Runs; both.Bytes > 5*one.Bytes || both.Bytes < 2*one.Bytes {
		t.Errorf("%d bytes, where a command may add %d", both.Bytes-one.Bytes, c.runs.most)
	}
	if n := ask(t, dir, 1, 2); n > 0 {
		t.Errorf("%d runs are gone", n)
	}
	old := time.Now().Add(-time.Hour)
	for _, f := range files(dir) {
		if err := os.Chtimes(f.path, old, old); err != nil {
			t.Fatal(err)
		}
	}
	ask(t, dir, 1) // is in use again
	both := Size(dir).Runs
	tidy(dir, both.Bytes-1)
	if n := askOpen(t, open(t, dir).Runs(), 1); n > 0 {
		t.Error("a run that is in use is gone")
	}
	if after := Size(dir).Runs; after.Files != 1 {
		t.Errorf("%d files are left", after.Files)
	}
}
