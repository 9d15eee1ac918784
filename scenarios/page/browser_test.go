package page_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	devtools "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/xuri/excelize/v2"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/page"
)

// pictures is a folder for pictures of the page, to be looked at: run with
// -pictures $PWD/pictures.
var pictures = flag.String("pictures", "", "folder for pictures of the page")

// patient is how long a test waits for the page, on a busy machine.
const patient = 90 * time.Second

// chromium is a browser, of which each test gets a tab of its own.
func chromium(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("LOAMCAST_REQUIRE_TOOLS") == "1" {
			t.Fatalf("chromium is required (LOAMCAST_REQUIRE_TOOLS=1): %v", err)
		}
		t.Skipf("chromium is not installed: %v", err)
	}
	ctx, cancel := chromedp.NewExecAllocator(context.Background(),
		append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU)...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	begin(t, ctx)
	return ctx
}

// begin starts a browser or a tab, which lasts as long as the context.
func begin(t *testing.T, ctx context.Context) {
	t.Helper()
	if _, err := chromedp.Run(ctx, chromedp.Location()); err != nil {
		t.Fatal(err)
	}
}

// complaints are what the console of a page may say without fault: of an answer that is
// refused, and of a page that is left with edits by a test and not by a person.
var complaints = regexp.MustCompile("^(Failed to load resource|Blocked attempt to show a 'beforeunload')")

// tab is a tab of a browser. What its script or the policy of the page complains of fails
// the test.
func tab(t *testing.T, browser context.Context) context.Context {
	t.Helper()
	ctx, cancel := chromedp.NewContext(browser)
	begin(t, ctx)
	heard := make(chan struct{})
	go func() {
		defer close(heard)
		for m, err := range chromedp.Console(ctx) {
			if err != nil {
				return
			}
			if !complaints.MatchString(m.Text) {
				t.Errorf("the console says %s: %s", m.Type, m.Text)
			}
		}
	}()
	t.Cleanup(func() { cancel(); <-heard })
	return ctx
}

// do does what a person does, one thing after the other.
func do(t *testing.T, ctx context.Context, actions ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	for i, a := range actions {
		limited, cancel := context.WithTimeout(ctx, patient)
		err := chromedp.Do(limited, a)
		cancel()
		if err != nil {
			t.Fatalf("action %d: %v", i+1, err)
		}
	}
}

// picture keeps a picture of what is seen, if pictures are wanted.
func picture(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	if *pictures == "" {
		return
	}
	data, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(*pictures, name+".png"), data, 0o600); err != nil {
		t.Fatal(err)
	}
}

// visit is a browser at the page of a file.
type visit struct {
	browser       context.Context
	address, path string
}

// opened is a new tab at the page, once the first answer is there.
func (v *visit) opened(t *testing.T) context.Context {
	t.Helper()
	ctx := tab(t, v.browser)
	do(t, ctx, chromedp.Navigate(v.address))
	answered(t, ctx)
	return ctx
}

// What a person does at the page, in a real browser. All tabs are at the page of one file,
// which the last changes.
func TestInABrowser(t *testing.T) {
	v := &visit{browser: chromium(t), path: filepath.Join(t.TempDir(), "plant.yaml")}
	if err := os.WriteFile(v.path, []byte(small()), 0o600); err != nil {
		t.Fatal(err)
	}
	v.address, _ = served(t, page.Config{Label: v.path, Path: v.path, Folder: filepath.Dir(v.path)})
	for _, c := range []struct {
		name string
		test func(*testing.T, *visit)
	}{{"fits", fits}, {"turns dials", turnsDials}, {"asks questions", asksQuestions}, {"outlives the program", outlivesTheProgram}, {"takes the workbook", takesTheWorkbook}, {"changes months", changesMonths}, {"goes through vessels", goesThroughVessels}, {"takes up drafts", takesUpDrafts}, {"edits the file", editsTheFile}} {
		t.Run(c.name, func(t *testing.T) { c.test(t, v) })
	}
}

// due is when vessels are to be ordered.
var due = regexp.MustCompile(`by the end of the \w+ quarter of \d+`)

