package report

import (
	"bytes"
	"database/sql"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	_ "modernc.org/sqlite" // the embedded engine
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/report/table"
)

// kestrelPages are the journals of the example farm.
func kestrelPages(t testing.TB) []*entry.Page {
	t.Helper()
	files, err := filepath.Glob("../examples/kestrel-hollow/*.bud")
	if err != nil || len(files) == 0 {
		t.Fatalf("no example: %v", err)
	}
	var pages []*entry.Page
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, entry.Read(source.New(filepath.Base(f), text)))
	}
	return pages
}

// schema is the statements that make the tables.
func schema(t testing.TB) string {
	t.Helper()
	var b bytes.Buffer
	for _, x := range Exports {
		if err := table.WriteCreateTable(&b, table.Table{Name: x.Name, Columns: x.Columns()}, append([]string{"farm"}, x.Key...)); err != nil {
			t.Fatal(err)
		}
	}
	return b.String()
}

// rowsOf is a table of a journal as it is written for a database.
func rowsOf(t testing.TB, n *nursery.Nursery, x *Export) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := table.WriteRows(&b, x.Columns(), x.Rows(n)); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// queries are the statements of SQL.md that ask something, by their headings.
func queries(t testing.TB) map[string]string {
	t.Helper()
	page, err := os.ReadFile("SQL.md")
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	heading, inside := "", false
	for line := range strings.Lines(string(page)) {
		switch {
		case strings.HasPrefix(line, "## "):
			heading = strings.TrimSpace(line[3:])
		case strings.HasPrefix(line, "```"):
			inside = line == "```sql\n"
		case inside:
			found[heading] += line
		}
	}
	delete(found, "The tables")
	return found
}

// figures are the answers that the tool itself gives to the queries.
func figures(t testing.TB) map[string][][]string {
	t.Helper()
	pages := kestrelPages(t)
	n := nursery.Replay(pages, 0)
	s := n.Season(2026)
	season := Period{First: s.First, Last: s.Last}
	made := func(r *Report, n *nursery.Nursery, name string, o Options, columns ...string) [][]string {
		o.AsAt = n.Last
		doc, err := r.Build(n, o)
		if err != nil {
			t.Fatal(err)
		}
		return picked(t, doc, name, columns)
	}
	answers := map[string][][]string{
		"Take, by method":            made(take, n, "rows", Options{By: []string{"method"}}, "method", "took", "known", "rate"),
		"Stock on a day":             made(stock, nursery.Replay(pages, s.Last), "rows", Options{}, "lot", "state", "on_hand"),
		"Revenue of trees, by buyer": withCurrency(made(profit, n, "rows", Options{By: []string{"customer"}}, "customer", "revenue")),
		"Recall: all that came of one mother, and who bought it": made(trace, n, "buyers", Options{Name: "M7"}, "party", "date", "how", "what", "count"),
	}
	how := map[string]string{"dead at the check": "checked", "missing at a stocktake": "counted"}
	lost := map[[2]string]int{}
	for k, plants := range lostIn(n, season) {
		word := k.how
		if act, ok := how[k.how]; ok {
			word = act
		}
		lost[[2]string{word, k.cause}] += plants
	}
	for k, plants := range lost {
		answers["Losses of a season, by how and by cause"] = append(answers["Losses of a season, by how and by cause"], []string{k[0], k[1], strconv.Itoa(plants)})
	}
	paid := map[string]fact.Decimal{}
	for _, row := range made(accountant, n, "costs", Options{Periods: []Period{season}}, "date", "written", "written_in") {
		sum, in := row[1], row[2]
		if in == n.Farm.Currency {
			in = "" // it is not written
		}
		d, _ := fact.ParseDecimal(sum)
		paid[in] = paid[in].Plus(d)
	}
	for in, sum := range paid {
		answers["Money paid out in a season"] = append(answers["Money paid out in a season"], []string{in, sum.String()})
	}
	return answers
}

// withCurrency puts the farm's own currency, which is not written, behind the
// party; those to whom nothing was sold are no buyers.
func withCurrency(rows [][]string) [][]string {
	var out [][]string
	for _, row := range rows {
		if row[0] != "" {
			out = append(out, []string{row[0], "", row[1]})
		}
	}
	return out
}

// picked are some columns of a table of a report.
func picked(t testing.TB, doc *table.Doc, name string, columns []string) [][]string {
	t.Helper()
	for _, tab := range doc.Tables() {
		if tab.Name != name {
			continue
		}
		var rows [][]string
		for _, cells := range tab.Rows {
			var row []string
			for _, c := range columns {
				at := slices.IndexFunc(tab.Columns, func(col table.Column) bool { return col.Name == c })
				if at < 0 {
					t.Fatalf("%s has no column %s", name, c)
				}
				row = append(row, cells[at].Plain())
			}
			rows = append(rows, row)
		}
		return rows
	}
	t.Fatalf("the report has no table %s", name)
	return nil
}

