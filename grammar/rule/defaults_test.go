package rule

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

// Each rule of thumb that is shipped says where it comes from, is of a genus or
// method that is known here, and is in the unit of its limit.
func TestDefaultsAreMarked(t *testing.T) {
	file, err := os.Open("../nursery/defaults.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	table, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen, unit := map[string]bool{}, map[string]string{}
	for _, row := range table[1:] {
		limit, of, u, mark := row[0], row[1], row[3], row[4]
		key := limit + " for " + of
		if !strings.HasPrefix(mark, "source: ") && !strings.HasPrefix(mark, "rule of thumb") {
			t.Errorf("%s: the mark %q says neither source nor rule of thumb", key, mark)
		}
		if seen[key] {
			t.Errorf("%s stands twice", key)
		}
		seen[key] = true
		if old, ok := unit[limit]; ok && old != u {
			t.Errorf("%s is in %s, and another row in %s", key, u, old)
		}
		unit[limit] = u
		_, genus := families()[spelling.Fold(of)]
		_, method := nursery.TradeMethods()[of]
		if of != "" && !genus && !method {
			t.Errorf("%s: %q is no genus of families.csv and no method of methods.csv", key, of)
		}
	}
}

// The tables of plants agree with each other: every genus of a union has a
// family, every union an outcome, words where something is said, and a mark.
func TestUnionsAreWhole(t *testing.T) {
	outcomes := map[outcome]bool{unionGood: true, unionPartial: true, unionDelayed: true, unionReverse: true, unionInterstock: true}
	for _, row := range rows(unionsCSV) {
		key := row[0] + " <- " + row[1]
		for _, plant := range row[:2] {
			if families()[genusOf(plant)] == "" {
				t.Errorf("%s: %s has no family", key, plant)
			}
		}
		switch {
		case !outcomes[outcome(row[2])]:
			t.Errorf("%s: %q is no outcome", key, row[2])
		case (row[3] == "") != (row[2] == "good"):
			t.Errorf("%s: what is said does not fit %s", key, row[2])
		case row[4] == "":
			t.Errorf("%s has no mark", key)
		}
	}
	if len(unions()) != len(rows(unionsCSV)) {
		t.Error("a pair stands twice")
	}
}

// Each synonym of a method leads to a method, and not on to another synonym.
func TestMethodsAreWhole(t *testing.T) {
	for name, m := range nursery.TradeMethods() {
		if nursery.TradeMethods()[m.Name].Name != m.Name || name != spelling.Fold(name) {
			t.Errorf("%s leads to %s", name, m.Name)
		}
	}
}

// Check values of common practice, no published source.
func TestCommonPractice(t *testing.T) {
	n := nursery.Replay(nil, 0)
	value := func(limit string, of ...string) float64 {
		l, ok := n.Limit(limit, 0, of...)
		if !ok {
			t.Fatalf("no limit %s", limit)
		}
		if days := l.Days(); days != 0 {
			return float64(days)
		}
		return l.Value
	}
	for _, c := range []struct {
		what        string
		value       float64
		least, most float64
	}{
		{"a graft is looked at about a month after it was made: within 3 to 5 weeks", value("first-check"), 21, 35},
		{"so is one of a tropical fruit", value("first-check", "Mangifera indica"), 21, 35},
		{"an air-layer of an easy species has roots after about six weeks", value("layer-first-check", "Ficus carica"), 14, 42},
		{"a mean fruit above 3 kg is a slip", value("fruit-mass"), 3, 3},
		{"the largest mangos pass 5 lb, 2.3 kg", value("fruit-mass", "Mangifera indica"), 2.3, 3},
	} {
		if c.value < c.least || c.value > c.most {
			t.Errorf("%s: the default is %v", c.what, c.value)
		}
	}
}

// What is printed in a source that is named beside the value in defaults.csv.
func TestPrintedValues(t *testing.T) {
	n := nursery.Replay(nil, 0)
	for _, c := range []struct {
		limit, of string
		want      float64
	}{
		{"ties-off", "Citrus ×sinensis", 21},             // unwrap after 2-3 weeks: Citrus propagation for homeowners (UF)
		{"old-wood", "Mangifera indica", 9},              // 6-9 days in April and June: Acta Horticulturae 24:72-76
		{"stock-caliper", "Averrhoa carambola", 10},      // 10-15 mm: chapter on carambola
		{"stock-caliper", "Annona cherimola", 5},         // 5 mm: monograph on Annona, chapter 10
		{"stock-age", "Averrhoa carambola", 7},           // 7 months in a trial: HortScience 41(4)
		{"bears-after", "Averrhoa carambola", 10},        // ten months: chapter on carambola
		{"seedling-bears-after", "Mangifera indica", 6},  // 6-10 years and more: UF/IFAS HS-58
		{"seedling-bears-after", "Dimocarpus longan", 7}, // 7-8 years: FAO, Longan production in Asia
	} {
		if l, ok := n.Limit(c.limit, 0, c.of); !ok || l.Value != c.want || !strings.HasPrefix(l.Mark, "source: ") {
			t.Errorf("%s for %s is %v (%s), want %v", c.limit, c.of, l, l.Mark, c.want)
		}
	}
}
