package fiscal

import (
	"slices"
	"strings"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// Options say which years are wanted, and of which futures.
type Options struct {
	Begins       time.Month // in which fiscal years begin; 0 is as the file has them, or January
	From         int        // year by which the first is named ([Naming.Begun]); 0 is the first whole one
	Years        int
	OrFewer      bool   // plan fewer years where the horizon holds no more
	Growth       string // name of a growth scenario; "" for all by their weights
	Replications int
}

// Month is a month of the calendar.
type Month struct {
	Year  int
	Month time.Month
}

// Plan is the years and futures that a facility file can answer for.
type Plan struct {
	Options
	Naming
	Months []Month  // those of the fiscal years, in order
	Labels []string // of the fiscal years
	// StartMonth is how many months after the file's start the first month is.
	StartMonth int
	// Shares are the growth scenarios that have a replication.
	Shares []Share

	growth []int // scenario by replication
}

// Share is a growth scenario and how many replications it has.
type Share struct {
	Name         string
	Weight       float64 // 0…1, as in the file
	Replications int
}

// New fits what is asked for to a file. Its errors are *answer.OptionError: what
// is wrong with years, from or growth, and what would be right.
func New(f *facilityfile.File, o Options) (*Plan, error) {
	own := f.Planning.FiscalYear
	if o.Begins == 0 {
		o.Begins = max(own.Begins, time.January)
	}
	p := &Plan{Options: o, Naming: Naming{Begins: o.Begins, Own: own}}
	m := &f.Model
	offset := (int(o.Begins) - int(m.Start.Month) + calendar.MonthsPerYear) % calendar.MonthsPerYear
	firstYear := m.Start.AddMonths(offset).Year
	from := p.Begun(o.From)
	if o.From == 0 {
		from = firstYear
	}
	p.From = p.Named(from)
	whole := (m.Years*calendar.MonthsPerYear - offset) / calendar.MonthsPerYear // fiscal years in the horizon
	p.StartMonth = offset + (from-firstYear)*calendar.MonthsPerYear
	left := whole - (from - firstYear)
	if o.OrFewer && left >= 1 {
		o.Years = min(o.Years, left)
	}
	switch {
	case o.Years < 1:
		return nil, answer.WrongOption("years", "%d: ask for 1 or more", o.Years)
	case whole == 0:
		return nil, answer.WrongOption("years", "%d: the file's horizon holds no whole %s that begins in %s", o.Years, p.Word(), o.Begins)
	case from < firstYear || left < 1:
		return nil, answer.WrongOption("from", "%d: whole %ss of the file's horizon are %s to %s", o.From, p.Word(), p.Name(firstYear), p.Name(firstYear+whole-1))
	case o.Years > left:
		return nil, answer.WrongOption("years", "%d: from %s on, the file's horizon holds %d", o.Years, p.Name(from), left)
	}
	for y := range o.Years {
		p.Labels = append(p.Labels, p.Name(from+y))
	}
	begin := m.Start.AddMonths(p.StartMonth)
	for i := range o.Years * calendar.MonthsPerYear {
		d := begin.AddMonths(i)
		p.Months = append(p.Months, Month{d.Year, d.Month})
	}
	if err := p.shareOut(&f.Planning); err != nil {
		return nil, err
	}
	return p, nil
}

// shareOut gives each replication a growth scenario: the one asked for, or each by
// its weight.
func (p *Plan) shareOut(planned *facilityfile.Planning) error {
	p.growth = planned.ShareOut(p.Replications)
	list := planned.Growths
	if p.Options.Growth == "" && len(list) <= 1 {
		return nil
	}
	if p.Options.Growth != "" {
		alone := slices.IndexFunc(list, func(g facilityfile.GrowthScenario) bool { return strings.EqualFold(g.Name, p.Options.Growth) })
		if alone < 0 {
			return noGrowth(p.Options.Growth, list)
		}
		for rep := range p.growth {
			p.growth[rep] = alone
		}
	}
	counts := make([]int, len(list))
	for _, g := range p.growth {
		counts[g]++
	}
	for i, n := range counts {
		if n > 0 {
			p.Shares = append(p.Shares, Share{Name: list[i].Name, Weight: list[i].Weight, Replications: n})
		}
	}
	return nil
}

// noGrowth says that there is no growth scenario of a name, and which there are.
func noGrowth(name string, list []facilityfile.GrowthScenario) error {
	if len(list) == 0 {
		return answer.WrongOption("growth", "%q: the file has no growth scenarios", name)
	}
	var names []string
	for _, g := range list {
		names = append(names, g.Name)
	}
	return answer.WrongOption("growth", "%q: the file's scenarios are %s", name, strings.Join(names, ", "))
}

func sum(list []float64) float64 {
	total := 0.0
	for _, v := range list {
		total += v
	}
	return total
}
