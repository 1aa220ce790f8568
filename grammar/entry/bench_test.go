package entry

import (
	"fmt"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
)

// season writes a journal of at least n entries, with the sentences of a
// nursery in about the shares in which it writes them.
func season(n int) []byte {
	var b strings.Builder
	day, _ := fact.NewDate(2021, 1, 4)
	for i := 0; i < n; day++ {
		fmt.Fprintf(&b, "\n%s\n", day)
		for range 40 {
			i++
			lot, tree := fmt.Sprintf("AM%d", i%997), fmt.Sprintf("M%d", i%31)
			switch i % 20 {
			case 0, 1, 2, 3:
				fmt.Fprintf(&b, "check %s: %d took, %d failed, %d dead to rot\n", lot, i%40, i%7, i%3)
			case 4, 5, 6:
				fmt.Fprintf(&b, "graft %d of QA%d with W%d by whip-and-tongue as AM%d-%d at shade-1\n  worker Ines 3 h 20 min\n  caliper 9 mm\n", 1+i%60, i%97, i%59, i%997, i)
			case 7, 8:
				fmt.Fprintf(&b, "lose %d of %s to frost   # a cold night\n", 1+i%5, lot)
			case 9, 10:
				fmt.Fprintf(&b, "sell %d of %s to \"Harbour Street market\" at %d.50 each\n", 1+i%12, lot, 9+i%20)
			case 11:
				fmt.Fprintf(&b, "cut %d scions from %s as W%d-%d store cool  note \"pencil thick, three buds\"\n", 1+i%60, tree, i%59, i)
			case 12:
				fmt.Fprintf(&b, "spend %d.40 on \"grafting tape\" for %s\n", 1+i%90, lot)
			case 13, 14:
				fmt.Fprintf(&b, "work weeding worker Ru %d h, Ines 2 h for %s\n", 1+i%8, lot)
			case 15:
				fmt.Fprintf(&b, "count %s %d\n", lot, i%80)
			case 16:
				fmt.Fprintf(&b, "pot %s to 3 L\n", lot)
			case 17:
				fmt.Fprintf(&b, "pick %d.5 kg, %d fruit from %s\n", 1+i%40, 1+i%400, tree)
			case 18:
				fmt.Fprintf(&b, "tend %s ties worker Ru 40 min\n", lot)
			default:
				fmt.Fprintf(&b, "sow %d seed of \"Quince BA\" as QA%d-%d from \"Seed merchant\" for 14.00\n", 1+i%200, i%97, i)
			}
		}
	}
	return []byte(b.String())
}

func BenchmarkRead(b *testing.B) {
	text := season(200_000)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	entries := 0
	for b.Loop() {
		page := Read(source.New("season.bud", text))
		if len(page.Findings) > 0 {
			b.Fatal(page.Findings[0].Message)
		}
		entries += len(page.Entries)
	}
	b.ReportMetric(float64(entries)/b.Elapsed().Seconds(), "entries/s")
}

// BenchmarkErrors reads 100,000 entries that are wrong each in its own way.
func BenchmarkErrors(b *testing.B) {
	slips := []string{
		"graft %d QA25 with W7 as AM26", "graft QA25 %d with W7 as AM26", "check AM26: %d tok, 6 failed", "lose %d of AM26 waiting to rot",
		"sell %d of AM26 to Bob at 19.00", "sow %d seed of Quince BA as QA25", "chek AM26: %d took", "pot AM26 to %d",
		"work weeding %d h worker Ines", "mark M8 odd note \"%d\"", "pick %d,5 kg from M7", "check AM26 %d took 6 failed",
	}
	var text strings.Builder
	text.WriteString("2026-03-02\n")
	for i := range 100_000 {
		fmt.Fprintf(&text, slips[i%len(slips)]+"\n", 1+i)
	}
	b.ReportAllocs()
	for b.Loop() {
		if page := Read(source.New("season.bud", []byte(text.String()))); len(page.Findings) != 100_000 {
			b.Fatalf("%d findings", len(page.Findings))
		}
	}
}
