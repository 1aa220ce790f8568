// Package screen makes text fit to be shown. Whatever comes from a journal, a
// file's name or the command line may hold signs that steer a terminal or hide
// on a page; findings, reports and messages all show them in the same way.
package screen

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clings reports whether r joins what stands before it, so that it must not stand
// first where something else is beside it.
func Clings(r rune) bool {
	const firstSkinTone, lastSkinTone = '\U0001f3fb', '\U0001f3ff'
	return unicode.Is(unicode.M, r) || r == zeroWidthJoiner || r == zeroWidthNonJoiner ||
		r >= firstSkinTone && r <= lastSkinTone
}

// The two joiners are invisible, but scripts and emoji need them.
const zeroWidthNonJoiner, zeroWidthJoiner = '\u200c', '\u200d'

// Visible returns s with everything that could steer a terminal, turn round the
// reading order or hide on the screen put into signs that can be seen.
func Visible(s string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		r, size := utf8.DecodeRuneInString(s)
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, "[byte %02X]", s[0])
		case r < 0x20:
			b.WriteRune('␀' + r) // the pictures of control characters, ␀ to ␟
		case r == 0x7f:
			b.WriteRune('␡')
		case Steers(r):
			fmt.Fprintf(&b, "[U+%04X]", r)
		default:
			b.WriteString(s[:size])
		}
		s = s[size:]
	}
	return b.String()
}

// isPlain reports whether s is printable ASCII, as most text is.
func isPlain(s string) bool {
	for i := range len(s) {
		if s[i] < 0x20 || s[i] >= 0x7f {
			return false
		}
	}
	return true
}

// Steers reports whether r is a control or an invisible format character, or a
// code point that no text may hold.
func Steers(r rune) bool {
	if r == zeroWidthJoiner || r == zeroWidthNonJoiner {
		return false
	}
	const lastOfPlane = 0xfffe // and 0xffff
	return r&lastOfPlane == lastOfPlane || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}
