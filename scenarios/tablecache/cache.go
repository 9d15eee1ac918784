package tablecache

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"loamcast/facility/process"
	"loamcast/scenarios/build"
)

// key is what a table is found by.
type key [sha256.Size]byte

// name begins the names of its files.
func (k key) name() string { return hex.EncodeToString(k[:16]) }

// manyParts are put together into one.
const manyParts = 6

// Cache is a folder of tables, open for one run of the program. It may be used from
// several goroutines.
type Cache struct {
	dir   string
	build [sha256.Size]byte
	most  int64

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
	return &Cache{dir: dir, build: b, most: Most, tables: map[*process.Responses]*table{}}, nil
}

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
	for _, path := range c.paths(t.key) {
		p := openPart(path, t.key)
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

// paths lists the files of a table.
func (c *Cache) paths(k key) (paths []string) {
	for _, f := range files(c.dir) {
		if strings.HasPrefix(filepath.Base(f.path), k.name()+"-") {
			paths = append(paths, f.path)
		}
	}
	slices.Sort(paths)
	return paths
}

// recall hands over the course at a point from the first part that has it whole.
func (t *table) recall(at process.Point, over func([]byte)) {
	room := t.rooms.Get().(*[]byte)
	defer t.rooms.Put(room)
	for _, p := range t.parts {
		e, ok := p.index[at]
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

// Save keeps what tables have integrated since [Cache.Keep] and closes the cache. An error
// says that not all could be kept; what was there stays.
func (c *Cache) Save() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	var errs []error
	wrote := false
	for _, t := range c.tables {
		n, err := c.save(t)
		errs = append(errs, err)
		wrote = wrote || n
	}
	clear(c.tables)
	if wrote {
		tidy(c.dir, c.most)
	}
	return errors.Join(errs...)
}

// save adds a part to a table if there is anything new, or puts all its parts together,
// and reports whether it wrote.
func (c *Cache) save(t *table) (wrote bool, err error) {
	defer func() {
		for _, p := range t.parts {
			p.file.Close()
		}
	}()
	together := t.damaged.Load() || len(t.parts) >= manyParts
	if !together && !added(t.courses) {
		return false, nil
	}
	if err := os.MkdirAll(c.dir, 0o755); err != nil {
		return false, err
	}
	if !together {
		return writePart(c.dir, t.key, without(t.courses.Added(), c.meanwhile(t)))
	}
	before := c.paths(t.key)
	if _, err := writePart(c.dir, t.key, without(t.all(), map[process.Point]bool{})); err != nil {
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

// meanwhile returns the points of courses that another process has kept since the table
// was opened.
func (c *Cache) meanwhile(t *table) map[process.Point]bool {
	known := map[process.Point]bool{}
	for _, path := range c.paths(t.key) {
		if slices.ContainsFunc(t.parts, func(p *part) bool { return p.path == path }) {
			continue
		}
		if p := openPart(path, t.key); p != nil {
			for at := range p.index {
				known[at] = true
			}
			p.file.Close()
		}
	}
	return known
}

// without leaves out courses at points that are known, and any second one at a point.
func without(courses iter.Seq2[process.Point, []byte], known map[process.Point]bool) iter.Seq2[process.Point, []byte] {
	return func(yield func(process.Point, []byte) bool) {
		for at, course := range courses {
			if known[at] {
				continue
			}
			known[at] = true
			if !yield(at, course) {
				return
			}
		}
	}
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
				if course, ok := p.read(e, &room); ok && !yield(at, course) {
					return
				}
			}
		}
	}
}

// whole reports whether a part of a table is, as far as its index tells.
func whole(path string, k key) bool {
	p := openPart(path, k)
	if p != nil {
		p.file.Close()
	}
	return p != nil
}
