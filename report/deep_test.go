package report

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"golang.org/x/text/language"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/report/table"
)

const generations = 10_000

// A line may go on for ever in several ways: by grafts that become trees which
// give wood, by plants that are split off, by lots that are joined, and by
// layers of layers.
var lineages = map[string]func(w io.Writer, i int){
	"grafts": func(w io.Writer, i int) {
		fmt.Fprintf(w, "cut 2 scions from T%d as W%d\ngraft 1 of QB with W%[2]d as G%[2]d\ncheck G%[2]d: 1 took\nplant 1 of G%[2]d as T%[3]d\n", i, i, i+1)
	},
	"splits": func(w io.Writer, i int) { fmt.Fprintf(w, "split %d of T%d as T%d\n", 2*generations-i-1, i, i+1) },
	"joins": func(w io.Writer, i int) {
		fmt.Fprintf(w, "buy 1 liners of \"Quince BA\" as B%d\njoin T%d, B%d as T%d\n", i, i, i, i+1)
	},
	"layers": func(w io.Writer, i int) {
		fmt.Fprintf(w, "layer 1 on T%d as L%d\ncheck L%[2]d: 1 rooted\nsever 1 of L%[2]d\nplant 1 of L%[2]d as T%[3]d\n", i, i, i+1)
	},
}

func deep(how string) string {
	var b strings.Builder
	b.WriteString("farm \"Kestrel Hollow\" currency EUR\nvariety Amberlight species \"Eriobotrya japonica\"\nvariety \"Quince BA\" species \"Cydonia oblonga\" use rootstock\n")
	switch how {
	case "splits", "joins":
		fmt.Fprintf(&b, "1990-01-01\nbuy %d liners of \"Quince BA\" as T0\n", 2*generations)
	default:
		fmt.Fprintf(&b, "tree T0 variety Amberlight planted 1980\n1990-01-01\nbuy %d liners of \"Quince BA\" as QB\n", generations)
	}
	day, _ := fact.ParseDate("1990-01-02")
	for i := range generations {
		fmt.Fprintf(&b, "%s\n", day+fact.Date(i))
		lineages[how](&b, i)
	}
	return b.String()
}

// A line of 10,000 generations is followed to its end; that of grafts is drawn
// and written in every form too.
func TestTenThousandGenerations(t *testing.T) {
	last := fmt.Sprintf("T%d", generations)
	for how := range lineages {
		t.Run(how, func(t *testing.T) {
			start := time.Now()
			n := sound(t, deep(how))
			read := time.Since(start)
			start = time.Now()
			for _, q := range []struct {
				report      *Report
				name, other string
				depth       int
			}{{lineage, last, "T0", 1000}, {trace, "T0", last, 0}} {
				doc, err := q.report.Build(n, Options{AsAt: n.Last, Name: q.name, Depth: q.depth})
				if err != nil {
					t.Fatal(err)
				}
				if !strings.Contains(string(jsonOf(t, *doc)), fmt.Sprintf("%q", q.other)) {
					t.Errorf("%s of %s does not reach %s", q.report.Name, q.name, q.other)
				}
				if how == "grafts" {
					writeAll(t, *doc)
				}
			}
			took := time.Since(start)
			t.Logf("read and replayed in %v; asked twice and written in %v", read, took)
			if took > 60*time.Second {
				t.Errorf("it took %v", took)
			}
		})
	}
}

func writeAll(t *testing.T, d table.Doc) {
	t.Helper()
	var b bytes.Buffer
	for _, err := range []error{
		table.WriteText(&b, d, table.TextOptions{}), table.WriteHTML(&b, d, table.HTMLOptions{}), table.WriteDOT(&b, d), table.WriteCSV(&b, d, ""),
	} {
		if err != nil {
			t.Error(err)
		}
	}
	for _, block := range d.Body {
		if p, ok := block.(table.Plot); ok {
			if err := table.WriteSVG(&b, p, language.Und); err != nil {
				t.Error(err)
			}
		}
	}
}

func TestGenerationsOfADeepLine(t *testing.T) {
	n := sound(t, deep("grafts"))
	doc, err := lineage.Build(n, Options{AsAt: n.Last, Name: fmt.Sprintf("T%d", generations)})
	if err != nil {
		t.Fatal(err)
	}
	if text := string(jsonOf(t, *doc)); !strings.Contains(text, `"generations": 10000, "since": "T0, where the record begins"`) {
		t.Errorf("%s", text[:1000])
	}
}

// Plants that are parted and joined again forty times come by 2^40 ways, and each
// of the stocks that they go back to is named once.
func TestPartedAndJoinedAgain(t *testing.T) {
	var b strings.Builder
	b.WriteString(tangledFacts)
	b.WriteString("2020-03-02\nsplit 1 of GA as AA\njoin GA, AA as L0\n")
	for i := range 40 {
		fmt.Fprintf(&b, "split 1 of L%d as A%[1]d\njoin L%[1]d, A%[1]d as L%d\n", i, i+1)
	}
	b.WriteString("graft 2 failed of L40 with M2 by cleft as X\nrelease 1 failed of L40 as R\n")
	n := sound(t, b.String())
	for _, name := range []string{"R", "X"} {
		doc, err := lineage.Build(n, Options{AsAt: n.Last, Name: name})
		if err != nil {
			t.Fatal(err)
		}
		if text := string(jsonOf(t, *doc)); strings.Count(text, `"from": "L0"`) != 2 { // parted and joined
			t.Errorf("%s: %s", name, text)
		}
	}
	released, _ := n.Thing("R")
	if tops := n.Tops(released); len(tops) != 1 || tops[0].From.Label() != "QB" || tops[0].OneOf {
		t.Errorf("the stocks of R were %v", tops)
	}
}
