package table

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"golang.org/x/text/language"
)

func TestCheck(t *testing.T) {
	one := func(c Column, cells ...Cell) Block {
		table := Table{Name: "rows", Columns: []Column{c}}
		for _, cell := range cells {
			table.Add(cell)
		}
		return table
	}
	tests := []struct {
		fault string
		body  []Block
	}{
		{`table "Take it" is not a name`, []Block{Table{Name: "Take it", Columns: []Column{{Name: "a", Kind: KindText}}}}},
		{`column "" is not a name`, []Block{one(Column{Kind: KindText})}},
		{`two columns are called "group"`, []Block{one(Column{Name: "group", Kind: KindText})}},
		{`two fields are called "title"`, []Block{Table{Name: "title", Columns: []Column{{Name: "a", Kind: KindText}}}}},
		{`two fields are called "rows"`, []Block{one(Column{Name: "a", Kind: KindText}), one(Column{Name: "a", Kind: KindText})}},
		{`two fields are called "rows_total"`, []Block{one(Column{Name: "a", Kind: KindText}), Facts{Name: "rows_total"}}},
		{`two fields are called ""`, []Block{Facts{}, Facts{}}},
		{`column "a" has no kind`, []Block{one(Column{Name: "a"})}},
		{`has no column for machines`, []Block{one(Column{Name: "a", Kind: KindText, For: People})}},
		{`interval in "low", which is not a column`, []Block{one(Column{Name: "a", Kind: KindRate, Low: "low", High: "a"})}},
		{`half an interval`, []Block{one(Column{Name: "a", Kind: KindRate, Low: "a"})}},
		{`0 cells under 1 columns`, []Block{Table{Name: "rows", Columns: []Column{{Name: "a", Kind: KindText}}, Rows: [][]Cell{{}}}}},
		{`total: 2 cells under 1 columns`, []Block{Table{Name: "rows", Columns: []Column{{Name: "a", Kind: KindText}}, Total: []Cell{{}, {}}}}},
		{`cell of another kind under "a"`, []Block{one(Column{Name: "a", Kind: KindText}, Count(1))}},
		{`"2026-02-30" is not an ISO date`, []Block{one(Column{Name: "a", Kind: KindDate}, Date("2026-02-30"))}},
		{`empty date`, []Block{one(Column{Name: "a", Kind: KindDate}, Date(""))}},
		{`"1,5" is not a plain decimal`, []Block{one(Column{Name: "a", Kind: KindQuantity}, Quantity("1,5"))}},
		{`"01" is not a plain decimal`, []Block{one(Column{Name: "a", Kind: KindMoney}, Money("01", "EUR"))}},
		{`"euro" is not a currency`, []Block{one(Column{Name: "a", Kind: KindMoney}, Money("1", "euro"))}},
		{`"eur" is not a currency`, []Block{one(Column{Name: "a", Kind: KindMoney}, Money("1", "eur"))}},
		{`several currencies (EUR, USD)`, []Block{Facts{Name: "f", Items: []Fact{{Name: "a", Value: Money("1", "EUR")}, {Name: "b", Value: Money("1", "USD")}}}}},
		{`mark "mixed" has two notes`, []Block{one(Column{Name: "a", Kind: KindCount}, Count(1).With(Mixed), Count(1).With(Mark{"mixed", "other"}))}},
		{`two facts are called "a"`, []Block{Facts{Name: "f", Items: []Fact{{Name: "a", Value: Count(1)}, {Name: "a", Value: Count(1)}}}}},
		{`has no value`, []Block{Facts{Name: "f", Items: []Fact{{Name: "a"}}}}},
		{`belong in a table`, []Block{Facts{Name: "f", Items: []Fact{{Name: "a", Value: List{Money("1", "EUR")}}}}}},
		{`1 rows for 2 names`, []Block{Facts{Name: "f", Items: []Fact{{Name: "a", Value: Matrix{Names: []string{"x", "y"}, Rows: [][]Cell{{{}, {}}}}}}}}},
		{`row of 1 for 2 names`, []Block{Facts{Name: "f", Items: []Fact{{Name: "a", Value: Matrix{Names: []string{"x", "y"}, Rows: [][]Cell{{{}}, {{}}}}}}}}},
		{`a plot needs a title and a description`, []Block{Bars{Title: "x"}}},
		{`needs a base`, []Block{Tornado{Title: "x", Desc: "y"}}},
		{`not a number`, []Block{Chart{Title: "x", Desc: "y", Centre: math.NaN()}}},
		{`not a number`, []Block{Curve{Title: "x", Desc: "y", Lines: []Line{{Steps: []Step{{At: math.NaN()}}}}}}},
		{`can't draw words`, []Block{Bars{Title: "x", Desc: "y", Rows: []Bar{{"a", Text("b")}}}}},
	}
	for _, test := range tests {
		for place, d := range map[string]Doc{
			"body":    {Name: "take", Body: test.body},
			"chapter": {Name: "season", Chapters: []Doc{{Name: "take", Body: test.body}}},
		} {
			if err := d.Check(); err == nil || !strings.Contains(err.Error(), test.fault) {
				t.Errorf("%s: got %v, want %q", place, err, test.fault)
			}
		}
	}
	if err := (Doc{Name: "take", AsAt: "yesterday"}).Check(); err == nil {
		t.Error("a report as at yesterday passed")
	}
}

func TestWritersRefuseBadReports(t *testing.T) {
	bad := Doc{Name: "take", Body: []Block{Table{Name: "rows"}}}
	for name, write := range map[string]func(io.Writer) error{
		"text": func(w io.Writer) error { return WriteText(w, bad, TextOptions{}) },
		"csv":  func(w io.Writer) error { return WriteCSV(w, bad, "") },
		"json": func(w io.Writer) error { return WriteJSON(w, bad) },
		"html": func(w io.Writer) error { return WriteHTML(w, bad, HTMLOptions{}) },
		"svg":  func(w io.Writer) error { return WriteSVG(w, Bars{}, language.Und) },
	} {
		var b bytes.Buffer
		if err := write(&b); err == nil || b.Len() > 0 {
			t.Errorf("%s: %v, and %d bytes", name, err, b.Len())
		}
	}
}

func TestSamplesAreSound(t *testing.T) {
	for name, sample := range samples {
		if err := sample().Check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestCellMarks(t *testing.T) {
	base := Count(1).With(Mixed)
	first, second := base.With(Estimated, Mixed), base.With(FewData)
	if got := first.Marks(); len(got) != 2 || got[1] != Estimated {
		t.Errorf("marks are %v", got)
	}
	if got := second.Marks(); len(got) != 2 || got[1] != FewData {
		t.Errorf("marking one cell changed another: %v", got)
	}
}
