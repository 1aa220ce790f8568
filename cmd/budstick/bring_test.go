package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

func TestTemplates(t *testing.T) {
	row := map[string]string{"n": "48", "lot": "AM26", "variety": "Quince BA", "note": `"pencil", thick`, "zero": "0", "when": "2026-03-02", "size": "9 mm", "like": "note"}
	tests := []struct{ template, want, missing string }{
		{`graft {n} of {lot}`, `graft 48 of AM26`, ""},
		{`sow {n} seed of {variety} as {lot}`, `sow 48 seed of "Quince BA" as AM26`, ""},
		{`note {lot} "{note}, {n}"  # a comment`, `note AM26 "\"pencil\", thick, 48"`, ""},
		{`caliper {size} happened {when} tag {like}`, `caliper 9 mm happened 2026-03-02 tag "note"`, ""},
		{`lose {none} of {lot} to {gone}`, `lose of AM26 to`, "none gone"},
		{`a[ {none}] b`, `a b`, ""},
		{`a[ {n} x] b`, `a 48 x b`, ""},
		{`a [{zero} dead] b`, `a b`, ""},
		{`{zero}`, `0`, ""},
		{`check X: [{n} took], [{zero} failed], [{none} dead]`, `check X: 48 took`, ""},
		{`check X: [{zero} took], [{n} failed], [{none} dead]`, `check X: 48 failed`, ""},
		{`check X: [{zero} took], [{none} failed], [{n} dead]`, `check X: 48 dead`, ""},
		{`note "[{n}] # no comment"`, `note "[48] # no comment"`, ""},
	}
	for _, test := range tests {
		tmpl, err := readTemplate(test.template)
		if err != nil {
			t.Errorf("%s: %v", test.template, err)
			continue
		}
		line, missing := tmpl.fill(func(column string) string { return row[column] })
		if got := strings.Join(strings.Fields(line), " "); got != test.want || strings.Join(missing, " ") != test.missing {
			t.Errorf("%s gives %q (without %v), want %q", test.template, got, missing, test.want)
		}
	}
}

// Whatever a cell holds becomes one text within quotes, and outside of them one
// name (or a number), and nothing else of the entry.
func TestCellsStayCells(t *testing.T) {
	signs := rapid.SampledFrom([]rune(`abW7é"\# ,:.-/×0'“”%` + "\t"))
	cells := rapid.OneOf(rapid.StringOfN(signs, 1, 12, -1), rapid.SampledFrom([]string{"note", "about 5", "5 # x", "12.5", "2026-03-02", "# x", "9mm"}))
	tmpl, err := readTemplate(`note {Lot} "{Text}"`)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		cell := strings.TrimSpace(cells.Draw(t, "cell"))
		if cell == "" {
			return
		}
		name := cell
		if isNumber(cell) { // which can't name anything
			name = "X"
		}
		line, missing := tmpl.fill(func(column string) string { return map[string]string{"Lot": name, "Text": cell}[column] })
		if len(missing) > 0 {
			t.Fatalf("%v is missing", missing)
		}
		page := entry.Read(source.New("made.bud", []byte(line+"\n")))
		if strings.ContainsRune(cell, '\t') && len(page.Findings) > 0 {
			return // a tabulator is no sign of a text, and that is found
		}
		if len(page.Entries) != 1 {
			t.Fatalf("%s: %v", line, page.Findings)
		}
		remark := page.Entries[0].Effect.(*fact.Remark)
		if len(remark.Of) != 1 || remark.Of[0].Text != name || remark.Text.Text != cell || page.Entries[0].Extra != nil {
			t.Errorf("%s says %v %q, want %q %q", line, remark.Of, remark.Text.Text, name, cell)
		}
	})
}

// sheetOf reads a sheet by a mapping that names column a.
func sheetOf(t *testing.T, text string) (cells [][]string, faults []fault) {
	t.Helper()
	m, bad := readMapping(source.New("a.map", []byte("on a\n  note {a}\n")))
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	s, faults := readSheet(source.New("a.csv", []byte(text)), m)
	for _, r := range s.rows {
		var list []string
		for _, c := range s.columns {
			list = append(list, r.cells[c])
		}
		cells = append(cells, list)
	}
	return cells, faults
}

// The examples of RFC 4180, section 2, below a row with names, and the same with
// the signs that spreadsheets use where the comma is the decimal one.
func TestSheetsAreRFC4180(t *testing.T) {
	tests := []struct {
		name, text string
		want       [][]string
	}{
		{"1: CRLF ends rows", "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"2: the last may have none", "a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"5: quotes", "a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"6: a break in quotes", "a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "b\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}},
		{"7: quotes doubled", "a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"", [][]string{{"aaa", `b"bb`, "ccc"}}},
		{"semicolons", "a;b;c\n1,5;x,y;\n", [][]string{{"1,5", "x,y", ""}}},
		{"tabulators", "b\ta\n1,5\t;\n", [][]string{{"1,5", ";"}}},
		{"a byte-order mark, blanks and empty rows", "\ufeffa , b\n 1,2\n,\n\n3", [][]string{{"1", "2"}, {"3", ""}}},
	}
	for _, test := range tests {
		got, faults := sheetOf(t, test.text)
		if diff := cmp.Diff(test.want, got); diff != "" || len(faults) > 0 {
			t.Errorf("%s: %v %s", test.name, faults, diff)
		}
	}
}

func TestDatesOfSheets(t *testing.T) {
	tests := []struct{ order, cell, want string }{
		{"", "2026-03-02", "2026-03-02"},
		{"", "2.3.2026", ""},
		{"day month year", "2.3.2026", "2026-03-02"},
		{"day month year", "02/03/2026", "2026-03-02"},
		{"day month year", "2026-03-02", "2026-03-02"},
		{"month day year", "03-02-2026", "2026-03-02"},
		{"month day year", "13/2/2026", ""},
		{"year month day", "2026/3/2", "2026-03-02"},
		{"day month year", "2.3.26", ""},
		{"day month year", "29.2.2025", ""},
		{"day month year", "29.2.2024", "2024-02-29"},
		{"day month year", "in March", ""},
	}
	for _, test := range tests {
		m := &mapping{order: strings.Fields(test.order)}
		if test.order == "" {
			m.order = nil
		}
		d, ok := m.date(test.cell)
		if d.String() != test.want || ok != (test.want != "") {
			t.Errorf("%q as %q is %q, want %q", test.cell, test.order, d, test.want)
		}
		if !ok && !strings.Contains(m.notDate(test.cell), test.cell) {
			t.Errorf("%q: %s", test.cell, m.notDate(test.cell))
		}
	}
}

// A mapping never panics, and what is wrong is told with a line that it has.
func FuzzMapping(f *testing.F) {
	for _, seed := range []string{"on Date where What is graft\n  note {x}", "read a as b in c, d", "leave out where a is not empty and b is c", "once\n\tplace [{x}", "dates day", "\"", "on a\n  [[a]", "  x"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file := source.New("a.map", []byte(text))
		m, faults := readMapping(file)
		for _, x := range faults {
			if x.line < 1 || x.line > max(file.Lines(), 1) || x.message == "" {
				t.Errorf("line %d of %d: %q", x.line, file.Lines(), x.message)
			}
		}
		if len(faults) == 0 && !slices.ContainsFunc(m.recipes, func(p recipe) bool { return len(p.sentences) > 0 }) {
			t.Error("the mapping says nothing, and nobody is told")
		}
	})
}
