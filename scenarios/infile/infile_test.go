package infile

import (
	"errors"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// Regular files are read, also through links, and no further than one byte over
// the bound.
func TestReadRegular(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "a"), filepath.Join(dir, "link")
	if err := os.WriteFile(path, []byte("0123456789"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, want string
		most       int64
	}{{path, "0123456789", 10}, {link, "0123456789", 100}, {path, "0123", 3}} {
		if got, err := Read(c.name, c.most); err != nil || string(got) != c.want {
			t.Errorf("%s up to %d: %q (%v), want %q", c.name, c.most, got, err, c.want)
		}
	}
	if _, err := Read(filepath.Join(dir, "none"), 1); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a missing file: %v", err)
	}
}

// What is not a regular file is refused at once and by its kind: a named pipe
// without a writer does not wait, and an endless device is not read.
func TestReadRefuses(t *testing.T) {
	dir := t.TempDir()
	pipe, socket := filepath.Join(dir, "pipe"), filepath.Join(dir, "socket")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("unix", socket)
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	for name, want := range map[string]string{dir: "a folder", pipe: "a pipe", socket: "a socket", "/dev/zero": "a device"} {
		_, err := Read(name, 10)
		if refused := (*RefusedError)(nil); !errors.As(err, &refused) || !strings.HasPrefix(err.Error(), name+": this is "+want) {
			t.Errorf("%s: %v, want %s", name, err, want)
		}
	}
}

// A dash is standard input.
func TestReadStandard(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	old := os.Stdin
	os.Stdin = r
	defer func() { os.Stdin = old }()
	w.WriteString("hello")
	w.Close()
	if got, err := Read(Standard, 10); err != nil || string(got) != "hello" {
		t.Errorf("%q (%v)", got, err)
	}
}
