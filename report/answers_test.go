package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/report/table"
)

var update = flag.Bool("update", false, "write the texts of the golden files instead of comparing with them")

// TestAnswers asks the questions of testdata/report and compares the answers.
// A file holds journals (names that end in .bud) and questions: the form of the
// answer, the report and its options.
//
//	text take by=method        what a person reads; -update writes it
//	json take by=method        what a program reads; -update writes it
//	page season                the words of the page for a browser; -update writes them
//	figures rows take by=method
//	list nodes id,kind lineage name=M41
//
// Figures are never written by -update: they are reasoned by hand in the file, or
// published. A line names a row of the table and what it must hold,
//
//	method=cleft: known=275 took=210 rate=0.7636
//
// each number to half a unit of its last digit. No row is named where the table
// is one object. A list is some columns of all rows of a table, in their order,
// with bars between them; it is not written by -update either.
func TestAnswers(t *testing.T) {
	for _, name := range []string{"take", "factors", "survival", "chart", "lineage", "trace", "kinship", "record", "label", "published", "due", "plan", "diff", "season"} {
		files, err := filepath.Glob("../testdata/report/" + name + "*.txtar")
		if err != nil || len(files) == 0 {
			t.Fatalf("no questions about %s: %v", name, err)
		}
		for _, path := range files {
			t.Run(filepath.Base(path), func(t *testing.T) { askFile(t, path) })
		}
	}
}

