package shards

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/build"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/sim/replicate"
)

// Options are what is to be simulated, and where it goes.
type Options struct {
	Share        Share
	Replications int // of the answer; 0 for the file's
	Dir          string
	Resume       bool // go on with what is there
}

// Done is what was done.
type Done struct {
	Share     Share
	Simulated int
	Kept      int      // that were there
	Damaged   []string // files of those that were there, and simulated again
}

// Simulate plays the replications of a share and writes a record of each as soon as it
// is done. It writes nothing if the folder holds replications and it is not to go on with
// them, or any of another origin or share (an [*Error]).
func Simulate(ctx context.Context, q *question.Question, s *study.Study, setup answer.Setup, o Options) (Done, error) {
	if o.Replications == 0 {
		o.Replications = s.File.Replications
	}
	if o.Replications < 1 || o.Replications > facilityfile.MaxReplications {
		return Done{}, wrong("--replications %d: it must be from 1 to %d", o.Replications, facilityfile.MaxReplications)
	}
	origin, err := originOf(q, s.File, setup, o.Replications)
	if err != nil {
		return Done{}, err
	}
	done := Done{Share: o.Share}
	there, damaged, err := begun(origin, o)
	if err != nil {
		return done, err
	}
	done.Kept, done.Damaged = len(there), damaged
	if err := keepFile(ctx, o.Dir, s.File); err != nil {
		return done, err
	}
	var left []int
	for _, i := range o.Share.replications(o.Replications) {
		if !there[i] {
			left = append(left, i)
		}
	}
	_, err = replicate.Run(ctx, len(left), s.Workers, func(ctx context.Context, k int) (struct{}, error) {
		made, err := q.Replicated.Simulate(ctx, s, left[k])
		if err != nil {
			return struct{}{}, err
		}
		data, err := encode(label{origin, o.Share, left[k]}, made)
		if err != nil {
			return struct{}{}, fmt.Errorf("replication %d: %w", left[k]+1, err)
		}
		file := outfile.File{Name: recordName(left[k]), Data: data}
		return struct{}{}, outfile.Policy{}.WriteFiles(ctx, o.Dir, []outfile.File{file}, magic)
	}, setup.Part("simulating"))
	done.Simulated = len(left)
	return done, err
}

// originOf returns that of the replications of a question about a file.
func originOf(q *question.Question, f *facilityfile.File, setup answer.Setup, replications int) (Origin, error) {
	id, err := build.ID()
	if err != nil {
		return Origin{}, fmt.Errorf("telling which program this is: %w", err)
	}
	return Origin{
		Question: q.Name, Source: setup.Source, Invented: setup.Invented, FileHash: f.Hash, Seed: f.Seed,
		Version: setup.Version, Program: hex.EncodeToString(id[:]), Replications: replications,
	}, nil
}

// begun tells which replications of a share are there, and which files of them are
// damaged.
func begun(origin Origin, o Options) (there map[int]bool, damaged []string, err error) {
	paths, err := records(o.Dir)
	if err != nil {
		return nil, nil, err
	}
	if len(paths) > 0 && !o.Resume {
		return nil, nil, wrong("%s holds replications already: go on with them by --resume, or name another folder", o.Dir)
	}
	there = map[int]bool{}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, nil, err
		}
		l, _, err := open(data)
		switch {
		case err != nil:
			damaged = append(damaged, path)
		case origin.differs(l.Origin) != "":
			return nil, nil, wrong("%s: %s", path, origin.differs(l.Origin))
		case l.Share != o.Share:
			return nil, nil, wrong("%s: it belongs to share %s, not %s", path, l.Share, o.Share)
		default:
			there[l.Replication] = true
		}
	}
	return there, damaged, nil
}

// records lists the records in a folder, which need not be there.
func records(dir string) (paths []string, err error) {
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, wrong("%s: replications cannot lie there: %w", dir, err)
	}
	for _, e := range entries {
		if isRecord(e.Name()) {
			paths = append(paths, filepath.Join(dir, e.Name()))
		}
	}
	return paths, nil
}

// keepFile leaves a copy of the facility file beside the replications, if it is not there.
func keepFile(ctx context.Context, dir string, f *facilityfile.File) error {
	copied := inputs.Copy(f)
	path := filepath.Join(dir, copied.Name)
	switch data, err := os.ReadFile(path); {
	case err == nil && bytes.Equal(data, copied.Data):
		return nil
	case err == nil:
		return wrong("%s: it is another facility file", path)
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	return outfile.Policy{}.WriteFiles(ctx, dir, []outfile.File{copied}, "")
}
