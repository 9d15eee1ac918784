package shards

import (
	"bytes"
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/render"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// small is the demo over two years.
func small(t *testing.T) *facilityfile.File {
	t.Helper()
	text := regexp.MustCompile(`(?m)^horizon: .*$`).ReplaceAll(examples.Data(examples.Demo), []byte("horizon: 2 years"))
	f, err := facilityfile.Parse("small.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	if f.Model.Years != 2 {
		t.Fatalf("the horizon is %d years", f.Model.Years)
	}
	return f
}

var setup = answer.Setup{Source: "small.yaml", Version: "test"}

// ready makes a file ready to be asked about.
func ready(t *testing.T, f *facilityfile.File, workers int) *study.Study {
	t.Helper()
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// share simulates one, and fails the test if that fails.
func share(t *testing.T, s *study.Study, o Options) Done {
	t.Helper()
	done, err := Simulate(t.Context(), &simulate.Question, s, setup, o)
	if err != nil {
		t.Fatal(err)
	}
	return done
}

// unasked are the values of options of which none is written.
func unasked(t *testing.T) question.Values {
	t.Helper()
	v, err := question.Read(simulate.Question.Replicated.Options, nil)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// told is an answer as it is shown.
func told(t *testing.T, a question.Answer) string {
	t.Helper()
	var out bytes.Buffer
	if err := errors.Join(render.JSON(&out, a.Document(), units.US), render.Usual.Text(&out, a.Document(), units.US)); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// of so many shares, the number of replications in each, and how many workers simulate.
var divisions = []struct{ shares, workers int }{{1, 1}, {3, 2}, {7, 1}}

// However replications are shared out, and by however many workers each share is
// simulated, the answer is the one that one machine gives of as many, to the byte.
func TestMergedAnswerIsThatOfOneMachine(t *testing.T) {
	const replications = 5
	f := small(t)
	s := ready(t, f, 0)
	a, err := simulate.Ask(t.Context(), s, setup, simulate.Options{Replications: replications})
	if err != nil {
		t.Fatal(err)
	}
	want := told(t, a)
	for _, d := range divisions {
		parent := t.TempDir()
		var dirs []string
		simulated := 0
		for i := d.shares; i >= 1; i-- {
			dir := filepath.Join(parent, Share{i, d.shares}.String())
			s.Workers = d.workers
			simulated += share(t, s, Options{Share: Share{i, d.shares}, Replications: replications, Dir: dir}).Simulated
			dirs = append(dirs, dir)
		}
		if simulated != replications {
			t.Errorf("%d shares: %d replications are simulated", d.shares, simulated)
		}
		w, err := Gather(dirs)
		if err != nil {
			t.Fatal(err)
		}
		again, err := facilityfile.Parse(w.Source, w.File)
		if err != nil {
			t.Fatal(err)
		}
		again.Seed = w.Seed
		merged, err := w.Answer(t.Context(), &simulate.Question, ready(t, again, 0), setup, unasked(t))
		if err != nil {
			t.Fatal(err)
		}
		if got := told(t, merged); got != want {
			t.Errorf("%d shares: %s\nand not %s", d.shares, got, want)
		}
	}
}

// The same of more replications than quantiles are exact of: they are made up, of one
// of a single year.
func TestMergedAnswerOfThousands(t *testing.T) {
	const replications = answer.ExactRuns + 10
	text := regexp.MustCompile(`(?m)^horizon: .*$`).ReplaceAll(examples.Data(examples.Demo), []byte("horizon: 1 year"))
	f, err := facilityfile.Parse("small.yaml", text)
	if err != nil {
		t.Fatal(err)
	}
	s := ready(t, f, 2)
	model, err := simulate.Simulate(t.Context(), s, 0)
	if err != nil {
		t.Fatal(err)
	}
	made := func(i int) simulate.Replication {
		r, usual, free := model, *model.Usual, *model.Free
		usual.Months, free.Peaks = slices.Clone(usual.Months), slices.Clone(free.Peaks)
		for j := range usual.Months {
			by := 1 + 0.3*math.Sin(float64(97*i+j))
			usual.Months[j].Feed.Dry *= by
			usual.Months[j].Product.Volume *= by * by
			free.Peaks[j] += math.Floor(5 * by)
		}
		r.Usual, r.Free = &usual, &free
		if i > 0 {
			r.Stays = nil
		}
		return r
	}
	a, err := simulate.Reduce(s, setup, replications, func(yield func(simulate.Replication, error) bool) {
		for i := 0; i < replications && yield(made(i), nil); i++ {
		}
	}, "")
	if err != nil {
		t.Fatal(err)
	}
	q, how := simulate.Question, *simulate.Question.Replicated
	how.Simulate = func(_ context.Context, _ *study.Study, i int) (any, error) { return made(i), nil }
	q.Replicated = &how
	dirs := []string{t.TempDir(), t.TempDir()}
	for i, dir := range dirs {
		if _, err := Simulate(t.Context(), &q, s, setup, Options{Share: Share{i + 1, 2}, Replications: replications, Dir: dir}); err != nil {
			t.Fatal(err)
		}
	}
	w, err := Gather(dirs)
	if err != nil {
		t.Fatal(err)
	}
	merged, err := w.Answer(t.Context(), &q, s, setup, unasked(t))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := told(t, merged), told(t, a); got != want {
		t.Errorf("%s\nand not %s", got, want)
	}
}

// What is stopped goes on: replications that are whole are kept as they are, those that
// are missing or damaged are simulated, and the answer is the same.
func TestResume(t *testing.T) {
	dir := t.TempDir()
	s := ready(t, small(t), 0)
	o := Options{Share: Share{2, 2}, Replications: 8, Dir: dir}
	share(t, s, o)
	before := filesOf(t, dir)
	gone, cut, flipped := recordName(1), recordName(3), recordName(5)
	if err := os.Remove(filepath.Join(dir, gone)); err != nil {
		t.Fatal(err)
	}
	put(t, dir, cut, before[cut][:5000])
	put(t, dir, flipped, flip(before[flipped], 9000))
	o.Resume = true
	done := share(t, s, o)
	if want := (Done{Share: o.Share, Simulated: 3, Kept: 1, Damaged: []string{filepath.Join(dir, cut), filepath.Join(dir, flipped)}}); !reflect.DeepEqual(done, want) {
		t.Errorf("%+v, not %+v", done, want)
	}
	if after := filesOf(t, dir); !reflect.DeepEqual(after, before) {
		t.Error("the files are not what they were")
	}
	if done := share(t, s, o); done.Simulated != 0 || done.Kept != 4 {
		t.Errorf("when all is there: %+v", done)
	}
}

func filesOf(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if all[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func put(t *testing.T, dir, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// flip returns data with one bit changed.
func flip(data []byte, at int) []byte {
	out := bytes.Clone(data)
	out[at] ^= 4
	return out
}

// A share that is called off leaves whole records only, and says why it ended.
func TestCalledOff(t *testing.T) {
	dir := t.TempDir()
	s := ready(t, small(t), 1)
	ctx, cancel := context.WithCancel(t.Context())
	off := setup
	off.Progress = func(_ string, done, _ int) {
		if done == 2 {
			cancel()
		}
	}
	_, err := Simulate(ctx, &simulate.Question, s, off, Options{Share: Share{1, 1}, Replications: 6, Dir: dir})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("the error is %v", err)
	}
	done := share(t, s, Options{Share: Share{1, 1}, Replications: 6, Dir: dir, Resume: true})
	if done.Kept != 2 || done.Simulated != 4 || len(done.Damaged) > 0 {
		t.Errorf("%+v", done)
	}
}

// All that a replication contributes can be written: its types have no field that is not
// exported, and nothing that is not plain data.
func TestReplicationsArePlainData(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var look func(v reflect.Type, path string)
	look = func(v reflect.Type, path string) {
		if seen[v] {
			return
		}
		seen[v] = true
		switch v.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array:
			look(v.Elem(), path+"[]")
		case reflect.Struct:
			for i := range v.NumField() {
				f := v.Field(i)
				if !f.IsExported() {
					t.Errorf("%s.%s is not exported", path, f.Name)
				}
				look(f.Type, path+"."+f.Name)
			}
		case reflect.Func, reflect.Interface, reflect.Map, reflect.Chan, reflect.UnsafePointer:
			t.Errorf("%s is a %v", path, v.Kind())
		}
	}
	look(reflect.TypeFor[simulate.Replication](), "Replication")
	if len(seen) < 30 {
		t.Errorf("only %d types", len(seen))
	}
}

// A record gives back what it was given to the last bit, also what is no number, less
// than nothing, or without end.
func TestRecordsKeepEveryBit(t *testing.T) {
	s := ready(t, small(t), 1)
	r, err := simulate.Simulate(t.Context(), s, 0)
	if err != nil {
		t.Fatal(err)
	}
	m := &r.Usual.Months[3]
	m.Feed.Dry, m.Feed.Wet, m.Screen.Lots = math.Copysign(0, -1), math.Inf(-1), math.SmallestNonzeroFloat64
	r.Free.Worst = math.NaN()
	r.Free.Peaks, r.Usual.FailedBy = nil, []float64{}
	data, err := encode(label{Replication: 3}, r)
	if err != nil {
		t.Fatal(err)
	}
	l, packed, err := open(data)
	if err != nil || l.Replication != 3 {
		t.Fatalf("%+v, %v", l, err)
	}
	var got simulate.Replication
	if err := unpack(packed, &got); err != nil {
		t.Fatal(err)
	}
	if !math.Signbit(got.Usual.Months[3].Feed.Dry) || !math.IsNaN(got.Free.Worst) {
		t.Errorf("−0 is %g, what is no number %g", got.Usual.Months[3].Feed.Dry, got.Free.Worst)
	}
	got.Free.Worst, r.Free.Worst = 0, 0 // which is not equal to itself
	if !reflect.DeepEqual(got, r) {
		t.Error("what is read is not what was written")
	}
}

// Shares are read as they are written, and nothing else is.
func TestShares(t *testing.T) {
	for text, want := range map[string]Share{"1/1": {1, 1}, "3/8": {3, 8}, "8/8": {8, 8}} {
		if got, err := ParseShare(text); err != nil || got != want || got.String() != text {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "1", "0/3", "4/3", "-1/3", "1/0", "a/b", "1/3/5", "1 / 3", "1.0/3", "1/100001"} {
		if got, err := ParseShare(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
	for _, all := range []int{1, 7, 40} {
		for n := range 12 {
			count := map[int]int{}
			for i := range n + 1 {
				for _, r := range (Share{i + 1, n + 1}).replications(all) {
					count[r]++
				}
			}
			for r := range all {
				if count[r] != 1 {
					t.Errorf("replication %d of %d is in %d of %d shares", r, all, count[r], n+1)
				}
			}
		}
	}
}