func askFile(t *testing.T, path string) {
	archive, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var n *nursery.Nursery
	var pages []*entry.Page
	for i, f := range archive.Files {
		if strings.HasSuffix(f.Name, ".bud") {
			pages = append(pages, entry.Read(source.New(f.Name, f.Data)))
			continue
		}
		if n == nil {
			n = replay(t, pages)
		}
		form, question, _ := strings.Cut(f.Name, " ")
		t.Run(f.Name, func(t *testing.T) {
			switch form {
			case "text", "json", "page":
				got := ask(t, n, question, form)
				if *update {
					archive.Files[i].Data = got
				} else if diff := cmp.Diff(string(f.Data), string(got)); diff != "" {
					t.Errorf("-want +got:\n%s", diff)
				}
			case "figures":
				name, question, _ := strings.Cut(question, " ")
				checkFigures(t, ask(t, n, question, "json"), name, string(f.Data))
			case "list":
				name, question, _ := strings.Cut(question, " ")
				columns, question, _ := strings.Cut(question, " ")
				if diff := cmp.Diff(string(f.Data), columnsOf(t, ask(t, n, question, "json"), name, strings.Split(columns, ","))); diff != "" {
					t.Errorf("-want +got:\n%s", diff)
				}
			default:
				t.Fatalf("no answer has the form %q", form)
			}
		})
	}
	if *update {
		if err := os.WriteFile(path, txtar.Format(archive), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// replay replays a journal that has no errors.
func replay(t *testing.T, pages []*entry.Page) *nursery.Nursery {
	t.Helper()
	n := nursery.Replay(pages, 0)
	for _, f := range n.Findings {
		if f.Severity == finding.Error {
			t.Fatalf("%s: line %d: %s", f.File.Path, f.File.Line(f.Span.Start), f.Message)
		}
	}
	if err := n.Audit(); err != nil {
		t.Fatal(err)
	}
	return n
}

// ask makes the report of a question such as "take by=method,worker kind=graft".
func ask(t *testing.T, n *nursery.Nursery, question, form string) []byte {
	t.Helper()
	doc, err := build(t, n, question)
	if err != nil {
		return []byte("error: " + err.Error() + "\n")
	}
	var b bytes.Buffer
	switch form {
	case "json":
		err = table.WriteJSON(&b, *doc)
	case "page":
		err = table.WriteHTML(&b, *doc, table.HTMLOptions{})
	default:
		err = table.WriteText(&b, *doc, table.TextOptions{})
	}
	if err != nil {
		t.Fatal(err)
	}
	if form == "page" {
		return wordsOf(b.Bytes())
	}
	return b.Bytes()
}

var (
	unread = regexp.MustCompile(`(?s)<style>.*?</style>|<svg[^>]*aria-hidden.*?</svg>`)
	tag    = regexp.MustCompile(`<[^>]*>`)
	blanks = regexp.MustCompile(`[ \t]*\n\s*`)
)

// wordsOf is the text of a page, a row of a table or a paragraph to a line.
func wordsOf(page []byte) []byte {
	text := unread.ReplaceAllString(string(page), "")
	for _, end := range []string{"</th>", "</td>", "</dt>"} {
		text = strings.ReplaceAll(text, end, " | ")
	}
	text = blanks.ReplaceAllString(tag.ReplaceAllString(text, ""), "\n")
	return []byte(strings.TrimSpace(html.UnescapeString(text)) + "\n")
}

func build(t *testing.T, n *nursery.Nursery, question string) (*table.Doc, error) {
	t.Helper()
	words := strings.Fields(question)
	r, ok := Named(words[0])
	if !ok {
		t.Fatalf("there is no report %q", words[0])
	}
	o := Options{AsAt: n.Last}
	for _, word := range words[1:] {
		name, value, _ := strings.Cut(word, "=")
		switch name {
		case "by", "on":
			o.By = strings.Split(value, ",")
		case "kind":
			o.Kind, ok = nursery.ParseBatchKind(value)
		case "attempts":
			o.Attempts, ok = map[string]Attempts{"first": First, "again": Again, "all": Every}[value]
		case "interaction":
			a, b, _ := strings.Cut(value, ",")
			o.Interactions = append(o.Interactions, [2]string{a, b})
		case "pairs":
			o.Pairs = strings.Split(value, ",")
		case "step":
			o.Step, ok = map[string]Step{"week": Week, "month": Month}[value]
		case "season":
			for one := range strings.SplitSeq(value, ",") {
				year, err := strconv.Atoi(one)
				o.Periods, ok = append(o.Periods, seasonPeriod(n, year)), ok && err == nil
			}
		case "selling":
			selling, err := strconv.Atoi(value)
			o.Selling, ok = selling, err == nil
		case "margin":
			margin, err := strconv.Atoi(value)
			o.Margin, ok = margin, err == nil
		case "want":
			count, err := strconv.Atoi(value)
			o.Want.Count, ok = count, err == nil
		case "of":
			o.Want.Variety = strings.ReplaceAll(value, "_", " ")
		case "until":
			o.Want.By, ok = fact.ParseDate(value)
		case "sure":
			sure, err := strconv.Atoi(value)
			o.Want.Sure, ok = float64(sure)/100, err == nil
		case "what-if":
			for part := range strings.SplitSeq(value, ",") {
				link, share, _ := strings.Cut(part, ":")
				x, err := strconv.ParseFloat(share, 64)
				o.WhatIf = append(o.WhatIf, Supposition{link, x})
				ok = ok && err == nil
			}
		case "age":
			age, err := strconv.Atoi(value)
			o.Age, ok = age, err == nil
		case "days":
			days, err := strconv.Atoi(value)
			o.Days, ok = days, err == nil
		case "as-at":
			o.AsAt, ok = fact.ParseDate(value)
		default:
			var known bool
			if known, ok = descentOption(&o, name, value); known {
				break
			}
			o.Filters = append(o.Filters, table.Filter{Name: name, Value: strings.ReplaceAll(value, "_", " ")})
		}
		if !ok {
			t.Fatalf("%q can't be asked", word)
		}
	}
	return r.Build(n, o)
}

// checkFigures compares a table of a report, or the object of that name, with
// lines of figures.
func checkFigures(t *testing.T, answer []byte, name, lines string) {
	t.Helper()
	var doc map[string]any
	if err := json.Unmarshal(answer, &doc); err != nil {
		t.Fatalf("%v: %s", err, answer)
	}
	if name != "report" {
		doc = map[string]any{name: doc[name]}
	}
	rows := flatten(doc[name])
	if name == "report" {
		rows = flatten(doc)
	}
	for line := range strings.Lines(lines) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		which, what, _ := strings.Cut(line, ":")
		i := slices.IndexFunc(rows, func(row map[string]any) bool { return len(differences(row, which)) == 0 })
		if i < 0 {
			t.Errorf("%s has no row %s", name, which)
			continue
		}
		for _, d := range differences(rows[i], what) {
			t.Errorf("%s, %s: %s", name, which, d)
		}
	}
}

// columnsOf writes some columns of a table, a row a line.
func columnsOf(t *testing.T, answer []byte, name string, columns []string) string {
	t.Helper()
	var doc map[string]any
	if err := json.Unmarshal(answer, &doc); err != nil {
		t.Fatalf("%v: %s", err, answer)
	}
	var b strings.Builder
	for _, row := range flatten(doc[name]) {
		for i, column := range columns {
			if i > 0 {
				b.WriteString(" | ")
			}
			if row[column] == nil {
				b.WriteString("-")
			} else {
				fmt.Fprint(&b, row[column])
			}
		}
		b.WriteString("\n")
	}
	return b.String()
}

// flatten makes one row of each object, with the fields of its group in it; of
// nested ones a row of each of their points.
func flatten(v any) []map[string]any {
	switch v := v.(type) {
	case []any:
		var rows []map[string]any
		for _, item := range v {
			rows = append(rows, flatten(item)...)
		}
		return rows
	case map[string]any:
		if points, ok := v["points"].([]any); ok {
			var rows []map[string]any
			for _, p := range points {
				row := p.(map[string]any)
				row["group"] = v["group"]
				rows = append(rows, flatten(row)...)
			}
			return rows
		}
		row := map[string]any{}
		for name, value := range v {
			row[name] = value
		}
		group, _ := v["group"].(map[string]any)
		for name, value := range group {
			row[name] = value
		}
		return []map[string]any{row}
	}
	return nil
}

// differences are the fields that do not hold what the words say; underscores
// stand for blanks.
func differences(row map[string]any, words string) []string {
	var out []string
	for _, word := range strings.Fields(words) {
		name, want, _ := strings.Cut(word, "=")
		got, ok := row[name]
		if !ok || !agrees(got, want) {
			out = append(out, fmt.Sprintf("%s is %v, want %s", name, got, want))
		}
	}
	return out
}

func agrees(got any, want string) bool {
	switch got := got.(type) {
	case nil:
		return want == "null"
	case string:
		return got == strings.ReplaceAll(want, "_", " ")
	case float64:
		x, err := strconv.ParseFloat(want, 64)
		if err != nil {
			return false
		}
		_, decimals, _ := strings.Cut(want, ".")
		digits, exponent, _ := strings.Cut(decimals, "e")
		power, _ := strconv.Atoi(exponent)
		half := 0.5 * math.Pow(10, float64(power-len(digits)))
		return math.Abs(got-x) <= half*(1+1e-9)
	}
	return false
}
