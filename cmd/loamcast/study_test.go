package main

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/examples"
)

// recordsIn counts the replications that a share has left.
func recordsIn(dir string) int {
	found, _ := filepath.Glob(filepath.Join(dir, "replication-*.record"))
	return len(found)
}

// killed starts a share, kills it once it has left two of its eight replications, and
// returns how many it left. On a machine that is busy elsewhere a share may be done before
// it is looked at: then it begins again.
func killed(t *testing.T, dir string, args []string) (left int) {
	t.Helper()
	folder := filepath.Join(dir, args[len(args)-1])
	for range 10 {
		cmd := exec.CommandContext(t.Context(), binary, args...)
		cmd.Dir = dir
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		for recordsIn(folder) < 2 && t.Context().Err() == nil {
			time.Sleep(2 * time.Millisecond)
		}
		cmd.Process.Kill()
		cmd.Wait()
		if left = recordsIn(folder); left < 8 {
			return left
		}
		if err := os.RemoveAll(folder); err != nil {
			t.Fatal(err)
		}
	}
	t.Fatal("the share is always done before it is killed")
	return left
}

// A share that is killed goes on with what it has, and the answer of all shares is, on
// screen, in JSON and in every file, to the byte that of one process.
func TestStudyThatWasKilled(t *testing.T) {
	const replications = "16"
	dir := t.TempDir()
	write(t, filepath.Join(dir, "plant.yaml"), string(examples.Data(examples.Demo)))
	share := func(i int) []string {
		return []string{"study", "plant.yaml", "--replications", replications, "--seed", "5", "--shard", fmt.Sprintf("%d/2", i), "--out", fmt.Sprintf("study/%d", i)}
	}
	left := killed(t, dir, share(1))
	if status, stdout, stderr := process(t, dir, share(2)...); status != exitOK || stderr != "" || stdout != "Share 2/2 is in study/2: 8 replications simulated, 0 were there\n" {
		t.Errorf("status %d, %q, %q", status, stdout, stderr)
	}
	status, stdout, stderr := process(t, dir, "merge", "study/1", "study/2")
	if status != exitBadInput || stdout != "" || !strings.Contains(stderr, fmt.Sprintf("%d of 16 replications are missing", 8-left)) {
		t.Errorf("before it goes on: status %d, %q, %q", status, stdout, stderr)
	}
	status, stdout, stderr = process(t, dir, append(share(1), "--resume")...)
	if want := fmt.Sprintf("Share 1/2 is in study/1: %d replications simulated, %d were there\n", 8-left, left); status != exitOK || stderr != "" || stdout != want {
		t.Errorf("status %d, %q, %q, not %q", status, stdout, stderr, want)
	}
	status, stdout, stderr = process(t, dir, "merge", "study/1", "study/2", "--quarter", "1931-07")
	if want := "loamcast: --quarter 1931-07: the months simulated let three begin from"; status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, want) {
		t.Errorf("a quarter before the horizon: status %d, %q, %q, not %q", status, stdout, stderr, want)
	}
	for _, more := range [][]string{{"--out", "answer"}, {"--json", "--units", "si", "--quarter", "2031-07"}} {
		status, want, stderr := process(t, dir, append([]string{"run", "plant.yaml", "--replications", replications, "--seed", "5"}, more...)...)
		if status != exitOK || stderr != "" {
			t.Fatalf("status %d, %q", status, stderr)
		}
		files := contents(t, filepath.Join(dir, "answer"))
		status, got, stderr := process(t, dir, append([]string{"merge", "study/1", "study/2"}, more...)...)
		if status != exitOK || stderr != "" || got != want {
			t.Errorf("%v: status %d, %q; put together it is\n%s\nand not\n%s", more, status, stderr, got, want)
		}
		if !maps.Equal(contents(t, filepath.Join(dir, "answer")), files) {
			t.Error("put together it leaves other files")
		}
	}
}

// The examples for schedulers do what they say: each job of the array simulates its share.
func TestSchedulers(t *testing.T) {
	read := func(name string) string {
		data, err := os.ReadFile(filepath.Join("../../testdata/cluster", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	const shares = 2
	script := read("slurm.sh")
	if !strings.Contains(script, "#SBATCH --array=1-40\n") {
		t.Error("the array does not begin with share 1")
	}
	job := read("kubernetes.yaml")
	args := regexp.MustCompile(`(?s)- >-\n(.*?)\n +resources:`).FindStringSubmatch(job)
	if args == nil || !strings.Contains(job, "completionMode: Indexed\n  completions: 40\n") {
		t.Fatal("the job has no arguments, or not as many indices as shares")
	}
	for name, run := range map[string]func(dir string, i int) *exec.Cmd{
		"Slurm": func(dir string, i int) *exec.Cmd {
			cmd := exec.CommandContext(t.Context(), "bash", "-c", script)
			cmd.Env = append(cmd.Environ(), "PLANT=plant/plant.yaml", "REPLICATIONS=3", fmt.Sprint("SLURM_ARRAY_TASK_ID=", i+1),
				fmt.Sprint("SLURM_ARRAY_TASK_COUNT=", shares), "SLURM_CPUS_PER_TASK=1")
			return cmd
		},
		"Kubernetes": func(dir string, i int) *exec.Cmd {
			text := strings.NewReplacer("/plant/", "plant/", "/study/", "study/", "10000", "3", "/40", fmt.Sprint("/", shares)).Replace(args[1])
			cmd := exec.CommandContext(t.Context(), "/bin/sh", "-c", strings.Join(strings.Fields(text), " "))
			cmd.Env = append(cmd.Environ(), fmt.Sprint("JOB_COMPLETION_INDEX=", i))
			return cmd
		},
	} {
		dir := t.TempDir()
		if err := os.Mkdir(filepath.Join(dir, "plant"), 0o755); err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(dir, "plant/plant.yaml"), string(examples.Data(examples.Demo)))
		for i := range shares {
			cmd := run(dir, i)
			cmd.Dir = dir
			cmd.Env = append(cmd.Env, "PATH="+filepath.Dir(binary)+":"+os.Getenv("PATH"))
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Fatalf("%s: %v: %s", name, err, out)
			}
		}
		if status, stdout, stderr := process(t, dir, "merge", "study/1", "study/2"); status != exitOK || stdout == "" {
			t.Errorf("%s: status %d, %q", name, status, stderr)
		}
	}
}

// Mistakes about shares give status 2, nothing on standard output and nothing written.
func TestStudyMistakes(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "study")
	for want, args := range map[string][]string{
		"loamcast: say which share this is with --shard": {"study", "--out", dir},
		`loamcast: --shard "0/2": of 1 to`:               {"study", "--shard", "0/2", "--out", dir},
		"loamcast: --replications 0: it must be from 1":  {"study", "--shard", "1/2", "--replications", "0", "--out", dir},
		"loamcast: requires at least 1 arg(s)":           {"merge"},
		"loamcast: " + dir + ": there is no such folder": {"merge", dir},
	} {
		status, stdout, stderr := program(t.Context(), args...)
		if status != exitBadInput || stdout != "" || !strings.HasPrefix(stderr, want) {
			t.Errorf("%v: status %d, %q, %q, not %q", args, status, stdout, stderr, want)
		}
		if _, err := os.Stat(dir); err == nil {
			t.Errorf("%v: it has written", args)
		}
	}
}
