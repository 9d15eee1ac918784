package sim

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// log is a list of what happened when: "12 name".
type log struct {
	k     *Kernel
	lines []string
}

func (l *log) say(what string) { l.lines = append(l.lines, fmt.Sprintf("%d %s", l.k.Now(), what)) }

// job is a job that logs its start and end.
func (l *log) job(name string, priority int, service Duration) Job {
	return Job{
		Priority: priority,
		Service:  service,
		Started:  func() { l.say(name + " starts") },
		Done:     func() { l.say(name + " done") },
	}
}

func (l *log) check(t *testing.T, want ...string) {
	t.Helper()
	if !slices.Equal(l.lines, want) {
		t.Errorf("got\n  %s\nwant\n  %s", strings.Join(l.lines, "\n  "), strings.Join(want, "\n  "))
	}
}

// newTestServer returns a server, and a log for its customers.
func newTestServer(t *testing.T, cfg ServerConfig) (*Kernel, *Server, *log) {
	k := newTestKernel(t)
	cfg.Name = "server"
	return k, NewServer(k, cfg), &log{k: k}
}

// Shows the order of service: lowest priority number first, then arrival.
func TestServerOrder(t *testing.T) {
	k, s, l := newTestServer(t, ServerConfig{Capacity: 1})
	s.Submit(l.job("a", 5, 10))
	s.Submit(l.job("b", 5, 10))
	s.Submit(l.job("c", 1, 10))
	s.Submit(l.job("d", 5, 10))
	s.Submit(l.job("e", 1, 0))
	mustRun(t, k, 100)
	l.check(t, "0 a starts", "10 c starts", "10 a done", "20 e starts", "20 c done",
		"20 b starts", "20 e done", "30 d starts", "30 b done", "40 d done")
	if s.busy != 0 || s.Free() != 1 {
		t.Errorf("%d busy, %d free afterwards", s.busy, s.Free())
	}
}

// Shows that a unit can be held for as long as one likes, that it is granted in
// the middle of the call when free, and that a release nobody is due fails.
func TestSeizeAndRelease(t *testing.T) {
	k, s, l := newTestServer(t, ServerConfig{Capacity: 1})
	k.At(1, "first", func() {
		s.Seize(0, func() { l.say("first") })
		l.say("after the call")
		s.Seize(0, func() { l.say("second") })
		s.Submit(l.job("job", 0, 3))
	})
	k.At(5, "release", s.Release)
	k.At(9, "release", s.Release)
	k.At(13, "release", s.Release)
	if err := k.Run(t.Context(), 20); err == nil || !strings.Contains(err.Error(), "nobody holds") {
		t.Errorf("error %v", err)
	}
	l.check(t, "1 first", "1 after the call", "5 second", "9 job starts", "12 job done")
}

// Shows that a release in a callback serves a long queue without a deep stack:
// 200,000 customers who leave at once.
func TestQueueIsNotRecursion(t *testing.T) {
	_, s, _ := newTestServer(t, ServerConfig{Capacity: 1})
	served := 0
	s.Seize(0, func() {})
	for range 200_000 {
		s.Seize(0, func() { served++; s.Release() })
	}
	s.Release()
	if served != 200_000 || s.busy != 0 {
		t.Errorf("served %d, %d busy", served, s.busy)
	}
}

// Shows what a limit on the queue turns away.
func TestQueueLimit(t *testing.T) {
	for _, tc := range []struct {
		limit, accepted int
	}{{0, 10}, {NoQueue, 2}, {3, 5}} {
		k, s, l := newTestServer(t, ServerConfig{Capacity: 2, QueueLimit: tc.limit})
		accepted := 0
		for range 10 {
			if s.Submit(l.job("", 0, 5)) {
				accepted++
			}
		}
		if accepted != tc.accepted {
			t.Errorf("limit %d: accepted %d, want %d", tc.limit, accepted, tc.accepted)
		}
		mustRun(t, k, 1000)
		if !s.Submit(l.job("", 0, 5)) {
			t.Errorf("limit %d: an idle server turns away", tc.limit)
		}
	}
}

// shifts opens at 100 minutes and closes at 200 minutes of every day, but not on
// the second day.
var shifts = sync.OnceValue(func() *calendar.Work {
	shift := []calendar.Shift{{Open: 100, Close: 200}}
	w, err := calendar.NewWork(calendar.Clock{Start: testStart},
		calendar.Week{shift, shift, shift, shift, shift, shift, shift}, calendar.OnDate(testStart.AddDays(1)))
	if err != nil {
		panic(err)
	}
	return w
})

