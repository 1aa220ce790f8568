// Package name compares the names in a journal: which are one and the same,
// which look or read so much alike that one may be a slip for the other, and
// which the rules for naming cultivated plants don't allow.
package name

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Fold gives the form in which names are compared: two names are the same
// when they fold to the same string. It is the full case folding of Unicode
// between canonical decomposition and composition (The Unicode Standard,
// section 3.13, D145, with the result in NFC of UAX #15), so neither case nor
// the way an accent was typed matters. Folding twice is folding once. A name
// in small ASCII letters is returned as it is.
func Fold(s string) string {
	if isASCII(s) {
		return strings.ToLower(s)
	}
	b := folder.Bytes(norm.NFD.AppendString(nil, s))
	return string(norm.NFC.Bytes(bytes.Map(foldCherokee, b)))
}

// folder keeps no state, so all calls may share it.
var folder = cases.Fold()

// foldCherokee gives the capital of a small Cherokee letter. CaseFolding.txt
// folds these to capitals, the older of the two; folder (x/text v0.44.0) swaps
// the two cases instead.
func foldCherokee(r rune) rune {
	switch {
	case 0xAB70 <= r && r <= 0xABBF:
		return r - 0xAB70 + 0x13A0
	case 0x13F8 <= r && r <= 0x13FD:
		return r - 8
	}
	return r
}

func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}
