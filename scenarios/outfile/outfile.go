package outfile

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
)

// File is a finished result: a name relative to the output folder, and its
// content.
type File struct {
	Name string
	Data []byte
}

// writing is held while files are written, see [Settle].
var writing sync.Mutex

// Settle waits until no file is being written and lets none be written from
// then on. It is for a program about to end without waiting for its goroutines.
func Settle() { writing.Lock() }

// WriteFolder puts files into dir, which is made if it does not exist, together
// with the list of what is ours there. It writes nothing if one of the files may
// not be replaced (a [*RefusedError]) or ctx has ended.
func (p Policy) WriteFolder(ctx context.Context, dir string, files []File) error {
	writing.Lock()
	defer writing.Unlock()
	names := map[string]bool{}
	for _, f := range files {
		if !filepath.IsLocal(f.Name) || filepath.Clean(f.Name) == ListName {
			return fmt.Errorf("output file %q cannot be written into %s", f.Name, dir)
		}
		if names[f.Name] {
			return fmt.Errorf("two output files are called %q", f.Name)
		}
		names[f.Name] = true
	}
	exists, err := folder(dir)
	if err != nil {
		return err
	}
	if !exists {
		return writeNew(ctx, dir, files)
	}
	l, err := readList(dir)
	if err != nil {
		return err
	}
	if _, err := p.inTheWay(filepath.Join(dir, ListName)); err != nil {
		return err
	}
	now, coming := list{}, list{}
	for name, hashes := range l {
		now[name], coming[name] = hashes, hashes
	}
	for _, f := range files {
		if err := p.check(dir, f.Name, l); err != nil {
			return err
		}
		name := filepath.Clean(f.Name)
		now[name] = []string{hash(f.Data)}
		coming[name] = append([]string{hash(f.Data)}, l[name]...)
	}
	if err := swap(ctx, dir, files, now); !errors.Is(err, errInPlace) {
		return err
	}
	all := append([]File{{ListName, coming.text()}}, files...)
	return replace(ctx, dir, append(all, File{ListName, now.text()}))
}

// WriteFile writes a single file, whose folder is made if it does not exist.
// See [Policy.CheckFile] for ours.
func (p Policy) WriteFile(ctx context.Context, path string, data []byte, ours string) error {
	return p.WriteFiles(ctx, filepath.Dir(path), []File{{filepath.Base(path), data}}, ours)
}

// WriteFiles is WriteFile for several files of one folder: all or none. It leaves
// no list there.
func (p Policy) WriteFiles(ctx context.Context, dir string, files []File, ours string) (err error) {
	writing.Lock()
	defer writing.Unlock()
	for _, f := range files {
		if err := p.CheckFile(filepath.Join(dir, f.Name), ours); err != nil {
			return err
		}
	}
	made, err := makeFolders(dir)
	if err == nil {
		err = replace(ctx, dir, files)
	}
	if err != nil {
		err = errors.Join(err, removeFolders(made))
	}
	return err
}

// writeNew fills a folder beside the place of a new one and renames it.
func writeNew(ctx context.Context, dir string, files []File) (err error) {
	parent := filepath.Dir(filepath.Clean(dir))
	made, err := makeFolders(parent)
	temporary := ""
	defer func() {
		if err == nil {
			return
		}
		if temporary != "" {
			err = errors.Join(err, os.RemoveAll(temporary))
		}
		err = errors.Join(err, removeFolders(made))
	}()
	if err != nil {
		return err
	}
	if err := removeStale(parent); err != nil {
		return err
	}
	temporary, err = os.MkdirTemp(parent, temporaryPattern())
	if wrong := (*fs.PathError)(nil); errors.As(err, &wrong) {
		return fmt.Errorf("output folder: %s: %w", dir, wrong.Err) // its own name says nothing to anybody
	}
	if err != nil {
		return fmt.Errorf("output folder: %w", err)
	}
	l := list{}
	for _, f := range files {
		l.add(filepath.Clean(f.Name), hash(f.Data))
	}
	if err := replace(ctx, temporary, append(files[:len(files):len(files)], File{ListName, l.text()})); err != nil {
		return err
	}
	if err := os.Chmod(temporary, 0o755); err != nil {
		return fmt.Errorf("output folder: %w", err)
	}
	if err := os.Rename(temporary, dir); err != nil {
		return fmt.Errorf("output folder: %w", err)
	}
	syncFolder(parent)
	return nil
}

// replace writes files under temporary names in an existing folder and, when
// all are complete, renames them in their order.
func replace(ctx context.Context, dir string, files []File) (err error) {
	var temporary, made []string
	defer func() {
		if err == nil {
			return
		}
		for _, name := range temporary {
			err = errors.Join(err, ignoreMissing(os.Remove(name)))
		}
		err = errors.Join(err, removeFolders(made))
	}()
	cleaned := map[string]bool{}
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		in := filepath.Dir(filepath.Join(dir, f.Name))
		more, err := makeFolders(in)
		made = append(made, more...)
		if err != nil {
			return err
		}
		if !cleaned[in] {
			cleaned[in] = true
			if err := removeStale(in); err != nil {
				return err
			}
		}
		name, err := writeTemporary(in, f.Data)
		if name != "" {
			temporary = append(temporary, name)
		}
		if err != nil {
			return fmt.Errorf("output file %s: %w", filepath.Join(dir, f.Name), err)
		}
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	for i, f := range files {
		if err := os.Rename(temporary[i], filepath.Join(dir, f.Name)); err != nil {
			return fmt.Errorf("output file: %w", err)
		}
	}
	for in := range cleaned {
		syncFolder(in)
	}
	return nil
}

func ignoreMissing(err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}
