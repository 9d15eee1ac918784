package page_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// value is that of an expression of the page.
func value[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return v
}

// text is what an element shows.
func text(t *testing.T, ctx context.Context, selector string) string {
	t.Helper()
	return value[string](t, ctx, fmt.Sprintf("document.querySelector(%q)?.innerText ?? ''", selector))
}

// until waits until an expression of the page holds.
func until(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	for deadline := time.Now().Add(patient); !value[bool](t, ctx, "!!("+expression+")"); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("waiting for %s; the page shows (%s)\n%s", expression, text(t, ctx, "#file-state"), text(t, ctx, "body"))
		}
	}
}

// answered waits for the answer as the command line has it.
func answered(t *testing.T, ctx context.Context) string {
	t.Helper()
	until(t, ctx, "document.getElementById('whatif-state').innerText.startsWith('As on the command line')")
	return text(t, ctx, "#whatif-answer .lead")
}

// put types a value into a field in place of what is in it, as a person leaves it.
func put(selector, value string) chromedp.Action[chromedp.Void] {
	return script(fmt.Sprintf("const f = document.querySelector(%q); f.focus(); f.value = %q; f.dispatchEvent(new Event('input', {bubbles: true})); f.dispatchEvent(new Event('change', {bubbles: true}));", selector, value))
}

// click clicks the first element that is meant, once it stays where it is: a page that is
// still moving is clicked beside it.
func click(selector string) chromedp.Action[chromedp.Void] {
	where := fmt.Sprintf("(() => { const b = document.querySelector(%q)?.getBoundingClientRect(); return b ? [b.x, b.y, b.width].join() : '' })()", selector)
	return func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		before, tries := "", 0
		for {
			now, err := chromedp.Evaluate[string](where)(ctx, t)
			if err != nil {
				return chromedp.Void{}, err
			}
			if tries++; now != "" && now == before || tries > 100 {
				done, err := chromedp.Click(selector)(ctx, t)
				if err == nil || tries > 100 || !strings.Contains(err.Error(), "find node") { // it was drawn anew meanwhile
					return done, err
				}
			}
			before = now
			time.Sleep(60 * time.Millisecond)
		}
	}
}

// script does something by the page's own means.
func script(statements string) chromedp.Action[chromedp.Void] {
	return func(ctx context.Context, t *chromedp.Target) (chromedp.Void, error) {
		_, err := chromedp.Evaluate[bool]("(() => {"+statements+"; return true})()")(ctx, t)
		return chromedp.Void{}, err
	}
}

// dial is the field of a dial.
func dial(path string) string { return fmt.Sprintf(`.dial[data-path="%s"] .value`, path) }
