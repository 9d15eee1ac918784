package simulate

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim"
)

// yearsOf makes years from 2030 on out of installed/need/misses/misses with
// unlimited vessels.
func yearsOf(rows ...[4]float64) []Year {
	years := make([]Year, len(rows))
	for i, r := range rows {
		years[i] = Year{
			Label:           fmt.Sprint(2030 + i),
			Installed:       int(r[0]),
			VesselsNeeded:   answer.Spread{P50: r[1]},
			MissesTarget:    r[2],
			MissesUnlimited: r[3],
		}
	}
	return years
}

var testTarget = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}

// The sentence tells the shares of runs for every course that the years can take,
// and names no date to order by; a year exactly at the target is not told as missed.
func TestHeadlineSentence(t *testing.T) {
	failing := yearsOf([4]float64{8, 9, 0.5, 0.4})
	failing[0].Failing = true
	const (
		when = " How long the vessels last with what is uncertain, and when to order: loamcast when."
		in20 = "In 20 runs with the file's own values "
		of20 = "Of 20 runs with the file's own values "
	)
	for _, c := range []struct {
		name  string
		runs  int
		years []Year
		want  string
	}{
		{"none misses", 20, yearsOf([4]float64{8, 6, 0}, [4]float64{8, 9, 0}),
			in20 + "none misses the service target through 2031."},
		{"as many as may", 20, yearsOf([4]float64{8, 6, 0}, [4]float64{8, 9, testTarget.MissShare}, [4]float64{8, 9, 0}),
			in20 + "no more than the 5 % that may miss the service target do so through 2032: most in 2031, 1 (5 %)."},
		{"missed later", 20, yearsOf([4]float64{8, 7, 0}, [4]float64{8, 9, 0}, [4]float64{8, 9, 0.1}, [4]float64{8, 9, 0}),
			of20 + "2 (10 %) miss the service target in the worst year, 2032, with 8 vessels; 5 % may."},
		{"missed at once", 20, yearsOf([4]float64{8, 10, 1}, [4]float64{8, 11, 1}),
			"All 20 runs with the file's own values miss the service target by 2030, with 8 vessels; 5 % may."},
		{"vessels added", 20, yearsOf([4]float64{6, 6, 0}, [4]float64{1, 7, 0.8}),
			of20 + "16 (80 %) miss the service target in the worst year, 2031, with 1 vessel; 5 % may."},
		{"not for want of vessels", 20, yearsOf([4]float64{8, 7, 0}, [4]float64{8, 7, 0.5, 0.5}),
			of20 + "10 (50 %) miss the service target in the worst year, 2031, for something else than vessels is short; 5 % may."},
		{"loads would pile up in more vessels", 20, piled(yearsOf([4]float64{8, 7, 0}, [4]float64{8, 7, 0.5}), 1),
			of20 + "10 (50 %) miss the service target in the worst year, 2031, for something else than vessels is short; 5 % may."},
		{"loads fail", 20, failing, of20 + "10 (50 %) miss the service target in the worst year, 2030, for too many loads fail (see loamcast cycle); 5 % may."},
		{"one run, kept", 1, yearsOf([4]float64{1, 1, 0}),
			"The one run with the file's own values does not miss the service target through 2030."},
		{"one run, missed", 1, yearsOf([4]float64{8, 1, 0}, [4]float64{9, 1, 1, 1}),
			"The one run with the file's own values misses the service target in 2031 and perhaps later, for something else than vessels is short."},
	} {
		a := &Answer{Years: c.years, Basis: answer.Basis{Target: testTarget, Replications: c.runs}}
		if got := a.Headline().String(); got != c.want+when {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want+when)
		}
	}
}

// The last year kept lies before the first that is missed, also where later years
// keep the target again; a picture names the same year as the sentence.
func TestHeadlineYears(t *testing.T) {
	a := &Answer{
		Years: yearsOf([4]float64{8, 7, 0}, [4]float64{8, 9, 0.05}, [4]float64{8, 9, 0.1}, [4]float64{8, 9, 0}),
		Basis: answer.Basis{Target: testTarget, Replications: 20},
	}
	if h := a.Headline(); h.LastKept != &a.Years[1] || h.FirstMissed != &a.Years[2] || h.Most != &a.Years[2] {
		t.Errorf("kept until %v, missed from %v, most in %v", h.LastKept, h.FirstMissed, h.Most)
	}
	for n, want := range map[int]string{
		4: "Of 20 runs of the values in the file 2 (10 %) miss the target in 2032",
		2: "Of 20 runs of the values in the file 1 (5 %) miss the target in 2031",
		1: "Of 20 runs of the values in the file none misses the target",
	} {
		part := &Answer{Years: a.Years[:n], Basis: a.Basis}
		if got := part.Headline().Title(); got != want {
			t.Errorf("title %q, want %q", got, want)
		}
	}
}

// piled makes years in which loads would pile up in any number of vessels.
func piled(years []Year, which ...int) []Year {
	for _, i := range which {
		years[i].OtherShort, years[i].VesselsNeeded = true, answer.Spread{P50: math.NaN()}
	}
	return years
}

