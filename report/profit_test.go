package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/invent"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/report/money"
	"github.com/budstick/budstick/report/table"
)

// TestMoneyAnswers asks the questions about money in testdata/report; how such a
// file is read is told at TestAnswers.
func TestMoneyAnswers(t *testing.T) {
	for _, name := range []string{"profit", "owed", "mothers", "accountant"} {
		files, err := filepath.Glob("../testdata/report/" + name + "-*.txtar")
		if err != nil || len(files) == 0 {
			t.Fatalf("no questions about %s: %v", name, err)
		}
		for _, path := range files {
			t.Run(filepath.Base(path), func(t *testing.T) { askFile(t, path) })
		}
	}
}

// cents is a report of profit as a program reads it.
type cents struct {
	Rows        []map[string]any
	RowsTotal   map[string]any `json:"rows_total"`
	Identity    map[string]any
	Enterprises []map[string]any
	Total       map[string]any `json:"enterprises_total"`
	// Base is the result that the drawing starts from, where there is one.
	Base map[string]any `json:"-"`
}

func centsOf(t *testing.T, n *nursery.Nursery, o Options) (c cents) {
	t.Helper()
	o.AsAt = n.Last
	doc, err := buildProfit(n, o)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := table.WriteJSON(&b, *doc); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b.Bytes(), &c); err != nil {
		t.Fatal(err)
	}
	for _, block := range doc.Body {
		if drawing, ok := block.(table.Tornado); ok {
			c.Base = map[string]any{"result": drawing.Base.Plain()}
		}
	}
	return c
}

// plus adds fields of an object up; what is not known is nothing.
func plus(t *testing.T, object map[string]any, fields ...string) (sum money.Amount) {
	t.Helper()
	for _, field := range fields {
		text, ok := object[field].(string)
		if !ok {
			if object[field] != nil {
				t.Fatalf("%s is %v", field, object[field])
			}
			continue
		}
		a, err := money.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if a != a.Round(2, money.HalfEven) {
			t.Errorf("%s is %s, finer than a cent", field, text)
		}
		sum = sum.Add(a)
	}
	return sum
}

// TestMoneyAddsUp holds every report to the cent: what came in is what went out,
// rows add up to their sum and the sum to the identity, and what stood at the end
// of a season is what stands at the beginning of the next.
func TestMoneyAddsUp(t *testing.T) {
	for name, n := range map[string]*nursery.Nursery{"Kestrel Hollow": kestrelHollow(t), "invented": invented(t, 3000)} {
		var closing money.Amount
		for _, year := range []int{2024, 2025, 2026, 2027} {
			s := n.Season(year)
			if name == "invented" {
				s = n.Season(year - 2024 + n.Season(0).Year() - 4)
			}
			period := Period{Name: "season", First: s.First, Last: s.Last}
			for _, by := range profitBy {
				c := centsOf(t, n, Options{By: []string{by}, Periods: []Period{period}})
				addsUp(t, fmt.Sprintf("%s, %d, by %s", name, year, by), c, by)
				if got := plus(t, c.Identity, "opening"); by == profitBy[0] && year > 2024 && got != closing {
					t.Errorf("%s, %d begins with %s, but the season before it ended with %s", name, year, got, closing)
				}
				if by == profitBy[len(profitBy)-1] {
					closing = plus(t, c.Identity, "closing")
				}
			}
		}
	}
}

