package outfile

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// lateEnd is a context that ends after it has been looked at so many times.
type lateEnd struct {
	context.Context
	looks int
}

func (c *lateEnd) Err() error {
	if c.looks--; c.looks < 0 {
		return context.Canceled
	}
	return nil
}

// Work that is called off when all is written, but nothing renamed, leaves what
// was there.
func TestCalledOffAtLast(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.txt")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := Policy{Force: true}.WriteFile(&lateEnd{context.Background(), 1}, path, []byte("new"), "")
	if !errors.Is(err, context.Canceled) {
		t.Errorf("the error is %v", err)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "old" {
		t.Errorf("there is %q (%v)", data, err)
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
		t.Errorf("there are %v (%v)", entries, err)
	}
}
