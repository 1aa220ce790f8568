package table

import (
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

func TestVisible(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"plain words", "Amberlight × Firstfig", "Amberlight × Firstfig"},
		{"colour of a terminal", "\x1b[31mred", "␛[31mred"},
		{"one-byte control sequence", "\u009b2J", "[U+009B]2J"},
		{"line ends and tabs", "a\r\nb\tc", "a␍␊b␉c"},
		{"delete", "a\x7f", "a␡"},
		{"reading order turned round", "gum\u202ecba", "gum[U+202E]cba"},
		{"line separator", "a\u2028b", "a[U+2028]b"},
		{"hidden tag letters", "a\U000e0041", "a[U+E0041]"},
		{"no text at all", "a\uffffb", "a[U+FFFF]b"},
		{"broken UTF-8", "a\xffb", "a[byte FF]b"},
		{"accent without a letter", "\u0301x", "◌\u0301x"},
		{"accent on a letter", "e\u0301", "e\u0301"},
		{"joined emoji", "👩\u200d🌾", "👩\u200d🌾"},
	}
	for _, test := range tests {
		if got := visible(test.in); got != test.want {
			t.Errorf("%s: visible(%q) = %q, want %q", test.name, test.in, got, test.want)
		}
	}
}

func TestVisibleLeavesNothingThatSteers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := hostileText().Draw(t, "text")
		for _, r := range visible(s) {
			if unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Bidi_Control, r) {
				t.Fatalf("%q came through", r)
			}
		}
	})
}

// hostileText draws text as a journal should never hold it.
func hostileText() *rapid.Generator[string] {
	odd := rapid.SampledFrom([]string{
		"\x1b[31m", "\x1b]0;t\x07", "\u009b", "\r", "\n", "\t", "\x00", "\x7f", "\u202e", "\u2028", "\ufeff", "\xff", "\ufffe",
		"é", "e\u0301", "\u0301", "枇杷", "ｱ", "👩\u200d🌾", "🇵🇹", "\u200d", "🏽", "क्षि", "한글",
		"=1+1", "+", "-2", "@x", "'", `"`, ",", "<script>", "</style>", "&amp;", "]]>", "{{.}}", " ", "  ", "\u00a0",
		"Amberlight", "a-very-long-name-of-a-cultivar-without-any-blank",
	})
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(rapid.OneOf(odd, rapid.String()), 0, 6).Draw(t, "parts"), "")
	})
}
