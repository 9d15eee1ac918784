package main

import (
	"fmt"
	"os"
	"strings"
	"time"
)

// progress shows how far a run is, on a terminal and when it takes more than a
// second; piped output stays clean.
type progress struct {
	w     *os.File
	what  string
	since time.Time
	last  time.Time
	shown bool
}

const (
	progressAfter = time.Second
	progressEvery = 100 * time.Millisecond
	progressWidth = 30
)

func newProgress(w *os.File, what string) *progress {
	p := &progress{what: what, since: time.Now()}
	if info, err := w.Stat(); err == nil && info.Mode()&os.ModeCharDevice != 0 {
		p.w = w
	}
	return p
}

// update is called after each replication, never by two at once.
func (p *progress) update(done, total int) {
	now := time.Now()
	if p.w == nil || now.Sub(p.since) < progressAfter || now.Sub(p.last) < progressEvery {
		return
	}
	p.last, p.shown = now, true
	filled := progressWidth * done / total
	left := time.Duration(float64(now.Sub(p.since)) / float64(done) * float64(total-done))
	fmt.Fprintf(p.w, "\r%s [%s%s] %d of %d, about %s left ", p.what,
		strings.Repeat("=", filled), strings.Repeat(" ", progressWidth-filled), done, total, left.Round(time.Second))
}

// done clears the line.
func (p *progress) done() {
	if p.shown {
		fmt.Fprintf(p.w, "\r%s\r", strings.Repeat(" ", len(p.what)+progressWidth+40))
	}
}

// parts shows the progress of one part after the other.
type parts struct {
	name string
	bar  *progress
}

func (p *parts) update(name string, done, total int) {
	if p.bar == nil || name != p.name {
		p.done()
		p.name, p.bar = name, newProgress(os.Stderr, name)
	}
	p.bar.update(done, total)
}

func (p *parts) done() {
	if p.bar != nil {
		p.bar.done()
	}
}
