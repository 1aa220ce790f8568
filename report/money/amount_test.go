package money_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/cockroachdb/apd/v3"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

func TestNew(t *testing.T) {
	for _, c := range []struct {
		coef     int64
		decimals int
		want     string // empty: refused
	}{
		{0, 0, "0"},
		{0, 40, "0"},
		{1250, 2, "12.5"},
		{-1250, 2, "-12.5"},
		{1, 9, "0.000000001"},
		{1, 10, ""},
		{1, -1, ""},
		{120, 10, "0.000000012"},
		{999_999_999_999_999_999, 0, "999999999999999999"},
		{-1 << 63, 9, "-9223372036.854775808"},
		{-1 << 63, 0, "-9223372036854775808"},
	} {
		got, err := money.New(c.coef, c.decimals)
		if c.want == "" {
			if err == nil {
				t.Errorf("New(%d, %d) = %s, want it refused", c.coef, c.decimals, got)
			}
			continue
		}
		if err != nil || got.String() != c.want {
			t.Errorf("New(%d, %d) = %s, %v; want %s", c.coef, c.decimals, got, err, c.want)
		}
	}
}

// TestSameSum: amounts that are equal are equal by ==, whichever way they came
// about, also where they pass the 64-bit border and come back.
func TestSameSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := amounts().Draw(t, "a"), amounts().Draw(t, "b")
		if got := a.Add(b).Sub(b); got != a {
			t.Fatalf("a + b - b = %s, want %s", got, a)
		}
		if a.Add(b) != b.Add(a) {
			t.Fatal("a + b is not b + a")
		}
		if (a == b) != (a.Cmp(b) == 0) || (a == b) != (a.String() == b.String()) {
			t.Fatal("==, Cmp and String disagree")
		}
		if a.Neg().Neg() != a || a.Add(a.Neg()) != (money.Amount{}) {
			t.Fatal("the opposite of an amount is wrong")
		}
		if money.Sum(a, b, a) != a.MulInt(2).Add(b) {
			t.Fatal("a sum is wrong")
		}
	})
}

func TestArithmetic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := amounts().Draw(t, "a"), amounts().Draw(t, "b")
		n := rapid.Int64().Draw(t, "n")
		den := rapid.Int64().Filter(func(n int64) bool { return n != 0 }).Draw(t, "den")
		x, y := rat(a), rat(b)
		same(t, "a + b", a.Add(b), new(big.Rat).Add(x, y))
		same(t, "a - b", a.Sub(b), new(big.Rat).Sub(x, y))
		same(t, "a × n", a.MulInt(n), new(big.Rat).Mul(x, new(big.Rat).SetInt64(n)))
		exact := new(big.Rat).Mul(x, new(big.Rat).SetFrac(big.NewInt(n), big.NewInt(den)))
		same(t, "a × n / den", a.MulFrac(n, den), halfEven(exact, money.Guard))
		same(t, "a × ratio", a.Mul(money.Ratio{Num: n, Den: den}), halfEven(exact, money.Guard))
		if a.Cmp(b) != x.Cmp(y) || a.Sign() != x.Sign() {
			t.Fatalf("order of %s and %s", a, b)
		}
	})
}

// TestMulFracHalves draws small numbers, where exact halves are common.
func TestMulFracHalves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := newAmount(t, rapid.Int64Range(-50, 50).Draw(t, "nano"), money.Guard)
		n := rapid.Int64Range(-9, 9).Draw(t, "n")
		den := rapid.SampledFrom([]int64{-4, -2, 1, 2, 4, 8}).Draw(t, "den")
		exact := new(big.Rat).Mul(rat(a), new(big.Rat).SetFrac(big.NewInt(n), big.NewInt(den)))
		same(t, "a × n / den", a.MulFrac(n, den), halfEven(exact, money.Guard))
	})
}

// TestSumByDecimalLibrary adds a column by the decimal library alone.
func TestSumByDecimalLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		column := rapid.SliceOfN(amounts(), 0, 40).Draw(t, "column")
		want := new(apd.Decimal)
		for _, a := range column {
			d, _, err := apd.NewFromString(a.String())
			if err != nil {
				t.Fatal(err)
			}
			if _, err := apd.BaseContext.Add(want, want, d); err != nil {
				t.Fatal(err)
			}
		}
		got, _, err := apd.NewFromString(money.Sum(column...).String())
		if err != nil || got.Cmp(want) != 0 {
			t.Fatalf("got %s, want %s (%v)", got, want, err)
		}
	})
}

func TestMulByNought(t *testing.T) {
	if got := amt(t, "12.50").Mul(money.Ratio{}); got != (money.Amount{}) {
		t.Errorf("12.50 by the zero ratio is %s", got)
	}
}

func TestDecimal(t *testing.T) {
	third, err := money.Decimal(125, 3)
	if err != nil || amt(t, "80").Mul(third) != amt(t, "10") {
		t.Errorf("12.5 %% of 80 is %s (%v)", amt(t, "80").Mul(third), err)
	}
	for _, decimals := range []int{-1, 19} {
		if r, err := money.Decimal(1, decimals); err == nil {
			t.Errorf("Decimal(1, %d) = %v, want it refused", decimals, r)
		}
	}
	if r, err := money.Decimal(3, 18); err != nil || r.Den != 1_000_000_000_000_000_000 {
		t.Errorf("Decimal(3, 18) = %v, %v", r, err)
	}
}

func ExampleAmount() {
	price, _ := money.Parse("19.99")
	third := price.MulFrac(1, 3)
	fmt.Println(price.MulInt(12).Fixed(2), third, third.Fixed(2))
	// Output: 239.88 6.663333333 6.66
}

// TestOver: 6.00 for 1.5 hours is 4.00 an hour; a third is rounded at the last
// decimal; nothing is so much for none.
func TestOver(t *testing.T) {
	for _, c := range []struct{ a, b, want string }{
		{"6", "1.5", "4"},
		{"-6", "1.5", "-4"},
		{"1", "3", "0.333333333"},
		{"2", "3", "0.666666667"},
		{"0", "7", "0"},
		{"99999999999.99", "0.5", "199999999999.98"},
		{"1", "99999999999.99", "0"},
	} {
		if got, ok := amt(t, c.a).Over(amt(t, c.b)); !ok || got.String() != c.want {
			t.Errorf("%s / %s = %s, want %s", c.a, c.b, got, c.want)
		}
	}
	if _, ok := amt(t, "1").Over(money.Amount{}); ok {
		t.Error("1 / 0 is something")
	}
}
