package table

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/text/language"
	"pgregory.net/rapid"
)

func asHTML(t interface {
	Fatal(...any)
	Helper()
}, d Doc, o HTMLOptions) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteHTML(&b, d, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// An element is what the tests look at in a page.
type element struct {
	name       string
	attributes map[string]string
	text       string // directly inside
}

// elements reads markup and fails where the tags do not balance.
func elements(markup string, strict bool) ([]element, error) {
	dec := xml.NewDecoder(strings.NewReader(markup))
	dec.Strict = strict
	if !strict {
		dec.AutoClose = []string{"meta"}
		dec.Entity = xml.HTMLEntity
	}
	var all []element
	var open []int
	for {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			if len(open) > 0 {
				return nil, fmt.Errorf("<%s> is never closed", all[open[len(open)-1]].name)
			}
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := element{name: token.Name.Local, attributes: map[string]string{}}
			for _, a := range token.Attr {
				e.attributes[a.Name.Local] = a.Value
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(token)
			}
		}
	}
}

func TestPageIsWellFormedWhateverTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := docs().Draw(t, "doc")
		d.Body = append(d.Body, others().Draw(t, "others")...)
		page := asHTML(t, Doc{Name: "book", Title: "Book", Chapters: []Doc{d, d}}, HTMLOptions{})
		all, err := elements(page, false)
		if err != nil {
			t.Fatal(err)
		}
		if fault := selfContained(all); fault != "" {
			t.Fatal(fault)
		}
		for _, e := range all {
			if e.name == "script" {
				t.Fatal("a script came through")
			}
		}
	})
}

// selfContained says what in a page would ask for something from outside or run.
func selfContained(all []element) string {
	for _, e := range all {
		switch e.name {
		case "script", "link", "img", "iframe", "object", "embed", "base":
			return "the page has <" + e.name + ">"
		}
		for name, value := range e.attributes {
			if name == "src" || strings.HasPrefix(name, "on") || name == "href" && !strings.HasPrefix(value, "#") {
				return fmt.Sprintf("<%s %s=%q>", e.name, name, value)
			}
			if name != "xmlns" && strings.Contains(value, "http") && strings.Contains(value, "url(") {
				return fmt.Sprintf("<%s %s=%q>", e.name, name, value)
			}
		}
		if e.name == "style" && (strings.Contains(e.text, "url(") || strings.Contains(e.text, "@import")) {
			return "the style sheet reaches outside"
		}
	}
	return ""
}

// TestPageCanBeUsed checks what WCAG 2.2 asks of such a page: a language (3.1.1),
// a title (2.4.2), a way past what repeats (2.4.1), headings and cells that say
// what they belong to (1.3.1), names for graphics (1.1.1), ids that are unique.
func TestPageCanBeUsed(t *testing.T) {
	all, err := elements(asHTML(t, bookSample(), HTMLOptions{}), false)
	if err != nil {
		t.Fatal(err)
	}
	if fault := selfContained(all); fault != "" {
		t.Error(fault)
	}
	count := map[string]int{}
	ids := map[string]bool{}
	level := 0
	for _, e := range all {
		count[e.name]++
		if id := e.attributes["id"]; id != "" {
			if ids[id] {
				t.Errorf("two elements have the id %q", id)
			}
			ids[id] = true
		}
		if len(e.name) == 2 && e.name[0] == 'h' && e.name != "hr" {
			next := int(e.name[1] - '0')
			if next > level+1 {
				t.Errorf("heading %q of level %d follows level %d", e.text, next, level)
			}
			level = next
		}
		switch e.name {
		case "html":
			if e.attributes["lang"] == "" {
				t.Error("no language")
			}
		case "th":
			if s := e.attributes["scope"]; s != "row" && s != "col" {
				t.Errorf("the header %q heads nothing", e.text)
			}
		case "svg":
			if e.attributes["aria-hidden"] != "true" && (e.attributes["role"] != "img" || e.attributes["aria-labelledby"] == "") {
				t.Error("a graphic has no name")
			}
		}
	}
	for _, e := range all {
		if to, ok := strings.CutPrefix(e.attributes["href"], "#"); ok && !ids[to] {
			t.Errorf("a link leads to %q, which is nowhere", to)
		}
		for _, id := range strings.Fields(e.attributes["aria-labelledby"]) {
			if !ids[id] {
				t.Errorf("a name is looked for at %q, which is nowhere", id)
			}
		}
	}
	if count["h1"] != 1 || count["main"] != 1 || count["caption"] != count["table"] || count["nav"] != 1 {
		t.Errorf("parts of the page: %v", count)
	}
	if first := all[firstAfter(all, "body")]; first.name != "a" || !ids[strings.TrimPrefix(first.attributes["href"], "#")] {
		t.Error("the page does not begin with a link to its report")
	}
}

func firstAfter(all []element, name string) int {
	for i, e := range all {
		if e.name == name {
			return i + 1
		}
	}
	return 0
}

