package name

import (
	"slices"
	"unicode"
)

// maxSlips is the most slips, however long the word, that Suggest forgives.
const maxSlips = 3

// Suggest finds the one of among that word was most likely meant to be: one
// that looks the same (see Skeleton), or else the one that the fewest slips
// lead to, one slip for every three letters of word and three at most. A slip
// is a letter too many, too few or wrong, or two neighbours swapped; digits
// must all be right, since M8 is no likely reading of M7. Where several are as
// likely, the first in order of their bytes is taken. ok is false where none
// is likely.
func Suggest(word string, among []string) (meant string, ok bool) {
	x := shapeOf(word)
	fewest := min(maxSlips, len(x.plain)/3) + 1
	for _, candidate := range among {
		slips := x.slipsTo(candidate, fewest)
		if slips < fewest || ok && slips == fewest && candidate < meant {
			meant, fewest, ok = candidate, slips, true
		}
	}
	return meant, ok
}

// slipsTo counts the slips from x to candidate; limit + 1 stands for more than
// limit, or for digits that differ.
func (x *shape) slipsTo(candidate string, limit int) int {
	y := shapeOf(candidate)
	if x.skeleton == y.skeleton || x.numbers == y.numbers {
		return 0
	}
	tooMany := limit + 1
	if apart := len(x.plain) - len(y.plain); apart > limit || -apart > limit ||
		!slices.Equal(digits(x.plain), digits(y.plain)) {
		return tooMany
	}
	return min(slips(x.plain, y.plain), tooMany)
}

func digits(s []rune) []rune {
	return slices.DeleteFunc(slices.Clone(s), func(r rune) bool { return !unicode.IsDigit(r) })
}

// slips is the edit distance from a to b with swaps of neighbours, no part
// being edited twice (optimal string alignment; Damerau 1964, Communications
// of the ACM 7:171, and Wagner and Fischer 1974, Journal of the ACM 21:168).
func slips(a, b []rune) int {
	// Row i holds the distances from the first i runes of a to the first 0,
	// 1, 2, … of b. The last three rows are enough.
	beforeLast := make([]int, len(b)+1)
	last := make([]int, len(b)+1)
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		beforeLast, last, row = last, row, beforeLast
		row[0] = i
		for j := 1; j <= len(b); j++ {
			wrong := 0
			if a[i-1] != b[j-1] {
				wrong = 1
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+wrong)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], beforeLast[j-2]+1)
			}
		}
	}
	return row[len(b)]
}
