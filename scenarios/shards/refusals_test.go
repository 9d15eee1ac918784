package shards

import (
	"errors"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/inputs"
	"loamcast/scenarios/simulate"
)

// What does not belong together is not put together, nor what is not whole, and each
// refusal says what is wrong and where.
func TestRefusals(t *testing.T) {
	s := ready(t, small(t), 0)
	one, other := filepath.Join(t.TempDir(), "one"), filepath.Join(t.TempDir(), "other")
	share(t, s, Options{Share: Share{1, 2}, Replications: 4, Dir: one})
	share(t, s, Options{Share: Share{2, 2}, Replications: 4, Dir: other})
	good := filesOf(t, other)
	record := recordName(1)
	// relabelled is a whole record with something else in its label.
	relabelled := func(change func(*label)) []byte {
		l, packed, err := open(good[record])
		if err != nil {
			t.Fatal(err)
		}
		change(&l)
		var made simulate.Replication
		if err := unpack(packed, &made); err != nil {
			t.Fatal(err)
		}
		data, err := encode(l, made)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	for _, c := range []struct {
		name, file string
		data       []byte // nil for no file
		want       string
	}{
		{"missing", record, nil, "1 of 4 replications are missing: 2"},
		{"double", record, relabelled(func(l *label) { l.Replication = 2 }), "replication 3 is also in"},
		{"out of range", record, relabelled(func(l *label) { l.Replication = 4 }), "the file is damaged"},
		{"another question", record, relabelled(func(l *label) { l.Question = "when" }), `it answers "when", not "run"`},
		{"another file", record, relabelled(func(l *label) { l.FileHash = "00" }), "it is of another facility file"},
		{"a file of another name", record, relabelled(func(l *label) { l.Source = "x.yaml" }), `its facility file is called "x.yaml", not "small.yaml"`},
		{"another seed", record, relabelled(func(l *label) { l.Seed++ }), "its seed is"},
		{"another version", record, relabelled(func(l *label) { l.Version = "9" }), "it was simulated by version 9 of loamcast, not test"},
		{"another build", record, relabelled(func(l *label) { l.Program = "00" }), "it was simulated by another build of loamcast, or on a machine that rounds otherwise"},
		{"of more", record, relabelled(func(l *label) { l.Replications = 5 }), "it is one of 5 replications, not of 4"},
		{"cut", record, good[record][:len(good[record])/2], record + ": the file is damaged"},
		{"empty", record, []byte{}, record + ": the file is damaged"},
		{"flipped in the label", record, flip(good[record], 60), record + ": the file is damaged"},
		{"flipped in the last", record, flip(good[record], len(good[record])-1), record + ": the file is damaged"},
		{"facility file changed", inputs.AsRead, flip(good[inputs.AsRead], 30), "it is not the facility file that was simulated"},
		{"facility file missing", inputs.AsRead, nil, "the facility file is missing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			for name, data := range good {
				if name == c.file {
					data = c.data
				}
				if data != nil {
					put(t, dir, name, data)
				}
			}
			_, err := Gather([]string{one, dir})
			refused(t, err, c.want)
		})
	}
	_, err := Gather([]string{one, filepath.Join(other, "none")})
	refused(t, err, "there is no such folder")
	_, err = Gather([]string{t.TempDir()})
	refused(t, err, "there are no replications")
	_, err = Gather([]string{one, other, one})
	refused(t, err, "is also in")

	w, err := Gather([]string{one, other})
	if err != nil {
		t.Fatal(err)
	}
	_, err = w.Answer(t.Context(), &simulate.Question, s, answer.Setup{Source: "small.yaml", Version: "later"}, unasked(t))
	refused(t, err, "the replications do not fit: it was simulated by version test of loamcast, not later")
	for want, data := range map[string][]byte{
		record + ": it has changed while it was read": relabelled(func(l *label) { l.Seed++ }),
		record + ": the file is damaged":              good[record][:900],
	} {
		put(t, other, record, data)
		_, err = w.Answer(t.Context(), &simulate.Question, s, setup, unasked(t))
		refused(t, err, want)
	}
	put(t, other, record, good[record])

	for _, c := range []struct {
		want string
		seed uint64
		o    Options
	}{
		{"go on with them by --resume, or name another folder", s.File.Seed, Options{Share: Share{1, 2}, Replications: 4, Dir: one}},
		{"it belongs to share 1/2, not 1/3", s.File.Seed, Options{Share: Share{1, 3}, Replications: 4, Dir: one, Resume: true}},
		{"it is one of 4 replications, not of 6", s.File.Seed, Options{Share: Share{1, 2}, Replications: 6, Dir: one, Resume: true}},
		{"its seed is", s.File.Seed + 1, Options{Share: Share{1, 2}, Replications: 4, Dir: one, Resume: true}},
		{"--replications -1: it must be from 1 to", s.File.Seed, Options{Share: Share{1, 2}, Replications: -1, Dir: one}},
		{"replications cannot lie there", s.File.Seed, Options{Share: Share{1, 2}, Replications: 4, Dir: filepath.Join(one, record2)}},
	} {
		before := filesOf(t, one)
		f := *s.File
		f.Seed = c.seed
		_, err := Simulate(t.Context(), &simulate.Question, ready(t, &f, 0), setup, c.o)
		refused(t, err, c.want)
		if !reflect.DeepEqual(filesOf(t, one), before) {
			t.Errorf("%s: it has written", c.want)
		}
	}
}

// record2 is a file, where a folder should be.
var record2 = recordName(0)

// refused checks that an error is one of ours and says what is wrong.
func refused(t *testing.T, err error, want string) {
	t.Helper()
	if !errors.As(err, new(*Error)) || !strings.Contains(err.Error(), want) {
		t.Errorf("the error is %v, not %q", err, want)
	}
}
