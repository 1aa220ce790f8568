package entry

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// Short ways of writing what an entry means, without the places.

func n(text string) fact.Name { return fact.Name{Text: text} }

func list(names ...string) (out []fact.Name) {
	for _, s := range names {
		out = append(out, n(s))
	}
	return out
}

func exactly(x int32) fact.Count { return fact.Count{N: x, Given: true} }

func about(x int32) fact.Count { return fact.Count{N: x, Given: true, About: true} }

func dec(s string) fact.Decimal {
	d, ok := fact.ParseDecimal(s)
	if !ok {
		panic(s)
	}
	return d
}

func cash(s, currency string) fact.Money {
	return fact.Money{Amount: dec(s), Currency: currency, Given: true}
}

func qty(s string, u fact.Unit) fact.Quantity {
	return fact.Quantity{Value: dec(s), Unit: u, Given: true}
}

func on(y int, m time.Month, d int) fact.Date { day, _ := fact.NewDate(y, m, d); return day }

func TestMeanings(t *testing.T) {
	for text, want := range map[string]fact.Effect{
		`farm "Kestrel Hollow" currency EUR season from October`: &fact.Farm{Name: n("Kestrel Hollow"), Currency: "EUR", SeasonFrom: time.October},
		`FARM kh hemisphere South country AUS registration R-1`:  &fact.Farm{Name: n("kh"), South: true, Country: n("AUS"), Registration: n("R-1")},
		`variety Amberlight species "Eriobotrya japonica" seed monoembryonic picks May-Jun`: &fact.Variety{Name: n("Amberlight"),
			Species: n("Eriobotrya japonica"), Embryony: fact.Monoembryonic, Picks: []fact.MonthRange{{From: time.May, To: time.June}}},
		`variety R parents A × unknown picks Nov-February, may use rootstock sold as "R 1"`: &fact.Variety{Name: n("R"), SeedParent: n("A"), Pollen: n("unknown"),
			Picks: []fact.MonthRange{{From: time.November, To: time.February}, {From: time.May, To: time.May}}, Rootstock: true, Trade: n("R 1")},
		`variety E sport of A protected until 2041-12-31 by "PVR 7" licence KH-3 for 200`: &fact.Variety{Name: n("E"), SportOf: n("A"),
			Protected: on(2041, time.December, 31), Right: n("PVR 7"), Licence: n("KH-3"), LicensedN: exactly(200)},
		`tree M7 variety A on "Quince BA" from Bob planted 2013 at terrace-3`: &fact.Tree{Name: n("M7"), Variety: n("A"), On: n("Quince BA"), From: n("Bob"),
			At: n("terrace-3"), Planted: fact.When{First: on(2013, time.January, 1), Last: on(2013, time.December, 31)}},
		`tree M7 variety A planted 2012-02`:              &fact.Tree{Name: n("M7"), Variety: n("A"), Planted: fact.When{First: on(2012, time.February, 1), Last: on(2012, time.February, 29)}},
		`tree M7 variety A planted 2013–05–20`:           &fact.Tree{Name: n("M7"), Variety: n("A"), Planted: fact.On(on(2013, time.May, 20))},
		`limb M8/east of M8 variety E`:                   &fact.Limb{Name: n("M8/east"), Of: n("M8"), Variety: n("E")},
		`place shade-1 area 60 m2 holds 900`:             &fact.Place{Name: n("shade-1"), Area: qty("60", fact.SquareM), Holds: exactly(900)},
		`worker Ines 14.50 per h`:                        &fact.Worker{Name: n("Ines"), Wage: cash("14.50", ""), Per: fact.Hour},
		`worker Ines 110 USD per day`:                    &fact.Worker{Name: n("Ines"), Wage: cash("110", "USD"), Per: fact.Day},
		`party Bob as customer`:                          &fact.Party{Name: n("Bob"), As: n("customer")},
		`method patch check after 21 days`:               &fact.Method{Name: n("patch"), Check: qty("21", fact.Day)},
		`cause "root rot"`:                               &fact.Cause{Name: n("root rot")},
		`rate 1 USD is 0.92 EUR`:                         &fact.Rate{Of: cash("1", "USD"), Is: cash("0.92", "EUR")},
		`limit old-wood 21 days for patch`:               &fact.Limit{Rule: n("old-wood"), Value: qty("21", fact.Day), For: n("patch")},
		`price Amberlight pot 3 L to trade at 9.80 each`: &fact.Quote{Of: n("Amberlight"), Each: cash("9.80", ""), Pot: qty("3", fact.Litre), To: n("trade")},
		`price Amberlight at 3.20 USD per kg`:            &fact.Quote{Of: n("Amberlight"), Each: cash("3.20", "USD"), Per: fact.Kilogram},
		`share water, "shade house" by area-days`:        &fact.Share{Labels: list("water", "shade house"), By: fact.AreaDays},
		`paid 110.40 from Bob paper "note 3"`:            &fact.Paid{Amount: cash("110.40", ""), From: n("Bob"), Paper: n("note 3")},
		`limit loss 15%`:                                 &fact.Limit{Rule: n("loss"), Value: qty("15", fact.Percent)},
		`sow about 120 seed of Q as QA25 from M3, M4 for 14.00`: &fact.Begin{How: fact.Sown, Noun: fact.Seed, Count: about(120), Of: n("Q"), As: n("QA25"),
			From: list("M3", "M4"), Total: cash("14.00", "")},
		`stick 50 cuttings of F2 as FC26 hormone IBA 2000ppm wound 2cm by hardwood`: &fact.Begin{How: fact.Stuck, Noun: fact.Cuttings, Count: exactly(50), Of: n("F2"),
			As: n("FC26"), Rooting: fact.Rooting{By: n("hardwood"), Hormone: n("IBA"), Strength: qty("2000", fact.PartsPerM), Wound: qty("2", fact.Centimetre)}},
		`buy 40 scions of A as WB for 20.00 EUR from Bob`:               &fact.Begin{How: fact.Bought, Noun: fact.Scions, Count: exactly(40), Of: n("A"), As: n("WB"), From: list("Bob"), Total: cash("20.00", "EUR")},
		`layer 8 on F2 as FG26`:                                         &fact.Layer{Count: exactly(8), On: n("F2"), As: n("FG26")},
		`layer 1 failed of FG25 as FGb`:                                 &fact.Layer{Count: exactly(1), On: n("FG25"), Again: true, As: n("FGb")},
		`cut 60 scions from M7 as W7 store cool`:                        &fact.Cut{Count: exactly(60), Noun: fact.Scions, From: list("M7"), As: n("W7"), Store: n("cool")},
		`cut 20 sticks of 5 buds from P2, P3 as WP caliper 9 mm`:        &fact.Cut{Count: exactly(20), Noun: fact.Sticks, Buds: exactly(5), From: list("P2", "P3"), As: n("WP"), Caliper: qty("9", fact.Millimetre)},
		`cut about 30 sticks from M7 as W`:                              &fact.Cut{Count: about(30), Noun: fact.Sticks, From: list("M7"), As: n("W")},
		`graft 48 of QA25 with W7, W8 by cleft as AM26 scions 2 beside`: &fact.Graft{Count: exactly(48), Of: n("QA25"), With: list("W7", "W8"), By: n("cleft"), As: n("AM26"), Scions: exactly(2), Beside: true},
		`graft 6 failed of AM26 with M7 over WI as IT`:                  &fact.Graft{Count: exactly(6), State: fact.Failed, Of: n("AM26"), With: list("M7"), Over: n("WI"), As: n("IT")},
		`graft 6 limbs of M9 with M7 as TW`:                             &fact.Graft{Count: exactly(6), Noun: fact.Limbs, Of: n("M9"), With: list("M7"), As: n("TW")},
		`graft 4 of TR24 into L1 by inarch`:                             &fact.Graft{Count: exactly(4), Of: n("TR24"), Into: n("L1"), By: n("inarch")},
		`check 40 of AM: 30 took with 61 scions, about 5 failed, 3 dead to rot, 2 unsure`: &fact.Check{Lot: n("AM"), Looked: exactly(40), Outcomes: []fact.Outcome{
			{Count: exactly(30), Verdict: fact.Took, With: exactly(61), Noun: fact.Scions}, {Count: about(5), Verdict: fact.Fails},
			{Count: exactly(3), Verdict: fact.Dead, Cause: n("rot")}, {Count: exactly(2), Verdict: fact.Unsure}}},
		`check TR 52 up with 58 plants`:            &fact.Check{Lot: n("TR"), Outcomes: []fact.Outcome{{Count: exactly(52), Verdict: fact.Up, With: exactly(58), Noun: fact.Plants}}},
		`check IT: 0 took, 1 upper, 1 lower`:       &fact.Check{Lot: n("IT"), Outcomes: []fact.Outcome{{Count: exactly(0), Verdict: fact.Took}, {Count: exactly(1), Verdict: fact.Upper}, {Count: exactly(1), Verdict: fact.Lower}}},
		`sample 30 of AM: 26 took, 4 failed`:       &fact.Check{Lot: n("AM"), Looked: exactly(30), Sample: true, Outcomes: []fact.Outcome{{Count: exactly(26), Verdict: fact.Took}, {Count: exactly(4), Verdict: fact.Fails}}},
		`fail 2 of AM to frost because "x"`:        &fact.Turn{How: fact.FailedLate, Count: exactly(2), Lot: n("AM"), To: n("frost"), Why: n("x")},
		`revive 2 failed of AM`:                    &fact.Turn{How: fact.Revived, Count: exactly(2), State: fact.Failed, Lot: n("AM")},
		`release 4 failed of AM as Q`:              &fact.Pass{How: fact.Released, Count: exactly(4), State: fact.Failed, Lot: n("AM"), As: n("Q")},
		`sever 7 of FG26`:                          &fact.Pass{How: fact.Severed, Count: exactly(7), Lot: n("FG26")},
		`split 10 of AM as B`:                      &fact.Pass{How: fact.SplitOff, Count: exactly(10), Lot: n("AM"), As: n("B")},
		`pot AM to 3L`:                             &fact.Pass{How: fact.Potted, Lot: n("AM"), Pot: qty("3", fact.Litre)},
		`pot 5 waiting of AM to long as B`:         &fact.Pass{How: fact.Potted, Count: exactly(5), State: fact.Waiting, Lot: n("AM"), Label: n("long"), As: n("B")},
		`move 20 of AM to shade-2 as B`:            &fact.Pass{How: fact.Moved, Count: exactly(20), Lot: n("AM"), To: n("shade-2"), As: n("B")},
		`join A, B, C as D`:                        &fact.Join{Lots: list("A", "B", "C"), As: n("D")},
		`plant 12 of L as R2/1 to R2/12 variety V`: &fact.Plant{Count: exactly(12), Of: n("L"), As: n("R2/1"), Through: n("R2/12"), Variety: n("V")},
		`plant 3 waiting of L`:                     &fact.Plant{Count: exactly(3), State: fact.Waiting, Of: n("L")},
		`lose 1 waiting of AM to rot`:              &fact.Leave{How: fact.Lost, Count: exactly(1), State: fact.Waiting, Of: n("AM"), To: n("rot")},
		`lose M9 to "root rot" because "wet"`:      &fact.Leave{How: fact.Lost, Of: n("M9"), To: n("root rot"), Why: n("wet")},
		`lose about 10 scions of W to mould`:       &fact.Leave{How: fact.Lost, Noun: fact.Scions, Count: about(10), Of: n("W"), To: n("mould")},
		`cull 3 of AM because "poor union"`:        &fact.Leave{How: fact.Culled, Count: exactly(3), Of: n("AM"), Why: n("poor union")},
		`sell 12 of AM to Bob at 19.00 each for 228.00 paper "N 1"`: &fact.Leave{How: fact.Sold, Count: exactly(12), Of: n("AM"), To: n("Bob"), Paper: n("N 1"),
			Price: fact.Price{Each: cash("19.00", ""), Total: cash("228.00", "")}},
		`sell 20 kg fruit of M7 at 3.20 USD per kg`:             &fact.Leave{How: fact.Sold, Noun: fact.Fruit, Quantity: qty("20", fact.Kilogram), Of: n("M7"), Price: fact.Price{Each: cash("3.20", "USD"), Per: fact.Kilogram}},
		`sell 30 fruit of M7 for 12`:                            &fact.Leave{How: fact.Sold, Noun: fact.Fruit, Count: exactly(30), Of: n("M7"), Price: fact.Price{Total: cash("12", "")}},
		`sell 3 failed of AM for 12`:                            &fact.Leave{How: fact.Sold, Count: exactly(3), State: fact.Failed, Of: n("AM"), Price: fact.Price{Total: cash("12", "")}},
		`sell RT26 to Bob for 10.00`:                            &fact.Leave{How: fact.Sold, Of: n("RT26"), To: n("Bob"), Price: fact.Price{Total: cash("10.00", "")}},
		`give 10 scions of W to Bob`:                            &fact.Leave{How: fact.Given, Noun: fact.Scions, Count: exactly(10), Of: n("W"), To: n("Bob")},
		`return 1 dead of AM from Bob for 19`:                   &fact.Return{Count: exactly(1), Dead: true, Of: n("AM"), From: n("Bob"), Total: cash("19", "")},
		`return 2 living of AM from Bob as R because "x"`:       &fact.Return{Count: exactly(2), State: fact.Living, Of: n("AM"), From: n("Bob"), As: n("R"), Why: n("x")},
		`pick 31.5 kg, about 420 fruit from M7, M8`:             &fact.Pick{Mass: qty("31.5", fact.Kilogram), Fruit: about(420), From: list("M7", "M8")},
		`count A, B 42`:                                         &fact.Stocktake{Lots: list("A", "B"), Count: exactly(42)},
		`count A: 21 living`:                                    &fact.Stocktake{Lots: list("A"), Count: exactly(21), State: fact.Living},
		`count A 25, 2 missing waiting`:                         &fact.Stocktake{Lots: list("A"), Count: exactly(25), Missing: exactly(2), Of: fact.Waiting},
		`count A 0, 1 over`:                                     &fact.Stocktake{Lots: list("A"), Count: exactly(0), Over: exactly(1)},
		`spend 64.20 USD on pots for A, B to Bob over 10 years`: &fact.Spend{Amount: cash("64.20", "USD"), On: n("pots"), For: list("A", "B"), From: n("Bob"), Over: qty("10", fact.Year)},
		`work weeding for A worker Ru 1 h`:                      &fact.Work{Task: n("weeding"), For: list("A")},
		`tend A, M7 sprayed soap`:                               &fact.Tend{Lots: list("A", "M7"), Job: n("sprayed"), With: n("soap")},
		`tend A TIES`:                                           &fact.Tend{Lots: list("A"), Job: n("ties")},
		`mark M8 off-type because "x"`:                          &fact.Mark{Of: n("M8"), Mark: n("off-type"), Why: n("x")},
		`clear M8 sick`:                                         &fact.Mark{Of: n("M8"), Mark: n("sick"), Clear: true},
		`note A, "B C" "flush"`:                                 &fact.Remark{Of: list("A", "B C"), Text: n("flush")},
		`note "frost"`:                                          &fact.Remark{Text: n("frost")},
		`strike line 41 check AM26: 3 took because "twice"`:     &fact.Strike{Line: 41, Words: "check AM26: 3 took", Why: n("twice"), Span: n("41 check AM26: 3 took")},
		`strike line 41 because "twice"`:                        &fact.Strike{Line: 41, Why: n("twice"), Span: n("41")},
		`allow old-wood on AM26 because "cool"`:                 &fact.Allow{Rule: n("old-wood"), On: n("AM26"), Why: n("cool")},
		`seal sha256 1111111111111111111111111111111111111111111111111111111111111111`: &fact.Seal{Hash: n("1111111111111111111111111111111111111111111111111111111111111111")},
		`seal sha256 e2c569be17396eca2a2e3c11578123ed5d3a2cd2a3ff35ef0d0e3c1e1ba22af1`: &fact.Seal{Hash: n("e2c569be17396eca2a2e3c11578123ed5d3a2cd2a3ff35ef0d0e3c1e1ba22af1")},
		`check M41: took`: &fact.Check{Lot: n("M41"), Outcomes: []fact.Outcome{{Verdict: fact.Took}}},
		`budstick 1`:      &fact.Version{N: exactly(1)},
	} {
		page := Read(source.New("x.bud", []byte("2026-03-02\n"+text)))
		if len(page.Entries) != 1 || len(page.Findings) > 0 {
			t.Errorf("%s: %d entries, %+v", text, len(page.Entries), page.Findings)
			continue
		}
		if diff := cmp.Diff(want, page.Entries[0].Effect, cmpopts.IgnoreTypes(source.Span{})); diff != "" {
			t.Errorf("%s:\n%s", text, diff)
		}
	}
}

