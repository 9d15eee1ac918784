package study

import (
	"sync"

	"loamcast/scenarios/facilityfile"
)

// made is what something was made for.
type made struct {
	file *facilityfile.File
	key  any
}

// memo remembers what has been made.
type memo struct {
	mu      sync.Mutex
	entries map[made]*entry
}

// entry is one thing that is made; making it may make others.
type entry struct {
	mu    sync.Mutex
	done  bool
	value any
}

// get returns what make makes for a key, which it makes once unless it fails.
func (m *memo) get(key made, make func() (any, error)) (any, error) {
	m.mu.Lock()
	if m.entries == nil {
		m.entries = map[made]*entry{}
	}
	e := m.entries[key]
	if e == nil {
		e = &entry{}
		m.entries[key] = e
	}
	m.mu.Unlock()

	e.mu.Lock()
	defer e.mu.Unlock()
	if e.done {
		return e.value, nil
	}
	value, err := make()
	if err == nil {
		e.value, e.done = value, true
	}
	return value, err
}