// settled puts rows into one order and numbers into one form, exactly: the
// zeros at the end of decimals go.
func settled(rows [][]string) [][]string {
	out := make([][]string, len(rows))
	for i, row := range rows {
		for _, s := range row {
			if _, err := strconv.ParseFloat(s, 64); err == nil && strings.Contains(s, ".") {
				s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
			}
			out[i] = append(out[i], s)
		}
	}
	slices.SortFunc(out, slices.Compare[[]string])
	return out
}

func compareAnswers(t *testing.T, ask func(query string) [][]string) {
	t.Helper()
	asked := queries(t)
	for name, want := range figures(t) {
		query, ok := asked[name]
		if !ok {
			t.Errorf("SQL.md has no query %q", name)
			continue
		}
		delete(asked, name)
		if len(want) < 2 {
			t.Errorf("%s: %d rows are no test", name, len(want))
		}
		if diff := cmp.Diff(settled(want), settled(ask(query))); diff != "" {
			t.Errorf("%s: -tool +database:\n%s", name, diff)
		}
	}
	for name := range asked {
		t.Errorf("the query %q is compared with nothing", name)
	}
}

// The queries of SQL.md give the tool's own figures on the embedded engine.
func TestQueriesOnTheEmbeddedEngine(t *testing.T) {
	db, err := sql.Open("sqlite", ":memory:")
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	if _, err := db.Exec(schema(t)); err != nil {
		t.Fatal(err)
	}
	n := nursery.Replay(kestrelPages(t), 0)
	for _, x := range Exports {
		fillTable(t, db, x.Name, rowsOf(t, n, x))
	}
	compareAnswers(t, func(query string) [][]string { return answerOf(t, db, query) })
}

// fillTable puts the rows of a file into a table; an empty field is no value.
func fillTable(t *testing.T, db *sql.DB, name string, file []byte) {
	t.Helper()
	records, err := csv.NewReader(bytes.NewReader(file)).ReadAll()
	if err != nil || len(records) < 2 {
		t.Fatalf("%s has %d rows: %v", name, len(records), err)
	}
	marks := strings.TrimSuffix(strings.Repeat("?, ", len(records[0])), ", ")
	tx, err := db.Begin()
	if err != nil {
		t.Fatal(err)
	}
	for _, record := range records[1:] {
		values := make([]any, len(record))
		for i, s := range record {
			if s != "" {
				values[i] = s
			}
		}
		if _, err := tx.Exec("INSERT INTO "+name+" VALUES ("+marks+")", values...); err != nil {
			t.Fatalf("%s: %v: %q", name, err, record)
		}
	}
	if err := tx.Commit(); err != nil {
		t.Fatal(err)
	}
}

// answerOf runs a query. The engine keeps decimals as binary fractions, so sums
// of money are rounded to the cent, which is what they are sums of.
func answerOf(t *testing.T, db *sql.DB, query string) [][]string {
	t.Helper()
	result, err := db.Query(query)
	if err != nil {
		t.Fatalf("%v:\n%s", err, query)
	}
	defer result.Close()
	columns, err := result.Columns()
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for result.Next() {
		values, to := make([]any, len(columns)), make([]any, len(columns))
		for i := range values {
			to[i] = &values[i]
		}
		if err := result.Scan(to...); err != nil {
			t.Fatal(err)
		}
		var row []string
		for i, v := range values {
			switch v := v.(type) {
			case nil:
				row = append(row, "")
			case float64:
				decimals := 2
				if columns[i] == "rate" {
					decimals = -1
				}
				row = append(row, strconv.FormatFloat(v, 'f', decimals, 64))
			case interface{ Format(string) string }:
				row = append(row, v.Format("2006-01-02"))
			default:
				row = append(row, fmt.Sprint(v))
			}
		}
		rows = append(rows, row)
	}
	if err := result.Err(); err != nil {
		t.Fatal(err)
	}
	return rows
}

