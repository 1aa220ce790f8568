package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"golang.org/x/text/language"

	"github.com/budstick/budstick/report/table"
)

// twelveYears is the book of a nursery whose grafts become mothers: some 200
// things come of its first tree, by wood, grafts, grafts on stocks whose first
// top had failed, joined lots and trees. Names are of wide letters and narrow
// ones.
func twelveYears() string {
	var b strings.Builder
	b.WriteString(tangledFacts[:strings.Index(tangledFacts, "2020-01-01")])
	trees := []string{"M1/rest"}
	for y := range 12 {
		fmt.Fprintf(&b, "%d-02-01\nbuy 100 liners of \"Hedge Loquat\" as Q%[2]d from \"Valley Liners\"\n", 2014+y, y)
		var lots []string
		for i, mother := range trees[max(0, len(trees)-5):] {
			fmt.Fprintf(&b, "cut 40 scions from %s as W%d-%d worker Ines\n", mother, y, i)
			for j := range 1 + (y+i)%3 {
				lot := fmt.Sprintf("%s%d-%d%c", []string{"MWM-MAMMOTH-", "AM", "ill"}[i%3], y, i, 'a'+j)
				fmt.Fprintf(&b, "graft 6 of Q%d with W%[1]d-%d by %s as %s worker Wim, Ru\n", y, i, []string{"cleft", "veneer", "whip-and-tongue"}[j], lot)
				lots = append(lots, lot)
			}
		}
		fmt.Fprintf(&b, "%d-03-12\n", 2014+y)
		for _, lot := range lots {
			fmt.Fprintf(&b, "check %s: 4 took, 2 failed\n", lot)
		}
		fmt.Fprintf(&b, "graft 2 failed of %s with %s by bark as R%d\n%d-04-20\ncheck R%[3]d: 2 took\n", lots[0], trees[len(trees)-1], y, 2014+y)
		fmt.Fprintf(&b, "join R%d, %s as J%[1]d\n", y, lots[len(lots)-1])
		for i, lot := range append([]string{fmt.Sprintf("J%d", y)}, lots[:min(3, len(lots)-1)]...) {
			fmt.Fprintf(&b, "plant 1 of %s as T%d-%d\n", lot, y, i)
			trees = append(trees, fmt.Sprintf("T%d-%d", y, i))
		}
	}
	return b.String()
}

// In a drawing of some two hundred things no word sticks out of its box or lies
// on another, and no line runs through a box: measured in a browser with its own
// letters, for any font that it has.
func TestDrawingsCanBeRead(t *testing.T) {
	browser := chromium(t)
	n := sound(t, twelveYears())
	drawings := 0
	for _, q := range []struct {
		report *Report
		name   string
		least  int
	}{{trace, "M1", 200}, {lineage, "T11-0", 60}} {
		doc, err := q.report.Build(n, Options{AsAt: n.Last, Name: q.name, Depth: 100})
		if err != nil {
			t.Fatal(err)
		}
		for _, block := range doc.Body {
			g, ok := block.(table.Graph)
			if !ok {
				continue
			}
			drawings++
			var b bytes.Buffer
			if err := table.WriteSVG(&b, g, language.Und); err != nil {
				t.Fatal(err)
			}
			var got struct {
				Boxes, Words     int
				Out, On, Crossed []string
			}
			if err := json.Unmarshal([]byte(answered(t, browser, "<!DOCTYPE html><html><body>"+answer+b.String()+readable+"</body></html>")), &got); err != nil {
				t.Fatal(err)
			}
			if got.Boxes < q.least || got.Boxes != len(g.Nodes) || got.Words < 2*got.Boxes {
				t.Errorf("%s of %s: %d boxes with %d lines of words, for %d things", q.report.Name, q.name, got.Boxes, got.Words, len(g.Nodes))
			}
			if len(got.Out)+len(got.On)+len(got.Crossed) > 0 {
				t.Errorf("%s of %s: out of their boxes: %q; on each other: %q; crossed by lines: %q", q.report.Name, q.name, got.Out, got.On, got.Crossed)
			}
		}
	}
	if drawings != 2 {
		t.Errorf("%d drawings", drawings)
	}
}

