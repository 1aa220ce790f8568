package syntax

import (
	"strings"
	"unicode/utf8"

	"github.com/budstick/budstick/grammar/source"
)

// Hyphens writes the dashes of telephones as plain ones.
func Hyphens(s string) string { return plainly(s, dashes, '-') }

// StraightQuotes writes the double quotes of telephones as plain ones.
func StraightQuotes(s string) string { return plainly(s, openQuotes, '"') }

func plainly(s, signs string, plain rune) string {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return strings.Map(func(c rune) rune {
				if strings.ContainsRune(signs, c) {
					return plain
				}
				return c
			}, s)
		}
	}
	return s
}

// Unquote is the text of a quoted token, less its quotes and backslashes.
func Unquote(s string) string {
	_, first := utf8.DecodeRuneInString(s)
	_, last := utf8.DecodeLastRuneInString(s)
	if len(s) < first+last {
		return ""
	}
	s = s[first : len(s)-last]
	if !strings.Contains(s, `\`) {
		return s
	}
	var out strings.Builder
	escaped := false
	for _, r := range s {
		if r == '\\' && !escaped {
			escaped = true
			continue
		}
		escaped = false
		out.WriteRune(r)
	}
	return out.String()
}

// Quote writes s as a quoted text.
func Quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// Bare reports whether s can be written as a name without quotes.
func Bare(s string) bool {
	toks := Lex([]byte(s), source.Span{End: int32(len(s))}, nil)
	return len(toks) == 1 && toks[0].Kind == Word && toks[0].Span.Len() == len(s) && !strings.ContainsAny(s, dashes)
}

// Spell writes a name bare where it can be, else in quotes.
func Spell(s string) string {
	if Bare(s) {
		return s
	}
	return Quote(s)
}
