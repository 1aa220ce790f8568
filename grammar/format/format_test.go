package format

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// laidOut is text as File lays it out.
func laidOut(t interface{ Fatalf(string, ...any) }, text string) string {
	out, findings, ok := File(source.New("x.bud", []byte(text)))
	if !ok {
		t.Fatalf("refused: %s\n%q", findings[0].Message, text)
	}
	return string(out)
}

// What can't be seen in an archive: the ends of lines, marks and odd blanks.
func TestUnseen(t *testing.T) {
	const bob, ru = "party   Bob", "party Ru"
	for _, c := range []struct{ name, in, want string }{
		{"nothing", "", ""},
		{"blanks only", " \t", ""},
		{"a lone CR", "\r", ""},
		{"blank lines stay", "\n \n\t\nparty Ru\n\n \n", "\n\n\nparty Ru\n\n\n"},
		{"a last newline", bob, "party Bob\n"},
		{"a last newline as the first", ru + "\r\n" + bob, "party Ru\r\nparty Bob\r\n"},
		{"a last comment", ru + "\n# end \u00A0", "party Ru\n# end\n"},
		{"LF rules", ru + "\n" + bob + "\r\n\r\n# c\r\n", "party Ru\nparty Bob\n\n# c\n"},
		{"CR LF rules", "\r\n" + ru + "\n" + bob + "\n\n# c\n", "\r\nparty Ru\r\nparty Bob\r\n\r\n# c\r\n"},
		{"CR LF in an entry", ru + " # c\r\n\r\n# d\n as customer\n", "party Ru  # c\r\n\r\n  # d\r\n  as customer\r\n"},
		{"CRs before LF", bob + "\r\r\n" + bob + " \r \r\n", "party Bob\r\nparty Bob\r\n"},
		{"no CR LF is made", "#\r \n", "#\n"},
		{"a CR in a comment", "# a\rb \r\n", "# a\rb\r\n"},
		{"a mark stays", "\uFEFF" + bob + "\n", "\uFEFFparty Bob\n"},
		{"a mark before a comment", "\uFEFF#c \r\n", "\uFEFF#c\r\n"},
		{"a mark and nothing", "\uFEFF", "\uFEFF"},
		{"a mark above a seal", "\uFEFF" + bob + "\nseal sha256 " + hash + " \n" + bob, "\uFEFF" + bob + "\nseal sha256 " + hash + "\nparty Bob\n"},
		{"a seal's own ends of lines", bob + "\r\nseal sha256 " + hash + "\n", bob + "\r\nseal sha256 " + hash + "\r\n"},
		{"odd blanks", "party\u200BRu\u2003\uFEFFas\u2060customer\u3000\n", "party Ru as customer\n"},
		{"a comment behind odd blanks", "\u00A0# c\n", "  # c\n"},
		{"marks of accents", "party Jose\u0301  as customer\n", "party Jose\u0301 as customer\n"},
		{"no blank at all", "party\"Ru\"as\"customer\"#c\n", "party \"Ru\" as \"customer\"  #c\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := laidOut(t, c.in); got != c.want {
				t.Errorf("%q\n got %q\nwant %q", c.in, got, c.want)
			}
			promises(t, []byte(c.in), 3)
		})
	}
}

const hash = "9f2c6b0e5d7a41388c1d4be0a7f35e926d08b1c4f7a2e3905b6c8d1f20a4e7b3"

// The sentences that the kinds of entry show are written as they should be.
func TestSentencesAreLaidOut(t *testing.T) {
	for _, s := range sentences() {
		text := "2026-03-02 Mon\n" + s + "\n"
		if diff := cmp.Diff(text, laidOut(t, text)); diff != "" {
			t.Error(diff)
		}
	}
}

// Whatever the lexer takes for a blank, a hyphen or a quote comes out plain: a
// sign may not be known there and forgotten here.
func TestEverySign(t *testing.T) {
	seen := map[string]int{}
	for r := rune(1); r <= unicode.MaxRune; r++ {
		if r == '#' || r == '\n' || unicode.IsLetter(r) || unicode.IsMark(r) || !utf8.ValidRune(r) {
			continue
		}
		sign, in, want := string(r), "", ""
		switch {
		case reads("a"+sign+"b", syntax.Word, syntax.Word):
			in, want = "party"+sign+"Ru", "party Ru\n"
		case reads("a"+sign+"b", syntax.Word) && r > unicode.MaxASCII:
			in, want = "party Ru"+sign+"b", "party Ru-b\n"
		case reads(sign+"a"+sign, syntax.Quoted):
			in, want = "party "+sign+"Ru"+sign, "party \"Ru\"\n"
		default:
			continue
		}
		if got := laidOut(t, in); got != want {
			t.Errorf("%U: %q comes out as %q, want %q", r, in, got, want)
		}
		seen[want]++
	}
	if len(seen) != 3 {
		t.Errorf("blanks, hyphens and quotes should have been tried: %v", seen)
	}
}

// reads reports whether text is tokens of those kinds.
func reads(text string, kinds ...syntax.Kind) bool {
	var got []syntax.Kind
	for _, t := range syntax.Lex([]byte(text), source.Span{Start: 0, End: int32(len(text))}, nil) {
		got = append(got, t.Kind)
	}
	return slices.Equal(got, kinds)
}

