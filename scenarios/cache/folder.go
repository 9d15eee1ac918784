package cache

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

const (
	// Most is how much all that is kept may take, bytes.
	Most = 1 << 30
	// mostRuns is how much of that the runs of one command may: what a study of thousands of
	// replications leaves would take the place of all else.
	mostRuns = Most / 4
)

// temporary begins the names of files that are being written.
const temporary = ".writing-"

// abandoned is the age from which on a file that is being written is taken to be left by
// a process that has ended.
const abandoned = time.Hour

// Folder returns where things are kept; an error says why there is no such place.
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
		if kindOf(e.Name()) == nil && !strings.HasPrefix(e.Name(), temporary) {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() {
			list = append(list, file{filepath.Join(dir, e.Name()), info.Size(), info.ModTime()})
		}
	}
	slices.SortFunc(list, func(a, b file) int { return a.used.Compare(b.used) })
	return list
}

// kindOf is what is in a file, by its name; nil if it is none of ours, or not finished.
func kindOf(name string) *kind {
	for _, k := range kinds {
		if strings.HasSuffix(name, k.ending) {
			return k
		}
	}
	return nil
}

// paths lists the files of a kind that are somebody's, in the order of their names.
func paths(dir string, of *kind, k key) (paths []string) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if name := e.Name(); strings.HasPrefix(name, k.name()+"-") && strings.HasSuffix(name, of.ending) && e.Type().IsRegular() {
			paths = append(paths, filepath.Join(dir, name))
		}
	}
	return paths
}

// Kept is how many files of something there are, and how large they are together.
type Kept struct {
	Files int
	Bytes int64
}

// Sizes are those of what is in a folder.
type Sizes struct{ Tables, Runs, Designs Kept }

// Size returns what is in a folder. What is being written counts with the tables.
func Size(dir string) (all Sizes) {
	for _, f := range files(dir) {
		k := &all.Tables
		switch kindOf(filepath.Base(f.path)) {
		case ofRuns:
			k = &all.Runs
		case ofDesigns:
			k = &all.Designs
		}
		k.Files++
		k.Bytes += f.size
	}
	return all
}

// Clear removes all that is kept from a folder, and the folder if nothing else is in it.
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
