package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"loamcast/scenarios/cache"
	"loamcast/scenarios/page/drafts"
)

// binary is the built program, for tests that need a process of its own.
var binary string

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "loamcast")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	binary = filepath.Join(dir, "loamcast")
	os.Setenv(cache.Variable, filepath.Join(dir, "cache")) // and not the user's
	os.Setenv(drafts.Variable, filepath.Join(dir, "drafts"))
	status := 1
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "building the program: %v\n%s", err, out)
	} else {
		status = m.Run()
	}
	os.RemoveAll(dir)
	os.Exit(status)
}

// process runs the built program to its end in a folder.
func process(t *testing.T, dir string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	cmd := exec.CommandContext(t.Context(), binary, args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = dir, &out, &errs
	return finish(t, cmd.Run()), out.String(), errs.String()
}

// finish returns the exit status that an error of exec stands for.
func finish(t *testing.T, err error) int {
	t.Helper()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	if exit != nil {
		return exit.ExitCode()
	}
	return exitOK
}

// contents reads all files below a folder, by name.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		files[strings.TrimPrefix(path, dir+string(filepath.Separator))] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// The same file, seed and version give the same bytes, on screen and in every
// file of --out, whatever the number of workers and whichever process does it;
// another seed gives others.
func TestSameBytes(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "plant.yaml"), readSmall(t))
	type result struct {
		screen string
		files  map[string]string
	}
	run := func(name string, args ...string) result {
		out := filepath.Join(dir, name)
		status, stdout, stderr := process(t, dir, append([]string{"run", "plant.yaml", "--json", "--out", out}, args...)...)
		if status != exitOK || stderr != "" {
			t.Fatalf("%s: status %d: %s", name, status, stderr)
		}
		return result{stdout, contents(t, out)}
	}
	one := run("one", "--workers", "1")
	if len(one.files) < 15 || one.files["run.json"] != one.screen {
		t.Errorf("%d files; the answer on screen and in run.json agree: %v", len(one.files), one.files["run.json"] == one.screen)
	}
	for name, other := range map[string]result{"two workers": run("two", "--workers", "2"), "again": run("again", "--workers", "1")} {
		if other.screen != one.screen {
			t.Errorf("%s: the answer on screen differs", name)
		}
		if len(other.files) != len(one.files) {
			t.Errorf("%s: %d files, want %d", name, len(other.files), len(one.files))
		}
		for file, content := range one.files {
			if other.files[file] != content {
				t.Errorf("%s: %s differs", name, file)
			}
		}
	}
	seven := run("seven", "--seed", "7")
	for _, file := range []string{"run.json", "years.csv", "months.csv", "vessels-in-use.svg"} {
		if seven.files[file] == one.files[file] {
			t.Errorf("%s does not depend on the seed", file)
		}
	}
}

// The flags override the file, and --units decides how results are shown.
func TestFlagsOverrideTheFile(t *testing.T) {
	screens := map[string]string{}
	for _, system := range []string{"us", "si"} {
		status, stdout, stderr := program(t.Context(), "run", smallFile, "--units", system, "--replications", "1", "--seed", "3")
		if status != exitOK || stderr != "" {
			t.Fatalf("status %d: %s", status, stderr)
		}
		if !strings.Contains(stdout, "1 replication, seed 3") {
			t.Errorf("the screen does not name what the flags ask for:\n%s", stdout)
		}
		screens[system] = stdout
	}
	if !strings.Contains(screens["us"], "yd3") || strings.Contains(screens["si"], "yd3") || !strings.Contains(screens["si"], "m3") {
		t.Errorf("--units does not decide the units:\n%s\n%s", screens["us"], screens["si"])
	}
}

