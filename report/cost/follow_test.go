package cost_test

import (
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/money"
)

// replay reads a journal that has no error.
func replay(t testing.TB, journal string) *nursery.Nursery {
	t.Helper()
	page := entry.Read(source.New("test.bud", []byte(journal)))
	n := nursery.Replay([]*entry.Page{page}, 0)
	for _, f := range n.Findings {
		if f.Severity == finding.Error {
			t.Fatalf("%s: %s", f.File.Text(f.Span), f.Message)
		}
	}
	return n
}

// totals are the flows of a stretch of time by kind.
type totals [cost.In + 1]cost.Load

// balance is what the flows leave: what came in less what went out.
func (t totals) balance() cost.Load {
	l := t[cost.Spent]
	for _, k := range []cost.Kind{cost.Sold, cost.Given, cost.Planted, cost.Lost, cost.Unallocated} {
		l = l.Minus(t[k])
	}
	return l
}

// standing is what the lots and bundles hold at the end.
func standing(b *cost.Book) (l cost.Load) {
	for _, s := range b.Standing {
		l = l.Plus(s.Load)
	}
	return l
}

// hollow is the beginning of every journal here.
const hollow = `farm "Kestrel Hollow" currency EUR season from October
variety Amberlight species "Eriobotrya japonica"
variety "Quince BA" species "Cydonia oblonga" use rootstock
tree M7 variety Amberlight at terrace-3 planted 2013
worker Ines 18.00 per h
`

// budget is the worked budget of a grafted tree: 120 stocks at 2.20, three
// minutes a graft at 18.00 an hour, tape at 0.05; 96 take, 86 of them can be
// sold. Care at 0.35 and room at 0.06 for a month of a plant, of 120 for two
// months and of 96 for five; pots at 2.40 for those that took, tags at 0.60 for
// those that are sold. The figures are made up, and so are their sums: 955.20 in
// all, 11.11 for a tree. The sums were done by hand.
const budget = hollow + `
2026-01-10
buy 120 liners of "Quince BA" as QB26 from "Valley Liners" for 264.00
2026-03-02
graft 120 of QB26 with M7 by whip-and-tongue as AM26 worker Ines 6 h
spend 6.00 on tape for AM26
spend 84.00 on care for AM26
spend 14.40 on room for AM26
2026-04-30
check AM26: 96 took, 24 dead
spend 230.40 on pots for AM26
spend 168.00 on care for AM26
spend 28.80 on room for AM26
2026-09-20
cull 10 of AM26 because "too weak to sell"
spend 51.60 on tags for AM26
`

func TestBudget(t *testing.T) {
	n := replay(t, budget)
	_, in, book := sums(t, n, cost.Terms{}, 0)
	if len(book.Standing) != 1 || book.Standing[0].N != 86 || book.Standing[0].Living != 86 {
		t.Fatalf("standing: %+v", book.Standing)
	}
	l := book.Standing[0].Load
	if got := l.Cost(); got != amount(t, "955.20") {
		t.Errorf("86 trees cost %s, want 955.20", got)
	}
	if got := l.Cost().MulFrac(1, 86).Fixed(2); got != "11.11" {
		t.Errorf("one costs %s, want 11.11", got)
	}
	if l[cost.Bought] != amount(t, "264") || l[cost.Labour] != amount(t, "108") || l[cost.Hours] != amount(t, "6") {
		t.Errorf("made up of %s", l)
	}
	if lost := in[cost.Lost].Cost(); lost != (money.Amount{}) {
		t.Errorf("%s was lost, but all loss is normal here", lost)
	}
	price, err := money.PriceFor(l.Cost(), 86, money.Ratio{Num: 15, Den: 100}, money.Ratio{}, 2)
	if err != nil || price != amount(t, "13.07") {
		t.Errorf("the price that breaks even is %s, want 13.07 (%v)", price, err)
	}
}

// TestOneMorePoint: with 97.2 that took and 87.075 that can be sold, all that
// was spent for each plant is spent for more of them: 476.40 before the check as
// it was, then 4.45 a plant (432.54), then 0.60 (52.245), in all 961.185, which is
// 11.0386 for a tree and 0.07 less.
func TestOneMorePoint(t *testing.T) {
	n := replay(t, budget)
	_, _, book := sums(t, n, cost.Terms{Takes: []int{1, 0}}, 0)
	s := book.Standing[0]
	if got, want := s.Supposed[0], (cost.Supposed{N: 87_075_000, Living: 87_075_000, Cost: amount(t, "961.185")}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if got, want := s.Supposed[1], (cost.Supposed{N: 86_000_000, Living: 86_000_000, Cost: s.Load.Cost()}); got != want {
		t.Errorf("with the take that was: got %+v, want %+v", got, want)
	}
}

// TestOneMorePointOfOnePlant: of two grafts one took, so with a point more 1.02 did,
// and the 4.00 that the one got is 4.08. What was spent before the check stays 20.00.
func TestOneMorePointOfOnePlant(t *testing.T) {
	n := replay(t, hollow+`
2026-01-10
buy 2 liners of "Quince BA" as QB26 for 20.00
2026-03-02
graft 2 of QB26 with M7 by cleft as AM26
2026-04-30
check AM26: 1 took, 1 dead
2026-05-01
spend 4.00 on pots for AM26
`)
	_, _, book := sums(t, n, cost.Terms{Takes: []int{1}}, 0)
	if got, want := book.Standing[0].Supposed[0], (cost.Supposed{N: 1_020_000, Living: 1_020_000, Cost: amount(t, "24.08")}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// TestNothingIsFollowedPastTheDay: a day that lies further on than what is known
// wears nothing out. Of 36.50 for a year 5.00 are gone on the fiftieth day.
func TestNothingIsFollowedPastTheDay(t *testing.T) {
	n := replay(t, hollow+"\n2026-01-10\nbuy 10 liners of \"Quince BA\" as QB for 20.00\nspend 36.50 on cages for QB over 1 years\n2026-02-28\nnote \"so far\"\n")
	for _, until := range []fact.Date{0, n.Last, n.Last + 1, n.Last + 400} {
		_, _, book := sums(t, n, cost.Terms{Until: until}, 0)
		if got := stands(book); got != "QB 25" {
			t.Errorf("until %d: %s, want QB 25", until, got)
		}
	}
}

// TestFasterGrafts: an hour less for each hundred grafts is 1.2 h less for 120,
// 21.60 at 18.00 an hour; but what took half an hour can't take two hours less.
func TestFasterGrafts(t *testing.T) {
	_, _, book := sums(t, replay(t, budget), cost.Terms{}, 0)
	if got := book.Standing[0].Load[cost.Saving]; got != amount(t, "21.60") {
		t.Errorf("%s would have been saved, want 21.60", got)
	}
	_, _, book = sums(t, replay(t, strings.Replace(budget, "Ines 6 h", "Ines 30 min", 1)), cost.Terms{}, 0)
	if got := book.Standing[0].Load[cost.Saving]; got != amount(t, "9.00") {
		t.Errorf("%s would have been saved, want 9.00", got)
	}
}

func amount(t testing.TB, s string) money.Amount {
	t.Helper()
	a, err := money.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
