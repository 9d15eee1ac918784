package answer

import (
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// Basis is the head of every answer: what it speaks of and rests on, so that a
// reviewer can repeat it.
type Basis struct {
	Facility string // its name
	Source   string // file, or built-in example
	Version  string // of the program
	FileHash string // SHA-256 of the file as it was read, in hexadecimal
	Invented bool   // a built-in example with invented data
	Seed     uint64
	// Replications is how many runs all figures rest on; 0 where the answer has
	// none, or decides by itself how many each figure takes, and says so.
	Replications int
	Start        calendar.Date
	Horizon      int // years
	Fiscal       facilityfile.FiscalYear
	Currency     string // code of the currency of all money; empty is USD
	PricesOf     int    // year in whose money the file states prices; 0 if it has no section on money
	Target       facilityfile.Target
	Scenarios    []Scenario // of growth; none if the file has one growth
	Level        Level      // of the quantiles called P10 and P90
	Contracts    bool       // the file has a contract for disposal, or plans that bring one
	Feedstocks   []string   // names of what arrives beside the cake and is held and mixed with it
}

// Held says what is held and mixed: cake, or cake and feedstocks.
func (b *Basis) Held() string {
	if len(b.Feedstocks) > 0 {
		return "cake and feedstocks"
	}
	return "cake"
}

// Scenario is a way in which production may grow, and how much it is believed
// in, 0…1.
type Scenario struct {
	Name   string
	Weight float64
}

// Setup is what a caller says beside the file and the question.
type Setup struct {
	Source   string // file, or built-in example
	Version  string // of the program
	Invented bool   // a built-in example with invented data
	// Progress is told of each part of the work as it goes, one call at a time; it
	// may be nil.
	Progress func(part string, done, total int)
}

// Basis is the head of an answer about a file.
func (s Setup) Basis(f *facilityfile.File) Basis {
	b := Basis{
		Facility: f.Name, Source: s.Source, Version: s.Version, FileHash: f.Hash, Invented: s.Invented,
		Seed: f.Seed, Start: f.Model.Start, Horizon: f.Model.Years, Target: f.Planning.Target, Level: Deciles,
		Fiscal: f.Planning.FiscalYear, Currency: f.Currency, PricesOf: pricesOf(&f.Planning), Contracts: len(f.Planning.Economy.Contracts) > 0,
	}
	for i := range f.Model.Feedstocks {
		b.Feedstocks = append(b.Feedstocks, f.Model.Feedstocks[i].Material.Name)
	}
	for _, g := range f.Planning.Growths {
		b.Scenarios = append(b.Scenarios, Scenario{g.Name, g.Weight})
	}
	return b
}

func pricesOf(p *facilityfile.Planning) int {
	if !p.Priced {
		return 0
	}
	return p.Economy.Rates.Stated
}

// Named returns the setup of a part of an answer: its progress is told under one
// name.
func (s Setup) Named(name string) Setup {
	part := s.Part(name)
	s.Progress = func(_ string, done, total int) { part(done, total) }
	return s
}

// Part returns the progress of one part of the work; it is never nil.
func (s Setup) Part(name string) func(done, total int) {
	return func(done, total int) {
		if s.Progress != nil {
			s.Progress(name, done, total)
		}
	}
}

// Label names a year of the horizon, counted from 0.
func (b *Basis) Label(year int) string { return b.YearName(b.Start.AddYears(year)) }

// YearName names a year by the day on which it begins: as the file names its fiscal
// years if it is one of them, and else as [YearLabel] does.
func (b *Basis) YearName(from calendar.Date) string {
	if b.Fiscal.Given() && from.Month == b.Fiscal.Begins {
		return b.Fiscal.Name(from)
	}
	return YearLabel(from)
}

// Replicated returns the head of an answer that rests on so many runs.
func (b Basis) Replicated(n int) Basis {
	b.Replications = n
	return b
}
