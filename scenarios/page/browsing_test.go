package page_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/page"
)

// dialOf is a part of a dial.
func dialOf(path, part string) string { return `.dial[data-path="` + path + `"] ` + part }

// add adds a dial by its key.
func add(t *testing.T, ctx context.Context, path string) {
	t.Helper()
	do(t, ctx, put("#words", path))
	until(t, ctx, "document.querySelector('.add[data-path=\""+path+"\"]')")
	do(t, ctx, click(`.add[data-path="`+path+`"]`))
	until(t, ctx, "document.querySelector('.dial[data-path=\""+path+"\"]')")
}

// A planner changes the value of one month and is told at its field what is wrong with it;
// makes all months greater by one factor; gives a key that is the same all year another
// value in one month; and works longer on a Friday.
func changesMonths(t *testing.T, v *visit) {
	ctx := v.opened(t)
	const season = "solids.by_month"
	add(t, ctx, season)
	do(t, ctx, put(dialOf(season, `[aria-label$="March"]`), "plenty"))
	until(t, ctx, "document.querySelector('.dial[data-path=\""+season+"\"] .problem').innerText.includes('plenty')")
	bad := value[string](t, ctx, `[...document.querySelectorAll('.part[aria-invalid="true"]')].map(p => p.ariaLabel).join()`)
	if bad != "by month, March" {
		t.Errorf("what is marked is %q", bad)
	}
	picture(t, ctx, "month-nonsense")
	do(t, ctx, put(dialOf(season, `[aria-label$="March"]`), "1.25"))
	until(t, ctx, "!document.querySelector('[aria-invalid=\"true\"]')")
	whole := func(path string) string {
		return value[string](t, ctx, "document.querySelector('.dial[data-path=\""+path+"\"] .value').value")
	}
	if got := whole(season); !strings.HasPrefix(got, "[0.95, 0.95, 1.25, 1.10") {
		t.Errorf("the months are %s", got)
	}
	do(t, ctx, put(dialOf(season, ".factor"), "2"))
	if got := whole(season); !strings.HasPrefix(got, "[1.9, 1.9, 2.1, 2.2") {
		t.Errorf("twice the months are %s", got)
	}
	do(t, ctx, put(dialOf(season, ".factor"), "1"))
	if got := value[bool](t, ctx, "document.querySelector('.dial[data-path=\""+season+"\"]').classList.contains('turned')"); got {
		t.Errorf("once the months are not those of the file: %s", whole(season))
	}

	const solids = "solids.cake_solids"
	do(t, ctx, click(dialOf(solids, "summary")), put(dialOf(solids, `[aria-label$="July"]`), "24 %"))
	if got := whole(solids); got != "[23 %, 23 %, 23 %, 23 %, 23 %, 23 %, 24 %, 23 %, 23 %, 23 %, 23 %, 23 %]" {
		t.Errorf("the months are %s", got)
	}
	do(t, ctx, put(dialOf(solids, ".value"), "25 %")) // for all year again
	until(t, ctx, "document.querySelector('.dial[data-path=\""+solids+"\"] .part').value == '25 %'")

	do(t, ctx, put(dialOf("hours.week", `[aria-label$="Friday"]`), "07:30-16:00"), put(dialOf("hours.week", `[aria-label$="Saturday"]`), "08:00-12:00"))
	if got := whole("hours.week"); !strings.HasSuffix(got, "fri: [07:30-16:00], sat: [08:00-12:00]}") {
		t.Errorf("the week is %s", got)
	}
	answered(t, ctx)
	picture(t, ctx, "months")
}

