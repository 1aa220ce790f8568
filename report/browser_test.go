package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// chromium finds the browser, or passes the test over.
func chromium(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser takes its time")
	}
	for _, name := range []string{"chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	lacking(t, "there is no chromium")
	return ""
}

// lacking passes a test over that needs what is not on this machine. Where
// changes are judged (CI is set) everything has to be there.
func lacking(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// bookPages are the books of the example farm, by name.
func bookPages(t *testing.T) map[string]string {
	t.Helper()
	pages := map[string]string{}
	n := nursery.Replay(kestrelPages(t), 0)
	for name, o := range map[string]Options{
		"season": {Findings: n.Findings},
		"diff":   {},
		"plan":   {Want: Want{Count: 200, Variety: "Amberlight", By: n.Last + 330}},
		"due":    {Days: 60},
	} {
		r, ok := Named(name)
		if !ok {
			t.Fatalf("there is no report %s", name)
		}
		o.AsAt = n.Last
		doc, err := r.Build(n, o)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := table.WriteHTML(&b, *doc, table.HTMLOptions{}); err != nil {
			t.Fatal(err)
		}
		pages[name] = b.String()
	}
	return pages
}

// answered opens a page in the browser and gives what its script leaves in the
// element "answer". The browser gets no network.
func answered(t *testing.T, browser, page string) string {
	t.Helper()
	folder := t.TempDir()
	file := filepath.Join(folder, "page.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
		"--disable-background-networking", "--disable-component-update", "--disable-sync", "--proxy-server=127.0.0.1:9", "--user-data-dir="+filepath.Join(folder, "profile"),
		"--window-size=1280,900", "--virtual-time-budget=20000", "--dump-dom", "file://"+file)
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s: %v", browser, err)
	}
	m := regexp.MustCompile(`(?s)<pre id="answer">(.*?)</pre>`).FindSubmatch(out)
	if m == nil {
		t.Fatalf("the page gave no answer: %.2000s", out)
	}
	return html.UnescapeString(string(m[1]))
}

const answer = `<script>
function answer(x) {
  const pre = document.createElement("pre");
  pre.id = "answer";
  pre.textContent = JSON.stringify(x);
  document.documentElement.append(pre);
}
</script>`

// axe-core finds nothing wrong with the pages by the rules of the Web Content
// Accessibility Guidelines 2.2, level AA (https://www.w3.org/TR/WCAG22/), and by
// what it calls best practice, on a light screen and on a dark one. BUDSTICK_AXE
// is its axe.min.js, from the package axe-core of the npm registry.
func TestPagesAreAccessible(t *testing.T) {
	browser := chromium(t)
	path := os.Getenv("BUDSTICK_AXE")
	if path == "" {
		lacking(t, "BUDSTICK_AXE names no axe.min.js")
	}
	axe, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for name, page := range bookPages(t) {
		for _, scheme := range []string{"light", "dark"} {
			if scheme == "dark" && name != "season" {
				continue // it has all that the others have
			}
			t.Run(name+"/"+scheme, func(t *testing.T) {
				shown := strings.Replace(page, "prefers-color-scheme: dark", "prefers-color-scheme: "+map[string]string{"light": "no-preference", "dark": "light"}[scheme], 1)
				if scheme == "dark" && shown == page {
					t.Fatal("the page has no dark colours")
				}
				script := answer + "<script>" + string(axe) + `</script><script>
axe.run(document, {resultTypes: ["violations"]}).then(r => answer({
  passes: r.passes.length,
  violations: r.violations.map(v => v.id + ": " + v.help + " " + v.nodes.slice(0, 3).map(n => n.html.slice(0, 200)).join(" | ")),
}));
</script>`
				var got struct {
					Passes     int
					Violations []string
				}
				if err := json.Unmarshal([]byte(answered(t, browser, shown+script)), &got); err != nil {
					t.Fatal(err)
				}
				if got.Passes < 20 {
					t.Errorf("only %d rules had anything to look at", got.Passes)
				}
				for _, v := range got.Violations {
					t.Error(v)
				}
			})
		}
	}
}

