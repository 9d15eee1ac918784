package drafts

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"loamcast/scenarios/infile"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/page/dials"
)

// Variable is the variable of the environment that names the folder, in place of one of
// the user's for what programs leave behind.
const Variable = "LOAMCAST_DRAFTS"

// Folder returns where drafts are kept; an error says why there is no such place.
func Folder() (string, error) {
	if dir := os.Getenv(Variable); dir != "" {
		return filepath.Abs(dir)
	}
	dir := os.Getenv("XDG_STATE_HOME")
	if dir == "" {
		home, err := os.UserHomeDir()
		if err != nil {
			return "", err
		}
		dir = filepath.Join(home, ".local", "state")
	}
	return filepath.Join(dir, "loamcast", "drafts"), nil
}

// Draft is what was edited in a tab.
type Draft struct {
	At    time.Time       `json:"at"`   // when it was kept
	Hash  string          `json:"hash"` // of the file that it began from
	Text  string          `json:"text"`
	Dials []dials.Setting `json:"dials"`
	Paths []string        `json:"paths"` // of the dials that are shown
	Cases []Case          `json:"cases"`
}

// Case is a set of dials under a name.
type Case struct {
	Name  string          `json:"name"`
	Dials []dials.Setting `json:"dials"`
}

// Listed is a draft in a list.
type Listed struct {
	ID string
	Draft
}

const (
	// most is how many drafts of all files are kept; those kept longest ago go first.
	most = 100
	// largest is how large one may be, bytes: a file of the greatest size that is read, in
	// JSON, with dials.
	largest = 8 << 20
	ending  = ".draft"
)

// ErrNone says that there is no such draft.
var ErrNone = errors.New("there is no such draft")

// Store keeps the drafts of one file in a folder.
type Store struct {
	Dir string
	Of  string // the file, by its path
}

// id is that of a tab's draft of the file.
func (s *Store) id(tab string) string { return s.begins() + short(tab) }

// begins is what the names of all drafts of the file begin with.
func (s *Store) begins() string { return short(s.Of) + "-" }

func short(text string) string { return fmt.Sprintf("%.10x", sha256.Sum256([]byte(text))) }

func (s *Store) path(id string) string { return filepath.Join(s.Dir, id+ending) }

// Keep keeps the draft of a tab in place of that before.
func (s *Store) Keep(ctx context.Context, tab string, d *Draft) error {
	data, err := json.Marshal(d)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(s.Dir, 0o700); err != nil {
		return err
	}
	if err := (outfile.Policy{Force: true}).WriteFile(ctx, s.path(s.id(tab)), data, ""); err != nil {
		return err
	}
	if err := os.Chmod(s.path(s.id(tab)), 0o600); err != nil {
		return err
	}
	return s.prune()
}

// prune removes the drafts of all files that were kept longest ago, beyond the most.
func (s *Store) prune() error {
	entries, err := os.ReadDir(s.Dir)
	if err != nil {
		return err
	}
	type old struct {
		name string
		at   time.Time
	}
	var all []old
	for _, e := range entries {
		if info, err := e.Info(); err == nil && strings.HasSuffix(e.Name(), ending) && info.Mode().IsRegular() {
			all = append(all, old{e.Name(), info.ModTime()})
		}
	}
	slices.SortFunc(all, func(a, b old) int { return b.at.Compare(a.at) })
	for _, one := range all[min(most, len(all)):] {
		if err := os.Remove(filepath.Join(s.Dir, one.name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// Others are the drafts of other tabs, the last kept first. What cannot be read as one is
// passed over.
func (s *Store) Others(tab string) []Listed {
	entries, _ := os.ReadDir(s.Dir) // none where there is no folder yet
	var out []Listed
	for _, e := range entries {
		id, ours := strings.CutSuffix(e.Name(), ending)
		if !ours || !strings.HasPrefix(id, s.begins()) || id == s.id(tab) {
			continue
		}
		if d, err := s.Read(id); err == nil {
			out = append(out, Listed{id, *d})
		}
	}
	slices.SortFunc(out, func(a, b Listed) int { return cmp.Or(b.At.Compare(a.At), cmp.Compare(a.ID, b.ID)) })
	return out
}

// Read returns a draft by its ID; [ErrNone] where the file has none of it.
func (s *Store) Read(id string) (*Draft, error) {
	if !s.has(id) {
		return nil, ErrNone
	}
	data, err := infile.Read(s.path(id), largest)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNone
	}
	if err != nil {
		return nil, err
	}
	d := &Draft{}
	return d, json.Unmarshal(data, d)
}

// has reports whether an ID may be that of a draft of the file: it leads nowhere else.
func (s *Store) has(id string) bool {
	tab, ok := strings.CutPrefix(id, s.begins())
	return ok && len(tab) == len(short("")) && strings.Trim(tab, "0123456789abcdef") == ""
}

// Forget removes a draft by its ID, if it is there.
func (s *Store) Forget(id string) error {
	if !s.has(id) {
		return ErrNone
	}
	if err := os.Remove(s.path(id)); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// ForgetOwn removes the draft of a tab, if there is one.
func (s *Store) ForgetOwn(tab string) error { return s.Forget(s.id(tab)) }
