package name

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// A shape is a name in the forms in which it is compared with others.
type shape struct {
	exact    string // NFC; names alike in this are one name
	skeleton string
	numbers  string // skeleton with the leading zeros of numbers left out
	plain    []rune // without case, accents and foreign look-alikes; one "-" for every gap
}

func shapeOf(s string) shape {
	plain := plainOf(s)
	numeric := numericParts(plain)
	return shape{
		exact:    norm.NFC.String(s),
		skeleton: skeletonOf(plain, numeric, false),
		numbers:  skeletonOf(plain, numeric, true),
		plain:    plain,
	}
}

// Skeleton maps names that look alike to one form, which is fit for comparing
// and not for showing. In it there is no case and no accent; Cyrillic and Greek
// letters are the Latin ones that they look like; O is 0, and l and I are 1;
// quotes and invisible characters are gone; and blanks, hyphens of all kinds,
// low lines, full stops and slashes are gone too, save that one hyphen stands
// where they keep two numbers apart, so that row 1-12 isn't row 11-2.
// The skeleton of a skeleton is itself.
//
// The idea, though not the whole table, is the skeleton of UTS #39, section 4.
func Skeleton(s string) string {
	plain := plainOf(s)
	return skeletonOf(plain, numericParts(plain), false)
}

const gap = '-'

func plainOf(s string) []rune {
	if !isASCII(s) {
		// Compatibility forms may unfold to capitals, and folding composes.
		s = norm.NFKD.String(Fold(norm.NFKD.String(s)))
	} else {
		s = strings.ToLower(s)
	}
	plain := make([]rune, 0, len(s))
	for _, r := range s {
		if like, ok := lookAlikes[r]; ok {
			plain = append(plain, []rune(like)...)
			continue
		}
		switch {
		case isUnseen(r):
		case isGap(r):
			if len(plain) > 0 && plain[len(plain)-1] != gap {
				plain = append(plain, gap)
			}
		default:
			plain = append(plain, r)
		}
	}
	if len(plain) > 0 && plain[len(plain)-1] == gap {
		plain = plain[:len(plain)-1]
	}
	return plain
}

// accents are the blocks of marks that sit on Latin, Greek and Cyrillic
// letters. The marks of other scripts are vowels and the like, and stay.
var accents = &unicode.RangeTable{R16: []unicode.Range16{
	{Lo: 0x0300, Hi: 0x036F, Stride: 1},
	{Lo: 0x1AB0, Hi: 0x1AFF, Stride: 1},
	{Lo: 0x1DC0, Hi: 0x1DFF, Stride: 1},
	{Lo: 0xFE20, Hi: 0xFE2F, Stride: 1},
}}

// isUnseen reports whether r says nothing about which name is meant: accents,
// quotes and characters that don't show.
func isUnseen(r rune) bool {
	switch r {
	case '\'', '"', '`', '‘', '’', '‚', '“', '”', '„', '´', 'ʹ', 'ʻ', 'ʼ':
		return true
	}
	return r > unicode.MaxASCII && (unicode.In(r, accents, unicode.Cf, unicode.Variation_Selector))
}

// isGap reports whether r merely parts words.
func isGap(r rune) bool {
	switch r {
	case '-', '_', '.', '/', '·', '−', '⁄':
		return true
	}
	return unicode.IsSpace(r) || unicode.Is(unicode.Pd, r)
}

// numericParts marks the runes of plain that are read as parts of a number:
// digits, and a run of letters that touches a digit and is nothing but O, l
// and I, like that of R1-l2.
func numericParts(plain []rune) []bool {
	numeric := make([]bool, len(plain))
	for start := 0; start < len(plain); {
		end := start
		lookalikes := true
		for ; end < len(plain) && isLetter(plain[end]); end++ {
			lookalikes = lookalikes && digitLike(plain[end]) != plain[end]
		}
		if end == start {
			numeric[start] = unicode.IsDigit(plain[start])
			start++
			continue
		}
		touches := start > 0 && unicode.IsDigit(plain[start-1]) || end < len(plain) && unicode.IsDigit(plain[end])
		for i := start; i < end; i++ {
			numeric[i] = lookalikes && touches
		}
		start = end
	}
	return numeric
}

// digitLike is the digit that r looks like, or r.
func digitLike(r rune) rune {
	switch r {
	case 'o':
		return '0'
	case 'i', 'l':
		return '1'
	}
	return r
}

// isLetter reports whether r belongs to a word: a letter or a mark on one.
func isLetter(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) }

// skeletonOf takes the gaps out of plain and puts digits for the letters that
// look like them; dropZeros leaves out the leading zeros of numbers.
func skeletonOf(plain []rune, numeric []bool, dropZeros bool) string {
	var b strings.Builder
	b.Grow(len(plain))
	begun := false // a number, with a digit that stays
	for i, r := range plain {
		goesOn := i+1 < len(plain) && numeric[i+1]
		r = digitLike(r)
		switch {
		case r == gap:
			if numeric[i-1] && goesOn {
				b.WriteRune(gap)
			}
			begun = false
		case dropZeros && numeric[i] && r == '0' && goesOn && !begun:
		default:
			b.WriteRune(r)
			begun = numeric[i]
		}
	}
	return b.String()
}