func TestPageCutsLongTables(t *testing.T) {
	table := Table{Name: "rows", Columns: []Column{{Name: "lot", Kind: KindText}}, Total: []Cell{Text("all")}}
	for i := range 1500 {
		table.Add(Text(fmt.Sprintf("G%d", i+1)))
	}
	d := Doc{Name: "stock", Title: "Stock", Body: []Block{table}}
	tests := []struct {
		max, rows int
		note      string
	}{
		{0, 200, "The first 200 of 1,500 rows; CSV and JSON have them all."},
		{1499, 1499, "The first 1,499 of 1,500 rows; CSV and JSON have them all."},
		{1500, 1500, ""},
	}
	for _, test := range tests {
		page := asHTML(t, d, HTMLOptions{MaxRows: test.max})
		if got := strings.Count(page, ">G"); got != test.rows {
			t.Errorf("%d rows, want %d", got, test.rows)
		}
		if test.note == "" && strings.Contains(page, "The first") || !strings.Contains(page, test.note) {
			t.Errorf("want the note %q", test.note)
		}
		if !strings.Contains(page, ">all<") {
			t.Error("the total was cut")
		}
	}
}

// TestContrast reckons the contrast of the colours as WCAG 2.2 defines it
// (relative luminance; success criteria 1.4.3 and 1.4.11): 4.5 to 1 for text,
// 3 to 1 for lines that carry meaning.
func TestContrast(t *testing.T) {
	light, dark, ok := strings.Cut(coloursCSS, "@media")
	if !ok {
		t.Fatal("no colours for dark surroundings")
	}
	for name, css := range map[string]string{"light": light, "dark": dark} {
		colour := map[string]float64{}
		for _, m := range regexp.MustCompile(`--([a-z0-9-]+): (#[0-9a-f]{6})`).FindAllStringSubmatch(css, -1) {
			colour[m[1]] = luminance(t, m[2])
		}
		check := func(front, back string, least float64) {
			a, okA := colour[front]
			b, okB := colour[back]
			if got := (max(a, b) + 0.05) / (min(a, b) + 0.05); !okA || !okB || got < least {
				t.Errorf("%s: %s on %s has %.2f to 1, want %v", name, front, back, got, least)
			}
		}
		for _, front := range []string{"ink", "soft", "accent"} {
			check(front, "paper", 4.5)
			check(front, "card", 4.5)
		}
		check("warn-ink", "warn-paper", 4.5)
		for i := range seriesColours {
			check("c"+strconv.Itoa(i), "paper", 3)
		}
	}
	// White on black is 21 to 1 and mid grey #777777 on white 4.48, as the
	// guideline's own documents say.
	if got := 1.05 / (luminance(t, "#777777") + 0.05); math.Abs(got-4.48) > 0.005 {
		t.Errorf("the test itself reckons wrongly: %v", got)
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	var sum float64
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(v) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

func asSVG(t interface {
	Fatal(...any)
	Helper()
}, p Plot) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteSVG(&b, p, language.Und); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

var coordinate = regexp.MustCompile(`[-+]?[0-9]+(\.[0-9]+)?`)

func TestSVGIsWellFormedWhateverTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, p := range plots().Draw(t, "plots") {
			picture := asSVG(t, p)
			all, err := elements(picture, true)
			if err != nil {
				t.Fatal(err, picture)
			}
			if strings.Contains(picture, "NaN") || strings.Contains(picture, "Inf") {
				t.Fatalf("a coordinate is no number: %s", picture)
			}
			if all[0].name != "svg" || all[1].name != "title" || all[2].name != "desc" || all[2].text == "" {
				t.Fatal("no title or description")
			}
			insideTheFrame(t, all)
		}
	})
}

// insideTheFrame checks that whatever is placed lies in the picture.
func insideTheFrame(t *rapid.T, all []element) {
	var box [4]float64
	if _, err := fmt.Sscan(all[0].attributes["viewBox"], &box[0], &box[1], &box[2], &box[3]); err != nil {
		t.Fatal(err)
	}
	for _, e := range all[1:] {
		for name, value := range e.attributes {
			low, length := box[0], box[2]
			switch name {
			case "x", "x1", "x2", "cx":
			case "y", "y1", "y2", "cy":
				low, length = box[1], box[3]
			default:
				continue
			}
			v, err := strconv.ParseFloat(value, 64)
			if err != nil || v < low || v > low+length {
				t.Fatalf("<%s %s=%q> is outside %v", e.name, name, value, box)
			}
		}
		for _, m := range coordinate.FindAllString(e.attributes["d"], -1) {
			if v, err := strconv.ParseFloat(m, 64); err != nil || v < box[1] && v < box[0] || v > max(box[2], box[3]) {
				t.Fatalf("the path %q leaves %v", e.attributes["d"], box)
			}
		}
	}
}

// A step curve is drawn where its figures say: half way down at half way along.
func TestCurvePath(t *testing.T) {
	f := frame{x: scale{low: 0, high: 100}, y: scale{low: 0, high: 1}, left: 0, top: 0, right: 200, bottom: 100}
	line := Line{End: 100, Steps: []Step{{At: 50, Share: 0.5, Low: 0.25, High: 0.75}, {At: 75, Share: 0.4, Low: math.NaN(), High: 1}}}
	if got, want := line.path(f), "M0 0H100V50H150V60H200"; got != want {
		t.Errorf("path %q, want %q", got, want)
	}
	if got, want := line.band(f), "M100 25H150L150 75H100Z"; got != want {
		t.Errorf("band %q, want %q", got, want)
	}
	if got := (Line{End: 100}).band(f); got != "" {
		t.Errorf("a band of nothing: %q", got)
	}
}
