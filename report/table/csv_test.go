package table

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// What a spreadsheet may run is as the OWASP page on CSV injection lists it
// (from memory): = + - @, tab, carriage return, line feed, and the full-width
// forms of the signs.
func TestGuarded(t *testing.T) {
	tests := []struct{ in, want string }{
		{"=HYPERLINK(\"x\")", "'=HYPERLINK(\"x\")"},
		{"+1", "'+1"}, {"-1", "'-1"}, {"@SUM(A1)", "'@SUM(A1)"},
		{"\t=1", "'\t=1"}, {"\r=1", "'\r=1"}, {"\n=1", "'\n=1"},
		{"＝1", "'＝1"}, {" =1", "' =1"}, {"'=1", "''=1"},
		{"Amberlight", "Amberlight"}, {"", ""}, {"a=1", "a=1"}, {"O'Brien", "O'Brien"},
	}
	for _, test := range tests {
		if got := guarded(test.in); got != test.want {
			t.Errorf("guarded(%q) = %q, want %q", test.in, got, test.want)
		}
	}
}

func TestCSVBytes(t *testing.T) {
	table := Table{Name: "rows", Columns: []Column{
		{Name: "lot", Kind: KindText},
		{Name: "rate", Kind: KindRate},
		{Name: "note", Kind: KindText, For: People},
		{Name: "cost", Kind: KindMoney},
	}}
	table.Add(Text(`G1, "east"`), Rate(1e-7), Text("not here"), Money("-12.50", "EUR").With(Estimated))
	table.Add(Text("-"), Change(0), Unknown(), Unknown())
	table.Rows[1][1] = Rate(-0.25) // numbers need no guard
	table.Total = []Cell{Text("all"), Unknown(), Unknown(), Unknown()}
	// RFC 4180, section 2: lines end in CR LF, a field with a comma or a quote
	// stands in quotes, a quote inside is doubled, one header line comes first.
	want := "lot,rate,cost,currency,marks\r\n" +
		"\"G1, \"\"east\"\"\",0.0000001,-12.50,EUR,cost=estimated\r\n" +
		"'-,-0.25,,,\r\n"
	var got bytes.Buffer
	if err := WriteCSV(&got, Doc{Name: "x", Body: []Block{table}}, ""); err != nil {
		t.Fatal(err)
	}
	if got.String() != want {
		t.Errorf("got\n%q, want\n%q", got.String(), want)
	}
}

func TestCSVReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := docs().Draw(t, "doc")
		for _, table := range d.Tables() {
			var b bytes.Buffer
			if err := WriteCSV(&b, d, table.Name); err != nil {
				t.Fatal(err)
			}
			records, err := csv.NewReader(&b).ReadAll()
			if err != nil {
				t.Fatal(err)
			}
			if len(records) != len(table.Rows)+1 {
				t.Fatalf("%d records of %d rows", len(records), len(table.Rows))
			}
			for i, row := range table.Rows {
				compareRecord(t, table, row, records[0], records[i+1])
			}
		}
	})
}

func compareRecord(t *rapid.T, table Table, row []Cell, header, record []string) {
	at := 0
	for i, c := range table.Columns {
		if c.For == People {
			continue
		}
		if header[at] != c.Name {
			t.Fatalf("column %q is headed %q", c.Name, header[at])
		}
		got, want := record[at], row[i].Plain()
		if row[i].Kind() == KindText {
			if strings.ContainsAny(got[:min(1, len(got))], "=+-@\t\r\n") {
				t.Fatalf("%q may run as a formula", got)
			}
			want = visible(want)
			if got != want {
				got = strings.TrimPrefix(got, "'")
			}
			want = strings.TrimPrefix(want, "◌") // what stands first alone gets company
			got = strings.TrimPrefix(got, "◌")
		}
		if got != want {
			t.Fatalf("%s: %q, want %q", c.Name, got, want)
		}
		at++
	}
}

func TestCSVPicksTable(t *testing.T) {
	d := Doc{Name: "x", Body: []Block{
		Table{Name: "terms", Columns: []Column{{Name: "factor", Kind: KindText}}},
		Table{Name: "tests", Columns: []Column{{Name: "df", Kind: KindCount}}},
	}}
	tests := []struct{ name, want, err string }{
		{"", "factor,marks\r\n", ""},
		{"tests", "df,marks\r\n", ""},
		{"rows", "", `the report "x" has no table "rows"; it has terms, tests`},
	}
	for _, test := range tests {
		var b bytes.Buffer
		err := WriteCSV(&b, d, test.name)
		if b.String() != test.want || (err == nil) != (test.err == "") || err != nil && err.Error() != test.err {
			t.Errorf("%q: %q, %v", test.name, b.String(), err)
		}
	}
	if err := WriteCSV(&bytes.Buffer{}, Doc{Name: "kinship"}, ""); err == nil {
		t.Error("a report without tables was written as CSV")
	}
}
