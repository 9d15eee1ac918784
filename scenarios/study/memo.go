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
	mu     sync.Mutex
	values map[made]any
}

// get returns what make makes for a key, which it makes once unless it fails.
func (m *memo) get(key made, make func() (any, error)) (any, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if value, ok := m.values[key]; ok {
		return value, nil
	}
	value, err := make()
	if err != nil {
		return nil, err
	}
	if m.values == nil {
		m.values = map[made]any{}
	}
	m.values[key] = value
	return value, nil
}
