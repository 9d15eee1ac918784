package cache

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"loamcast/sim/digest"
)

// sketch is what a test designs.
type sketch struct {
	Parts  [3]float64
	Open   []int
	Weight float64
}

func sketchOf(n int) (digest.Sum, sketch) {
	return digest.Of(n), sketch{Parts: [3]float64{1, float64(n) / 3, -2}, Open: []int{n, 7}, Weight: 0.1}
}

// designsIn opens the designs of a folder, as another run of the program does.
func designsIn(t *testing.T, dir string) *Designs {
	t.Helper()
	c, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return c.Designs()
}

// knows reports whether a design is there, and fails if it is not as it was kept.
func knows(t *testing.T, d *Designs, n int) bool {
	t.Helper()
	of, want := sketchOf(n)
	var got sketch
	ok := d.Recall(of, &got)
	if !ok {
		want = sketch{}
	}
	if fmt.Sprintf("%x", got) != fmt.Sprintf("%x", want) {
		t.Errorf("design %d is %v, not %v", n, got, want)
	}
	return ok
}

func keep(d *Designs, n int) { d.Keep(sketchOf(n)) }

// What was designed is found by the same run of the program and by the next, to the bit,
// and nothing else is; Size tells of it and Clear removes it.
func TestKeptDesignsAreFound(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "not there yet")
	d := designsIn(t, dir)
	if knows(t, d, 1) {
		t.Error("a design is there that nobody has made")
	}
	keep(d, 1)
	for _, d := range []*Designs{d, designsIn(t, dir)} {
		if !knows(t, d, 1) || knows(t, d, 2) {
			t.Error("not just the first design is there")
		}
	}
	if size := Size(dir); size.Designs.Files != 1 || size.Tables.Files+size.Runs.Files > 0 {
		t.Errorf("%+v", size)
	}
	if err := Clear(dir); err != nil {
		t.Error(err)
	}
	if knows(t, designsIn(t, dir), 1) {
		t.Error("the design is still there")
	}
}

// Wherever a file is damaged or cut, no design is found that is not as it was, and once it
// is made again it is.
func TestDamagedDesigns(t *testing.T) {
	dir := t.TempDir()
	keep(designsIn(t, dir), 1)
	list := files(dir)
	if len(list) != 1 {
		t.Fatalf("%d files", len(list))
	}
	whole, err := os.ReadFile(list[0].path)
	if err != nil {
		t.Fatal(err)
	}
	for at := range whole {
		for _, bad := range [][]byte{whole[:at], append(append([]byte(nil), whole[:at]...), append([]byte{whole[at] ^ 0x10}, whole[at+1:]...)...)} {
			if err := Clear(dir); err != nil {
				t.Fatal(err)
			}
			if err := os.MkdirAll(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(list[0].path, bad, 0o600); err != nil {
				t.Fatal(err)
			}
			knows(t, designsIn(t, dir), 1)
		}
	}
	keep(designsIn(t, dir), 1)
	if !knows(t, designsIn(t, dir), 1) {
		t.Error("what was made again is not there")
	}
}

// Designs that have nowhere to be kept, and more of them than memory holds, are forgotten and
// no error; of those in files the last remain.
func TestDesignsAreFew(t *testing.T) {
	d := MemoryOnly()
	for n := range mostHere + 1 {
		keep(d, n)
	}
	if knows(t, d, 0) || !knows(t, d, mostHere) {
		t.Error("the last design is not there, or the first is")
	}
	dir := t.TempDir()
	kept := designsIn(t, dir)
	const more = 5
	for n := range mostDesigns + more {
		keep(kept, n)
	}
	if size := Size(dir); size.Designs.Files != mostDesigns {
		t.Errorf("%d files of designs", size.Designs.Files)
	}
	if !knows(t, designsIn(t, dir), mostDesigns+more-1) {
		t.Error("the last design is not there")
	}
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	nowhere := designsIn(t, filepath.Join(file, "below"))
	keep(nowhere, 1)
	if !knows(t, nowhere, 1) {
		t.Error("where nothing can be written the program forgets what it has just made")
	}
}
