package name

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"
)

func pairsOf(names []string) [][2]int {
	var pairs [][2]int
	for i, j := range NearPairs(names) {
		pairs = append(pairs, [2]int{i, j})
	}
	return pairs
}

func TestNearPairs(t *testing.T) {
	names := []string{"M7", "Nam Dok Mai", "M8", "M07", "M7", "bay 2", "Nam Doc Mai", "bay2", "Bay2", "NamDokMai"}
	want := [][2]int{{0, 3}, {1, 6}, {1, 9}, {5, 7}, {5, 8}, {7, 8}}
	if diff := cmp.Diff(want, pairsOf(names)); diff != "" {
		t.Error(diff)
	}
	for i, j := range NearPairs(names) { // stops when it is told to
		if i != 0 || j != 3 {
			t.Errorf("%d, %d", i, j)
		}
		break
	}
	if got := pairsOf(nil); got != nil {
		t.Errorf("%v", got)
	}
}

// The index finds what comparing all with all finds.
func TestNearPairsMissesNone(t *testing.T) {
	names := rapid.OneOf(
		anyName(),
		rapid.StringMatching(`[abil]{1,5}`),
		rapid.StringMatching(`(Amber|amver|ambr)[- ]?[a-b]?0?[1lI]?`),
		rapid.StringMatching(`[RO]0?[12O]-?T0?[12l]`),
	)
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(names, 0, 40).Draw(t, "names")
		var want [][2]int
		for i := range list {
			for j := i + 1; j < len(list); j++ {
				if Near(list[i], list[j]) && isFirst(list, i) && isFirst(list, j) {
					want = append(want, [2]int{i, j})
				}
			}
		}
		if diff := cmp.Diff(want, pairsOf(list)); diff != "" {
			t.Fatalf("%q: %s", list, diff)
		}
	})
}

// isFirst reports whether no name before i is the same as that at i.
func isFirst(list []string, i int) bool {
	return !slices.ContainsFunc(list[:i], func(earlier string) bool {
		return norm.NFC.String(earlier) == norm.NFC.String(list[i])
	})
}

// farmNames are n names as a large farm has them: trees by row and place,
// lots by year, and varieties.
func farmNames(n int) []string {
	random := rand.New(rand.NewPCG(3, 4))
	syllables := []string{"am", "ber", "light", "red", "wing", "first", "fig", "sol", "ru", "ka", "lin", "dor", "mes", "ta"}
	names := make([]string, n)
	for i := range names {
		switch i % 3 {
		case 0:
			names[i] = fmt.Sprintf("R%d-T%d", i/300, i%300)
		case 1:
			names[i] = fmt.Sprintf("AM%d/%d", i%40, i/40)
		default:
			for range 5 {
				names[i] += syllables[random.IntN(len(syllables))]
			}
		}
	}
	return names
}

func BenchmarkNearPairs(b *testing.B) {
	names := farmNames(100_000)
	b.ReportAllocs()
	for b.Loop() {
		found := 0
		for range NearPairs(names) {
			found++
		}
		b.ReportMetric(float64(found), "pairs")
	}
}

func BenchmarkFold(b *testing.B) {
	for _, name := range []string{"r3-t7", "R3-T7", "Señorita"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Fold(name)
			}
		})
	}
}
