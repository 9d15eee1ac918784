package cache

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"testing"
	"time"

	"loamcast/facility/process"
)

const keeperFolder = "LOAMCAST_TEST_KEEP_FOREVER"

// TestMain is also the program that TestKilledWhileKeeping kills.
func TestMain(m *testing.M) {
	if dir := os.Getenv(keeperFolder); dir != "" {
		if err := keepForever(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// keepForever keeps the same table and the same runs again and again.
func keepForever(dir string) error {
	for {
		c, err := Open(dir)
		if err != nil {
			return err
		}
		r := pad()
		c.Keep(r)
		for i := range 3 {
			var s process.Response
			p := load(i)
			if err := r.Of(&s, &p, time.June); err != nil {
				return err
			}
		}
		for run := range 3 {
			c.Runs().Keep(name(run), left(run))
		}
		if err := c.Save(); err != nil {
			return err
		}
		if err := Clear(dir); err != nil {
			return err
		}
	}
}

// Killed at any moment, a process leaves no file that is not whole under the name of one.
func TestKilledWhileKeeping(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	want := after(t, pad(), 0, 1, 2)
	for range 12 {
		dir := t.TempDir()
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), keeperFolder+"="+dir)
		cmd.Stderr = os.Stderr
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.IntN(150)) * time.Millisecond)
		cmd.Process.Kill()
		cmd.Wait()
		c, r := open(t, dir), pad()
		c.Keep(r)
		if kept := c.tables[r]; kept.damaged.Load() {
			t.Error("a part is damaged")
		}
		if got := after(t, r, 0, 1, 2); !slices.Equal(got, want) {
			t.Errorf("%v, not %v", got, want)
		}
		askOpen(t, c.Runs(), 0, 1, 2)
		if err := c.Save(); err != nil {
			t.Error(err)
		}
	}
}
