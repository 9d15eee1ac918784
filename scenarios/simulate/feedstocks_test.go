package simulate_test

import (
	"math"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
)

// What arrives beside the cake is told apart from it, in words, on the screen and in
// files, and the two add up to what came in; a file without it has no word of it.
func TestFeedstocksAreNotCake(t *testing.T) {
	a := answerOf(t, readText(t, yardFile))
	if len(a.Feedstocks) != 1 {
		t.Fatalf("feedstocks %q", a.Feedstocks)
	}
	y := &a.Years[0]
	b := &y.Brought
	if b.FeedstockDry.Mean <= 0 || math.Abs(b.CakeDry.Mean+b.FeedstockDry.Mean-y.FeedDry.Mean) > 1e-6 || math.Abs(b.CakeWet.Mean+b.FeedstockWet.Mean-y.FeedWet.Mean) > 1e-6 {
		t.Errorf("%+v do not add up to %v and %v", b, y.FeedDry, y.FeedWet)
	}
	// The yard's manure has 28 % solids (its file).
	if got := b.FeedstockDry.Mean / b.FeedstockWet.Mean; math.Abs(got-0.28) > 1e-9 {
		t.Errorf("manure of %g solids", got)
	}
	with, without := everything(t, a), everything(t, answerOf(t, readSmall(t)))
	for _, words := range []string{"hauled-in manure", "cake and feedstocks", "cake_dry_", "feedstocks_wet_"} {
		if !strings.Contains(with, words) {
			t.Errorf("%q is not told", words)
		}
		if strings.Contains(without, words) {
			t.Errorf("%q is told of a plant without any", words)
		}
	}
	screen := strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.SI)), " ")
	if !strings.Contains(screen, "hauled-in manure, ") || !strings.Contains(screen, "(28 % solids)") {
		t.Errorf("the first year does not say what came beside cake: %s", screen)
	}
	if strings.Contains(with, "1 cake by volume") {
		t.Error("what is mixed is called cake")
	}
}

// answerOf asks of a facility file.
func answerOf(t *testing.T, text string) *simulate.Answer {
	t.Helper()
	f, err := facilityfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	a, err := ask(t.Context(), f, 2, answer.Setup{})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// everything is an answer on the screen and in JSON, with its figures' words.
func everything(t *testing.T, a *simulate.Answer) string {
	t.Helper()
	d := a.Document()
	all := rendertest.Text(t, d, units.SI) + string(rendertest.JSON(t, d, units.SI))
	for _, f := range d.Figures {
		all += f.Subtitle.In(units.SI)
	}
	return all
}

// Wood of the plant's own is told beside the chips that are bought, where there is some:
// half a yd3 a day, of which the small plant's store has room for all but the first days'.
func TestOwnWoodIsTold(t *testing.T) {
	a := answerOf(t, edited(t, readSmall(t), suppliers...))
	own := a.Years[0].Brought.OwnChips.P50 / 0.764554857984
	if own < 100 || own > 365*0.5 {
		t.Errorf("%g yd3 of own wood", own)
	}
	with, without := everything(t, a), everything(t, answerOf(t, readSmall(t)))
	for _, words := range []string{"of wood of its own", "chips_own_", "chips from sawmill", "chips from yard wood"} {
		if !strings.Contains(strings.Join(strings.Fields(with), " "), words) || strings.Contains(without, words) {
			t.Errorf("%q: told %v, without any %v", words, strings.Contains(with, words), strings.Contains(without, words))
		}
	}
}