func TestCommonClauses(t *testing.T) {
	text := "lose 2 of AM26 to frost at shade-1 worker Ines 3 h 20 min, Ru 1.5 h, Bob\n" +
		"  cost 12.50 EUR note \"a # cold night\" tag trial happened 2026-02-27 cost 3 tag \"row 2\""
	page := Read(source.New("x.bud", []byte("2026-03-02 Monday\n"+text)))
	if len(page.Entries) != 1 {
		t.Fatalf("%+v", page.Findings)
	}
	want := &fact.Extra{
		Happened: on(2026, time.February, 27), At: n("shade-1"),
		Workers: []fact.Labour{{Worker: n("Ines"), Minutes: dec("200"), Timed: true}, {Worker: n("Ru"), Minutes: dec("90.0"), Timed: true}, {Worker: n("Bob")}},
		Costs:   []fact.Money{cash("12.50", "EUR"), cash("3", "")},
		Notes:   list("a # cold night"),
		Tags:    list("trial", "row 2"),
	}
	e := page.Entries[0]
	if diff := cmp.Diff(want, e.Extra, cmpopts.IgnoreTypes(source.Span{})); diff != "" {
		t.Error(diff)
	}
	if e.Date != on(2026, time.March, 2) || e.Day() != want.Happened || e.Line != 2 || e.Verb != "lose" {
		t.Errorf("entry of %s, reckoned by %s, on line %d, %s", e.Date, e.Day(), e.Line, e.Verb)
	}
	if got := page.File.Text(e.Span); got != text {
		t.Errorf("the entry is %q", got)
	}
}