// Ctrl-C ends a run with status 130, and a request to end with 143; nothing is written.
func TestInterrupted(t *testing.T) {
	for signal, want := range map[syscall.Signal]int{syscall.SIGINT: exitInterrupted, syscall.SIGTERM: exitTerminated} {
		t.Run(signal.String(), func(t *testing.T) {
			dir := t.TempDir()
			// The warning of this file shows that the run has begun; it has
			// enough replications for half an hour.
			write(t, filepath.Join(dir, "plant.yaml"), replaced(t, readSmall(t), "chips_to_cake: 2.5", "chips_to_cake: 1.8"))
			cmd := exec.CommandContext(t.Context(), binary, "run", "plant.yaml", "--replications", "100000", "--out", "results")
			var out bytes.Buffer
			cmd.Dir, cmd.Stdout = dir, &out
			pipe, err := cmd.StderrPipe()
			if err != nil {
				t.Fatal(err)
			}
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			messages := bufio.NewReader(pipe)
			if line, err := messages.ReadString('\n'); err != nil || !strings.Contains(line, "warning") {
				t.Fatalf("%q, %v", line, err)
			}
			if err := cmd.Process.Signal(signal); err != nil {
				t.Fatal(err)
			}
			rest, err := io.ReadAll(messages)
			if err != nil {
				t.Fatal(err)
			}
			if status := finish(t, cmd.Wait()); status != want {
				t.Errorf("status %d, want %d", status, want)
			}
			if want := "loamcast: interrupted; no file is half-written\n"; !strings.HasSuffix(string(rest), want) || out.Len() != 0 {
				t.Errorf("standard error %q, want %q at its end; standard output %q", rest, want, out.String())
			}
			if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
				t.Errorf("something was written: %v, %v", entries, err)
			}
		})
	}
}

// A context that ends, before or during a run, does the same.
func TestCancelled(t *testing.T) {
	for _, after := range []time.Duration{0, 200 * time.Millisecond} {
		out := filepath.Join(t.TempDir(), "results")
		ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
		time.AfterFunc(after, cancel)
		status, stdout, stderr := program(ctx, "run", "pellwick", "--replications", "10000", "--out", out)
		if status != exitInterrupted || stdout != "" || !strings.Contains(stderr, "interrupted; no file is half-written") {
			t.Errorf("after %v: status %d, %q, %q", after, status, stdout, stderr)
		}
		if _, err := os.Stat(out); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("after %v: the output folder is there (%v)", after, err)
		}
	}
}

// A place that cannot be a folder is bad input, status 2; results that cannot be
// written for another reason give status 1. Either way the message names the
// place, and there are no results on the screen.
func TestUnwritableOutput(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "plant.yaml"), readSmall(t))
	write(t, filepath.Join(dir, "file"), "in the way")
	closed := filepath.Join(dir, "closed")
	if err := os.Mkdir(closed, 0o555); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, out string
		status    int
		says      string
	}{
		{"below a file", "file/results", exitBadInput, "file is in the way and is not overwritten: it is not a folder"},
		{"in a closed folder", "closed/results", exitFailed, "output folder: closed/results: permission denied"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			cmd := exec.CommandContext(t.Context(), binary, "run", "plant.yaml", "--replications", "1", "--out", c.out)
			cmd.Dir, cmd.Stdout, cmd.Stderr = dir, &out, &errs
			asNobody(t, cmd)
			if status := finish(t, cmd.Run()); status != c.status {
				t.Errorf("status %d, want %d", status, c.status)
			}
			message := errs.String()
			if message != "loamcast: "+c.says+"\n" {
				t.Errorf("unclear message: %q", message)
			}
			if out.Len() != 0 {
				t.Errorf("results were shown: %q", out.String())
			}
		})
	}
	if files := contents(t, dir); len(files) != 2 {
		t.Errorf("%d files are there, want 2", len(files))
	}
}

// asNobody lets a command run without the privileges of root, whom no folder
// refuses, and opens the way to the program and to its folder.
func asNobody(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	if os.Geteuid() != 0 {
		return
	}
	const nobody = 65534
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	for _, dir := range []string{filepath.Dir(binary), cmd.Dir, filepath.Dir(cmd.Dir)} {
		if err := os.Chmod(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
}
