package answer

import (
	"fmt"
	"strings"
	"testing"
)

// yearsOf makes years from 2030 on out of installed/need/short triples.
func yearsOf(rows ...[3]float64) []Year {
	years := make([]Year, len(rows))
	for i, r := range rows {
		years[i] = Year{
			Label:          fmt.Sprint(2030 + i),
			Installed:      int(r[0]),
			VesselsNeeded:  Spread{P50: r[1]},
			ShortOfVessels: r[2],
		}
	}
	return years
}

// The sentence fits every course that need and vessels can take.
func TestHeadlineSentence(t *testing.T) {
	for _, c := range []struct {
		name  string
		years []Year
		want  string
	}{
		{"no years", nil,
			"The run covers no whole year, so it cannot say when vessels run short."},
		{"never short", yearsOf([3]float64{8, 6, 0}, [3]float64{8, 7, 0.2}),
			"8 vessels suffice through 2031, when the median run needs 7 at its peak."},
		{"one vessel", yearsOf([3]float64{1, 1, 0}),
			"1 vessel suffices through 2030, when the median run needs 1 at its peak."},
		{"short later", yearsOf([3]float64{8, 7, 0}, [3]float64{8, 8, 0.3}, [3]float64{8, 9, 0.6}, [3]float64{8, 14, 1}),
			"8 vessels suffice through 2031; in 2032 the median run needs 9 at its peak, and 14 by 2033."},
		{"short in the last year", yearsOf([3]float64{8, 7, 0}, [3]float64{8, 9, 0.9}),
			"8 vessels suffice through 2030; in 2031 the median run needs 9 at its peak."},
		{"short at once", yearsOf([3]float64{8, 10, 1}, [3]float64{8, 11, 1}),
			"8 vessels are too few from the start: in 2030 the median run needs 10 at its peak, and 11 by 2031."},
		{"vessels added in time and too late", yearsOf([3]float64{6, 6, 0}, [3]float64{8, 7, 0}, [3]float64{8, 9, 0.8}, [3]float64{12, 10, 0}),
			"The 6 to 8 vessels installed suffice through 2031; in 2032 the median run needs 9 at its peak, and 10 by 2033, when 12 are installed."},
		{"a median between two numbers", yearsOf([3]float64{8, 7, 0}, [3]float64{8, 8.5, 0.5}),
			"8 vessels suffice through 2030; in 2031 the median run needs 9 at its peak."},
		{"half of the runs exactly, median taken low", yearsOf([3]float64{8, 7, 0}, [3]float64{8, 8, 0.5}),
			"8 vessels suffice through 2030; in 2031 the median run needs 9 at its peak."},
	} {
		a := &Answer{Years: c.years}
		if got := a.Headline().String(); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// The details name the first year past each limit, and a year exactly at the
// limit is not past it.
func TestHeadlineDetails(t *testing.T) {
	years := yearsOf([3]float64{8, 7, AtRiskShare}, [3]float64{8, 8, 0.11}, [3]float64{8, 9, 0.5})
	years[0].DivertedShare.P50 = DivertedLimit
	years[2].DivertedShare.P50 = 0.02
	h := (&Answer{Years: years}).Headline()
	if h.FirstAtRisk != &years[1] || h.FirstShort != &years[2] || h.FirstDiverted != &years[2] {
		t.Errorf("at risk %v, short %v, diverted %v", h.FirstAtRisk, h.FirstShort, h.FirstDiverted)
	}
	want := "First year in which more than 1 run in 10 is short of vessels: 2031.\n" +
		"First year in which the median run diverts more than 1 % of its dry solids: 2032."
	if got := strings.Join(h.Details(), "\n"); got != want {
		t.Errorf("details:\n%s", got)
	}
}
