package main

import (
	"flag"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/cache"
	"loamcast/scenarios/examples"
)

// Three plants and all questions take half an hour.
var allKept = flag.Bool("kept", false, "compare answers with and without what is kept for all questions of three plants, each from an empty folder")

// threeYears is the demo over three years.
func threeYears(t *testing.T) string {
	t.Helper()
	text := string(examples.Data(examples.Demo))
	if strings.Count(text, "horizon: 20 year") != 1 {
		t.Fatal("its horizon is another")
	}
	path := filepath.Join(t.TempDir(), "plant.yaml")
	if err := os.WriteFile(path, []byte(strings.Replace(text, "horizon: 20 year", "horizon: 3 year", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// An answer is the same to the byte, on the screen, as JSON, as CSV and in its pictures, where
// nothing is kept, where tables and runs are kept, and where they are read; and they are
// read in earnest: the second command keeps nothing more. Other questions have kept runs
// there before. (What plan says is what these say, which it asks.)
func TestWhatIsKeptMovesNothing(t *testing.T) {
	small := threeYears(t)
	dir := filepath.Join(t.TempDir(), "cache")
	type asked struct {
		args  []string
		alone bool // and without, too
	}
	commands := []asked{
		{[]string{"run", "fennick-valley", "--replications", "2"}, true},
		{[]string{"chips", "fennick-valley", "--replications", "2"}, true},
		{[]string{"product", "fennick-valley", "--replications", "2"}, true},
		{[]string{"options", small, "--replications", "2"}, false},
		{[]string{"when", small}, true}, // by runs of the one before
		{[]string{"expand", small}, false},
		{[]string{"drivers", small, "--paths", "2", "--replications", "1"}, false},
	}
	if *allKept {
		commands = nil
		for _, plant := range []string{"fennick-valley", "pellwick", "dunmarrow"} {
			for _, q := range []string{"run", "when", "chips", "product", "plan", "options", "expand", "drivers", "setback"} {
				commands = append(commands, asked{[]string{q, plant}, true})
			}
		}
	}
	for _, c := range commands {
		t.Run(strings.Join(c.args[:1], " ")+" "+filepath.Base(c.args[1]), func(t *testing.T) {
			if *allKept {
				dir = filepath.Join(t.TempDir(), "cache")
			}
			t.Setenv(cache.Variable, dir)
			printed := func(more ...string) (string, map[string]string) {
				t.Helper()
				out := filepath.Join(t.TempDir(), "out")
				status, stdout, stderr := program(t.Context(), slices.Concat(c.args, more, []string{"--out", out})...)
				if status == exitBadInput && *allKept {
					t.Skipf("it is no question for this file: %s", stderr)
				}
				if status != exitOK {
					t.Fatalf("status %d, %q", status, stderr)
				}
				return strings.ReplaceAll(stdout, out, "DIR"), contents(t, out)
			}
			var want string
			var files map[string]string
			if c.alone {
				before, _ := kept(dir)
				want, files = printed("--no-cache")
				if after, _ := kept(dir); after != before {
					t.Errorf("with --no-cache %v are kept, and before %v", after, before)
				}
			} else {
				want, files = printed()
			}
			if len(files) < 5 {
				t.Errorf("only %d files", len(files))
			}
			if c.alone {
				if got, left := printed(); got != want || !maps.Equal(left, files) {
					t.Errorf("cold: it prints\n%s\nand without\n%s", got, want)
				}
			}
			cold, some := kept(dir)
			if !some {
				t.Error("nothing is kept")
			}
			if got, left := printed(); got != want || !maps.Equal(left, files) {
				t.Errorf("warm: it prints\n%s\nand before\n%s", got, want)
			}
			if warm, _ := kept(dir); warm != cold {
				t.Errorf("warm: %v are kept, and before %v", warm, cold)
			}
		})
	}
}

// kept is what is in a folder: tables and runs, and whether there are both.
func kept(dir string) (all cache.Sizes, both bool) {
	all = cache.Size(dir)
	return all, all.Tables.Files > 0 && all.Runs.Files > 0
}

// Runs follow from no price: with another one, nothing is simulated again. From how long a
// vessel waits to be filled they do follow.
func TestPricesAreNoPartOfRuns(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	t.Setenv(cache.Variable, dir)
	path := filepath.Join(t.TempDir(), "plant.yaml")
	answer := func(from, to string) cache.Sizes {
		t.Helper()
		text := string(examples.Data(examples.Demo))
		if strings.Count(text, from) != 1 {
			t.Fatalf("%q is not there once", from)
		}
		if err := os.WriteFile(path, []byte(strings.Replace(text, from, to, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		if status, _, stderr := program(t.Context(), "product", path, "--replications", "2"); status != exitOK {
			t.Fatalf("status %d, %q", status, stderr)
		}
		found, _ := kept(dir)
		return found
	}
	usual := answer("price: 11 USD/yd3", "price: 11 USD/yd3")
	if dearer := answer("price: 11 USD/yd3", "price: 11.5 USD/yd3"); dearer != usual {
		t.Errorf("with another price %v are kept, and before %v", dearer, usual)
	}
	if other := answer("part_filled_wait: 6 day", "part_filled_wait: 5 day"); other == usual {
		t.Error("with another wait nothing is simulated")
	}
}

// A file of runs that is damaged is replaced, and the answer is the same.
func TestDamagedRunsAreReplaced(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	t.Setenv(cache.Variable, dir)
	printed := func() string {
		t.Helper()
		status, stdout, stderr := program(t.Context(), "product", "--replications", "2")
		if status != exitOK || stderr != "" {
			t.Fatalf("status %d, %q", status, stderr)
		}
		return stdout
	}
	want := printed()
	whole, _ := kept(dir)
	list, err := filepath.Glob(filepath.Join(dir, "*.runs"))
	if err != nil || len(list) != 1 {
		t.Fatalf("%v, %v", list, err)
	}
	data, err := os.ReadFile(list[0])
	if err != nil {
		t.Fatal(err)
	}
	for i := len(data) / 3; i < len(data)/3+100; i++ {
		data[i] ^= 0x55
	}
	if err := os.WriteFile(list[0], data, 0o600); err != nil {
		t.Fatal(err)
	}
	for range 3 { // found damaged, taken away with what was whole of it, and whole again
		if got := printed(); got != want {
			t.Errorf("it prints\n%s\nand before\n%s", got, want)
		}
	}
	again, _ := kept(dir)
	if again.Runs.Bytes < whole.Runs.Bytes {
		t.Errorf("%v are kept, and before %v", again, whole)
	}
	if _, err := os.Stat(list[0]); !os.IsNotExist(err) {
		t.Errorf("the damaged file is still there: %v", err)
	}
}

// Where nothing can be kept, a command answers without a word about it.
func TestNowhereToKeep(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	t.Setenv(cache.Variable, filepath.Join(file, "below"))
	if status, stdout, stderr := program(t.Context(), "run", "--replications", "1"); status != exitOK || stderr != "" || stdout == "" {
		t.Errorf("status %d, %q", status, stderr)
	}
}

// A file that leaves its recipe to the program has it designed once: the second command
// finds it, says the same, and `cache show` tells of it.
func TestDesignedRecipesAreKept(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cache")
	t.Setenv(cache.Variable, dir)
	text := strings.Replace(string(examples.Data(examples.Demo)), "\nmix:\n", "\nmix:\n  recipe: designed\n", 1)
	path := filepath.Join(t.TempDir(), "plant.yaml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	ask := func(args ...string) (out string) {
		t.Helper()
		status, stdout, stderr := program(t.Context(), append([]string{"check", path}, args...)...)
		if status != exitOK || !strings.Contains(stderr, "mix.recipe: designed, from ") {
			t.Fatalf("status %d, %q", status, stderr)
		}
		return stdout + stderr
	}
	without := ask("--no-cache")
	if size := cache.Size(dir); size.Designs.Files != 0 {
		t.Errorf("%+v are kept that were not to be", size)
	}
	for range 2 {
		if got := ask(); got != without {
			t.Errorf("with what is kept it says\n%s\nwithout\n%s", got, without)
		}
	}
	if _, stdout, _ := program(t.Context(), "cache", "show"); !strings.HasSuffix(stdout, ": 1 file of designs, 1 kB\n") {
		t.Errorf("%q", stdout)
	}
}

// `cache show` says where tables and runs are and how large, and `cache clear` removes them.
func TestCacheCommands(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kept")
	t.Setenv(cache.Variable, dir)
	says := func(want string, args ...string) {
		t.Helper()
		status, stdout, stderr := program(t.Context(), args...)
		if status != exitOK || stderr != "" || !regexp.MustCompile("^"+want).MatchString(stdout) {
			t.Errorf("%v: status %d, %q, %q, not %q", args, status, stdout, stderr, want)
		}
	}
	at := regexp.QuoteMeta(dir)
	says(at+": nothing\n$", "cache", "show")
	says("", "run", "--replications", "1")
	both := `2 files of tables, \d+ MB; 1 file of runs, 0\.\d MB\n$`
	says(at+": "+both, "cache", "show")
	says(at+": removed "+both, "cache", "clear")
	says(at+": nothing\n$", "cache", "show")
	t.Setenv(cache.Variable, "")
	t.Setenv("XDG_CACHE_HOME", "")
	t.Setenv("HOME", "")
	says("Nothing is kept: ", "cache", "show")
	says("Nothing is kept: ", "cache", "clear")
}
