package page_test

import (
	"context"
	"net"
	"os"
	"strings"
	"sync"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/mixplan"
	"loamcast/scenarios/page"
	"loamcast/scenarios/warmup"
)

// dunmarrow is the invented plant of three vessels.
var dunmarrow = examples.Data("dunmarrow")

// small is the invented plant of three vessels with few years, which answers soon.
func small() string {
	text := string(dunmarrow)
	for old, new := range map[string]string{"horizon: 20 year": "horizon: 8 year", "growth: {linear: 1.2 %/year}": "growth: {linear: 5 %/year}   # as the town has it", "replications: 20": "replications: 2"} {
		text = strings.Replace(text, old, new, 1)
	}
	return text
}

// served serves a page for a test. Files are made ready as the command line does, if
// nothing is said.
func served(t *testing.T, c page.Config) (address, token string) {
	t.Helper()
	address, token, _ = servedAt(t, c, "127.0.0.1:0")
	return address, token
}

// servedAt is served at an address of its own, until it is stopped.
func servedAt(t *testing.T, c page.Config, at string) (address, token string, stop func()) {
	t.Helper()
	if c.Ready == nil {
		c.Ready = prepared
	}
	c.Version = "test"
	s := page.New(c)
	l, err := net.Listen("tcp", at)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	stop = sync.OnceFunc(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
	t.Cleanup(stop)
	return s.Address(l), s.Token, stop
}

// prepared makes a file ready, as the command line does.
func prepared(ctx context.Context, f *facilityfile.File) error {
	if _, err := mixplan.Apply(ctx, f, 0, nil); err != nil {
		return err
	}
	_, err := warmup.Apply(ctx, f)
	return err
}

// onDisk is what a file holds.
func onDisk(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}
