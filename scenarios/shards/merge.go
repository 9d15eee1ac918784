package shards

import (
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
)

// Whole is all replications of an answer, of one origin, each once.
type Whole struct {
	Origin
	File []byte // the facility file, as it was read

	packed [][]byte // by replication
}

// Gather reads the replications in some folders. They must be all of one answer, each
// once, and whole: an [*Error] says what is missing, twice there, damaged, or of something
// else.
func Gather(dirs []string) (*Whole, error) {
	var w Whole
	first, where := "", map[int]string{}
	for _, dir := range dirs {
		if _, err := os.Stat(dir); err != nil {
			return nil, wrong("%s: there is no such folder", dir)
		}
		paths, err := records(dir)
		if err != nil {
			return nil, err
		}
		for _, path := range paths {
			data, err := os.ReadFile(path)
			if err != nil {
				return nil, err
			}
			l, packed, err := open(data)
			if err != nil {
				return nil, wrong("%s: %w; simulate it again by study --resume", path, err)
			}
			if w.packed == nil {
				if l.Replications < 1 || l.Replications > facilityfile.MaxReplications {
					return nil, wrong("%s: %w", path, errDamaged)
				}
				first, w.Origin, w.packed = path, l.Origin, make([][]byte, l.Replications)
			}
			if differs := w.Origin.differs(l.Origin); differs != "" {
				return nil, wrong("%s: it does not belong to %s: %s", path, first, differs)
			}
			if l.Replication < 0 || l.Replication >= w.Replications {
				return nil, wrong("%s: %w", path, errDamaged)
			}
			if before, ok := where[l.Replication]; ok {
				return nil, wrong("%s: replication %d is also in %s", path, l.Replication+1, before)
			}
			where[l.Replication], w.packed[l.Replication] = path, packed
		}
	}
	if w.packed == nil {
		return nil, wrong("%s: there are no replications", strings.Join(dirs, ", "))
	}
	if err := w.complete(); err != nil {
		return nil, err
	}
	return &w, w.readFile(dirs)
}

// complete says which replications are missing.
func (w *Whole) complete() error {
	const named = 5
	var missing []string
	count := 0
	for i, packed := range w.packed {
		if packed != nil {
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
// values of the options of q.Replicated. It can be made once, as it lets go what it has
// read. An [*Error] says that this program is not the one
// that simulated them, and other errors are those of the question.
func (w *Whole) Answer(q *question.Question, s *study.Study, setup answer.Setup, v question.Values) (question.Answer, error) {
	own, err := originOf(q, s.File, setup, w.Replications)
	if err != nil {
		return nil, err
	}
	if differs := own.differs(w.Origin); differs != "" {
		return nil, wrong("the replications do not fit: %s", differs)
	}
	all := make([]any, len(w.packed))
	for i, packed := range w.packed {
		if all[i], err = q.Replicated.Read(func(into any) error { return unpack(packed, into) }); err != nil {
			return nil, wrong("replication %d cannot be read: %w", i+1, err)
		}
		w.packed[i] = nil // of thousands, each takes room
	}
	return q.Replicated.Reduce(s, setup, all, v)
}
