package table

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"slices"
	"testing"
)

func schemaSample() Table {
	return Table{
		Name: "entries",
		Columns: []Column{
			{Name: "farm", Kind: KindText}, {Name: "entry", Kind: KindText}, {Name: "dated", Kind: KindDate}, {Name: "pieces", Kind: KindCount},
			{Name: "price", Kind: KindQuantity}, {Name: "rate", Kind: KindRate},
		},
		Rows: [][]Cell{
			{Text("Kestrel Hollow"), Text("=1+1, \"so\"\n  second line\u0007"), Date("2026-03-02"), Count(40), Quantity("12.50"), Rate(0.75)},
			{Text("Kestrel Hollow"), Text("a.bud:3"), Unknown(), Unknown(), Unknown(), Unknown()},
		},
	}
}

func TestCreateTable(t *testing.T) {
	var b bytes.Buffer
	if err := WriteCreateTable(&b, schemaSample(), []string{"farm", "entry"}); err != nil {
		t.Fatal(err)
	}
	const want = `CREATE TABLE entries (
    farm VARCHAR(4000) NOT NULL,
    entry VARCHAR(4000) NOT NULL,
    dated DATE,
    pieces BIGINT,
    price DECIMAL(24, 9),
    rate DOUBLE PRECISION,
    PRIMARY KEY (farm, entry)
);
`
	if b.String() != want {
		t.Errorf("got\n%s", b.String())
	}
}

// A database gets every text as it is, and no more columns than it was told of.
func TestRowsAreWhatTheyWere(t *testing.T) {
	var b bytes.Buffer
	if err := WriteRows(&b, schemaSample().Columns, slices.Values(schemaSample().Rows)); err != nil {
		t.Fatal(err)
	}
	records, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := [][]string{
		{"farm", "entry", "dated", "pieces", "price", "rate"},
		{"Kestrel Hollow", "=1+1, \"so\"\n  second line\u0007", "2026-03-02", "40", "12.50", "0.75"},
		{"Kestrel Hollow", "a.bud:3", "", "", "", ""},
	}
	if !slices.EqualFunc(records, want, slices.Equal[[]string]) {
		t.Errorf("got %q", records)
	}
}

func TestJSONLines(t *testing.T) {
	var b bytes.Buffer
	if err := WriteJSONLines(&b, schemaSample().Columns, slices.Values(schemaSample().Rows)); err != nil {
		t.Fatal(err)
	}
	lines := bytes.Split(bytes.TrimSuffix(b.Bytes(), []byte("\n")), []byte("\n"))
	if len(lines) != 2 {
		t.Fatalf("%d lines:\n%s", len(lines), b.String())
	}
	var first, second map[string]any
	if err := json.Unmarshal(lines[0], &first); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(lines[1], &second); err != nil {
		t.Fatal(err)
	}
	if first["entry"] != "=1+1, \"so\"\n  second line\u0007" || first["pieces"] != 40.0 || first["dated"] != "2026-03-02" || first["rate"] != 0.75 {
		t.Errorf("got %s", lines[0])
	}
	for _, c := range schemaSample().Columns {
		v, ok := second[c.Name]
		if !ok || c.Name != "farm" && c.Name != "entry" && v != nil {
			t.Errorf("%s is %v (%v) in %s", c.Name, v, ok, lines[1])
		}
	}
}
