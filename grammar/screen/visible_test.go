package screen

import "testing"

func TestVisible(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"plain words", "Amberlight × Firstfig", "Amberlight × Firstfig"},
		{"an escape", "\x1b[31mred", "␛[31mred"},
		{"a control sequence of one character", "\u009b2J", "[U+009B]2J"},
		{"the ends of lines", "a\r\nb", "a␍␊b"},
		{"delete", "a\x7f", "a␡"},
		{"line separator", "a\u2028b", "a[U+2028]b"},
		{"hidden tag letters", "a\U000e0041", "a[U+E0041]"},
		{"no text at all", "a\uffffb", "a[U+FFFF]b"},
		{"reading order turned round", "gum\u202ecba", "gum[U+202E]cba"},
		{"no UTF-8", "a\xffb", "a[byte FF]b"},
		{"the sign for no UTF-8, as text", "\ufffd", "\ufffd"},
		{"an emoji of two", "👩\u200d🌾", "👩\u200d🌾"},
	}
	for _, test := range tests {
		if got := Visible(test.in); got != test.want {
			t.Errorf("%s: Visible(%q) = %q, want %q", test.name, test.in, got, test.want)
		}
	}
}