// A planner opens the page, raises growth and sees the order move; types nonsense and is
// told at the dial; keeps a case, and compares it with the file.
func turnsDials(t *testing.T, v *visit) {
	ctx := v.opened(t)
	const growth = "solids.growth.linear"
	first := answered(t, ctx)
	if !strings.Contains(first, "vessel") {
		t.Fatalf("the answer is %q", first)
	}
	picture(t, ctx, "whatif")
	const moves = "(() => { const f = document.querySelector('#whatif-answer figure'); return f.scrollWidth / f.clientWidth; })()"
	for _, times := range []float64{1, 2, 4, 1} { // a picture becomes larger, and as wide as the page again
		if wide := value[float64](t, ctx, moves); math.Abs(wide-times) > 0.05 {
			t.Errorf("a picture is %.2f times as wide as what is seen of it, not %v", wide, times)
		}
		if times == 4 {
			picture(t, ctx, "enlarged")
		}
		do(t, ctx, click("#whatif-answer .enlarge"))
	}
	do(t, ctx, put(dial(growth), "2 %/year"))
	until(t, ctx, "document.getElementById('whatif-state').innerText.startsWith('A first look')")
	if slower := text(t, ctx, "#whatif-answer .lead"); due.FindString(slower) == due.FindString(first) || due.FindString(first) == "" {
		t.Errorf("slower growth leaves the order where it was: %s", slower)
	}
	do(t, ctx, put(dial(growth), "plenty"))
	until(t, ctx, "document.querySelector('.dial[data-path=\""+growth+"\"] .problem').innerText != ''")
	if told := text(t, ctx, `.dial[data-path="`+growth+`"] .problem`); !strings.Contains(told, "plenty") || !strings.Contains(told, "%/year") {
		t.Errorf("told %q", told)
	}
	picture(t, ctx, "nonsense")
	do(t, ctx, put(dial(growth), "5.0 %/year"))
	if again := answered(t, ctx); again != first {
		t.Errorf("the same value gives another answer: %s", again)
	}
	do(t, ctx, put(dial("mix.chips_to_cake"), "3.4"), put("#case-name", "more chips"), click("#keeping button"), click(`nav [data-view="cases"]`))
	do(t, ctx, click("#case-list > button"))
	until(t, ctx, "document.querySelector('#cases-answer .lead') && document.getElementById('cases-answer').getAttribute('aria-busy') == 'false'")
	if told := text(t, ctx, "#cases-answer"); !strings.Contains(told, "mix.chips_to_cake") || !strings.Contains(told, "more chips") {
		t.Errorf("compared:\n%s", told)
	}
	picture(t, ctx, "cases")
}

// A planner asks another question. What is wrong with an option is told at its field, and
// the answer comes when it is mended.
func asksQuestions(t *testing.T, v *visit) {
	ctx := v.opened(t)
	do(t, ctx, click(`nav [data-view="questions"]`), click(`details[data-question="mix"] summary`), put("#option-mix-month", "Juember"), click(`form[data-question="mix"] button`))
	until(t, ctx, "document.querySelector('form[data-question=\"mix\"] .problem:not([hidden])')")
	if told := text(t, ctx, `form[data-question="mix"]`); !strings.Contains(told, "Juember") {
		t.Errorf("told %q", told)
	}
	do(t, ctx, put("#option-mix-month", "july"), click(`form[data-question="mix"] button`))
	until(t, ctx, "document.querySelector('#questions-answer .lead') && document.getElementById('questions-answer').getAttribute('aria-busy') == 'false'")
	if told := text(t, ctx, "#questions-answer"); !strings.Contains(told, "July") {
		t.Errorf("the answer is\n%s", told)
	}
	picture(t, ctx, "question")
}

// What is edited and not saved stays when the program ends: the page says that it has, and
// once it is started again at the same port the edit is there.
func outlivesTheProgram(t *testing.T, v *visit) {
	waiting := func(ctx context.Context, _ *facilityfile.File) error { <-ctx.Done(); return ctx.Err() }
	c := page.Config{Label: v.path, Path: v.path, Folder: filepath.Dir(v.path), Ready: waiting}
	address, _, stop := servedAt(t, c, "127.0.0.1:0")
	ctx := tab(t, v.browser)
	do(t, ctx, chromedp.Navigate(address))
	until(t, ctx, "document.getElementById('text').value != '' && document.querySelector('.dial')")
	edited := strings.Replace(small(), "installed: 3", "installed: 4", 1)
	do(t, ctx, put("#text", edited))
	stop()
	do(t, ctx, put("#words", "truck"))
	until(t, ctx, "document.getElementById('trouble').innerText.includes('still here')")
	host, _, _ := strings.Cut(strings.TrimPrefix(address, "http://"), "/")
	address, _, stop = servedAt(t, c, host)
	defer stop()
	do(t, ctx, chromedp.Navigate("about:blank"), chromedp.Navigate(address))
	until(t, ctx, "document.getElementById('text').value != '' && !document.getElementById('edited').hidden")
	if got := value[string](t, ctx, "document.getElementById('text').value"); got != edited {
		t.Errorf("the edit is\n%s", got)
	}
}

