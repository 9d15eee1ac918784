package cache

import (
	"crypto/sha256"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"sync"
	"time"

	"loamcast/sim/digest"
)

// Designs are the recipes that were designed before, by what they follow from. Each is a
// file of its own, of some hundred bytes, that is written at once. They may be used from
// several goroutines.
type Designs struct {
	dir   string // empty for none
	build [sha256.Size]byte

	mu   sync.Mutex
	here map[digest.Sum][]byte // of this run of the program
}

// Whoever turns the dials of a page goes through many designs, but comes back to few.
const (
	mostHere    = 64  // that are held in memory
	mostDesigns = 512 // that are kept in files
)

// MemoryOnly returns designs that are forgotten when the program ends.
func MemoryOnly() *Designs { return &Designs{here: map[digest.Sum][]byte{}} }

// Designs looks up recipes that were designed, and keeps them.
func (c *Cache) Designs() *Designs { return c.designs }

func newDesigns(dir string, build [sha256.Size]byte) *Designs {
	d := MemoryOnly()
	d.dir, d.build = dir, build
	return d
}

// Recall reads the design that follows from something into what points to a zero value of
// its type, and reports whether it is known whole.
func (d *Designs) Recall(of digest.Sum, into any) bool {
	d.mu.Lock()
	kept := d.here[of]
	d.mu.Unlock()
	if kept == nil {
		kept = d.read(of)
	}
	words, ok := unpack(nil, kept)
	if !ok {
		return false
	}
	to := reflect.ValueOf(into).Elem()
	value := reflect.New(to.Type()).Elem()
	if !readWhole(words, value) {
		return false
	}
	to.Set(value)
	return true
}

// read returns a design from its file, or nil. A file that is damaged is removed.
func (d *Designs) read(of digest.Sum) []byte {
	if d.dir == "" {
		return nil
	}
	k := d.keyOf(of)
	for _, path := range paths(d.dir, ofDesigns, k) {
		p := openPart(path, ofDesigns, k)
		if p == nil {
			os.Remove(path)
			continue
		}
		var room []byte
		kept, ok := p.read(p.index[string(of[:])], &room)
		p.file.Close()
		if ok {
			now := time.Now()
			os.Chtimes(path, now, now) // whoever may not say so reads it all the same
			return kept
		}
		os.Remove(path)
	}
	return nil
}

// Keep keeps the design that follows from something. That it cannot be written is no error:
// the next command makes it again.
func (d *Designs) Keep(of digest.Sum, what any) {
	kept := pack(nil, appendWords(nil, reflect.ValueOf(what)))
	d.mu.Lock()
	if len(d.here) >= mostHere {
		clear(d.here)
	}
	d.here[of] = kept
	d.mu.Unlock()
	if d.dir == "" {
		return
	}
	w, err := begin(d.dir, ofDesigns, d.keyOf(of))
	if err != nil {
		return
	}
	if w.add(string(of[:]), kept) != nil {
		w.abandon()
		return
	}
	if wrote, _ := w.finish(); wrote {
		d.forget()
	}
}

// forget removes the designs that were not used for the longest time, where there are too
// many.
func (d *Designs) forget() {
	ours := slices.DeleteFunc(files(d.dir), func(f file) bool { return kindOf(filepath.Base(f.path)) != ofDesigns })
	for _, f := range ours[:max(0, len(ours)-mostDesigns)] {
		os.Remove(f.path)
	}
}

// keyOf returns what a design is found by.
func (d *Designs) keyOf(of digest.Sum) key { return sha256.Sum256(append(of[:], d.build[:]...)) }
