package cache

import (
	"crypto/sha256"
	"os"
	"reflect"
	"sync"
	"sync/atomic"
	"time"

	"loamcast/facility/plant"
	"loamcast/sim/digest"
)

// runs are what runs have left. All of a program are found in the same place: which run it
// was, of which plant, is the name under which it is kept.
type runs struct {
	dir  string
	key  key
	most int64 // bytes that this run of the program adds

	mu     sync.Mutex
	opened bool
	parts  []*runPart
	own    *writer // what was simulated since; nil before anything was
	full   bool    // nothing more is kept
	rooms  sync.Pool
}

// runPart is a file of runs that were kept before.
type runPart struct {
	*part
	used, damaged atomic.Bool
}

// room is for a run on its way in or out.
type room struct {
	bytes []byte
	words []uint64
}

func newRuns(dir string, build [sha256.Size]byte, most int64) *runs {
	return &runs{
		dir: dir, key: sha256.Sum256(append([]byte("runs"), build[:]...)), most: most,
		rooms: sync.Pool{New: func() any { return new(room) }},
	}
}

// Recall implements [plant.Runs].
func (r *runs) Recall(run digest.Sum) (left plant.Played, ok bool) {
	space := r.rooms.Get().(*room)
	defer r.rooms.Put(space)
	if !r.find(string(run[:]), space) {
		return left, false
	}
	if space.words, ok = unpack(space.words[:0], space.bytes); !ok {
		return left, false
	}
	if !readWhole(space.words, reflect.ValueOf(&left).Elem()) {
		return plant.Played{}, false
	}
	return left, true
}

// find reads the bytes of a run.
func (r *runs) find(run string, space *room) (ok bool) {
	for _, p := range r.open() {
		e, there := p.index[run]
		if !there {
			continue
		}
		if space.bytes, ok = p.read(e, &space.bytes); !ok {
			p.damaged.Store(true)
			continue
		}
		if p.used.CompareAndSwap(false, true) {
			now := time.Now()
			os.Chtimes(p.path, now, now) // whoever may not say so reads it all the same
		}
		return true
	}
	r.mu.Lock()
	own := r.own
	e, there := own.written(run)
	r.mu.Unlock()
	if there {
		space.bytes, ok = readEntry(own.file, e, &space.bytes)
	}
	return ok
}

// open returns the parts that are there, which it opens the first time.
func (r *runs) open() []*runPart {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.opened {
		return r.parts
	}
	r.opened = true
	for _, path := range paths(r.dir, ofRuns, r.key) {
		p := openPart(path, ofRuns, r.key)
		if p == nil {
			os.Remove(path) // cut short, or worse: nobody can read it
			continue
		}
		r.parts = append(r.parts, &runPart{part: p})
	}
	return r.parts
}

// Keep implements [plant.Runs].
func (r *runs) Keep(run digest.Sum, left plant.Played) {
	space := r.rooms.Get().(*room)
	defer r.rooms.Put(space)
	space.words = appendWords(space.words[:0], reflect.ValueOf(&left).Elem())
	space.bytes = pack(space.bytes[:0], space.words)
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.full {
		return
	}
	r.full = !r.add(string(run[:]), space.bytes)
}

// add writes a run to the part of what was simulated, and reports whether there is room for
// more.
func (r *runs) add(run string, left []byte) bool {
	if r.own == nil {
		var err error
		if r.own, err = begin(r.dir, ofRuns, r.key); err != nil {
			return false
		}
	}
	return r.own.at+int64(len(left)) <= r.most && len(left) <= largest && r.own.add(run, left) == nil
}

// close ends the part of what was simulated, of which nothing is kept unless all went
// well, and takes away what is damaged.
func (r *runs) close(keep bool) (wrote bool, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	for _, p := range r.parts {
		p.file.Close()
		if keep && p.damaged.Load() {
			os.Remove(p.path)
		}
	}
	r.parts = nil
	if r.own == nil {
		return false, nil
	}
	own := r.own
	r.own, r.full = nil, true
	if !keep {
		own.abandon()
		return false, nil
	}
	return own.finish()
}