// On a telephone of 390 points and on a wide screen the page is no wider than
// the screen: only tables scroll, each by itself. Nothing is fetched from
// anywhere, and no text is smaller than 11 points of the screen.
func TestPagesFitTheScreen(t *testing.T) {
	browser := chromium(t)
	for name, page := range bookPages(t) {
		t.Run(name, func(t *testing.T) {
			frames := ""
			for _, width := range []int{320, 390, 1280} {
				frames += fmt.Sprintf(`<iframe style="width:%dpx;height:800px;border:0" srcdoc="%s"></iframe>`, width, html.EscapeString(page))
			}
			var got []struct {
				Inner, Scroll, Fetched int
				Wide, Small            []string
			}
			if err := json.Unmarshal([]byte(answered(t, browser, "<!DOCTYPE html><html><body>"+answer+frames+measure+"</body></html>")), &got); err != nil {
				t.Fatal(err)
			}
			if len(got) != 3 || got[0].Inner != 320 || got[2].Inner != 1280 {
				t.Fatalf("not the screens that were asked for: %v", got)
			}
			for _, g := range got {
				if g.Scroll > g.Inner || len(g.Wide) > 0 || len(g.Small) > 0 || g.Fetched > 0 {
					t.Errorf("of %d points it takes %d; too wide: %q; too small: %q; %d fetched", g.Inner, g.Scroll, g.Wide, g.Small, g.Fetched)
				}
			}
		})
	}
}

// On paper, A4 (210 mm wide, ISO 216) and Letter (215.9 mm, ANSI/ASME Y14.1),
// less the margins of the page no table is wider than the page; what is left out
// for that is named. The rules for print are shown on a screen as wide as the
// paper.
func TestPagesFitThePaper(t *testing.T) {
	browser := chromium(t)
	const margins = 2 * 14
	for name, page := range bookPages(t) {
		t.Run(name, func(t *testing.T) {
			shown := strings.Replace(page, "@media print", "@media screen", 1)
			if shown == page || !strings.Contains(page, fmt.Sprintf("@page { margin: 16mm %dmm; }", margins/2)) {
				t.Fatal("the page is not ready for print")
			}
			frames := ""
			for _, width := range []float64{210, 215.9} {
				frames += fmt.Sprintf(`<iframe style="width:%.1fmm;height:800px;border:0" srcdoc="%s"></iframe>`, width-margins, html.EscapeString(shown))
			}
			var got []struct {
				Wide []string
				Left int
			}
			if err := json.Unmarshal([]byte(answered(t, browser, "<!DOCTYPE html><html><body>"+answer+frames+measurePaper+"</body></html>")), &got); err != nil {
				t.Fatal(err)
			}
			if len(got) != 2 {
				t.Fatalf("not the papers that were asked for: %v", got)
			}
			for _, g := range got {
				if len(g.Wide) > 0 {
					t.Errorf("wider than the paper: %q", g.Wide)
				}
				if name == "season" && g.Left == 0 {
					t.Error("nothing says what was left out")
				}
			}
		})
	}
}

const measurePaper = `<script>
window.addEventListener("load", () => answer([...document.querySelectorAll("iframe")].map(f => {
  const d = f.contentDocument, w = f.contentWindow;
  const wide = [...d.querySelectorAll("main *")].filter(e => !e.closest("svg, .unseen") && e.getBoundingClientRect().right > w.innerWidth + 1);
  const left = [...d.querySelectorAll(".printed")].filter(e => e.getBoundingClientRect().height > 0);
  return {wide: wide.slice(0, 5).map(e => e.outerHTML.slice(0, 120)), left: left.length};
})));
</script>`

// measure asks each frame how wide its page is, and what is wider or smaller than
// it may be.
const measure = `<script>
window.addEventListener("load", () => answer([...document.querySelectorAll("iframe")].map(f => {
  const d = f.contentDocument, w = f.contentWindow, start = e => e.outerHTML.slice(0, 120);
  const wide = [...d.querySelectorAll("body *")].filter(e => !e.closest(".scroll, .wide, svg, .skip, .unseen") && e.getBoundingClientRect().right > w.innerWidth + 1);
  const small = [...d.querySelectorAll("body p, body td, body th, body dd, body li")].filter(e => parseFloat(w.getComputedStyle(e).fontSize) < 11);
  return {inner: w.innerWidth, scroll: d.documentElement.scrollWidth, wide: wide.slice(0, 5).map(start), small: small.slice(0, 5).map(start),
    fetched: w.performance.getEntriesByType("resource").length};
})));
</script>`
