package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/questions"
)

// atOnce is how soon a command must have ended after Ctrl-C: it takes half a second at
// most where nothing else runs, and the machine of the test may be busy.
const atOnce = 3 * time.Second

// interruptAfter starts the program in a folder, presses Ctrl-C after a while, and
// returns how long it took to end, false if it had ended before. It must end as
// interrupted.
func interruptAfter(t *testing.T, cmd *exec.Cmd, after time.Duration) (took time.Duration, ok bool) {
	t.Helper()
	var errs bytes.Buffer
	if cmd.Stderr == nil {
		cmd.Stderr = &errs
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	time.Sleep(after)
	since := time.Now()
	cmd.Process.Signal(syscall.SIGINT)
	defer time.AfterFunc(5*atOnce, func() { cmd.Process.Kill() }).Stop()
	err := cmd.Wait()
	took = time.Since(since)
	var exit *exec.ExitError
	if err == nil { // all was done
		return took, false
	}
	if !errors.As(err, &exit) {
		t.Fatal(err)
	}
	// A program that does not listen yet is ended by the system: 130 to a shell as well.
	by := exit.Sys().(syscall.WaitStatus)
	if status := exit.ExitCode(); status != exitInterrupted && !(by.Signaled() && by.Signal() == syscall.SIGINT) {
		t.Errorf("%v after %v: status %d: %q", cmd.Args[1:], after, status, errs.String())
	}
	return took, true
}

// large is the largest of the built-in plants, with seventeen times the cake and 400
// vessels; swinging is the demo with lots that get water only in turn, so that no load
// is like the one before it.
func large(t *testing.T) string {
	text := string(examples.Data("pellwick"))
	for _, edit := range [][2]string{
		{`dry_per_day: [\d.]+ short ton/day`, "dry_per_day: 36 short ton/day"}, {`capacity_dry: .*`, "capacity_dry: 240 short ton"},
		{`installed: .*`, "installed: 400"}, {`room_for: .*`, "room_for: 900"}, {`  pad: .*`, "  pad: 80,000 yd3"},
		{`throughput: .*`, "throughput: 1,000 yd3/h"}, {`reorder_at: .*`, "reorder_at: 8,000 yd3"}, {`order_up_to: .*`, "order_up_to: 22,000 yd3"},
		{`truckload: .*`, "truckload: 1,000 yd3"}, {`batch_volume: .*`, "batch_volume: 100 yd3"}, {`batch_scale: .*`, "batch_scale: 150,000 lb"},
		{`store: .*`, "store: 100,000 yd3"},
	} {
		key := regexp.MustCompile(`(?m)` + edit[0] + `$`)
		if !key.MatchString(text) {
			key = regexp.MustCompile(edit[0])
		}
		if !key.MatchString(text) {
			t.Fatalf("no %s in the file", edit[0])
		}
		text = key.ReplaceAllString(text, edit[1])
	}
	return text
}

func swinging(t *testing.T) string {
	return replaced(t, string(examples.Data(examples.Demo)), "\ncuring:\n", "\ncuring:\n  rewet: {below: 52 %, up_to: 56 %}\n")
}

// Ctrl-C ends every question within a second, at whatever moment, on the demo, on a
// plant of 400 vessels and on one whose steady load swings; the status is that of an
// interrupted program, and of the files there are none, or all.
func TestEveryQuestionEndsAtOnce(t *testing.T) {
	dir := t.TempDir()
	plants := []string{examples.Demo}
	if !testing.Short() {
		write(t, filepath.Join(dir, "large.yaml"), large(t))
		write(t, filepath.Join(dir, "swinging.yaml"), swinging(t))
		plants = append(plants, "large.yaml", "swinging.yaml")
	}
	own := len(contents(t, dir))
	slowest, interrupted := time.Duration(0), 0
	for _, plant := range plants {
		if plant != examples.Demo {
			if out, err := exec.Command(binary, "check", filepath.Join(dir, plant)).CombinedOutput(); err != nil {
				t.Fatalf("%s: %s", plant, out)
			}
		}
		for _, q := range questions.All {
			moments := []time.Duration{1500 * time.Millisecond}
			if plant == examples.Demo {
				moments = []time.Duration{100 * time.Millisecond, 600 * time.Millisecond}
			}
			for _, after := range moments {
				args := []string{q.Name, plant, "--out", "out"}
				if q.Name == "cycle" {
					args = append(args, "--month", "all")
				}
				if q.Simulates { // and does not find
					args = append(args, "--no-cache")
				}
				cmd := exec.Command(binary, args...)
				cmd.Dir = dir
				took, ok := interruptAfter(t, cmd, after)
				if !ok {
					if err := os.RemoveAll(filepath.Join(dir, "out")); err != nil {
						t.Fatal(err)
					}
					break // it takes no longer
				}
				interrupted++
				slowest = max(slowest, took)
				if took > atOnce {
					t.Errorf("%s on %s after %v: it took %v to end", q.Name, plant, after, took)
				}
				if files := contents(t, dir); len(files) != own {
					t.Errorf("%s on %s after %v: it left %d files", q.Name, plant, after, len(files)-own)
				}
			}
		}
	}
	t.Logf("%d interrupted, the slowest took %v", interrupted, slowest.Round(time.Millisecond))
	if interrupted < len(questions.All) {
		t.Errorf("only %d were interrupted", interrupted)
	}
}

// A command ends as soon where nobody reads what it has to say.
func TestInterruptedThoughNobodyReads(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	if err := w.SetWriteDeadline(time.Now().Add(200 * time.Millisecond)); err != nil {
		t.Fatal(err)
	}
	w.Write([]byte(strings.Repeat("x", 1<<20))) // until the pipe is full
	cmd := exec.Command(binary, "run", examples.Demo, "--replications", "5000", "--out", "out")
	cmd.Dir, cmd.Stderr = t.TempDir(), w
	if took, ok := interruptAfter(t, cmd, time.Second); !ok || took > atOnce {
		t.Errorf("it took %v; interrupted: %v", took, ok)
	}
}
