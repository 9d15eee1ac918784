package tablecache

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// Variable is the variable of the environment that names the folder, in place of one
// named loamcast among the user's caches.
const Variable = "LOAMCAST_CACHE"

// Most is how much all tables may take, bytes.
const Most = 1 << 30

// Names of files: those of ours, and of ours that are being written.
const (
	ending    = ".courses"
	temporary = ".writing-"
)

// abandoned is the age from which on a file that is being written is taken to be left by
// a process that has ended.
const abandoned = time.Hour

// Folder returns where tables are kept; an error says why there is no such place.
func Folder() (string, error) {
	if dir := os.Getenv(Variable); dir != "" {
		return filepath.Abs(dir)
	}
	dir, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "loamcast"), nil
}

// file is one of ours in the folder.
type file struct {
	path string
	size int64
	used time.Time
}

// files lists ours in a folder, those first that were not used for the longest time; none
// if it cannot be read.
func files(dir string) (list []file) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ending) && !strings.HasPrefix(e.Name(), temporary) {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() {
			list = append(list, file{filepath.Join(dir, e.Name()), info.Size(), info.ModTime()})
		}
	}
	slices.SortFunc(list, func(a, b file) int { return a.used.Compare(b.used) })
	return list
}

// Size returns how many files of tables are in a folder, and how large they are together.
func Size(dir string) (count int, bytes int64) {
	for _, f := range files(dir) {
		count++
		bytes += f.size
	}
	return count, bytes
}

// Clear removes all tables from a folder, and the folder if nothing else is in it.
func Clear(dir string) error {
	for _, f := range files(dir) {
		if err := os.Remove(f.path); err != nil && !os.IsNotExist(err) {
			return err
		}
	}
	os.Remove(dir) // not of somebody who keeps other things there
	return nil
}

// tidy removes what a process left unfinished, and of the rest what was not used for the
// longest time until it takes no more than most.
func tidy(dir string, most int64) {
	list := files(dir)
	total := int64(0)
	for _, f := range list {
		total += f.size
	}
	for _, f := range list {
		unfinished := strings.HasPrefix(filepath.Base(f.path), temporary)
		switch {
		case unfinished && time.Since(f.used) > abandoned:
		case !unfinished && total > most:
		default:
			continue
		}
		if os.Remove(f.path) == nil {
			total -= f.size
		}
	}
}
