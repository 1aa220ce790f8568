package money_test

import (
	"math/big"

	"pgregory.net/rapid"

	"github.com/budstick/budstick/report/money"
)

// The tests reckon a second time with the rationals of math/big, which share no
// code with the package.

// failer is what the tests need of a testing.TB or a rapid.T.
type failer interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// amt reads an amount for a test's table.
func amt(t failer, s string) money.Amount {
	t.Helper()
	a, err := money.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// rat is an amount as a rational, by way of its text.
func rat(a money.Amount) *big.Rat {
	r, ok := new(big.Rat).SetString(a.String())
	if !ok {
		panic("not a number: " + a.String())
	}
	return r
}

// grain is the size of one step of so many decimals.
func grain(places int) *big.Rat {
	return new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
}

// floorSteps is the number of whole steps in r, towards minus infinity.
func floorSteps(r *big.Rat, places int) *big.Int {
	q := new(big.Rat).Quo(r, grain(places))
	return new(big.Int).Div(q.Num(), q.Denom()) // Euclidean; Denom is positive
}

// steps is n steps as a rational.
func steps(n *big.Int, places int) *big.Rat {
	return new(big.Rat).Mul(new(big.Rat).SetInt(n), grain(places))
}

// halfEven rounds r to places decimals, from the definition.
func halfEven(r *big.Rat, places int) *big.Rat {
	n := floorSteps(r, places)
	rest := new(big.Rat).Sub(r, steps(n, places))
	half := new(big.Rat).Mul(grain(places), big.NewRat(1, 2))
	if c := rest.Cmp(half); c > 0 || c == 0 && n.Bit(0) == 1 {
		n.Add(n, big.NewInt(1))
	}
	return steps(n, places)
}

// same fails the test unless got is want exactly.
func same(t failer, what string, got money.Amount, want *big.Rat) {
	t.Helper()
	if rat(got).Cmp(want) != 0 {
		t.Fatalf("%s: got %s, want %s", what, got, want.FloatString(12))
	}
}

// amounts draws amounts of every size: everyday ones, those on both sides of
// the 64-bit border, and larger ones.
func amounts() *rapid.Generator[money.Amount] {
	return rapid.Custom(func(t *rapid.T) money.Amount {
		switch rapid.IntRange(0, 3).Draw(t, "size") {
		case 0:
			return newAmount(t, rapid.Int64Range(-1_000_000, 1_000_000).Draw(t, "cents"), 2)
		case 1:
			return newAmount(t, rapid.Int64().Draw(t, "nano"), money.Guard)
		case 2:
			edge := rapid.SampledFrom([]int64{1<<63 - 1, -1 << 63}).Draw(t, "edge")
			return newAmount(t, edge, money.Guard).Add(newAmount(t, rapid.Int64Range(-3, 3).Draw(t, "off"), money.Guard))
		default:
			return newAmount(t, rapid.Int64().Draw(t, "units"), rapid.IntRange(0, 3).Draw(t, "decimals"))
		}
	})
}

func newAmount(t *rapid.T, coef int64, decimals int) money.Amount {
	a, err := money.New(coef, decimals)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// exactly reads a plain decimal as a rational.
func exactly(t failer, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("not a number: %q", s)
	}
	return r
}
