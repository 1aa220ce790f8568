package nursery

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/invent"
	"github.com/budstick/budstick/grammar/source"
)

// invented is an invented journal of so many entries, read.
func invented(b *testing.B, entries int) []*entry.Page {
	var text bytes.Buffer
	if err := invent.Write(&text, entries, 1); err != nil {
		b.Fatal(err)
	}
	return []*entry.Page{entry.Read(source.New("invented.bud", text.Bytes()))}
}

func BenchmarkReplay(b *testing.B) {
	for _, entries := range []int{1_000, 100_000, 1_000_000} {
		b.Run(fmt.Sprint(entries), func(b *testing.B) {
			pages := invented(b, entries)
			b.ReportAllocs()
			for b.Loop() {
				if n := Replay(pages, 0); len(n.Findings) > 0 {
					b.Fatal(n.Findings[0].Message)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(entries), "ns/entry")
		})
	}
}

// BenchmarkErrors replays journals in which every entry contradicts the book:
// the time for each must not grow with their number.
func BenchmarkErrors(b *testing.B) {
	for _, entries := range []int{1_000, 10_000, 100_000} {
		for name, line := range map[string]string{
			"unknown": "sell 2 of A%d to Bob\n", "taken": "buy 4 liners of Quince as Q\n", "too many": "sell 9 of Q to Bob\n", "verdicts": "check S: 50 up\n",
			"several": "lose T%d to frost\n",
		} {
			b.Run(fmt.Sprintf("%s/%d", name, entries), func(b *testing.B) {
				var text strings.Builder
				text.WriteString("variety Quince species \"Cydonia oblonga\"\n2025-03-02\nbuy 5 liners of Quince as Q\nsow 9 seed of Quince as S\n")
				for i := range entries {
					if name == "several" {
						fmt.Fprintf(&text, "buy 1 liners of Quince as TREE%d\n", i)
					}
					if strings.Contains(line, "%d") {
						fmt.Fprintf(&text, line, i)
					} else {
						text.WriteString(line)
					}
				}
				pages := []*entry.Page{entry.Read(source.New("errors.bud", []byte(text.String())))}
				for b.Loop() {
					if n := Replay(pages, 0); len(n.Findings) != entries {
						b.Fatal(len(n.Findings))
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(entries), "ns/entry")
			})
		}
	}
}