func addsUp(t *testing.T, what string, c cents, by string) {
	t.Helper()
	same := func(name string, got, want money.Amount) {
		t.Helper()
		if got != want {
			t.Errorf("%s: %s is %s, want %s", what, name, got, want)
		}
	}
	out := []string{"sold", "given", "planted", "abnormal_loss", "unallocated", "closing"}
	same("what came in", plus(t, c.Identity, "opening", "spent"), plus(t, c.Identity, out...))
	for _, e := range append(c.Enterprises, c.Total) {
		same("what came in", plus(t, e, "opening", "spent"), plus(t, e, append(out, "used")...))
	}
	var sold, closing, revenue, margin money.Amount
	for _, r := range c.Rows {
		sold, closing = sold.Add(plus(t, r, "cost_of_sold")), closing.Add(plus(t, r, "closing_cost"))
		revenue, margin = revenue.Add(plus(t, r, "revenue")), margin.Add(plus(t, r, "margin"))
		same("margin", plus(t, r, "margin"), plus(t, r, "revenue").Sub(plus(t, r, "cost_of_sold")))
	}
	same("cost of sold", sold, plus(t, c.Identity, "sold"))
	if by != "month" { // of which each has its own
		same("closing", closing, plus(t, c.Identity, "closing"))
	}
	if c.RowsTotal != nil {
		same("total revenue", plus(t, c.RowsTotal, "revenue"), revenue)
		same("total margin", plus(t, c.RowsTotal, "margin"), margin)
		same("total closing", plus(t, c.RowsTotal, "closing_cost"), plus(t, c.Identity, "closing"))
	}
	same("revenue of the trees", plus(t, c.Enterprises[0], "revenue"), revenue)
	if c.Base != nil {
		same("what the drawing starts from", plus(t, c.Base, "result"), plus(t, c.Enterprises[0], "result"))
	}
}

// TestReferenceApportionment shares costs by plants as the worked examples of
// apportionment do seats and cents (testdata/reference/06_costing.json names the
// source of each): 120 seats of 1790 are 1.20 over as many plants as there were
// people.
func TestReferenceApportionment(t *testing.T) {
	var ref struct {
		Hamilton []struct {
			ID     string
			Seats  int64
			States []struct{ Population, Seats int64 }

			Weights, Allocated []int64
			Total              int64
		}
	}
	data, err := os.ReadFile("../testdata/reference/06_costing.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(data, &ref); err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, x := range ref.Hamilton {
		for _, s := range x.States {
			x.Weights, x.Allocated, x.Total = append(x.Weights, s.Population), append(x.Allocated, s.Seats), x.Seats
		}
		if x.Total == 0 {
			continue // of two totals
		}
		tried++
		var journal strings.Builder
		var lots []string
		var want []int64
		journal.WriteString("farm \"Kestrel Hollow\" currency EUR\nvariety Amberlight species \"Eriobotrya japonica\"\n\n2026-01-10\n")
		for i, w := range x.Weights {
			if w == 0 {
				continue // no plants make no lot
			}
			lots, want = append(lots, fmt.Sprintf("L%03d", i)), append(want, x.Allocated[i])
			fmt.Fprintf(&journal, "buy %d trees of Amberlight as L%03d\n", w, i)
		}
		fmt.Fprintf(&journal, "spend %d.%02d on seats for %s\n", x.Total/100, x.Total%100, strings.Join(lots, ", "))
		n := replay(t, []*entry.Page{entry.Read(source.New("seats.bud", []byte(journal.String())))})
		c := centsOf(t, n, Options{By: []string{"lot"}})
		for i, r := range c.Rows {
			got, err := money.New(want[i], 2)
			if err != nil {
				t.Fatal(err)
			}
			if a := plus(t, r, "closing_cost"); a != got {
				t.Errorf("%s: %s bears %s, want %s", x.ID, lots[i], a, got)
			}
		}
	}
	if tried < 20 {
		t.Errorf("only %d examples were found", tried)
	}
}

func invented(t testing.TB, entries int) *nursery.Nursery {
	t.Helper()
	var b bytes.Buffer
	if err := invent.Write(&b, entries, 5); err != nil {
		t.Fatal(err)
	}
	return nursery.Replay([]*entry.Page{entry.Read(source.New("invented.bud", b.Bytes()))}, 0)
}

// BenchmarkProfit is the report alone, of a journal that is read already.
func BenchmarkProfit(b *testing.B) {
	n := invented(b, 100_000)
	for b.Loop() {
		if _, err := buildProfit(n, Options{AsAt: n.Last}); err != nil {
			b.Fatal(err)
		}
	}
}