func TestEdits(t *testing.T) {
	const text = "# a \nparty  Bob\n  # b\n    as customer\n\nparty Ru\nparty   Ines\n"
	p := entry.Read(source.New("x.bud", []byte(text)))
	at := func(s string) int32 { return int32(strings.Index(text, s)) }
	comment := finding.Mend{Span: source.Span{Start: 0, End: 5}, Text: "# a\n"}
	bob := finding.Mend{Span: source.Span{Start: 5, End: at("\nparty Ru")}, Text: "party Bob\n  # b\n  as customer\n"}
	ines := finding.Mend{Span: source.Span{Start: at("party   Ines"), End: int32(len(text))}, Text: "party Ines\n"}
	end := int32(len(text))
	for _, c := range []struct {
		name   string
		within source.Span
		want   []finding.Mend
	}{
		{"all", source.Span{Start: 0, End: end}, []finding.Mend{comment, bob, ines}},
		{"a place on an entry's last line", source.Span{Start: at("customer"), End: at("customer")}, []finding.Mend{bob}},
		{"the first byte of a line", source.Span{Start: 5, End: 5}, []finding.Mend{bob}},
		{"whole lines do not touch the next", source.Span{Start: 0, End: 5}, []finding.Mend{comment}},
		{"a blank line and a tidy one", source.Span{Start: at("\nparty Ru"), End: at("party   Ines")}, nil},
		{"the end of the file", source.Span{Start: end, End: end}, []finding.Mend{ines}},
	} {
		got, ok := Edits(p, c.within)
		if diff := cmp.Diff(c.want, got); diff != "" || !ok {
			t.Errorf("%s: %v\n%s", c.name, ok, diff)
		}
	}
}

func TestErrorsAreRefused(t *testing.T) {
	for _, text := range []string{
		"party \xff\n",
		"party Bob\x00\n",
		"party Bob\r as customer\n",
		"  party Bob\n",
		"party   Ru\nparty\n",
		"2026-03-02 Tue\n",
		"2026-03-02\n2026-03-01\n",
	} {
		out, findings, ok := File(source.New("x.bud", []byte(text)))
		if ok || out != nil || finding.Worst(findings) != finding.Error {
			t.Errorf("%q: %q %v", text, out, findings)
		}
	}
}

// A sentence scrawled in any way comes out as it was before, with its lines
// broken where they were broken.
func TestScrawledComesOutPlain(t *testing.T) {
	all := slices.DeleteFunc(sentences(), func(s string) bool { return strings.HasPrefix(s, "seal ") })
	rapid.Check(t, func(t *rapid.T) {
		in, want := scrawl(t, rapid.SampledFrom(all).Draw(t, "sentence"))
		if diff := cmp.Diff(want, laidOut(t, in)); diff != "" {
			t.Fatalf("%q\n%s", in, diff)
		}
	})
}

// scrawl writes a sentence with other blanks, breaks, comments, capitals,
// dashes and quotes, and gives the layout that it should get.
func scrawl(t *rapid.T, s string) (in, want string) {
	kind, _ := entry.Named(parts(s)[0])
	var wild, plain strings.Builder
	wild.WriteString("2026–03−02\u00A0monDAY\n")
	plain.WriteString("2026-03-02 Mon\n")
	for i, w := range parts(s) {
		if i > 0 {
			gap := rapid.SampledFrom(gaps).Draw(t, "gap")
			wild.WriteString(gap[0])
			plain.WriteString(gap[1])
		}
		plain.WriteString(w)
		switch {
		case w[0] == '"':
			w = "„" + w[1:len(w)-1] + "“"
		case slices.Contains(kind.Grammar.Words(), w):
			w = strings.ToUpper(w[:1]) + w[1:]
		case kind.Verb != "strike":
			w = strings.ReplaceAll(w, "-", "–")
		}
		wild.WriteString(w)
	}
	wild.WriteString(" \u2003#c\t")
	plain.WriteString("  #c\n")
	return wild.String(), plain.String()
}

// gaps are what may stand between two words, and what it should become.
var gaps = [][2]string{
	{" ", " "}, {"\t  ", " "}, {"\u00A0", " "}, {"\u200B", " "}, {" \u2060\uFEFF", " "},
	{"\n ", "\n  "}, {" \t\r\n\t\t\t", "\n  "}, {"#c\n ", "  #c\n  "},
	{"\n\n#c #d \r\n    #e\n\u00A0", "\n\n  #c #d\n  #e\n  "},
}

// The layout of an entry depends on that entry alone.
func TestLayoutIsLocal(t *testing.T) {
	var entries []string
	for _, s := range sentences() {
		if !strings.HasPrefix(s, "seal ") && !strings.HasPrefix(s, "budstick ") { // these have a place of their own
			entries = append(entries, scrawled(s)+"\n")
		}
	}
	const day = "2026-03-02 Mon\n"
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.SampledFrom(entries), 1, 5).Draw(t, "entries")
		want := day
		for _, e := range list {
			want += strings.TrimPrefix(laidOut(t, day+e), day)
		}
		if diff := cmp.Diff(want, laidOut(t, day+strings.Join(list, ""))); diff != "" {
			t.Fatal(diff)
		}
	})
}

// A tidy journal is the usual case: it is formatted each time it is saved.
func BenchmarkFile(b *testing.B) {
	var tidy, wild strings.Builder
	tidy.WriteString("2026-03-02 Mon\n")
	wild.WriteString("2026–03–02 monday\n")
	for range 500 {
		for _, s := range sentences() {
			if !strings.HasPrefix(s, "seal ") && !strings.HasPrefix(s, "budstick ") { // these have a place of their own
				tidy.WriteString(s + "\n")
				wild.WriteString(scrawled(s) + "\n")
			}
		}
	}
	for i, text := range []string{tidy.String(), wild.String()} {
		name := []string{"tidy", "scrawled"}[i]
		p := entry.Read(source.New("x.bud", []byte(text)))
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				File(p.File)
			}
		})
		b.Run(name+", read already", func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				Edits(p, source.Span{Start: 0, End: int32(len(text))})
			}
		})
	}
}
