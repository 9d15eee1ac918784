package page

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"net"
	"net/http"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/page/lab"
	"loamcast/scenarios/units"
)

// Config is what a page is served for.
type Config struct {
	Label    string // of the file, as answers name it
	Data     []byte // as it was read
	Path     string // of the file; empty where it is built in, and cannot be saved
	Folder   string // in which files are saved
	Drafts   string // in which what is not saved is kept; empty if it is not
	Invented bool   // a built-in example with invented data
	Version  string // of the program
	Units    string // us or si, in which answers are shown; empty for the file's
	Workers  int    // runs at a time of one question; 0 for all cores
	// Ready makes a file that was read ready to be asked about.
	Ready func(ctx context.Context, f *facilityfile.File) error
}

// Server serves the page.
type Server struct {
	Config
	Token string // without which nothing is changed or reckoned
	lab   *lab.Lab
	disk  disk
}

// tokenBytes make a token that nobody guesses.
const tokenBytes = 24

// New returns a server with a token of its own.
func New(c Config) *Server {
	random := make([]byte, tokenBytes)
	rand.Read(random) // never fails
	setup := answer.Setup{Source: c.Label, Version: c.Version, Invented: c.Invented}
	return &Server{
		Config: c, Token: hex.EncodeToString(random), lab: lab.New(setup, c.Ready, c.Workers),
		disk: disk{path: c.Path, folder: c.Folder},
	}
}

// system is that in which answers about a file are shown.
func (s *Server) system(f *facilityfile.File) units.System {
	if system, err := units.ParseSystem(s.Units); err == nil {
		return system.With(f.Currency)
	}
	return f.Units
}

const (
	headerTime, bodyTime, idleTime = 5 * time.Second, 30 * time.Second, 2 * time.Minute
	mostHeader                     = 16 << 10
	// leaving is how long open answers have to end when the program does.
	leaving = 300 * time.Millisecond
)

// Address is where a listener's page is found, with the token in the part of it that a
// browser sends to nobody.
func (s *Server) Address(l net.Listener) string {
	return "http://" + l.Addr().String() + "/#" + s.Token
}

// Serve answers until ctx has ended, which ends what is being reckoned, and then returns
// nil. Any other error is that of the listener, which it closes.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	server := &http.Server{
		Handler:           s.Handler(l.Addr().String()),
		ReadHeaderTimeout: headerTime, ReadTimeout: bodyTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHeader,
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, stop := context.WithTimeout(context.WithoutCancel(ctx), leaving)
	defer stop()
	err := server.Shutdown(last)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close()
	}
	<-ended
	return err
}

// Handler answers requests to an address such as 127.0.0.1:8080.
func (s *Server) Handler(address string) http.Handler {
	still, work := http.NewServeMux(), http.NewServeMux()
	s.assets(still)
	for path, handle := range map[string]handler{
		"/api/open": s.open, "/api/dials": s.dials, "/api/search": s.search, "/api/ask": s.ask, "/api/rank": s.rank,
		"/api/form": s.form, "/api/edit": s.edit, "/api/save": s.save, "/api/compare": s.compare, "/api/report": s.report, "/api/vessels": s.vessels,
		"/api/draft": s.draft, "/api/take": s.take, "/api/forget": s.forget,
	} {
		work.Handle("POST "+path, handle)
	}
	return &guard{address: address, token: s.Token, still: still, work: work}
}
