package money_test

import (
	"testing"

	"github.com/budstick/budstick/report/money"
)

var sink money.Amount

func BenchmarkAdd(b *testing.B) {
	for name, s := range map[string]string{"everyday": "955.20", "wide": "99999999999.99"} {
		b.Run(name, func(b *testing.B) {
			x := amt(b, s)
			for b.Loop() {
				sink = x.Add(x)
			}
		})
	}
}

func BenchmarkMulFrac(b *testing.B) {
	for name, s := range map[string]string{"everyday": "955.20", "wide": "99999999999.99"} {
		b.Run(name, func(b *testing.B) {
			x := amt(b, s)
			for b.Loop() {
				sink = x.MulFrac(7, 86)
			}
		})
	}
}

// BenchmarkPool is one cost put in and one share taken out.
func BenchmarkPool(b *testing.B) {
	cost := amt(b, "2.20")
	var pool money.Pool
	for b.Loop() {
		if err := pool.Put(3, cost); err != nil {
			b.Fatal(err)
		}
		share, err := pool.Take(2)
		if err != nil {
			b.Fatal(err)
		}
		sink = share
	}
}

func BenchmarkPoolLose(b *testing.B) {
	cost := amt(b, "264.00")
	normal := money.Normal{Share: money.Ratio{Num: 3, Den: 10}, Entered: 120}
	for b.Loop() {
		var pool money.Pool
		if err := pool.Put(120, cost); err != nil {
			b.Fatal(err)
		}
		abnormal, err := pool.Lose(43, normal)
		if err != nil {
			b.Fatal(err)
		}
		sink = abnormal
	}
}

// BenchmarkAllocate splits one bill over a thousand lots.
func BenchmarkAllocate(b *testing.B) {
	weights := make([]int64, 1000)
	for i := range weights {
		weights[i] = int64(i*7919%500 + 1)
	}
	bill := amt(b, "1234.56")
	for b.Loop() {
		parts, _ := money.Allocate(bill, weights, money.Guard)
		sink = parts[0]
	}
}

func BenchmarkFixed(b *testing.B) {
	x := amt(b, "11.106976744")
	for b.Loop() {
		if x.Fixed(2) != "11.11" {
			b.Fatal("wrong")
		}
	}
}
