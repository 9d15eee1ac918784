package cache

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"iter"
	"maps"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/scenarios/build"
)

// key is what a table is found by.
type key [sha256.Size]byte

// name begins the names of its files.
func (k key) name() string { return hex.EncodeToString(k[:16]) }

// manyParts are put together into one.
const manyParts = 6

// Cache is a folder of tables, of what runs have left and of designs, open for one run of the program.
// It may be used from several goroutines.
type Cache struct {
	dir   string
	build [sha256.Size]byte
	most  int64

	runs    *runs
	designs *Designs

	mu     sync.Mutex
	tables map[*process.Responses]*table
}

// Open returns the cache in a folder, which need not be there. An error says that the
// program does not know itself well enough to keep anything.
func Open(dir string) (*Cache, error) {
	b, err := build.ID()
	if err != nil {
		return nil, err
	}
	return &Cache{
		dir: dir, build: b, most: Most,
		runs: newRuns(dir, b, mostRuns), designs: newDesigns(dir, b),
		tables: map[*process.Responses]*table{},
	}, nil
}

// Runs looks up what runs have left and keeps it.
func (c *Cache) Runs() plant.Runs { return c.runs }

// table is one that is kept.
type table struct {
	key     key
	courses *process.Responses
	parts   []*part
	damaged atomic.Bool // some course of a part cannot be read, or a part
	rooms   sync.Pool   // for courses that are read
}

// Keep lets a table read what is kept of it, and notes it for [Cache.Save]. It must be
// called before the table is first read.
func (c *Cache) Keep(r *process.Responses) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.tables[r] != nil {
		return
	}
	t := &table{key: c.keyOf(r), courses: r}
	t.rooms.New = func() any { return new([]byte) }
	for _, path := range paths(c.dir, ofTables, t.key) {
		p := openPart(path, ofTables, t.key)
		if p == nil {
			t.damaged.Store(true)
			continue
		}
		now := time.Now()
		os.Chtimes(path, now, now) // it is in use; whoever may not say so reads it all the same
		t.parts = append(t.parts, p)
	}
	c.tables[r] = t
	r.Recall(t.recall)
}

// keyOf returns what a table is found by.
func (c *Cache) keyOf(r *process.Responses) key {
	physics := r.Physics()
	return sha256.Sum256(append(physics[:], c.build[:]...))
}

// recall hands over the course at a point from the first part that has it whole.
func (t *table) recall(at process.Point, over func([]byte)) {
	room := t.rooms.Get().(*[]byte)
	defer t.rooms.Put(room)
	for _, p := range t.parts {
		e, ok := p.index[string(at[:])]
		if !ok {
			continue
		}
		if course, ok := p.read(e, room); ok {
			over(course)
			return
		}
		t.damaged.Store(true)
	}
}

// Save keeps what tables have integrated since [Cache.Keep], and what runs have left, and
// closes the cache. An error says that not all could be kept; what was there stays.
func (c *Cache) Save() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	var (
		wrote, runsError = c.runs.close(true)
		list             = slices.Collect(maps.Keys(c.tables))
		saved            = make([]bool, len(list))
		errs             = make([]error, len(list))
		all              sync.WaitGroup
	)
	for i, courses := range list { // some are large, and each has a file of its own
		all.Go(func() { saved[i], errs[i] = c.save(c.tables[courses]) })
	}
	all.Wait()
	clear(c.tables)
	if wrote || slices.Contains(saved, true) {
		tidy(c.dir, c.most)
	}
	return errors.Join(append(errs, runsError)...)
}

// Discard closes the cache and keeps nothing of what was made since it was opened.
func (c *Cache) Discard() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.runs.close(false)
	for _, t := range c.tables {
		t.close()
	}
	clear(c.tables)
}

// close closes the files of a table.
func (t *table) close() {
	for _, p := range t.parts {
		p.file.Close()
	}
}

// save adds a part to a table if there is anything new, or puts all its parts together,
// and reports whether it wrote.
func (c *Cache) save(t *table) (wrote bool, err error) {
	defer t.close()
	together := t.damaged.Load() || len(t.parts) >= manyParts
	if !together && !added(t.courses) {
		return false, nil
	}
	if !together {
		return writePart(c.dir, t.key, t.courses.Added(), c.meanwhile(t))
	}
	before := paths(c.dir, ofTables, t.key)
	if _, err := writePart(c.dir, t.key, t.all(), nil); err != nil {
		return false, err
	}
	read := map[string]bool{}
	for _, p := range t.parts {
		read[p.path] = true
	}
	for _, path := range before {
		// What another process has added meanwhile stays.
		if read[path] || !whole(path, t.key) {
			os.Remove(path)
		}
	}
	return true, nil
}

// added reports whether a table has integrated anything.
func added(r *process.Responses) bool {
	for range r.Added() {
		return true
	}
	return false
}

// meanwhile returns the names of courses that another process has kept since the table
// was opened.
func (c *Cache) meanwhile(t *table) map[string]bool {
	known := map[string]bool{}
	for _, path := range paths(c.dir, ofTables, t.key) {
		if slices.ContainsFunc(t.parts, func(p *part) bool { return p.path == path }) {
			continue
		}
		if p := openPart(path, ofTables, t.key); p != nil {
			for at := range p.index {
				known[at] = true
			}
			p.file.Close()
		}
	}
	return known
}

// writePart writes courses of a table into a part of their own, without those that are
// known and any second one at a point, and reports whether there were any.
func writePart(dir string, k key, courses iter.Seq2[process.Point, []byte], known map[string]bool) (wrote bool, err error) {
	w, err := begin(dir, ofTables, k)
	if err != nil {
		return false, err
	}
	for at, course := range courses {
		if name := string(at[:]); !known[name] {
			if err := w.add(name, course); err != nil {
				w.abandon()
				return false, err
			}
		}
	}
	return w.finish()
}

// all yields what the table has integrated, and every course of its parts that is whole.
func (t *table) all() iter.Seq2[process.Point, []byte] {
	return func(yield func(process.Point, []byte) bool) {
		for at, course := range t.courses.Added() {
			if !yield(at, course) {
				return
			}
		}
		var room []byte
		for _, p := range t.parts {
			for at, e := range p.index {
				if course, ok := p.read(e, &room); ok && !yield(process.Point([]byte(at)), course) {
					return
				}
			}
		}
	}
}

// whole reports whether a part of a table is, as far as its index tells.
func whole(path string, k key) bool {
	p := openPart(path, ofTables, k)
	if p != nil {
		p.file.Close()
	}
	return p != nil
}
