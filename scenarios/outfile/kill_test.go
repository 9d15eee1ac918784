package outfile

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const writerFolder = "LOAMCAST_TEST_WRITE_FOREVER"

// TestMain is also the program that TestKilled kills.
func TestMain(m *testing.M) {
	if dir := os.Getenv(writerFolder); dir != "" {
		for i := 0; ; i++ {
			if err := (Policy{}).WriteFolder(context.Background(), dir, many(i)); err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
		}
	}
	os.Exit(m.Run())
}

// many makes files that say of which writing they are, and show whether they
// are whole.
func many(i int) (files []File) {
	for k := range 8 {
		text := strings.Repeat(fmt.Sprintf("%d\n", i), 2000) + "end"
		files = append(files, File{fmt.Sprintf("%d.csv", k), []byte(text)})
	}
	return files
}

// exchanges reports whether folders can be exchanged where tests write.
func exchanges(t *testing.T) bool {
	t.Helper()
	return exchange(t.TempDir(), t.TempDir()) == nil
}

// Killed at a random moment, a writer leaves no folder or the files of one writing, and
// the next run takes them for its own, replaces them and removes what was left under
// temporary names. Where folders cannot be exchanged, files are of one writing or of two
// that follow each other.
func TestKilled(t *testing.T) {
	writings := 2
	if exchanges(t) {
		writings = 1
	}
	times := 25
	if testing.Short() {
		times = 6
	}
	random := rand.New(rand.NewPCG(1, 2))
	for range times {
		parent := t.TempDir()
		dir := filepath.Join(parent, "out")
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), writerFolder+"="+dir)
		var said strings.Builder
		cmd.Stderr = &said
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.IntN(150)) * time.Millisecond)
		cmd.Process.Kill()
		cmd.Wait()
		if said.Len() > 0 {
			t.Fatal(said.String())
		}
		if entries, err := os.ReadDir(dir); err == nil {
			seen := map[string]bool{}
			count := 0
			for _, e := range entries {
				if !strings.HasSuffix(e.Name(), ".csv") {
					continue
				}
				count++
				data, _ := os.ReadFile(filepath.Join(dir, e.Name()))
				text, whole := strings.CutSuffix(string(data), "end")
				if !whole || strings.Count(text, "\n") != 2000 {
					t.Errorf("%s is half a file", e.Name())
				}
				first, _, _ := strings.Cut(text, "\n")
				seen[first] = true
			}
			if count != 8 || len(seen) > writings {
				t.Errorf("%d files of the writings %v", count, seen)
			}
		}
		if err := (Policy{}).CheckFolder(dir); err != nil {
			t.Error(err)
		}
		if err := (Policy{}).WriteFolder(t.Context(), dir, many(-1)); err != nil {
			t.Error(err)
		}
		if names := append(left(t, dir), left(t, parent)...); len(names) > 0 {
			t.Errorf("left: %v", names)
		}
	}
}
