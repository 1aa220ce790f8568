package source

import (
	"crypto/sha256"
	"encoding/hex"
	"testing"

	"pgregory.net/rapid"
)

// The hash of "abc" and a newline is what sha256sum prints for them.
func TestPlainHashesAlike(t *testing.T) {
	const want = "edeaaff3f1774ad2888673770c6d64097e391bc362d7d6fb34982ddf0efd18cb"
	for _, text := range []string{"abc\n", "abc\r\n", "\uFEFFabc\n", "\uFEFFabc\r\n"} {
		f := New("x.bud", []byte(text))
		sum := sha256.Sum256(f.Plain(Span{0, int32(len(text))}))
		if got := hex.EncodeToString(sum[:]); got != want {
			t.Errorf("%q: %s", text, got)
		}
	}
}

func TestPlain(t *testing.T) {
	for _, c := range []struct {
		text string
		span Span
		want string
	}{
		{"", Span{0, 0}, ""},
		{"\uFEFF", Span{0, 3}, ""},
		{"\uFEFFa", Span{0, 0}, ""},
		{"\uFEFFa\r\nb", Span{0, 6}, "a\n"},
		{"a\uFEFFb", Span{0, 5}, "a\uFEFFb"},
		{"a\rb\r\r\nc\r", Span{0, 8}, "a\rb\r\nc\r"},
		{"a\r\nb\r\n", Span{3, 6}, "b\n"},
	} {
		if got := string(New("x.bud", []byte(c.text)).Plain(c.span)); got != c.want {
			t.Errorf("%q %v: %q, want %q", c.text, c.span, got, c.want)
		}
	}
}

// A file may be hashed from seal to seal.
func TestPlainInParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.RuneFrom([]rune("a\r\n\uFEFF")), 0, 12, -1).Draw(t, "text")
		f := New("x.bud", []byte(text))
		end := int32(len(text))
		line := f.LineSpan(rapid.IntRange(1, f.Lines()).Draw(t, "line")).Start
		parts := append(f.Plain(Span{0, line}), f.Plain(Span{line, end})...)
		if whole := f.Plain(Span{0, end}); string(parts) != string(whole) {
			t.Fatalf("%q parted at %d: %q, whole %q", text, line, parts, whole)
		}
	})
}
