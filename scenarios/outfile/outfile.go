package outfile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// File is a finished result: a name relative to the output folder, and its
// content.
type File struct {
	Name string
	Data []byte
}

// WriteAll puts files into dir, which is made if it does not exist. All
// temporary files are complete before the first is renamed, so a full disk
// leaves the folder as it was. Existing files of the same names are replaced.
func WriteAll(dir string, files []File) (err error) {
	for _, f := range files {
		if !filepath.IsLocal(f.Name) {
			return fmt.Errorf("output file %q would lie outside of %s", f.Name, dir)
		}
	}
	var made []string // temporary files, in order of files
	defer func() {
		if err != nil {
			for _, name := range made {
				err = errors.Join(err, ignoreMissing(os.Remove(name)))
			}
		}
	}()
	for _, f := range files {
		path := filepath.Join(dir, f.Name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return fmt.Errorf("output folder: %w", err)
		}
		name, err := writeTemporary(path, f.Data)
		if name != "" {
			made = append(made, name)
		}
		if err != nil {
			return err
		}
	}
	for i, f := range files {
		if err := os.Rename(made[i], filepath.Join(dir, f.Name)); err != nil {
			return fmt.Errorf("output file: %w", err)
		}
	}
	return nil
}

func writeTemporary(path string, data []byte) (name string, err error) {
	t, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*.part")
	if err != nil {
		return "", fmt.Errorf("output file: %w", err)
	}
	_, err = t.Write(data)
	if err == nil {
		err = t.Chmod(0o644)
	}
	if err == nil {
		err = t.Sync()
	}
	if err = errors.Join(err, t.Close()); err != nil {
		err = fmt.Errorf("output file %s: %w", path, err)
	}
	return t.Name(), err
}

func ignoreMissing(err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}
