package format

import (
	"strings"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/syntax"
)

// spell appends the plain form of a token of kind k. Which words are words of
// the language is for the slot to say, which the token fills in its sentence: a
// lot called Area keeps its name.
func spell(dst []byte, k syntax.Kind, text string, slot syntax.Slot) []byte {
	switch k {
	case syntax.Word, syntax.Reserved:
		if slot.Literal != "" && !slot.Not {
			return append(dst, slot.Literal...)
		}
		return append(dst, syntax.Hyphens(text)...)
	case syntax.Date, syntax.Month:
		return append(dst, syntax.Hyphens(text)...)
	case syntax.Quoted:
		return appendQuoted(dst, text)
	case syntax.Unit:
		return append(dst, unit(text)...)
	}
	return append(dst, text...)
}

// weekday is a day of the week by its first three letters: Mon.
func weekday(text string) string { return strings.ToUpper(text[:1]) + strings.ToLower(text[1:3]) }

// unit writes a unit in the case of its symbol, kg or L, or where it is written
// as a word in small letters: inches.
func unit(text string) string {
	if u, ok := syntax.UnitNamed(text); ok && strings.EqualFold(string(u), text) {
		return string(u)
	}
	return strings.ToLower(text)
}

// appendQuoted puts straight quotes around a text. What stands between them is
// kept to the byte: no straight quote stands there without a backslash, since
// it would have ended the text.
func appendQuoted(dst []byte, text string) []byte {
	_, first := utf8.DecodeRuneInString(text)
	_, last := utf8.DecodeLastRuneInString(text)
	dst = append(dst, '"')
	dst = append(dst, text[first:len(text)-last]...)
	return append(dst, '"')
}
