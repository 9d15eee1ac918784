package shards

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/sim/replicate"
)

// Whole is all replications of an answer, of one origin, each once.
type Whole struct {
	Origin
	File []byte // the facility file, as it was read

	paths []string // of records, by replication
}

// Gather reads the replications in some folders. They must be all of one answer, each
// once, and whole: an [*Error] says what is missing, twice there, damaged, or of something
// else.
func Gather(dirs []string) (*Whole, error) {
	var w Whole
	first := ""
	for _, dir := range dirs {
		if _, err := os.Stat(dir); err != nil {
			return nil, wrong("%s: there is no such folder", dir)
		}
		paths, err := records(dir)
		if err != nil {
			return nil, err
		}
		for _, path := range paths {
			l, _, err := read(path)
			if err != nil {
				return nil, err
			}
			if w.paths == nil {
				if l.Replications < 1 || l.Replications > facilityfile.MaxReplications {
					return nil, wrong("%s: %w", path, errDamaged)
				}
				first, w.Origin, w.paths = path, l.Origin, make([]string, l.Replications)
			}
			if differs := w.Origin.differs(l.Origin); differs != "" {
				return nil, wrong("%s: it does not belong to %s: %s", path, first, differs)
			}
			if l.Replication < 0 || l.Replication >= w.Replications {
				return nil, wrong("%s: %w", path, errDamaged)
			}
			if before := w.paths[l.Replication]; before != "" {
				return nil, wrong("%s: replication %d is also in %s", path, l.Replication+1, before)
			}
			w.paths[l.Replication] = path
		}
	}
	if w.paths == nil {
		return nil, wrong("%s: there are no replications", strings.Join(dirs, ", "))
	}
	if err := w.complete(); err != nil {
		return nil, err
	}
	return &w, w.readFile(dirs)
}

// read opens a record.
func read(path string) (l label, packed []byte, err error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return l, nil, err
	}
	if l, packed, err = open(data); err != nil {
		return l, nil, wrong("%s: %w; simulate it again by study --resume", path, err)
	}
	return l, packed, nil
}

// complete says which replications are missing.
func (w *Whole) complete() error {
	const named = 5
	var missing []string
	count := 0
	for i, path := range w.paths {
		if path != "" {
			continue
		}
		if count++; count <= named {
			missing = append(missing, fmt.Sprint(i+1))
		}
	}
	switch {
	case count == 0:
		return nil
	case count > named:
		missing = append(missing, "…")
	}
	return wrong("%d of %d replications are missing: %s; name all folders, and go on with shares that were stopped by study --resume",
		count, w.Replications, strings.Join(missing, ", "))
}

// readFile reads the facility file, of which every folder has a copy.
func (w *Whole) readFile(dirs []string) error {
	for _, dir := range dirs {
		path := filepath.Join(dir, inputs.AsRead)
		data, err := os.ReadFile(path)
		switch {
		case err != nil:
			return wrong("%s: the facility file is missing", path)
		case hashOf(data) != w.FileHash:
			return wrong("%s: it is not the facility file that was simulated", path)
		}
		w.File = data
	}
	return nil
}

func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Answer makes the answer of all replications, about the file that [Whole.File] holds; v are
// values of the options of q.Replicated. It reads them once more, one by one, so that it
// takes no more room the more there are. An [*Error] says that this program is not the one
// that simulated them, or that they have changed since [Gather]; other errors are those of
// the question, or ctx's.
func (w *Whole) Answer(ctx context.Context, q *question.Question, s *study.Study, setup answer.Setup, v question.Values) (question.Answer, error) {
	own, err := originOf(q, s.File, setup, w.Replications)
	if err != nil {
		return nil, err
	}
	if differs := own.differs(w.Origin); differs != "" {
		return nil, wrong("the replications do not fit: %s", differs)
	}
	all := replicate.InOrder(ctx, w.Replications, s.Workers, func(_ context.Context, i int) (any, error) {
		l, packed, err := read(w.paths[i])
		if err != nil {
			return nil, err
		}
		if l.Origin != w.Origin || l.Replication != i {
			return nil, wrong("%s: it has changed while it was read", w.paths[i])
		}
		r, err := q.Replicated.Read(func(into any) error { return unpack(packed, into) })
		if err != nil {
			return nil, wrong("%s: replication %d cannot be read: %w", w.paths[i], i+1, err)
		}
		return r, nil
	}, setup.Part("reading"))
	return q.Replicated.Reduce(s, setup, w.Replications, all, v)
}
