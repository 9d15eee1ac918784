package outfile

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// ListName is the file in a folder of results that lists the other files there
// that are ours: SHA-256, two blanks, name.
const ListName = "loamcast-files.txt"

const listHead = "# Written by loamcast. It replaces these files only while they are unchanged.\n"

// list holds the hashes that a file of ours may have, by name. There is one,
// and two while a run is replacing it.
type list map[string][]string

// readList returns an empty list for a folder without one, and leaves out lines
// that it does not understand: what is not listed is not ours.
func readList(dir string) (list, error) {
	l := list{}
	path := filepath.Join(dir, ListName)
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, &RefusedError{path, "it is not a regular file"}
	}
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return l, nil
	}
	if err != nil {
		return nil, err
	}
	if !bytes.HasPrefix(data, []byte(listHead)) {
		return nil, &RefusedError{path, "it is not ours, though its name is"}
	}
	lines := bufio.NewScanner(bytes.NewReader(data))
	for lines.Scan() {
		if hash, name, ok := strings.Cut(lines.Text(), "  "); ok && len(hash) == 2*sha256.Size {
			l.add(filepath.FromSlash(name), hash)
		}
	}
	return l, lines.Err()
}

func (l list) add(name, hash string) {
	if !slices.Contains(l[name], hash) {
		l[name] = append(l[name], hash)
	}
}

// text is the same for the same files, whatever the order in which they came.
func (l list) text() []byte {
	var names []string
	for name := range l {
		names = append(names, name)
	}
	slices.Sort(names)
	b := bytes.NewBufferString(listHead)
	for _, name := range names {
		for _, hash := range slices.Sorted(slices.Values(l[name])) {
			b.WriteString(hash + "  " + filepath.ToSlash(name) + "\n")
		}
	}
	return b.Bytes()
}

// unchanged reports whether a file is one of those listed.
func (l list) unchanged(dir, name string) (bool, error) {
	if len(l[name]) == 0 {
		return false, nil
	}
	data, err := os.ReadFile(filepath.Join(dir, name))
	return err == nil && slices.Contains(l[name], hash(data)), err
}

func hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