// A planner looks at the vessels in the quarter that run draws, goes a quarter and a year
// on, chooses one, and finds the ends of the horizon; what a dial changes is seen there.
func goesThroughVessels(t *testing.T, v *visit) {
	ctx := v.opened(t)
	do(t, ctx, click(`nav [data-view="vessels"]`))
	shown := func() string {
		t.Helper()
		until(t, ctx, "document.getElementById('vessels-state').innerText.startsWith('As loamcast run draws them') && document.getElementById('vessels-answer').getAttribute('aria-busy') == 'false'")
		return value[string](t, ctx, "document.getElementById('quarter').value")
	}
	first := shown()
	told := text(t, ctx, "#vessels-answer")
	if !strings.Contains(told, "In ") || !strings.Contains(told, "What each load waited for") || !strings.Contains(told, "until work begins") {
		t.Errorf("the vessels are told as\n%s", told)
	}
	do(t, ctx, script("document.getElementById('quarter').value = '2028-04'; document.getElementById('quarter').dispatchEvent(new Event('change', {bubbles: true}))"))
	if at := shown(); at != "2028-04" || !strings.Contains(text(t, ctx, "#vessels-answer .lead"), "April to June 2028") {
		t.Errorf("shown is %s, from %s", at, first)
	}
	for _, step := range []struct{ by, to string }{{"1", "2028-07"}, {"4", "2029-07"}, {"-1", "2029-04"}, {"-4", "2028-04"}} {
		do(t, ctx, click(`#moving [data-by="`+step.by+`"]`))
		if at := shown(); at != step.to {
			t.Errorf("by %s quarters it goes to %s, not %s", step.by, at, step.to)
		}
	}
	picture(t, ctx, "vessels")
	do(t, ctx, script("const q = document.getElementById('quarter'); q.value = q.options[0].value; q.dispatchEvent(new Event('change', {bubbles: true}))"))
	shown()
	if ends := value[string](t, ctx, "[...document.querySelectorAll('#moving button')].map(b => b.disabled).join()"); ends != "true,true,false,false" {
		t.Errorf("at the beginning there is no more to go to: %s", ends)
	}
	do(t, ctx, click(`nav [data-view="whatif"]`), put(dial("vessels.installed"), "4"), click(`nav [data-view="vessels"]`))
	shown()
	if lanes := value[string](t, ctx, "document.querySelector('#vessels-answer svg').textContent"); !strings.Contains(lanes, "Vessel 4") {
		t.Errorf("a fourth vessel is not drawn:\n%s", lanes)
	}
}

// What is edited and not saved, and cases, are offered when the program is started anew at
// another port, where the browser has nothing kept; they can be taken up or forgotten.
func takesUpDrafts(t *testing.T, v *visit) {
	waiting := func(ctx context.Context, _ *facilityfile.File) error { <-ctx.Done(); return ctx.Err() }
	c := page.Config{Label: v.path, Path: v.path, Folder: filepath.Dir(v.path), Drafts: filepath.Join(t.TempDir(), "drafts"), Ready: waiting}
	address, _, stop := servedAt(t, c, "127.0.0.1:0")
	ctx := tab(t, v.browser)
	ready := "document.getElementById('text').value != '' && document.querySelector('.dial')"
	do(t, ctx, chromedp.Navigate(address))
	until(t, ctx, ready)
	edited := strings.Replace(small(), "installed: 3", "installed: 4", 1)
	do(t, ctx, put("#text", edited), put(dial("screen.recovery"), "71 %"), put("#case-name", "less back"), click("#keeping button"))
	until(t, ctx, "document.getElementById('edited').innerText.includes('kept for the next start')")
	stop()

	address, _, stop = servedAt(t, c, "127.0.0.1:0")
	defer stop()
	ctx = tab(t, v.browser)
	do(t, ctx, chromedp.Navigate(address))
	until(t, ctx, ready+" && document.querySelector('.offer')")
	if told := text(t, ctx, "#offers"); !strings.Contains(told, "There are unsaved changes from") || !strings.Contains(told, "an edited text, 1 dial turned, 1 case") {
		t.Errorf("offered is %q", told)
	}
	picture(t, ctx, "offer")
	do(t, ctx, click(`.offer [name="take"]`))
	until(t, ctx, "!document.querySelector('.offer')")
	if got := value[string](t, ctx, "document.getElementById('text').value"); got != edited {
		t.Errorf("taken up is\n%s", got)
	}
	if got := value[string](t, ctx, "document.querySelector('.dial[data-path=\"screen.recovery\"] .value').value"); got != "71 %" {
		t.Errorf("the dial is at %s", got)
	}
	do(t, ctx, click(`nav [data-view="cases"]`))
	if told := text(t, ctx, "#case-list"); !strings.Contains(told, "less back") || !strings.Contains(told, "screen.recovery: 71 %") {
		t.Errorf("the cases are\n%s", told)
	}

	another := tab(t, v.browser) // the draft is of the tab that took it up, now
	do(t, another, chromedp.Navigate(address))
	until(t, another, ready+" && document.querySelector('.offer')")
	do(t, another, click(`.offer [name="forget"]`))
	until(t, another, "!document.querySelector('.offer')")
	if got := value[string](t, another, "document.getElementById('text').value"); got != small() {
		t.Errorf("forgotten is\n%s", got)
	}
}
