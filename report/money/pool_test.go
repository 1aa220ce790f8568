package money_test

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// TestPoolConserves runs random operations and keeps its own book of what went
// in and came out: not a thousand-millionth may be made or lost, a share is the
// exact one rounded, and the last unit takes the last of the cost.
func TestPoolConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pool money.Pool
		var count int64
		var in, out money.Amount
		t.Repeat(map[string]func(*rapid.T){
			"put": func(t *rapid.T) {
				n, cost := rapid.Int64Range(-2, 500).Draw(t, "n"), amounts().Draw(t, "cost")
				if err := pool.Put(n, cost); (err != nil) != (n < 0) {
					t.Fatalf("put %d: %v", n, err)
				}
				if n >= 0 {
					count, in = count+n, in.Add(cost)
				}
			},
			"take": func(t *rapid.T) {
				n := rapid.Int64Range(-2, 600).Draw(t, "n")
				before := pool
				share, err := pool.Take(n)
				if refuse := n < 0 || n > count; refuse != (err != nil) || refuse && pool != before {
					t.Fatalf("take %d of %d: %v", n, count, err)
				} else if refuse || n == 0 {
					return
				}
				exact := new(big.Rat).Mul(rat(before.Cost()), big.NewRat(n, count))
				same(t, "share", share, halfEven(exact, money.Guard))
				count, out = count-n, out.Add(share)
			},
			"lose": func(t *rapid.T) {
				n := rapid.Int64Range(-2, 600).Draw(t, "n")
				share := money.Ratio{Num: rapid.Int64Range(0, 10).Draw(t, "tenths"), Den: 10}
				before := pool
				abnormal, err := pool.Lose(n, money.Normal{Share: share, Entered: count})
				if refuse := n < 0 || n > count; refuse != (err != nil) || refuse && pool != before {
					t.Fatalf("lose %d of %d: %v", n, count, err)
				} else if refuse {
					return
				}
				count, out = count-n, out.Add(abnormal)
			},
			"": func(t *rapid.T) {
				if pool.Count() != count || out.Add(pool.Cost()) != in {
					t.Fatalf("in %s, out %s, left %s of %d", in, out, pool.Cost(), count)
				}
			},
		})
	})
}

// TestPoolAllGoesOut: seven plants for ten euros, taken one by one, take ten.
func TestPoolAllGoesOut(t *testing.T) {
	var pool money.Pool
	if err := pool.Put(7, amt(t, "10")); err != nil {
		t.Fatal(err)
	}
	var out money.Amount
	for range 7 {
		share, err := pool.Take(1)
		if err != nil {
			t.Fatal(err)
		}
		if share.Fixed(8) != "1.42857143" {
			t.Errorf("a plant took %s", share)
		}
		out = out.Add(share)
	}
	if out != amt(t, "10") || pool != (money.Pool{}) {
		t.Errorf("out %s, left %s", out, pool.Cost())
	}
}

// TestLoseByDefinition compares one loss with process costing in rationals:
// cost per expected unit is total / (entered - normal), and what is lost beyond
// the normal leaves at that cost.
func TestLoseByDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entered := rapid.Int64Range(2, 10_000).Draw(t, "entered")
		lost := rapid.Int64Range(1, entered-1).Draw(t, "lost")
		rate := money.Ratio{Num: rapid.Int64Range(0, 999).Draw(t, "rate"), Den: 1000}
		total := amounts().Draw(t, "total")

		expected := new(big.Rat).Mul(big.NewRat(entered, 1), big.NewRat(1000-rate.Num, 1000))
		beyond := new(big.Rat).Sub(expected, big.NewRat(entered-lost, 1))
		want := new(big.Rat)
		if beyond.Sign() > 0 {
			want.Mul(rat(total), beyond.Quo(beyond, expected))
		}

		var pool money.Pool
		if err := pool.Put(entered, total); err != nil {
			t.Fatal(err)
		}
		abnormal, err := pool.Lose(lost, money.Normal{Share: rate, Entered: entered})
		if err != nil {
			t.Fatal(err)
		}
		same(t, "abnormal loss", abnormal, halfEven(want, money.Guard))
		same(t, "survivors", pool.Cost(), new(big.Rat).Sub(rat(total), rat(abnormal)))
	})
}

// TestLoseInTurn: the loss found at two checks costs what it would at one, but
// for the rounding of the second.
func TestLoseInTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		first := rapid.Int64Range(0, 60).Draw(t, "first")
		second := rapid.Int64Range(0, 59).Draw(t, "second")
		normal := money.Normal{Share: money.Ratio{Num: rapid.Int64Range(0, 1000).Draw(t, "rate"), Den: 1000}, Entered: 120}
		var once, twice money.Pool
		for _, p := range []*money.Pool{&once, &twice} {
			if err := p.Put(120, amt(t, "486.60")); err != nil {
				t.Fatal(err)
			}
		}
		lose(t, &once, first+second, normal)
		lose(t, &twice, first, normal)
		normal.Gone = first
		lose(t, &twice, second, normal)
		off := rat(once.Cost().Sub(twice.Cost()))
		if off.Abs(off).Cmp(new(big.Rat).Mul(grain(money.Guard), big.NewRat(2, 1))) > 0 {
			t.Fatalf("once %s, twice %s", once.Cost(), twice.Cost())
		}
	})
}

func lose(t *rapid.T, p *money.Pool, n int64, normal money.Normal) {
	t.Helper()
	if _, err := p.Lose(n, normal); err != nil {
		t.Fatal(err)
	}
}

func TestLoseAll(t *testing.T) {
	all := money.Normal{Share: money.Ratio{Num: 1, Den: 1}, Entered: 20}
	for name, normal := range map[string]money.Normal{"none expected": {}, "all expected": all} {
		var pool money.Pool
		if err := pool.Put(20, amt(t, "44")); err != nil {
			t.Fatal(err)
		}
		if abnormal, err := pool.Lose(20, normal); err != nil || abnormal != amt(t, "44") || pool != (money.Pool{}) {
			t.Errorf("%s: lost %s, left %s (%v)", name, abnormal, pool.Cost(), err)
		}
	}
}

// TestPutTooMany: a number of units past 64 bits is refused and changes nothing.
func TestPutTooMany(t *testing.T) {
	var pool money.Pool
	put(t, &pool, 1<<62, amt(t, "1"))
	if pool.Put(1<<62, amt(t, "1")) == nil || pool.Count() != 1<<62 || pool.Cost() != amt(t, "1") {
		t.Errorf("the pool holds %d at %s", pool.Count(), pool.Cost())
	}
}

func ExamplePool() {
	var lot money.Pool
	stocks, _ := money.Parse("264.00")
	work, _ := money.Parse("114.00")
	lot.Put(120, stocks) // a graft of 120 stocks carries their cost,
	lot.Put(0, work)     // and its own work and tape
	fifth := money.Ratio{Num: 1, Den: 5}
	loss, _ := lot.Lose(30, money.Normal{Share: fifth, Entered: 120})
	sold, _ := lot.Take(40)
	fmt.Println("beyond the normal fifth:", loss.Fixed(2))
	fmt.Println("40 sold cost", sold.Fixed(2), "and", lot.Count(), "left cost", lot.Cost().Fixed(2))
	// Output:
	// beyond the normal fifth: 23.62
	// 40 sold cost 157.50 and 50 left cost 196.88
}