// readable measures the first drawing of a page.
const readable = `<script>
window.addEventListener("load", () => {
  const svg = document.querySelector("svg"), part = (a, b) => a.text + " / " + b.text;
  const boxes = [...svg.querySelectorAll("rect.card")].map(e => e.getBBox());
  const words = [...svg.querySelectorAll("text")].map(e => ({text: e.textContent, b: e.getBBox()})).filter(w => w.b.width > 0);
  const overlap = (a, b) => Math.min(Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x), Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y));
  const out = [], on = [], crossed = [];
  let inside = 0;
  for (const w of words) {
    const b = w.b, home = boxes.find(r => b.x >= r.x && b.x < r.x + r.width && b.y + b.height / 2 > r.y && b.y + b.height / 2 < r.y + r.height);
    if (home) inside++;
    if (home && b.x + b.width > home.x + home.width - 2) out.push(w.text);
    for (const v of words) if (v !== w && overlap(v.b, b) > 4) on.push(part(v, w));
  }
  for (const line of svg.querySelectorAll("path.step")) {
    const length = line.getTotalLength();
    for (let d = 2; d < length - 2; d += 2) {
      const p = line.getPointAtLength(d);
      if (boxes.some(r => p.x > r.x + 0.5 && p.x < r.x + r.width - 0.5 && p.y > r.y + 0.5 && p.y < r.y + r.height - 0.5)) { crossed.push(line.getAttribute("d")); break; }
    }
  }
  answer({boxes: boxes.length, words: inside, out: out.slice(0, 5), on: on.slice(0, 5), crossed: crossed.slice(0, 5)});
});
</script>`

// On a sheet of labels no word lies on a code or leaves its label, however wide its
// letters are.
func TestLabelsCanBeRead(t *testing.T) {
	browser := chromium(t)
	n := sound(t, `farm "Kestrel Hollow" currency EUR country ESP registration "KH-0417-WWWWWWWWWWWWWWW"
variety "MAMMOTH WOMBAT WAMMAM Wumm" species "Eriobotrya japonica" sold as "WWWWWWWWWWWWWWWWWWWWWWWWWWWWW"
variety "Quince BA" species "Cydonia oblonga" use rootstock
tree M7 variety "MAMMOTH WOMBAT WAMMAM Wumm"
2026-03-02
buy 20 liners of "Quince BA" as QB26 from "Valley Liners"
graft 9 of QB26 with M7 by cleft as "MWMWMWMWMWMWMWMW WWM 26 <&>"
2026-05-02
check "MWMWMWMWMWMWMWMW WWM 26 <&>": 3 took, 6 failed
`)
	doc, err := label.Build(n, Options{AsAt: n.Last, Name: "MWMWMWMWMWMWMWMW WWM 26 <&>"})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := table.WriteSVG(&b, doc.Body[len(doc.Body)-1].(table.Labels), language.Und); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Labels, Words int
		Bad           []string
	}
	if err := json.Unmarshal([]byte(answered(t, browser, "<!DOCTYPE html><html><body>"+answer+b.String()+`<script>
window.addEventListener("load", () => {
  const at = e => e.getBoundingClientRect(), all = s => [...document.querySelectorAll(s)];
  const labels = all("rect.card").map(at), codes = all("rect.code-paper").map(at), bad = [];
  let words = 0;
  for (const e of all("text")) {
    const b = at(e), home = labels.find(r => b.left >= r.left && b.left < r.right && b.top > r.top - 3 && b.bottom < r.bottom + 3);
    if (!home) continue;
    words++;
    if (b.right > home.right || codes.some(c => b.right > c.left && b.left < c.right && b.bottom > c.top && b.top < c.bottom)) bad.push(e.textContent);
  }
  answer({labels: labels.length, words, bad});
});
</script></body></html>`)), &got); err != nil {
		t.Fatal(err)
	}
	if got.Labels != 3 || got.Words < 3*10 || len(got.Bad) > 0 {
		t.Errorf("%+v", got)
	}
}
