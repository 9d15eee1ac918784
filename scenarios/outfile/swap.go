package outfile

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// errInPlace says that a folder cannot be exchanged for another and is to be written in
// its place, file by file.
var errInPlace = errors.New("the folder cannot be exchanged")

// swap puts files and a list of them into a folder in one step: a folder is filled beside
// it with all that is to be there, and the two are exchanged. The error is errInPlace,
// with nothing changed, where that cannot be: where the system or the file system does
// not exchange folders; where somebody else's files are in the folder, whose owner may be
// at them; and where this program was started in it, for then a person is looking at it.
func swap(ctx context.Context, dir string, files []File, now list) (err error) {
	keep, err := stays(dir, files, now)
	if err != nil {
		return err
	}
	dir, err = filepath.EvalSymlinks(dir)
	if err != nil || inside(dir) {
		return errInPlace
	}
	info, err := os.Stat(dir)
	if err != nil || !ownedByUs(info) {
		return errInPlace
	}
	parent := filepath.Dir(dir)
	if err := removeStale(parent); err != nil {
		return errInPlace
	}
	other, err := os.MkdirTemp(parent, temporaryPattern())
	if err != nil {
		return errInPlace // nobody may write there
	}
	defer func() { err = errors.Join(err, os.RemoveAll(other)) }()
	for _, name := range keep {
		if _, err := makeFolders(filepath.Join(other, filepath.Dir(name))); err != nil {
			return errInPlace
		}
		if os.Link(filepath.Join(dir, name), filepath.Join(other, name)) != nil {
			return errInPlace
		}
	}
	if err := replace(ctx, other, append(files[:len(files):len(files)], File{ListName, now.text()})); err != nil {
		return err
	}
	if os.Chmod(other, info.Mode().Perm()) != nil || exchange(other, dir) != nil {
		return errInPlace
	}
	syncFolder(parent)
	return rescue(other, dir)
}

// stays are the files of a folder that are ours and stay as they are. Where it holds
// anything else, the error is errInPlace.
func stays(dir string, files []File, now list) (keep []string, err error) {
	coming := map[string]bool{ListName: true}
	for _, f := range files {
		coming[filepath.Clean(f.Name)] = true
	}
	err = filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		name, err := filepath.Rel(dir, path)
		temporary := temporaryName.FindStringSubmatch(e.Name())
		switch {
		case err != nil:
			return err
		case temporary != nil && stale(temporary):
			return nil // left by a run that was killed
		case !e.Type().IsRegular():
			return errInPlace
		case coming[name]:
			return nil
		case len(now[name]) == 0:
			return errInPlace
		}
		keep = append(keep, name)
		return nil
	})
	return keep, err
}

// inside reports whether this program was started in a folder or below it, or may have
// been.
func inside(dir string) bool {
	at, err := os.Getwd()
	if err == nil {
		at, err = filepath.EvalSymlinks(at)
	}
	if err != nil {
		return true
	}
	way, err := filepath.Rel(dir, at)
	return err != nil || way != ".." && !strings.HasPrefix(way, ".."+string(filepath.Separator))
}

// rescue brings what somebody has put into a folder at the last moment, when it had been
// looked through, into the one that took its place.
func rescue(from, to string) error {
	return filepath.WalkDir(from, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || temporaryName.MatchString(e.Name()) {
			return err
		}
		name, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		place := filepath.Join(to, name)
		if _, err := os.Lstat(place); !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if _, err := makeFolders(filepath.Dir(place)); err != nil {
			return err
		}
		return os.Rename(path, place)
	})
}