// The same on PostgreSQL, where psql reaches a database by BUDSTICK_PG, a
// connection string such as "dbname=budstick".
func TestQueriesOnPostgreSQL(t *testing.T) {
	to := os.Getenv("BUDSTICK_PG")
	if to == "" {
		lacking(t, "BUDSTICK_PG names no database")
	}
	folder := t.TempDir()
	n := nursery.Replay(kestrelPages(t), 0)
	const own = "budstick_test"
	script := "DROP SCHEMA IF EXISTS " + own + " CASCADE;\nCREATE SCHEMA " + own + ";\nSET search_path TO " + own + ";\n" + schema(t)
	for _, x := range Exports {
		file := filepath.Join(folder, x.Name+".csv")
		if err := os.WriteFile(file, rowsOf(t, n, x), 0o644); err != nil {
			t.Fatal(err)
		}
		script += fmt.Sprintf("\\copy %s from '%s' with (format csv, header)\n", x.Name, file)
	}
	psql := func(script string) string {
		cmd := exec.Command("psql", "--no-psqlrc", "--quiet", "--csv", "--tuples-only", "--set=ON_ERROR_STOP=1", to)
		cmd.Stdin = strings.NewReader(script)
		var out, errs bytes.Buffer
		cmd.Stdout, cmd.Stderr = &out, &errs
		if err := cmd.Run(); err != nil {
			t.Fatalf("%v: %s", err, errs.String())
		}
		return out.String()
	}
	psql(script)
	defer psql("DROP SCHEMA " + own + " CASCADE;\n")
	compareAnswers(t, func(query string) [][]string {
		rows, err := csv.NewReader(strings.NewReader(psql("SET search_path TO " + own + ";\n" + query))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return rows
	})
}

// reserved are words that standard SQL keeps for itself (ISO/IEC 9075:2016), of
// those that a column might be called by; from memory.
var reserved = strings.Fields(`abs all and any are array as at between both by call case cast char check collate column commit
condition connect contains convert copy corr count create cross cube current cursor cycle date day dec decimal declare default
delete describe distinct double drop dynamic each element else empty end equals escape every except exec exists external extract
false fetch filter first float floor for foreign frame free from full function get global grant group grouping groups having hold
hour identity in inner inout insert int into is join language large last lateral lead leading left like limit local log lower match
max member merge method min minute mod module month natural new no none normalize not null numeric of offset old omit on one only
open or order out outer over overlaps parameter partition percent period portion position power precision prepare primary procedure
range rank reads real recursive ref references release result return returns revoke right rollback rollup row rows scope scroll
search second seek select set show similar skip some specific sql start static subset sum system table then time timestamp to
trailing translate treat trigger trim true truncate union unique unknown update upper user using value values varying view when
whenever where width window with within without year`)

func TestColumnsHaveFreeNames(t *testing.T) {
	for _, x := range Exports {
		for _, c := range x.Columns() {
			if slices.Contains(reserved, c.Name) {
				t.Errorf("%s.%s is a reserved word", x.Name, c.Name)
			}
			if x.Describe(c.Name) == "" {
				t.Errorf("%s.%s has no description", x.Name, c.Name)
			}
		}
		if slices.Contains(reserved, x.Name) {
			t.Errorf("the table %s has a reserved word for a name", x.Name)
		}
	}
}

// Every row has its key, and no two have the same, in journals as tangled as the
// language allows; and each has as many cells as there are columns.
func TestKeysTellRowsApart(t *testing.T) {
	for i := range 20 {
		checkKeys(t, replayed(rapid.Custom(tangled).Example(i)))
	}
	checkKeys(t, nursery.Replay(kestrelPages(t), 0))
}

func checkKeys(t *testing.T, n *nursery.Nursery) {
	t.Helper()
	for _, x := range Exports {
		columns, seen := x.Columns(), map[string]bool{}
		for row := range x.Rows(n) {
			if len(row) != len(columns) {
				t.Fatalf("%s has a row of %d cells and %d columns", x.Name, len(row), len(columns))
			}
			key := ""
			for i, c := range columns {
				if row[i].Known() && row[i].Kind() != c.Kind {
					t.Errorf("%s.%s holds %v", x.Name, c.Name, row[i])
				}
				if c.Name == "farm" || slices.Contains(x.Key, c.Name) {
					if row[i].Plain() == "" {
						t.Errorf("%s.%s is empty, and part of the key", x.Name, c.Name)
					}
					key += row[i].Plain() + "\x00"
				}
			}
			if seen[key] {
				t.Errorf("%s has two rows %q", x.Name, key)
			}
			seen[key] = true
		}
	}
}

const beginTables, endTables = "<!-- begin tables: written by go test ./report -update -->\n", "<!-- end tables -->"

// SQL.md describes the tables as they are.
func TestSchemaPage(t *testing.T) {
	page, err := os.ReadFile("SQL.md")
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(page), beginTables)
	_, after, ended := strings.Cut(rest, endTables)
	if !ok || !ended {
		t.Fatal("SQL.md has no place for the tables")
	}
	want := before + beginTables + schemaPage(t) + endTables + after
	if *update {
		if err := os.WriteFile("SQL.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(want, string(page)); diff != "" {
		t.Errorf("SQL.md is not up to date; -want +is:\n%s", diff)
	}
}

func schemaPage(t *testing.T) string {
	var b bytes.Buffer
	for _, x := range Exports {
		fmt.Fprintf(&b, "\n### %s\n\n%s%s.\n\n", x.Name, strings.ToUpper(x.Summary[:1]), x.Summary[1:])
		for _, c := range x.Columns() {
			fmt.Fprintf(&b, "- `%s`: %s\n", c.Name, x.Describe(c.Name))
		}
		b.WriteString("\n```sql\n")
		if err := table.WriteCreateTable(&b, table.Table{Name: x.Name, Columns: x.Columns()}, append([]string{"farm"}, x.Key...)); err != nil {
			t.Fatal(err)
		}
		b.WriteString("```\n")
	}
	return b.String() + "\n"
}
