package outfile

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"syscall"
)

// temporaryPattern is for os.CreateTemp and os.MkdirTemp.
func temporaryPattern() string { return fmt.Sprintf(".loamcast-%d-*.part", os.Getpid()) }

var temporaryName = regexp.MustCompile(`^\.loamcast-(\d+)-\d+\.part$`)

// removeStale removes what earlier processes left under temporary names. Under
// our own number it is stale too: we have nothing there yet.
func removeStale(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return fmt.Errorf("output folder: %w", err)
	}
	for _, e := range entries {
		m := temporaryName.FindStringSubmatch(e.Name())
		if m == nil {
			continue
		}
		if stale(m) {
			if err := os.RemoveAll(filepath.Join(dir, e.Name())); err != nil {
				return fmt.Errorf("left by an earlier run: %w", err)
			}
		}
	}
	return nil
}

// stale reports whether a temporary name, as [temporaryName] takes it apart, is of no
// process that may be at it.
func stale(m []string) bool {
	pid, err := strconv.Atoi(m[1])
	return err == nil && (pid == os.Getpid() || !alive(pid))
}

// alive reports whether a process may still be running; in doubt it may.
func alive(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	defer p.Release()
	err = p.Signal(syscall.Signal(0))
	return !errors.Is(err, os.ErrProcessDone) && !errors.Is(err, syscall.ESRCH)
}

// put writes the data; a test puts a full disk in its place.
var put = func(w io.Writer, data []byte) error {
	_, err := w.Write(data)
	return err
}

func writeTemporary(dir string, data []byte) (name string, err error) {
	t, err := os.CreateTemp(dir, temporaryPattern())
	if err != nil {
		return "", err
	}
	err = put(t, data)
	if err == nil {
		err = t.Chmod(0o644)
	}
	if err == nil {
		err = t.Sync()
	}
	return t.Name(), errors.Join(err, t.Close())
}

// makeFolders makes a folder and those above it, and returns those it made,
// outermost first.
func makeFolders(dir string) (made []string, err error) {
	var missing []string
	for at := filepath.Clean(dir); ; at = filepath.Dir(at) {
		if _, err := os.Stat(at); err == nil || at == filepath.Dir(at) {
			break
		}
		missing = append(missing, at)
	}
	for _, name := range slices.Backward(missing) {
		if err := os.Mkdir(name, 0o755); err != nil && !errors.Is(err, os.ErrExist) {
			return made, fmt.Errorf("output folder: %w", err)
		} else if err == nil {
			made = append(made, name)
		}
	}
	return made, nil
}

// removeFolders removes folders that makeFolders made, unless somebody has put
// something into them.
func removeFolders(made []string) error {
	for _, name := range slices.Backward(made) {
		if left, err := os.ReadDir(name); err != nil || len(left) > 0 {
			return ignoreMissing(err)
		}
		if err := os.Remove(name); err != nil {
			return ignoreMissing(err)
		}
	}
	return nil
}

// syncFolder makes renames last through a loss of power where the file system
// can; where it cannot, the files are whole all the same.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		d.Sync()
		d.Close()
	}
}
