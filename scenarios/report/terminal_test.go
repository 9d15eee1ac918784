package report

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/report/internal/sample"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

func terminalText(t interface{ Fatal(...any) }, a *simulate.Answer, sys units.System) string {
	var b bytes.Buffer
	if err := Terminal(&b, a, sys); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// scaleBy multiplies a spread.
func scaleBy(s answer.Spread, f float64) answer.Spread {
	return answer.Spread{Mean: s.Mean * f, P10: s.P10 * f, P50: s.P50 * f, P90: s.P90 * f}
}

// The summary fits a screen for any length of the run, size of the plant and
// length of the names.
func TestTerminalFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := sample.Answer(rapid.IntRange(0, 45).Draw(t, "years"))
		a.Facility = strings.Repeat("Fennick ", rapid.IntRange(0, 30).Draw(t, "words"))
		a.Balance.WorstAt = strings.Repeat("store ", rapid.IntRange(0, 20).Draw(t, "at"))
		a.Seed = rapid.Uint64().Draw(t, "seed")
		f := rapid.SampledFrom([]float64{0, 1e-3, 1, 37, 1e3}).Draw(t, "scale")
		broken := rapid.Bool().Draw(t, "school years")
		a.Triggered = changes(rapid.IntRange(0, 6).Draw(t, "changes"), rapid.IntRange(1, 40).Draw(t, "length of their names"))
		a.AirLimit *= f
		for i := range a.Capacities {
			c := &a.Capacities[i]
			c.Arrived, c.ArrivedPeak = scaleBy(c.Arrived, f), scaleBy(c.ArrivedPeak, f)
			for j := range c.Stages {
				c.Stages[j].Sustains *= f
			}
		}
		for i := range a.Years {
			y := &a.Years[i]
			if broken {
				y.Label = fmt.Sprintf("%s/%02d", y.Label, (28+i)%100)
			}
			y.Installed = int(float64(y.Installed) * f)
			y.Air.HoursOver.P50 = min(y.Air.HoursOver.P50, 8784)
			for _, s := range []*answer.Spread{
				&y.FeedDry, &y.FeedWet, &y.DivertedDry, &y.VesselsMean, &y.VesselsPeak, &y.VesselsNeeded,
				&y.ChipsBought, &y.ChipsRecovered, &y.Truckloads, &y.ProductVolume, &y.ProductWet, &y.TakenVolume,
				&y.Air.Peak,
			} {
				*s = scaleBy(*s, f)
			}
		}
		text := terminalText(t, a, rapid.SampledFrom(systems).Draw(t, "system"))
		lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
		if len(lines) > 40 {
			t.Fatalf("%d lines:\n%s", len(lines), text)
		}
		for _, line := range lines {
			if n := utf8.RuneCountInString(line); n > 100 {
				t.Fatalf("%d columns: %q", n, line)
			}
		}
	})
}

// changes returns n changes that came about in most runs, with names of some
// letters.
func changes(n, letters int) []simulate.Triggered {
	list := make([]simulate.Triggered, n)
	for i := range list {
		list[i] = simulate.Triggered{Change: strings.Repeat("w", letters), Share: 0.95, Decided: calendar.Date{Year: 2031, Month: 5, Day: 4}}
	}
	return list
}

// The first line is the answer, and invented data is called so, only then.
func TestTerminalSaysWhatMatters(t *testing.T) {
	a := sample.Answer(20)
	text := terminalText(t, a, units.US)
	first, _, _ := strings.Cut(text, "\n")
	if first != a.Headline().String() {
		t.Errorf("first line %q", first)
	}
	const notice = "INVENTED DATA"
	if !strings.Contains(text, notice) {
		t.Error("invented data is not called so")
	}
	a.Invented = false
	if strings.Contains(terminalText(t, a, units.US), notice) {
		t.Error("real data is called invented")
	}
}

// A name from a file cannot move the cursor or start a line.
func TestTerminalDropsControlCharacters(t *testing.T) {
	a := sample.Answer(3)
	a.Facility = "Fennick\x1b[2J\r\n\tValley\u202e"
	text := terminalText(t, a, units.US)
	for _, bad := range []string{"\x1b", "\r", "\t", "\u202e"} {
		if strings.Contains(text, bad) {
			t.Errorf("output holds %q", bad)
		}
	}
	if !strings.Contains(text, "Fennick[2JValley") {
		t.Error("the name's own letters are gone")
	}
}

// The table's years are in order without repeats, as many as asked for, and
// hold the first, the last and the first to miss the service target.
func TestChooseYears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(0, 40).Draw(t, "years")
		missed := rapid.IntRange(0, 45).Draw(t, "first missed")
		n := rapid.IntRange(leastYears, mostYears).Draw(t, "n")
		a := &simulate.Answer{Years: make([]simulate.Year, count)}
		for i := missed; i < count; i++ {
			a.Years[i].MissesTarget = 1
		}
		chosen := chooseYears(a, n)
		if len(chosen) != min(n, count) {
			t.Fatalf("%d years chosen of %d, asked for %d", len(chosen), count, n)
		}
		at := map[*simulate.Year]int{}
		for i := range a.Years {
			at[&a.Years[i]] = i
		}
		for i := 1; i < len(chosen); i++ {
			if at[chosen[i]] <= at[chosen[i-1]] {
				t.Fatalf("years %d and %d out of order", at[chosen[i-1]], at[chosen[i]])
			}
		}
		if count == 0 {
			return
		}
		if at[chosen[0]] != 0 || at[chosen[len(chosen)-1]] != count-1 {
			t.Fatal("the first or the last year is missing")
		}
		found := missed >= count
		for _, y := range chosen {
			found = found || at[y] == missed
		}
		if !found {
			t.Fatalf("year %d, the first to miss the target, is missing", missed)
		}
	})
}

// Lines break at plain spaces only, and no word is lost.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z]{1,12}(\x{a0}[a-z]{1,5})?`), 1, 60).Draw(t, "words")
		lines := wrap(strings.Join(words, " "), "", "  ")
		for _, line := range lines {
			if utf8.RuneCountInString(line) > screenColumns {
				t.Fatalf("too long: %q", line)
			}
		}
		want := strings.ReplaceAll(strings.Join(words, " "), noBreak, " ")
		if got := strings.Join(strings.Fields(strings.Join(lines, " ")), " "); got != want {
			t.Fatalf("%q became %q", want, got)
		}
		for _, word := range words {
			if kept := strings.ReplaceAll(word, noBreak, " "); !strings.Contains(strings.Join(lines, "\n"), kept) {
				t.Fatalf("%q was broken", kept)
			}
		}
	})
}

// An interval is shown where there is one.
func TestBracketed(t *testing.T) {
	s := summary{sys: units.SI}
	for _, c := range []struct {
		spread answer.Spread
		want   string
	}{
		{answer.Spread{P10: 17_000, P50: 18_000, P90: 19_500}, "18 t (17–19.5)"},
		{answer.Spread{P10: 17_999.9, P50: 18_000, P90: 18_000.1}, "18 t"},
	} {
		if got := strings.ReplaceAll(s.bracketed(c.spread, mass), noBreak, " "); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