// Shows both rules at a shift's end, and waiting for the opening over a day off.
func TestShiftRules(t *testing.T) {
	day := func(d, minute int) string { return fmt.Sprint(d*1440*60 + minute*60) }
	for _, tc := range []struct {
		rule ShiftRule
		busy float64 // minutes that a unit is occupied, a paused job's included
		want []string
	}{
		{FinishJob, 60 + 60 + 10, []string{
			day(0, 100) + " a starts", day(0, 160) + " b starts", day(0, 160) + " a done",
			day(0, 220) + " b done", day(2, 100) + " c starts", day(2, 110) + " c done"}},
		{PauseJob, 60 + (2*1440 + 120 - 160) + 10, []string{
			day(0, 100) + " a starts", day(0, 160) + " b starts", day(0, 160) + " a done",
			day(2, 120) + " c starts", day(2, 120) + " b done", day(2, 130) + " c done"}},
	} {
		k, s, l := newTestServer(t, ServerConfig{Capacity: 1, Calendar: shifts(), Shift: tc.rule})
		busy := newBusyMeter(s)
		s.Submit(l.job("a", 0, 60*Minute))
		s.Submit(l.job("b", 0, 60*Minute))
		s.Submit(l.job("c", 0, 10*Minute))
		mustRun(t, k, Time(3*Day))
		l.check(t, tc.want...)
		if got := busy.total() / 60; got != tc.busy {
			t.Errorf("busy for %v min, want %v", got, tc.busy)
		}
	}
}

// Shows that a change of hours lets those in who wait for the old opening.
func TestSetCalendar(t *testing.T) {
	k, s, l := newTestServer(t, ServerConfig{Capacity: 1, Calendar: shifts()})
	s.Submit(l.job("a", 0, 5))
	k.At(77, "change", func() { s.SetCalendar(nil) })
	mustRun(t, k, Time(Day))
	l.check(t, "77 a starts", "82 a done")
	if k.Executed() != 2 {
		t.Errorf("%d events, want the change and the end of the job", k.Executed())
	}
}

// Shows what each rule does to a job when its unit fails at 4 and is up at 20.
func TestBreakdownInMidJob(t *testing.T) {
	for _, tc := range []struct {
		rule BreakdownRule
		want []string
	}{
		{ResumeJob, []string{"0 a starts", "4 down", "20 up", "26 b starts", "26 a done", "31 b done"}},
		{RestartJob, []string{"0 a starts", "4 down", "20 up", "30 b starts", "30 a done", "35 b done"}},
		{FinishFirst, []string{"0 a starts", "10 down", "10 a done", "20 b starts", "20 up", "25 b done"}},
	} {
		var l *log
		k, s, l2 := newTestServer(t, ServerConfig{Capacity: 1, Failure: tc.rule, OnDown: func() { l.say("down") }})
		l = l2
		s.Submit(l.job("a", 0, 10))
		s.Submit(l.job("b", 0, 5))
		k.At(4, "fail", func() {
			if !s.FailOne() || s.FailOne() {
				t.Error("one unit must fail, and no more")
			}
		})
		k.At(20, "repair", func() {
			if !s.RepairOne() || s.RepairOne() {
				t.Error("one unit must be repaired, and no more")
			}
			l.say("up")
		})
		mustRun(t, k, 50)
		l.check(t, tc.want...)
		want := 16.0
		if tc.rule == FinishFirst {
			want = 10
		}
		if got := s.DownLevel().Area(50); got != want {
			t.Errorf("rule %d: down for %v s, want %v", tc.rule, got, want)
		}
	}
}

// Shows which unit fails: a free one first, then the one that began last; and
// that a job interrupted in a paused shift keeps the work it has had.
func TestWhichUnitFails(t *testing.T) {
	k, s, l := newTestServer(t, ServerConfig{Capacity: 3})
	s.Submit(l.job("a", 0, 100))
	k.At(1, "b", func() { s.Submit(l.job("b", 0, 100)) })
	k.At(2, "fail free", func() { s.FailOne() })
	k.At(3, "fail last", func() { s.FailOne() })
	k.At(13, "repair", func() { s.RepairOne() })
	mustRun(t, k, 200)
	l.check(t, "0 a starts", "1 b starts", "100 a done", "111 b done")

	k, s, l = newTestServer(t, ServerConfig{Capacity: 1, Calendar: shifts(), Shift: PauseJob})
	s.Submit(l.job("paused", 0, 150*Minute)) // 100 on the first day, 50 on the third
	k.At(Time(Day), "fail", func() { s.FailOne() })
	k.At(Time(2*Day+110*Minute), "repair", func() { s.RepairOne() })
	mustRun(t, k, Time(3*Day))
	l.check(t, "6000 paused starts", fmt.Sprintf("%d paused done", 2*Day+160*Minute))
}

// Shows that a held unit goes down after its holder, and that a failure that
// still waits for its unit can be called off.
func TestFailureOfAHeldUnit(t *testing.T) {
	_, s, _ := newTestServer(t, ServerConfig{Capacity: 2})
	s.Seize(0, func() {})
	s.Seize(0, func() {})
	s.FailOne()
	s.FailOne()
	if s.Down() != 0 || s.Free() != -2 {
		t.Errorf("down %d, free %d", s.Down(), s.Free())
	}
	s.RepairOne()
	s.Release()
	s.Release()
	if s.Down() != 1 || s.Free() != 1 {
		t.Errorf("afterwards down %d, free %d", s.Down(), s.Free())
	}
}

