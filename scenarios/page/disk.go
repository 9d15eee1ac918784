package page

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"sync"

	"loamcast/scenarios/infile"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/yamlfile"
)

// disk is where files are saved: the file itself, or others in its folder.
type disk struct {
	path, folder string
	mu           sync.Mutex
}

// hashOf is the hash by which a file is known again.
func hashOf(data []byte) string { return fmt.Sprintf("%x", sha256.Sum256(data)) }

// changed says that the file is not what it was when the page read it.
type changed struct {
	Changed bool   `json:"changed"`
	Gone    bool   `json:"gone"` // it is not there any more
	Text    string `json:"text"` // what it holds now
	Hash    string `json:"hash"` // of that
}

// save writes the file if it still is as it was read, which its hash tells. Where it is
// not it is left alone, and what it has become is returned.
func (d *disk) save(ctx context.Context, data []byte, hash string) (*changed, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.path == "" {
		return nil, &wrong{http.StatusConflict, "this example is built in; save it under a name of your own"}
	}
	path, err := filepath.EvalSymlinks(d.path)
	mode := fs.FileMode(0)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if hash != "" {
			return &changed{Changed: true, Gone: true}, nil
		}
		path = d.path
	case err != nil:
		return nil, err
	default:
		now, err := infile.Read(path, yamlfile.MaxSize)
		if err != nil {
			return nil, err
		}
		if hashOf(now) != hash {
			return &changed{Changed: true, Text: string(now), Hash: hashOf(now)}, nil
		}
		info, err := os.Stat(path)
		if err != nil {
			return nil, err
		}
		mode = info.Mode().Perm()
	}
	if err := (outfile.Policy{Force: true}).WriteFile(ctx, path, data, ""); err != nil {
		return nil, err
	}
	if mode != 0 {
		return nil, os.Chmod(path, mode)
	}
	return nil, nil
}

// fileName is what a file may be called that is saved beside: a plain name of a YAML file,
// which leads nowhere else.
var fileName = regexp.MustCompile(`^[\pL\pN][\pL\pN ._-]*\.ya?ml$`)

// saveAs writes another file into the folder, where there is none of that name.
func (d *disk) saveAs(ctx context.Context, name string, data []byte) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !fileName.MatchString(name) || !filepath.IsLocal(name) || filepath.Base(name) != name {
		return &wrong{http.StatusBadRequest, fmt.Sprintf("%q: write a name such as plant-b.yaml, of letters, digits, spaces, - and _", name)}
	}
	err := outfile.Policy{}.WriteFile(ctx, filepath.Join(d.folder, name), data, "")
	if inTheWay := (*outfile.RefusedError)(nil); errors.As(err, &inTheWay) {
		return &wrong{http.StatusConflict, name + " is there already and is not overwritten; choose another name"}
	}
	return err
}

// read returns the file as it is now, or, where it is built in or gone, as it was read.
func (d *disk) read(first []byte) ([]byte, error) {
	if d.path == "" {
		return first, nil
	}
	data, err := infile.Read(d.path, yamlfile.MaxSize)
	if errors.Is(err, fs.ErrNotExist) {
		return first, nil
	}
	return data, err
}
