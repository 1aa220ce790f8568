package table

import (
	"fmt"
	"strings"
	"unicode"
)

const zeroWidthNonJoiner, zeroWidthJoiner = '\u200c', '\u200d'

// visible returns s with everything that could steer a terminal, reverse the
// reading order or hide in a page replaced by something that can be seen. All
// text passes through it on the way to a person or a spreadsheet.
func visible(s string) string {
	var b strings.Builder
	for i, r := range s { // invalid UTF-8 comes out as U+FFFD
		if i == 0 && clings(r) {
			b.WriteRune('◌') // or it would cling to what stands before the cell
		}
		switch {
		case r < 0x20:
			b.WriteRune('␀' + r) // the pictures of control characters, ␀ to ␟
		case r == 0x7f:
			b.WriteRune('␡')
		case steers(r):
			fmt.Fprintf(&b, "[U+%04X]", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// clings reports whether r joins the character before it.
func clings(r rune) bool {
	const firstSkinTone, lastSkinTone = '\U0001f3fb', '\U0001f3ff'
	return unicode.Is(unicode.M, r) || r == zeroWidthJoiner || r == zeroWidthNonJoiner ||
		r >= firstSkinTone && r <= lastSkinTone
}

// steers reports whether r is a control or invisible format character, or one of
// the code points that no text may hold. The two joiners are left alone: scripts
// and emoji need them.
func steers(r rune) bool {
	if r == zeroWidthJoiner || r == zeroWidthNonJoiner {
		return false
	}
	const lastOfPlane = 0xfffe // and 0xffff
	return r&lastOfPlane == lastOfPlane || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}
