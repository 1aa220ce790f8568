package name

import "slices"

// Near reports whether a and b look like two spellings of one name: they
// differ only in case, in accents, in letters or signs that look alike, in the
// gaps between words, in leading zeros, or by one slip of the pen. Names that
// are the same, however their accents were typed, aren't near.
//
// A slip is one letter too many, too few or wrong, or two neighbours swapped,
// in a word of three letters or more of a name with four letters or more:
// shorter ones (AM and AN, bay and bar) differ by design as often as not. Nor
// is it a slip where both words are numbers in Roman numerals up to XXXIX. A
// slip never touches a digit, so M7 isn't near M8; but M07, M7 and M-7 are near
// each other, and so are M10 and M1O.
func Near(a, b string) bool {
	if a == b {
		return false
	}
	x, y := shapeOf(a), shapeOf(b)
	return x.near(&y)
}

func (x *shape) near(y *shape) bool {
	if x.exact == y.exact {
		return false
	}
	return x.skeleton == y.skeleton || x.numbers == y.numbers || oneSlip(x.plain, y.plain)
}

const (
	slipWord = 3 // letters of the longer word, at least, for a slip to count
	slipName = 4 // letters of the longer name, at least
)

// oneSlip reports whether one slip, as Near has it, makes a into b.
func oneSlip(a, b []rune) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 {
		return false
	}
	start := 0
	for start < len(a) && a[start] == b[start] {
		start++
	}
	tail := 0
	for tail < len(a)-start && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	endA, endB := len(a)-tail, len(b)-tail
	differA, differB := a[start:endA], b[start:endB]
	swapped := len(differA) == 2 && len(differB) == 2 &&
		differA[0] == differB[1] && differA[1] == differB[0]
	if len(differB) != 1 && !swapped || !allLetters(differA) || !allLetters(differB) {
		return false
	}
	wordA, wordB := wordAround(a, start, endA), wordAround(b, start, endB)
	return max(len(wordA), len(wordB)) >= slipWord &&
		max(letterCount(a), letterCount(b)) >= slipName &&
		!(isRoman(wordA) && isRoman(wordB))
}

// wordAround widens s[start:end] to the letters on both sides of it.
func wordAround(s []rune, start, end int) []rune {
	for start > 0 && isLetter(s[start-1]) {
		start--
	}
	for end < len(s) && isLetter(s[end]) {
		end++
	}
	return s[start:end]
}

func allLetters(s []rune) bool {
	return !slices.ContainsFunc(s, func(r rune) bool { return !isLetter(r) })
}

func letterCount(s []rune) int {
	n := 0
	for _, r := range s {
		if isLetter(r) {
			n++
		}
	}
	return n
}

// isRoman reports whether s could be a small number in Roman numerals; it
// leaves out the letters that words such as mill and dill are made of.
func isRoman(s []rune) bool {
	return !slices.ContainsFunc(s, func(r rune) bool { return r != 'i' && r != 'v' && r != 'x' })
}
