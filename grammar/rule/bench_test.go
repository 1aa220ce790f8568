package rule_test

import (
	"bytes"
	"fmt"
	"runtime"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/invent"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// BenchmarkCheck asks all rules about invented journals; ns/entry must stay flat.
func BenchmarkCheck(b *testing.B) {
	for _, entries := range []int{1_000, 100_000, 1_000_000} {
		b.Run(fmt.Sprint(entries), func(b *testing.B) {
			var text bytes.Buffer
			if err := invent.Write(&text, entries, 1); err != nil {
				b.Fatal(err)
			}
			n := nursery.Replay([]*entry.Page{entry.Read(source.New("invented.bud", text.Bytes()))}, 0)
			runtime.GC()
			b.ReportAllocs()
			found := 0
			for b.Loop() {
				found = len(rule.Check(n))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(entries), "ns/entry")
			b.ReportMetric(float64(found), "findings")
		})
	}
}
