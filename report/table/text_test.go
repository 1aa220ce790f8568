package table

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func asText(t interface {
	Fatal(...any)
	Helper()
}, d Doc, o TextOptions) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteText(&b, d, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// fits fails where a line is wider than the width or could steer a terminal.
func fits(t *rapid.T, text string, limit int) {
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if width(line) > limit {
			t.Fatalf("%d cells of %d: %q", width(line), limit, line)
		}
		if strings.TrimRight(line, " ") != line {
			t.Fatalf("blanks at the end of %q", line)
		}
		for _, r := range line {
			if unicode.In(r, unicode.Cc, unicode.Bidi_Control) {
				t.Fatalf("%q stands raw in %q", r, line)
			}
		}
	}
}

func TestTextFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.IntRange(20, 130).Draw(t, "width")
		d := docs().Draw(t, "doc")
		d.Body = append(d.Body, others().Draw(t, "others")...)
		fits(t, asText(t, d, TextOptions{Width: limit}), limit)
	})
}

// others draws the blocks that are no tables.
func others() *rapid.Generator[[]Block] {
	return rapid.Custom(func(t *rapid.T) []Block {
		text := hostileText()
		share := func() float64 { return rapid.Float64Range(0, 1).Draw(t, "share") }
		names := rapid.SliceOfN(text, 1, 5).Draw(t, "names")
		matrix := Matrix{Names: names}
		var list List
		for range names {
			row := make([]Cell, len(names))
			for j := range row {
				row[j] = Number(share())
			}
			matrix.Rows = append(matrix.Rows, row)
			list = append(list, Text(text.Draw(t, "item")))
		}
		blocks := []Block{Facts{Title: text.Draw(t, "title"), Items: []Fact{
			{Name: "one", Heading: text.Draw(t, "heading"), Value: cellOf(KindText).Draw(t, "value")},
			{Name: "two", Heading: text.Draw(t, "heading"), Value: matrix},
			{Name: "three", Value: list},
		}}, outlines().Draw(t, "outline")}
		for _, p := range plots().Draw(t, "plots") {
			blocks = append(blocks, p)
		}
		return blocks
	})
}

func outlines() *rapid.Generator[Outline] {
	text := hostileText()
	return rapid.Custom(func(t *rapid.T) Outline {
		o := Outline{Title: text.Draw(t, "title")}
		for range rapid.IntRange(0, 2).Draw(t, "roots") {
			b := Branch{Label: text.Draw(t, "label")}
			for range rapid.IntRange(0, 40).Draw(t, "depth") {
				b = Branch{Label: text.Draw(t, "label"), Detail: text.Draw(t, "detail"), Branches: []Branch{{Label: "G14"}, b}}
			}
			o.Roots = append(o.Roots, b)
		}
		return o
	})
}

// plots draws one plot of every kind.
func plots() *rapid.Generator[[]Plot] {
	text := hostileText()
	return rapid.Custom(func(t *rapid.T) []Plot {
		word := func() string { return text.Draw(t, "word") + "x" }
		share := func() float64 { return rapid.Float64Range(0, 1).Draw(t, "share") }
		curve := Curve{Title: word(), Desc: word(), Axis: word()}
		chart := Chart{Title: word(), Desc: word(), Axis: word(), Centre: share()}
		dots := Dots{Title: word(), Desc: word(), Axis: word(), Log: rapid.Bool().Draw(t, "log"), Reference: cellOf(KindNumber).Draw(t, "reference")}
		tornado := Tornado{Title: word(), Desc: word(), Axis: word(), Base: Money(rapid.StringMatching(`[1-9][0-9]{0,8}`).Draw(t, "base"), "EUR")}
		bars := Bars{Title: word(), Desc: word(), Axis: word()}
		for range rapid.IntRange(0, 7).Draw(t, "rows") {
			line := Line{Name: word(), End: share() * 100}
			for i := range rapid.IntRange(0, 5).Draw(t, "steps") {
				line.Steps = append(line.Steps, Step{float64(i * 30), share(), share(), share()})
			}
			curve.Lines = append(curve.Lines, line)
			chart.Points = append(chart.Points, Sample{word(), share(), share(), share(), rapid.Bool().Draw(t, "signal")})
			number := cellOf(KindNumber)
			dots.Rows = append(dots.Rows, Dot{word(), number.Draw(t, "low"), number.Draw(t, "point"), number.Draw(t, "high")})
			money := cellOf(KindMoney)
			tornado.Swings = append(tornado.Swings, Swing{word(), text.Draw(t, "at"), text.Draw(t, "at"), money.Draw(t, "low"), money.Draw(t, "high")})
			bars.Rows = append(bars.Rows, Bar{word(), cellOf(KindCount).Draw(t, "value")})
		}
		return []Plot{curve, chart, dots, tornado, bars}
	})
}