// A planner edits the file: a mistake is told at its field and line; a good value is
// saved, and every comment is kept. Where something else has written the file, he is
// asked, and can leave it, take it or write over it.
func editsTheFile(t *testing.T, v *visit) {
	ctx, path := v.opened(t), v.path
	do(t, ctx, click(`nav [data-view="file"]`), chromedp.WaitVisible(`[data-section="vessels"]`), click(`[data-section="vessels"] summary`))
	field := `#form input[data-path="vessels.residence"]`
	do(t, ctx, put(field, "soon"))
	until(t, ctx, "document.querySelector('#form .bad .problem')?.innerText.includes('soon')")
	if told := text(t, ctx, "#file-problems"); !strings.HasPrefix(told, "Line ") {
		t.Errorf("told %q", told)
	}
	picture(t, ctx, "file")
	do(t, ctx, put(field, "21 day"))
	// The form is drawn anew, and the page moves once more when the field has the focus again.
	until(t, ctx, "!document.getElementById('save').disabled && document.activeElement?.dataset?.path == 'vessels.residence'")
	do(t, ctx, click("#save"))
	until(t, ctx, "document.getElementById('file-state').innerText.startsWith('Saved')")
	want := strings.Replace(small(), "residence: 20 day", "residence: 21 day", 1)
	if got := onDisk(t, path); got != want {
		t.Errorf("saved is\n%s", got)
	}

	other := "# written by another\n" + want
	if err := os.WriteFile(path, []byte(other), 0o600); err != nil {
		t.Fatal(err)
	}
	do(t, ctx, put(field, "22 day"))
	until(t, ctx, "!document.getElementById('save').disabled && document.getElementById('text').value.includes('22 day') && document.activeElement?.dataset?.path == 'vessels.residence'")
	do(t, ctx, click("#save"), chromedp.WaitVisible("#changed[open]"))
	picture(t, ctx, "changed")
	do(t, ctx, click(`#changed [value="keep"]`))
	until(t, ctx, "!document.getElementById('changed').open && document.getElementById('file-state').innerText.startsWith('Not saved')")
	if got := onDisk(t, path); got != other {
		t.Errorf("what another wrote is lost:\n%s", got)
	}
	do(t, ctx, click("#save"), chromedp.WaitVisible("#changed[open]"), click(`#changed [value="write"]`))
	until(t, ctx, "document.getElementById('file-state').innerText.startsWith('Saved')")
	if got := onDisk(t, path); got != strings.Replace(want, "21 day", "22 day", 1) {
		t.Errorf("written over is\n%s", got)
	}
}

// A planner downloads the workbook, and it opens.
func takesTheWorkbook(t *testing.T, v *visit) {
	ctx, path := v.opened(t), v.path
	folder := filepath.Dir(path)
	if _, err := chromedp.CallBrowser(ctx, devtools.SetDownloadBehavior, devtools.SetDownloadBehaviorParams{Behavior: devtools.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder}); err != nil {
		t.Fatal(err)
	}
	do(t, ctx, click(`nav [data-view="file"]`), chromedp.SetValue("#report-part", "check"), click(`#reporting [value="xlsx"]`))
	until(t, ctx, "document.getElementById('report-state').innerText.includes('downloads')")
	book := filepath.Join(folder, "report.xlsx")
	for deadline := time.Now().Add(patient); ; time.Sleep(50 * time.Millisecond) {
		if _, err := os.Stat(book); err == nil {
			break
		}
		if time.Now().After(deadline) {
			t.Fatal("nothing was downloaded")
		}
	}
	opened, err := excelize.OpenFile(book)
	if err != nil {
		t.Fatal(err)
	}
	if sheets := opened.GetSheetList(); len(sheets) < 2 {
		t.Errorf("the workbook has the sheets %v", sheets)
	}
}

// At every width the page is within the window, of which pictures in the dark can be looked
// at too, and a keyboard alone
// reaches a dial and turns it. Every field and button has a name.
func fits(t *testing.T, v *visit) {
	ctx := v.opened(t)
	schemes := []string{"light"}
	if *pictures != "" {
		schemes = append(schemes, "dark")
	}
	for _, scheme := range schemes {
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}); err != nil {
			t.Fatal(err)
		}
		for _, width := range []int64{360, 768, 1280, 1920} {
			do(t, ctx, chromedp.EmulateViewport(width, 900))
			for _, view := range []string{"questions", "vessels", "cases", "file", "whatif"} {
				do(t, ctx, click(`nav [data-view="`+view+`"]`))
				if view == "vessels" {
					until(t, ctx, "document.getElementById('vessels-state').innerText.startsWith('As loamcast run')")
				}
				if wide := value[int](t, ctx, "document.documentElement.scrollWidth"); wide > int(width) {
					t.Errorf("%s is %d wide where there is room for %d", view, wide, width)
				}
				picture(t, ctx, fmt.Sprintf("%s-%d-%s", view, width, scheme))
			}
		}
	}
	nameless := value[string](t, ctx, `[...document.querySelectorAll("input, select, textarea, button")]
		.filter(e => !(e.labels?.length || e.getAttribute("aria-label") || e.innerText || e.textContent.trim())).map(e => e.outerHTML).join("\n")`)
	if nameless != "" {
		t.Errorf("without a name:\n%s", nameless)
	}
	do(t, ctx, chromedp.Focus(`.dial[data-path="screen.recovery"] input[type="range"]`), chromedp.KeyEvent(kb.ArrowRight))
	until(t, ctx, "document.querySelector('.dial.turned')")
}
