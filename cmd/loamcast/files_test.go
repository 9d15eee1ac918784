package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/spf13/cobra"

	"loamcast/sim"
	"loamcast/sim/replicate"
)

// Results never replace the facility file, and other files only by force: the
// status is 2, said before anything is computed, and the file stands.
func TestResultsReplaceNothing(t *testing.T) {
	small := readSmall(t)
	for _, c := range []struct {
		name, want string
		args       []string
	}{
		{"trace over the input", "it is the input plant.yaml", []string{"--trace", "plant.yaml", "--force"}},
		{"trace over a link to it", "it is the input plant.yaml", []string{"--trace", "link", "--force"}},
		{"trace over a file", "it is not ours", []string{"--trace", "mine/notes.txt"}},
		{"folder with files", "not in this folder", []string{"--out", "mine"}},
		{"a file for a folder", "not a folder", []string{"--out", "plant.yaml", "--force"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Chdir(t.TempDir())
			write(t, "plant.yaml", small)
			if err := errors.Join(os.Mkdir("mine", 0o755), os.Symlink("plant.yaml", "link")); err != nil {
				t.Fatal(err)
			}
			write(t, "mine/notes.txt", "notes")
			before := contents(t, ".")
			status, stdout, stderr := program(t.Context(), append([]string{"run", "plant.yaml"}, c.args...)...)
			if status != exitBadInput || stdout != "" || !strings.Contains(stderr, c.want) {
				t.Errorf("status %d, %q, %q", status, stdout, stderr)
			}
			after := contents(t, ".")
			for name, text := range before {
				if after[name] != text {
					t.Errorf("%s has changed", name)
				}
			}
			if len(after) != len(before) {
				t.Errorf("%d files, were %d", len(after), len(before))
			}
		})
	}
}

// A second run replaces results and trace of the first, and with --force those
// that have been changed.
func TestResultsReplaceResults(t *testing.T) {
	small := readSmall(t)
	t.Chdir(t.TempDir())
	write(t, "plant.yaml", small)
	args := []string{"run", "plant.yaml", "--replications", "1", "--out", "out", "--trace", "out/trace.csv"}
	for range 2 {
		if status, _, stderr := program(t.Context(), args...); status != exitOK {
			t.Fatalf("status %d, %q", status, stderr)
		}
	}
	write(t, "out/years.csv", "mine")
	if status, _, stderr := program(t.Context(), args...); status != exitBadInput || !strings.Contains(stderr, "changed since") {
		t.Errorf("status %d, %q", status, stderr)
	}
	if status, _, stderr := program(t.Context(), append(args, "--force")...); status != exitOK {
		t.Errorf("status %d, %q", status, stderr)
	}
}

// What could hang or is no file is refused at once, and standard input is read.
func TestInputKinds(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{pipe: "this is a pipe", "/dev/zero": "this is a device", dir: "this is a folder"} {
		status, stdout, stderr := process(t, dir, "check", name)
		if status != exitBadInput || stdout != "" || !strings.Contains(stderr, want) {
			t.Errorf("%s: status %d, %q, %q", name, status, stdout, stderr)
		}
	}
	cmd := exec.Command(binary, "check", "-")
	cmd.Stdin = strings.NewReader(readSmall(t))
	if out, err := cmd.CombinedOutput(); err != nil || !strings.Contains(string(out), "The file can be used (") {
		t.Errorf("standard input: %v, %q", err, out)
	}
}

// The first signal ends every command within a second or so, with the status of
// the signal, and leaves no file.
func TestSignals(t *testing.T) {
	for _, c := range []struct {
		name   string
		signal syscall.Signal
		status int
		args   []string
	}{
		{"run", syscall.SIGTERM, exitTerminated, []string{"run", "--replications", "5000", "--out", "out"}},
		{"run", syscall.SIGINT, exitInterrupted, []string{"run", "--replications", "5000", "--out", "out"}},
		{"check on a pipe", syscall.SIGTERM, exitTerminated, []string{"check", "-"}},
		{"check on a pipe", syscall.SIGINT, exitInterrupted, []string{"check", "-"}},
		{"cycle", syscall.SIGTERM, exitTerminated, []string{"cycle", "--month", "all", "--days", "300", "--out", "out"}},
		{"plan", syscall.SIGTERM, exitTerminated, []string{"plan", "--out", "out"}},
	} {
		t.Run(c.name+" "+c.signal.String(), func(t *testing.T) {
			dir := t.TempDir()
			cmd := exec.Command(binary, c.args...)
			cmd.Dir = dir
			var errs bytes.Buffer
			cmd.Stderr = &errs
			in, err := cmd.StdinPipe() // nobody writes to it
			if err != nil {
				t.Fatal(err)
			}
			defer in.Close()
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(400 * time.Millisecond)
			since := time.Now()
			cmd.Process.Signal(c.signal)
			status := finish(t, cmd.Wait())
			if took := time.Since(since); took > 5*time.Second { // a busy machine is slow
				t.Errorf("it took %v", took)
			}
			if status != c.status || !strings.Contains(errs.String(), "interrupted") {
				t.Errorf("status %d, want %d: %q", status, c.status, errs.String())
			}
			if files := contents(t, dir); len(files) > 0 {
				t.Errorf("left %d files", len(files))
			}
		})
	}
}

// A panic is told as a fault of the program, with version, command and stack,
// and never with the status of a bad file: on the command's own goroutine, in a
// job of many, and in an event of a run.
func TestFault(t *testing.T) {
	job := func() error {
		_, err := replicate.Run(t.Context(), 3, 2, func(_ context.Context, _ int) (int, error) { panic("planted") }, nil)
		return err
	}
	for name, run := range map[string]func() error{
		"command": func() error { panic("planted") },
		"job":     job,
		"event":   func() error { return &sim.RunError{Err: &sim.PanicError{Value: "planted", Stack: "goroutine 1"}} },
	} {
		root := &cobra.Command{SilenceErrors: true, SilenceUsage: true, RunE: func(*cobra.Command, []string) error { return run() }}
		root.SetArgs([]string{})
		err := guarded(t.Context(), root)
		var b bytes.Buffer
		reportFault(&b, []string{"run"}, err)
		if exitStatus(err) != exitFault {
			t.Errorf("%s: status %d: %v", name, exitStatus(err), err)
		}
		for _, want := range []string{version, `["run"]`, "planted", "goroutine", "report"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%s: %q is missing in %s", name, want, b.String())
			}
		}
	}
}
