package main

import (
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

func main() {
	list := flag.String("faults", ".ci/mutants/faults.txt", "the list of faults")
	only := flag.String("only", "", "plant only faults whose name or file matches this regular expression")
	check := flag.Bool("check", false, "only see that the text of each fault is in its file exactly once")
	flag.Parse()

	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := run(ctx, *list, *only, *check); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(ctx context.Context, list, only string, check bool) error {
	wanted, err := regexp.Compile(only)
	if err != nil {
		return err
	}
	text, err := os.ReadFile(list)
	if err != nil {
		return err
	}
	faults, err := parse(string(text))
	if err != nil {
		return fmt.Errorf("%s:%w", list, err)
	}
	var errs []error
	for _, f := range faults {
		if _, err := f.planted(); err != nil {
			errs = append(errs, fmt.Errorf("%s:%d: %s: %w", list, f.line, f.name, err))
		}
	}
	if check || len(errs) > 0 {
		return errors.Join(errs...)
	}
	return plantAll(ctx, faults, wanted)
}

// plantAll plants the faults that are wanted and tells what became of each.
func plantAll(ctx context.Context, faults []fault, wanted *regexp.Regexp) error {
	sound := map[string]bool{} // the tests that pass without any fault
	planted, killed, allowed := 0, 0, 0
	var wrong []string
	for _, f := range faults {
		if !wanted.MatchString(f.name) && !wanted.MatchString(f.file) {
			continue
		}
		if tests := f.tests + " " + f.run; !sound[tests] {
			if out, err := f.test(ctx, ""); err != nil || strings.Contains(out, "no tests to run") {
				return fmt.Errorf("%s: its tests do not pass without any fault, or there are none:\n%s", f.name, out)
			}
			sound[tests] = true
		}
		began := time.Now()
		verdict, err := f.plant(ctx)
		if err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		planted++
		switch {
		case verdict == dead:
			killed++
		case f.allowed != "":
			verdict += " (allowed: " + f.allowed + ")"
			allowed++
		default:
			wrong = append(wrong, f.name)
		}
		fmt.Printf("%-10s %5.1f s  %s: %s\n", verdict, time.Since(began).Seconds(), f.file, f.name)
	}
	fmt.Printf("%d planted, %d killed, %d allowed to survive\n", planted, killed, allowed)
	if len(wrong) > 0 {
		return fmt.Errorf("survived or did not compile: %s", strings.Join(wrong, "; "))
	}
	return nil
}

// What becomes of a fault.
const (
	dead    = "killed"
	alive   = "SURVIVED"
	invalid = "NO BUILD"
)

// plant runs the tests of a fault with it in place.
func (f fault) plant(ctx context.Context) (verdict string, err error) {
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	text, err := f.planted()
	if err != nil {
		return "", err
	}
	copied := filepath.Join(dir, filepath.Base(f.file))
	if err := os.WriteFile(copied, []byte(text), 0o600); err != nil {
		return "", err
	}
	original, err := filepath.Abs(f.file)
	if err != nil {
		return "", err
	}
	overlay, err := json.Marshal(map[string]map[string]string{"Replace": {original: copied}})
	if err != nil {
		return "", err
	}
	instead := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(instead, overlay, 0o600); err != nil {
		return "", err
	}
	out, err := f.test(ctx, instead)
	switch {
	case ctx.Err() != nil:
		return "", ctx.Err()
	case strings.Contains(out, "[build failed]") || strings.Contains(out, "[setup failed]"):
		fmt.Println(out)
		return invalid, nil
	case err != nil:
		return dead, nil
	}
	return alive, nil
}

// test runs the tests of a fault, with an overlay or without. A test that builds the
// program builds it with the overlay too. A test that hangs is ended after some
// minutes and counts as failed.
func (f fault) test(ctx context.Context, overlay string) (out string, err error) {
	args := []string{"test", "-vet=off", "-failfast", "-timeout=5m"}
	if f.run != "" {
		args = append(args, "-run="+f.run)
	}
	tests := exec.CommandContext(ctx, "go", append(args, strings.Fields(f.tests)...)...)
	if overlay != "" {
		tests.Env = append(os.Environ(), fmt.Sprintf("GOFLAGS=%s '-overlay=%s'", os.Getenv("GOFLAGS"), overlay))
	}
	text, err := tests.CombinedOutput()
	return string(text), err
}