// Shows that units busy beyond a lowered capacity finish first, and that nobody
// is served until enough have; and that a raise lets customers in at once.
func TestCapacityLoweredWhileBusy(t *testing.T) {
	k, s, l := newTestServer(t, ServerConfig{Capacity: 3})
	busy := newBusyMeter(s)
	for i, service := range []Duration{10, 20, 30, 5, 5} {
		s.Submit(l.job(string(rune('a'+i)), 0, service))
	}
	k.At(1, "lower", func() { s.SetCapacity(1) })
	k.At(31, "raise", func() { s.SetCapacity(2) })
	mustRun(t, k, 100)
	l.check(t, "0 a starts", "0 b starts", "0 c starts", "10 a done", "20 b done",
		"30 d starts", "30 c done", "31 e starts", "35 d done", "36 e done")
	if got := busy.total(); got != 70 {
		t.Errorf("busy for %v s, want 70", got)
	}
}

// Shows that nonsense is refused as a failure of the run.
func TestServerRefusals(t *testing.T) {
	for name, do := range map[string]func(*Kernel, *Server){
		"capacity -1":    func(k *Kernel, _ *Server) { NewServer(k, ServerConfig{Capacity: -1}) },
		"queue limit -2": func(k *Kernel, _ *Server) { NewServer(k, ServerConfig{QueueLimit: -2}) },
		"capacity -3":    func(_ *Kernel, s *Server) { s.SetCapacity(-3) },
		"service of -4":  func(_ *Kernel, s *Server) { s.Submit(Job{Service: -4}) },
	} {
		k, s, _ := newTestServer(t, ServerConfig{Capacity: 1})
		do(k, s)
		if err := k.Err(); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: error %v", name, err)
		}
	}
}

// Shows, for any traffic, shifts, breakdowns and changes of capacity: every job
// is served once, no more are in service than there were units, nobody waits while
// a unit is free and the hours are open, and once all have left the busy area is
// the work done when none was restarted or paused.
func TestServerProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := NewKernel(testStart, 0)
		defer k.Close()
		cfg := ServerConfig{
			Name:     "server",
			Capacity: rapid.IntRange(1, 4).Draw(rt, "capacity"),
			Failure:  BreakdownRule(rapid.IntRange(0, 2).Draw(rt, "failure rule")),
			Shift:    ShiftRule(rapid.IntRange(0, 1).Draw(rt, "shift rule")),
		}
		onShift := rapid.Bool().Draw(rt, "shifts")
		if onShift {
			cfg.Calendar = shifts()
		}
		s := NewServer(k, cfg)
		meter := newBusyMeter(s)
		r := random.Key{Seed: rapid.Uint64().Draw(rt, "seed")}.Stream("traffic")
		const jobs = 60
		var work Duration
		done := 0
		for range jobs {
			service := Duration(r.IntN(2000))
			work += service
			priority := r.IntN(3)
			k.At(Time(r.IntN(40_000)), "arrival", func() {
				s.Submit(Job{Priority: priority, Service: service, Done: func() { done++ }})
			})
		}
		fails := rapid.IntRange(0, 5).Draw(rt, "breakdowns")
		for range fails {
			t := Time(r.IntN(40_000))
			k.At(t, "fail", func() { s.FailOne() })
			k.At(t.Add(Duration(1+r.IntN(5000))), "repair", func() { s.RepairOne() })
		}
		k.At(20_000, "capacity", func() { s.SetCapacity(1 + r.IntN(4)) })
		for range 200 {
			k.AtPriority(Time(r.IntN(300_000)), Late, "look", func() { // after all else of that second
				if s.queue.len() > 0 && s.Free() > 0 && s.open() {
					rt.Errorf("second %d: %d wait, %d units are free", k.Now(), s.queue.len(), s.Free())
				}
			})
		}
		end := Time(100 * Day)
		if err := k.Run(t.Context(), end); err != nil {
			rt.Fatal(err)
		}
		if done != jobs || s.queue.len() != 0 || s.busy != 0 || s.Down() != 0 {
			rt.Fatalf("%d done, %d wait, %d busy, %d down", done, s.queue.len(), s.busy, s.Down())
		}
		if meter.most > 4 {
			rt.Fatalf("%v busy", meter.most)
		}
		paused := onShift && cfg.Shift == PauseJob
		busy := meter.total()
		if restarted := fails > 0 && cfg.Failure == RestartJob; !paused && !restarted && busy != float64(work) {
			rt.Fatalf("busy for %v, work %d", busy, work)
		}
	})
}
