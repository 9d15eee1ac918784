package page_test

import (
	"context"
	"flag"
	"fmt"
	"io"
	"net/http"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"loamcast/scenarios/facilityfile"
)

// waits is a page of which every question waits until it is ended, and tells when it is.
func waits(t *testing.T) (c *client, begun, ended chan struct{}) {
	t.Helper()
	begun, ended = make(chan struct{}, 100), make(chan struct{}, 100)
	config := here(t)
	config.Ready = func(ctx context.Context, _ *facilityfile.File) error {
		begun <- struct{}{}
		<-ctx.Done()
		ended <- struct{}{}
		return ctx.Err()
	}
	return at(t, config), begun, ended
}

// soon is how long a test waits for what should come at once, on a busy machine.
const soon = time.Minute

func expect(t *testing.T, what string, c <-chan struct{}) {
	t.Helper()
	select {
	case <-c:
	case <-time.After(soon):
		t.Fatalf("%s: it does not come", what)
	}
}

// begin asks something in a tab and returns how to cut the connection, and what comes when
// the answer has ended.
func (c *client) begin(tab string) (cut func(), over chan struct{}) {
	ctx, cancel := context.WithCancel(context.Background())
	over = make(chan struct{})
	r := c.request(ctx, http.MethodPost, "/api/ask", map[string]any{"tab": tab, "text": small(), "question": "run"})
	go func() {
		defer close(over)
		answer, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			return // it was cut
		}
		defer answer.Body.Close()
		io.Copy(io.Discard, answer.Body) // until it is cut or ends
	}()
	c.t.Cleanup(cancel)
	return cancel, over
}

// A connection that is cut ends what is simulated for it. A tab that asks anew ends what
// it has asked before; others wait for their turn, and too many are refused.
func TestBounded(t *testing.T) {
	c, begun, ended := waits(t)
	cut, over := c.begin("a")
	expect(t, "the question", begun)
	cut()
	expect(t, "the end of a question that was cut", ended)
	<-over

	_, first := c.begin("a")
	expect(t, "the first question", begun)
	c.begin("a")
	expect(t, "the end of the first", ended)
	expect(t, "the second question", begun)
	<-first
	cutB, _ := c.begin("b")
	expect(t, "a question of another tab", begun)

	// Both places are taken: what is asked now waits.
	var cuts []func()
	var all []chan struct{}
	wait := func() {
		cut, over := c.begin(fmt.Sprint("waiting ", len(all)))
		cuts, all = append(cuts, cut), append(all, over)
	}
	const mostWaiting = 128
	for range mostWaiting {
		wait()
	}
	refused := ""
	const patience = 3 * time.Second
	for deadline := time.Now().Add(soon); !strings.Contains(refused, "too many"); {
		if time.Now().After(deadline) {
			t.Fatalf("one too many is not refused: %q", refused)
		}
		// It waits in vain for a moment as long as not all others have come, of which one
		// may find its place taken by it.
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		if answer, err := http.DefaultTransport.RoundTrip(c.request(ctx, http.MethodPost, "/api/ask", map[string]any{"tab": "x", "text": small(), "question": "run"})); err == nil {
			data, _ := io.ReadAll(answer.Body) // cut short where it waits
			answer.Body.Close()
			refused = string(data)
		}
		cancel()
		wait()
	}
	select {
	case <-begun:
		t.Error("more questions are worked at than there are places")
	default:
	}
	for _, cut := range cuts {
		cut()
	}
	for _, over := range all {
		<-over
	}
	cutB()
	expect(t, "the end of the other tab's question", ended)
	c.begin("c")
	expect(t, "the next in turn", begun)
}

// tabsFor lets tabs ask on, for as long as people may.
var tabsFor = flag.Duration("tabs.for", 0, "how long the tabs of TestManyTabs ask, when each has asked twice")

// Many tabs that ask again and again, of files that differ, all get their answers, and
// leave no goroutine behind. Let on for longer it tells how much memory is in use.
func TestManyTabs(t *testing.T) {
	c := at(t, here(t))
	const tabs, times = 50, 2
	asked, answers := time.Now(), atomic.Int64{}
	ask := func(tab, time int) {
		what, kinds := "check", 2
		if *tabsFor > 0 {
			kinds = 20
			if (tab+time)%5 == 0 {
				what = "when"
			}
		}
		_, got := c.post("ask", map[string]any{"tab": fmt.Sprint(tab), "text": small(), "question": what, "dials": []map[string]string{{"path": "screen.recovery", "value": fmt.Sprintf("%d %%", 60+(tab*times+time)%kinds)}}})
		if events := eventsOf(t, got); events[len(events)-1].name != "answer" {
			t.Errorf("tab %d: %.200s", tab, got)
		}
		answers.Add(1)
	}
	ask(0, 0)
	before := runtime.NumGoroutine()
	var all sync.WaitGroup
	for tab := range tabs {
		all.Go(func() {
			for n := 0; n < times || time.Since(asked) < *tabsFor; n++ {
				ask(tab, n)
			}
		})
	}
	if *tabsFor > 0 {
		const looks = 6
		for look := range looks {
			time.Sleep(*tabsFor / looks)
			var m runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&m)
			t.Logf("after %v: %d answers, %d goroutines, %d MB in use", *tabsFor*time.Duration(look+1)/looks, answers.Load(), runtime.NumGoroutine(), m.HeapAlloc>>20)
		}
	}
	all.Wait()
	http.DefaultTransport.(*http.Transport).CloseIdleConnections()
	for deadline := time.Now().Add(soon); runtime.NumGoroutine() > before+4; time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("%d goroutines are left where there were %d", runtime.NumGoroutine(), before)
		}
	}
}

// When the program ends, what is being reckoned ends with it.
func TestEnds(t *testing.T) {
	begun, ended := make(chan struct{}), make(chan struct{})
	t.Run("page", func(t *testing.T) {
		config := here(t)
		config.Ready = func(ctx context.Context, _ *facilityfile.File) error {
			close(begun)
			<-ctx.Done()
			close(ended)
			return ctx.Err()
		}
		c := at(t, config)
		c.begin("a")
		expect(t, "the question", begun)
	}) // whose end stops the server
	expect(t, "the end of the question", ended)
}
