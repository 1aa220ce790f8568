package report

import (
	"math"
	"strings"
	"testing"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/stat"
)

// judged makes a contest of rivals "name x/n", with a probability for each pair
// of names: "chip cleft" and "cleft chip" are the same pair.
func judged(p float64, ps map[string]float64, rivals ...rival) contest {
	return rank(wordings[nursery.GraftBatch], rivals, stat.BetweenLots([]stat.Tally{{X: 5, N: 10}, {X: 5, N: 10}}), p, func(a, b rival) (float64, bool) {
		for _, names := range []string{a.name + " " + b.name, b.name + " " + a.name} {
			if p, ok := ps[names]; ok {
				return p, true
			}
		}
		return 0, false
	})
}

func rivalOf(name string, x, n int) rival {
	rate := float64(x) / float64(n)
	return rival{name, stat.Tally{X: x, N: n}, rate, rate}
}

func TestContest(t *testing.T) {
	whip, chip, veneer := rivalOf("whip", 160, 200), rivalOf("chip", 60, 100), rivalOf("veneer", 70, 100)
	tests := []struct {
		name string
		contest
		want []string // the beginnings of its sentences
	}{
		{"the adjusted probability counts: 0.02 of three pairs is 0.06",
			judged(0.03, map[string]float64{"whip chip": 0.02, "whip veneer": 0.3, "chip veneer": 0.4}, whip, chip, veneer),
			[]string{"Likely: not all are alike (p 0.030), but no two stand clearly apart.", "Not known: which of whip (80%) and veneer (70%) takes better."}},
		{"the smallest of three is trebled, the next doubled: 0.003 and 0.04 of 0.001, 0.02 and 0.6",
			judged(0.01, map[string]float64{"whip chip": 0.001, "whip veneer": 0.02, "chip veneer": 0.6}, whip, chip, veneer),
			[]string{"Likely: whip takes better than veneer and chip.", "Not known: which of veneer (70%) and chip (60%) takes better."}},
		{"nothing stands out",
			judged(0.4, map[string]float64{"whip chip": 0.2, "whip veneer": 0.3, "chip veneer": 0.4}, whip, chip, veneer),
			[]string{"Likely: nothing yet. Luck and the differences between lots could make all of this (p 0.40).", "Not known: which of whip (80%) and veneer (70%)"}},
		{"no test can be made",
			judged(math.NaN(), nil, whip, chip),
			[]string{"Likely: nothing can be said yet."}},
		{"who has too few is no rival",
			judged(0.4, map[string]float64{"whip chip": 0.2}, whip, chip, rivalOf("bark", 5, 6)),
			[]string{"Likely: nothing yet.", "Not known: which of whip (80%) and chip (60%) takes better.", "Too few to judge by: bark (6)."}},
		{"alike to the last",
			judged(0.9, map[string]float64{"chip cleft": 0.9}, chip, rivalOf("cleft", 30, 50)),
			[]string{"Likely: nothing yet.", "Not known: which of chip (60%) and cleft (60%) takes better. They are alike so far, and no number would tell them apart."}},
		{"one alone", judged(0.4, nil, whip), nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := test.sentences()
			if len(got) != len(test.want) {
				t.Fatalf("%q, want %q", got, test.want)
			}
			for i, s := range got {
				if !strings.HasPrefix(s, test.want[i]) {
					t.Errorf("%q, want %q", s, test.want[i])
				}
			}
		})
	}
}

// Of 60 and 70 of a hundred, at a level of 5 % and a power of 80 %: (1.959964
// sqrt(2·0.65·0.35) + 0.841621 sqrt(0.6·0.4 + 0.7·0.3))²/0.1² = 355.9 of each, by
// Fleiss, Levin and Paik (2003), Statistical Methods for Rates and Proportions, 3rd
// edition, section 4.2; told as 360.
func TestContestTellsHowManyWouldSettleIt(t *testing.T) {
	c := judged(0.2, map[string]float64{"chip veneer": 0.2}, rivalOf("chip", 60, 100), rivalOf("veneer", 70, 100))
	if s := c.question(); !strings.Contains(s, "about 360 grafts of each would tell (8 times in 10); there are 100 and 100.") {
		t.Error(s)
	}
	// Enough of them, but in too few lots to know how far lots differ.
	c = judged(0.2, map[string]float64{"chip veneer": 0.2}, rivalOf("chip", 600, 1000), rivalOf("veneer", 700, 1000))
	if s := c.question(); !strings.Contains(s, "There are enough grafts for such a gap (1,000 and 1,000), but too few lots") {
		t.Error(s)
	}
}

func TestNaturally(t *testing.T) {
	order := []string{"2025-03", "2025-10", "M2", "M7", "M7 + M8", "M7/east", "M08", "M12", "M12b", "N1"}
	for i, a := range order {
		for j, b := range order {
			if got := naturally(a, b); got < 0 != (i < j) || got > 0 != (i > j) {
				t.Errorf("%s against %s is %d", a, b, got)
			}
		}
	}
}

func TestWords(t *testing.T) {
	for n, want := range map[int]string{0: "0 grafts", 1: "1 graft", 999: "999 grafts", 1000: "1,000 grafts", 1234567: "1,234,567 grafts"} {
		if got := wordings[nursery.GraftBatch].counted(n); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if got := listed([]string{"a", "b", "c"}); got != "a, b and c" {
		t.Error(got)
	}
	many := strings.Fields("a b c d e f g h i j")
	if got := someOf(many); got != "a, b, c, d, e, f, g, h and 2 more" {
		t.Error(got)
	}
	if got := someOf(many[:9]); got != "a, b, c, d, e, f, g, h and i" {
		t.Errorf("one more is named and not counted: %s", got)
	}
}
