package outfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Policy says what may be replaced.
type Policy struct {
	Inputs []string // files that are never replaced; those that do not exist are passed over
	Force  bool     // replace files that are not ours
}

// RefusedError says what stands in the way of a result.
type RefusedError struct{ Path, Reason string }

func (e *RefusedError) Error() string {
	return fmt.Sprintf("%s is in the way and is not overwritten: %s", e.Path, e.Reason)
}

const forceHint = "; name another place, or add --force to replace it"

// CheckFolder refuses, before the names of the files are known, a folder into
// which results cannot go: what is not a folder, and without force one that
// holds files and no list of ours, or listed files that have changed. Hidden
// files do not count. The error is a [*RefusedError] or one of package os.
func (p Policy) CheckFolder(dir string) error {
	exists, err := folder(dir)
	if err != nil || !exists {
		return err
	}
	l, err := readList(dir)
	if err != nil || p.Force {
		return err
	}
	if len(l) == 0 {
		entries, err := os.ReadDir(dir)
		if err != nil {
			return err
		}
		for _, e := range entries {
			if !strings.HasPrefix(e.Name(), ".") {
				return &RefusedError{filepath.Join(dir, e.Name()), "results of ours are not in this folder" +
					"; name a new or empty folder, or add --force to write into this one"}
			}
		}
	}
	for name := range l {
		if err := p.check(dir, name, l); err != nil {
			return err
		}
	}
	return nil
}

// CheckFile refuses a place for a single file: an input, what is not a regular
// file, and without force a file that does not begin with ours. With ours empty
// no file may be there.
func (p Policy) CheckFile(path, ours string) error {
	parent := filepath.Dir(path)
	if _, err := folder(parent); err != nil {
		return err
	}
	info, err := p.inTheWay(path)
	if info == nil || err != nil || p.Force {
		return err
	}
	if ours == "" {
		return &RefusedError{path, "it exists" + forceHint}
	}
	if info.Size() == 0 {
		return &RefusedError{path, "it is not ours" + forceHint}
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	begin := make([]byte, len(ours))
	if _, err := io.ReadFull(f, begin); err != nil || string(begin) != ours {
		return &RefusedError{path, "it is not ours" + forceHint}
	}
	return nil
}

// check refuses to replace a file of a folder.
func (p Policy) check(dir, name string, l list) error {
	path := filepath.Join(dir, name)
	info, err := p.inTheWay(path)
	if info == nil || err != nil || p.Force {
		return err
	}
	same, err := l.unchanged(dir, name)
	switch {
	case err != nil:
		return err
	case same:
		return nil
	case len(l[name]) > 0:
		return &RefusedError{path, "it has been changed since it was written" + forceHint}
	}
	return &RefusedError{path, "it is not ours" + forceHint}
}

// inTheWay returns what stands at a path, nil if nothing does, and refuses what
// is not replaced even by force. A link is judged by what it leads to, since that
// is what its owner would miss.
func (p Policy) inTheWay(path string) (fs.FileInfo, error) {
	link, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(path)
	if err != nil {
		info = link // a link that leads nowhere
	}
	for _, name := range p.Inputs {
		if input, err := os.Stat(name); err == nil && os.SameFile(input, info) {
			return nil, &RefusedError{path, "it is the input " + name}
		}
	}
	if !info.Mode().IsRegular() {
		return nil, &RefusedError{path, "it is not a regular file"}
	}
	return info, nil
}

// folder reports whether there is a folder at a path; something else there, or
// on the way there, is refused.
func folder(path string) (exists bool, err error) {
	for at := filepath.Clean(path); ; at = filepath.Dir(at) {
		info, err := os.Stat(at)
		switch {
		case err == nil && !info.IsDir():
			return false, &RefusedError{at, "it is not a folder"}
		case err == nil:
			return at == filepath.Clean(path), nil
		case at == filepath.Dir(at):
			return false, err
		}
		if link, err := os.Lstat(at); err == nil && link.Mode()&fs.ModeSymlink != 0 {
			return false, &RefusedError{at, "it is a link that leads nowhere"}
		}
	}
}