// Where loads would pile up in vessels, no need of them is stated, nor compared
// with those installed.
func TestHeadlineWithoutNeed(t *testing.T) {
	for _, which := range [][]int{{0, 1}, {1}} {
		h := (&Answer{Years: piled(yearsOf([4]float64{8, 7, 1}, [4]float64{8, 0, 1}), which...), Basis: answer.Basis{Target: testTarget}}).Headline()
		if got := strings.Join(h.Details(), "\n"); h.FirstAbove != nil || strings.Contains(got, "at once") || !strings.Contains(got, "cannot be told") {
			t.Errorf("above %v; %s", h.FirstAbove, got)
		}
	}
}

// Loads pile up in vessels where those that are due wait there for more than a
// quarter of the residence aimed at, in the mean of a year over what was mixed, in
// the median replication with a vessel for every load: 5 days of 20 are not more.
// Then no need of vessels is stated; else it is.
func TestLoadsPileUp(t *testing.T) {
	p := &plant.Plant{Model: plant.Model{Years: 2, Vessels: plant.Vessels{Residence: 20 * sim.Day}}}
	free := func(days ...float64) (all []Replication) {
		for _, d := range days {
			rec := recordOf(24, func(i int, m *plant.Month) {
				m.Mixing.CakeDry = 100
				if i < 12 {
					m.Release.Waited = 10 * d // with every other month 100·d in the mean
					if i%2 == 0 {
						m.Release.Waited = 190 * d
					}
				}
			})
			rec.Years[0].VesselsPeak, rec.Years[1].VesselsPeak = 9, 9
			all = append(all, Replication{Usual: rec, Free: freeOf(rec, facilityfile.Target{})})
		}
		return all
	}
	for _, c := range []struct {
		days []float64
		want bool
	}{
		{[]float64{0, 0, 0}, false},
		{[]float64{5, 5, 5}, false},
		{[]float64{0, 5.1, 5.1}, true},
		{[]float64{0, 0, 100}, false},
		{[]float64{100, 100, 100}, true},
	} {
		a := tallied(p, func(t *tally) { t.need(0); t.need(1) }, free(c.days...)...)
		if got := a.Years[0].OtherShort; got != c.want {
			t.Errorf("due loads waited %g days of 20: loads pile up %v, want %v", c.days, got, c.want)
		}
		if a.Years[1].OtherShort {
			t.Errorf("due loads waited %g days of 20 in the first year: loads pile up in the second", c.days)
		}
		for what, need := range map[string]float64{
			"needed": a.Years[0].VesselsNeeded.P50, "needed for most of the time": a.Years[0].NeedMost.P50,
			"in December": a.Months[11].VesselsNeeded.P50, "share that is short": a.Years[0].ShortOfVessels,
		} {
			if math.IsNaN(need) != c.want {
				t.Errorf("due loads waited %g days of 20: vessels %s %g", c.days, what, need)
			}
		}
		if next := a.Months[12].VesselsNeeded.P50; math.IsNaN(next) {
			t.Errorf("due loads waited %g days of 20 in the first year: the need of the second is not told", c.days)
		}
	}
}

// The details state the target and the need at both ends; a need between two
// numbers is rounded up.
func TestHeadlineDetails(t *testing.T) {
	years := yearsOf([4]float64{8, 8, 0}, [4]float64{8, 8.3, 0}, [4]float64{8, 9.3, 0.5})
	h := (&Answer{Years: years, Basis: answer.Basis{Target: testTarget}}).Headline()
	if h.FirstAbove != &years[1] || h.FirstMissed != &years[2] || h.LastKept != &years[1] {
		t.Errorf("above %v, missed %v, kept %v", h.FirstAbove, h.FirstMissed, h.LastKept)
	}
	want := "Service target: at most 1\u00a0% of a year's dry solids leaves untreated and cake waits at most 3\u00a0days on average for a vessel or whatever is short, in 95\u00a0% of the runs.\n" +
		"With no wait for vessels the median run would use 8 at once in 2030 and 10 in 2032."
	if got := strings.Join(h.Details(), "\n"); got != want {
		t.Errorf("details:\n%s", got)
	}
}

// Where more vessels are in use than needed, the details say why, of the first such
// year; not where as many are, nor where the need cannot be told.
func TestHeadlineSaysWhyMoreAreInUseThanNeeded(t *testing.T) {
	years := yearsOf([4]float64{8, 7.5, 0}, [4]float64{8, 9, 0.5}, [4]float64{8, 6, 0}, [4]float64{8, 5, 0}, [4]float64{8, 9, 0.5})
	for i, inUse := range []float64{8, 8, 8, 8, 8} {
		years[i].VesselsPeak.P50 = inUse
	}
	details := func() string {
		return strings.Join((&Answer{Years: years, Basis: answer.Basis{Target: testTarget}}).Headline().Details(), "\n")
	}
	if got := details(); !strings.HasSuffix(got, "\nIn 2032 it has more in use, 8: what had waited for a vessel or a place is worked off.") {
		t.Errorf("details:\n%s", got)
	}
	piled(years, 2, 3)
	if got := details(); strings.Contains(got, "more in use") {
		t.Errorf("details where the need is not told or met:\n%s", got)
	}
}
