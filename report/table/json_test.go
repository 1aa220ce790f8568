package table

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// asJSON writes the report and reads it back with the standard library.
func asJSON(t interface {
	Fatal(...any)
	Helper()
}, d Doc) (raw string, read map[string]any) {
	t.Helper()
	var b bytes.Buffer
	if err := WriteJSON(&b, d); err != nil {
		t.Fatal(err)
	}
	raw = b.String()
	dec := json.NewDecoder(&b)
	dec.UseNumber()
	if err := dec.Decode(&read); err != nil {
		t.Fatal(err, raw)
	}
	return raw, read
}

func TestJSONReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := docs().Draw(t, "doc")
		raw, read := asJSON(t, d)
		for _, r := range raw {
			if r != '\n' && unicode.In(r, unicode.Cc, unicode.Bidi_Control) {
				t.Fatalf("%q stands raw in the output", r)
			}
		}
		if got, want := read["title"], strings.ToValidUTF8(d.Title, "\ufffd"); !sameText(got, want) {
			t.Fatalf("title %q, want %q", got, want)
		}
		for _, table := range d.Tables() {
			rows := read[table.Name].([]any)
			if len(rows) != len(table.Rows) {
				t.Fatalf("%d objects of %d rows", len(rows), len(table.Rows))
			}
			for i, row := range table.Rows {
				compareObject(t, table, row, rows[i].(map[string]any))
			}
		}
	})
}

// sameText compares text, where each broken byte may have become one sign or
// several of them one.
func sameText(got any, want string) bool {
	s, isText := got.(string)
	squeeze := func(s string) string { return strings.ReplaceAll(s, "\ufffd", "") }
	return isText && squeeze(s) == squeeze(want)
}

func compareObject(t *rapid.T, table Table, row []Cell, object map[string]any) {
	group, _ := object["group"].(map[string]any)
	for i, c := range table.Columns {
		place := object
		if c.Group {
			place = group
		}
		got, there := place[c.Name]
		if there != (c.For != People) {
			t.Fatalf("%s is there: %v", c.Name, there)
		}
		if !there {
			continue
		}
		switch want := row[i]; {
		case want.Kind() == KindText && sameText(got, strings.ToValidUTF8(want.text, "\ufffd")):
		case want.Kind() != KindText && want.Plain() == "" && got == nil:
		case (want.Kind() == KindMoney || want.Kind() == KindDate) && got == want.Plain():
		case got == json.Number(want.Plain()):
		case !want.Known() && got == nil:
		default:
			t.Fatalf("%s is %#v, want %q", c.Name, got, want.Plain())
		}
	}
}

// The fields are those that the project promises to keep.
func TestJSONFields(t *testing.T) {
	raw, read := asJSON(t, survivalSample())
	want := map[string]any{
		"group": map[string]any{"method": "chip bud"},
		"points": []any{
			map[string]any{"day": json.Number("25"), "at_risk": json.Number("40"), "alive_share": json.Number("0.9"), "low": json.Number("0.8"), "high": json.Number("0.95")},
			map[string]any{"day": json.Number("90"), "at_risk": json.Number("40"), "alive_share": json.Number("0.55"), "low": json.Number("0.4"), "high": json.Number("0.68")},
			map[string]any{"day": json.Number("200"), "at_risk": json.Number("40"), "alive_share": json.Number("0.5"), "low": nil, "high": nil},
		},
	}
	if diff := cmp.Diff(want, read["curves"].([]any)[1]); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if !strings.HasPrefix(raw, "{\n  \"version\": 1,\n  \"report\": \"survival\",\n") {
		t.Errorf("begins %q", raw[:60])
	}
	_, read = asJSON(t, profitSample())
	identity := read["identity"].(map[string]any)
	if identity["opening"] != "400.00" || identity["currency"] != "EUR" {
		t.Errorf("identity is %v", identity)
	}
	if diff := cmp.Diff(map[string]any{"spent": []any{"estimated"}}, identity["marks"]); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}

func TestJSONOfNothing(t *testing.T) {
	d := Doc{Name: "take", Body: []Block{
		Table{Name: "rows", Grouped: true, Columns: []Column{{Name: "took", Kind: KindCount}, {Name: "odds", Kind: KindNumber}},
			Rows: [][]Cell{{Count(0), Number(math.Inf(1))}}},
		Table{Name: "none", Columns: []Column{{Name: "took", Kind: KindCount}}},
		Facts{Items: []Fact{{Name: "assurance", Value: Unknown()}, {Name: "seen", Value: Text("here"), For: People}}},
	}}
	raw, _ := asJSON(t, d)
	want := `{
  "version": 1,
  "report": "take",
  "title": "",
  "as_at": null,
  "period": {"name": null, "from": null, "to": null},
  "basis": null,
  "filters": [],
  "cautions": [],
  "rows": [
    {"group": {}, "took": 0, "odds": null, "marks": {"odds": ["unbounded"]}}
  ],
  "none": [],
  "assurance": null,
  "notes": [],
  "units": {}
}
`
	if diff := cmp.Diff(want, raw); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
}