// Whatever the width, each heading stands in the output: above its column, in
// front of its cells, or among those left out.
func TestTextNamesEveryColumn(t *testing.T) {
	for name, sample := range samples {
		for limit := 20; limit <= 120; limit++ {
			d := sample()
			words := strings.Fields(asText(t, d, TextOptions{Width: limit}))
			text := strings.Join(words, " ")
			for _, table := range d.Tables() {
				for _, c := range table.Columns {
					if c.For == Machines {
						continue
					}
					for _, word := range strings.Fields(titled(c.Heading, c.Name, "")) {
						if !strings.Contains(text, word) {
							t.Errorf("%s at %d: nothing of column %s", name, limit, c.Name)
						}
					}
				}
			}
		}
	}
}

func TestTextLeavesOutTheSparest(t *testing.T) {
	table := Table{Name: "rows", Columns: []Column{
		{Name: "variety", Kind: KindText},
		{Name: "took", Kind: KindCount},
		{Name: "waiting", Kind: KindCount, Spare: 1},
		{Name: "place", Kind: KindText, Spare: 2},
	}}
	table.Add(Text("Amberlight"), Count(30), Count(4), Text("lean-to"))
	d := Doc{Name: "x", Body: []Block{table}}
	tests := []struct {
		width int
		want  string
	}{
		{40, "variety     took  waiting  place\n" + "Amberlight    30        4  lean-to\n"},
		{28, "variety     took  waiting\n" + "Amberlight    30        4\nLeft out to fit the width: place.\n"},
		{20, "variety     took\n" + "Amberlight    30\nLeft out to fit the width: place, waiting.\n"},
	}
	rule := regexp.MustCompile("─+\n")
	for _, test := range tests {
		got := rule.ReplaceAllString(asText(t, d, TextOptions{Width: test.width}), "")
		rows, left, more := strings.Cut(strings.TrimLeft(got, "\n"), "Left out")
		if more {
			rows += "Left out " + strings.Join(strings.Fields(left), " ") + "\n"
		}
		if got = rows; got != test.want {
			t.Errorf("at %d:\n%q, want\n%q", test.width, got, test.want)
		}
	}
}

// What is for machines alone leaves no trace in what people read.
func TestPeopleDontSeeWhatIsForMachines(t *testing.T) {
	secret := Table{Name: "points", Title: "Points", Columns: []Column{{Name: "day", Kind: KindDays, For: Machines}}}
	secret.Add(Days(30))
	d := Doc{Name: "x", Title: "Alive", Body: []Block{
		secret,
		Facts{Name: "fit", Title: "The fit", Items: []Fact{{Name: "rows", For: Machines, Value: Count(3)}}},
	}}
	if got := asText(t, d, TextOptions{}); got != "Alive\n" {
		t.Errorf("text: %q, want the title alone", got)
	}
	var page bytes.Buffer
	if err := WriteHTML(&page, d, HTMLOptions{}); err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"Points", "The fit"} {
		if strings.Contains(page.String(), word) {
			t.Errorf("the page shows %q", word)
		}
	}
}

// Style adds colour and nothing else: take the colour away, and the plain text
// is left.
func TestStyleOnlyAdds(t *testing.T) {
	paint := func(s string) string { return "\x1b[1m" + s + "\x1b[0m" }
	colour := regexp.MustCompile("\x1b\\[[01]m")
	for name, sample := range samples {
		for _, limit := range []int{20, 48, 80} {
			plain := asText(t, sample(), TextOptions{Width: limit})
			styled := asText(t, sample(), TextOptions{Width: limit, Style: Style{paint, paint, paint, paint}})
			if styled == plain {
				t.Errorf("%s: no style at all", name)
			}
			if colour.ReplaceAllString(styled, "") != plain {
				t.Errorf("%s at %d: style changed the text", name, limit)
			}
		}
	}
}

func TestPreamble(t *testing.T) {
	tests := []struct {
		doc  Doc
		want string
	}{
		{Doc{}, ""},
		{Doc{Basis: Cohort}, "Follows everything ever started, wherever it is now."},
		{Doc{Basis: Calendar}, "Counts everything that happened."},
		{Doc{Basis: Cohort, Period: Period{Name: "season 2026", From: "2025-10-01", To: "2026-09-30"}},
			"Follows what was started in season 2026 (2025-10-01 to 2026-09-30), wherever it is now."},
		{Doc{Basis: Calendar, Period: Period{From: "2025-10-01"}}, "Counts what happened in the days from 2025-10-01 on."},
		{Doc{Basis: Calendar, Period: Period{To: "2025-10-01"}}, "Counts what happened in the days up to 2025-10-01."},
		{Doc{Period: Period{Name: "season 2026"}}, "For season 2026."},
		{Doc{AsAt: "2026-09-30", Filters: []Filter{{"worker", "Ines"}, {"tag", "\x1b"}}}, "As known on 2026-09-30. Only: worker Ines; tag ␛."},
	}
	for _, test := range tests {
		if got := strings.Join(test.doc.preamble(), " "); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}

func TestFootnoteSigns(t *testing.T) {
	for i, want := range []string{"*", "†", "‡", "§", "¶", "**", "††"} {
		if got := footnoteSign(i); got != want {
			t.Errorf("sign %d is %q, want %q", i, got, want)
		}
	}
}
