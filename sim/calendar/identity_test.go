package calendar

import (
	"testing"

	"loamcast/sim/digest"
)

// Calendars that say different things of some second have different digests, and those that
// say the same of all have the same, however they were made.
func TestDigestTellsCalendarsApart(t *testing.T) {
	shift := Shift{7 * 60, 15 * 60}
	usual := mustWork(t, weekdays(shift))
	later, err := NewWork(Clock{Start: monday.Start.AddDays(1)}, weekdays(shift))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[digest.Sum]string{}
	for name, w := range map[string]*Work{
		"weekdays": usual, "every day": mustWork(t, everyDay(shift)), "a minute more": mustWork(t, weekdays(Shift{7 * 60, 15*60 + 1})),
		"a minute before": mustWork(t, weekdays(Shift{7*60 - 1, 15 * 60})), "from tomorrow": usual.Later(1), "made for tomorrow": later,
		"with a holiday": mustWork(t, weekdays(shift), Yearly(12, 25)), "always": Always(),
		"a whole day": mustWork(t, everyDay(Shift{0, 24 * 60})),
	} {
		if other, ok := seen[w.Digest()]; ok {
			t.Errorf("%s and %s have the same digest", name, other)
		}
		seen[w.Digest()] = name
	}
	if mustWork(t, weekdays(Shift{7 * 60, 12 * 60}, Shift{12 * 60, 15 * 60})).Digest() != usual.Digest() {
		t.Error("shifts that touch make another calendar")
	}
	if usual.Later(3).Later(4).Digest() != usual.Later(7).Digest() {
		t.Error("seven days later are not three and four")
	}
}
