package format

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// FuzzFormat holds the promises of the package against any bytes at all.
func FuzzFormat(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add([]byte(s), uint16(len(s)/2))
	}
	f.Fuzz(func(t *testing.T, b []byte, cut uint16) {
		promises(t, b, int32(cut))
	})
}

// promises checks everything that the package says of itself on one journal.
// cut is a place at which an editor might part it.
func promises(t *testing.T, b []byte, cut int32) {
	t.Helper()
	given := bytes.Clone(b)
	before := entry.Read(source.New("x.bud", b))
	out, findings, ok := File(source.New("x.bud", b))
	if !bytes.Equal(b, given) {
		t.Fatal("the journal itself was written on")
	}
	if broken := finding.Worst(before.Standing()) == finding.Error; broken != !ok {
		t.Fatalf("broken %v, laid out %v", broken, ok)
	}
	if !ok {
		if out != nil || len(findings) == 0 {
			t.Fatalf("refused, with text %q and findings %v", out, findings)
		}
		return
	}

	after := entry.Read(source.New("x.bud", out))
	if left := after.Standing(); len(left) > 0 {
		t.Fatalf("what came out can't be read: %s\n%q\n%q", left[0].Message, b, out)
	}
	if again, _, _ := File(source.New("x.bud", out)); !bytes.Equal(again, out) {
		t.Fatalf("a second time it comes out otherwise\n%q\n%q\n%q", b, out, again)
	}
	for _, p := range []struct {
		what string
		of   func([]byte) []string
	}{{"lines", lines}, {"comments", comments}, {"words", words}} {
		if diff := cmp.Diff(p.of(b), p.of(out)); diff != "" {
			t.Fatalf("the %s changed\n%q\n%q\n%s", p.what, b, out, diff)
		}
	}
	if diff := cmp.Diff(before.Entries, after.Entries, sameFacts); diff != "" {
		t.Fatalf("the facts changed\n%q\n%q\n%s", b, out, diff)
	}
	above := sealed(before)
	if !bytes.HasPrefix(out, b[:above]) {
		t.Fatalf("what is sealed changed\n%q\n%q", b[:above], out)
	}
	inParts(t, before, min(cut, int32(len(b))), out)
}

// inParts lays out what lies before cut and what lies behind it, as an editor
// may, and expects the same text. An entry that lies on both sides comes twice.
func inParts(t *testing.T, p *entry.Page, cut int32, want []byte) {
	t.Helper()
	first, _ := Edits(p, source.Span{Start: 0, End: cut})
	rest, _ := Edits(p, source.Span{Start: cut, End: int32(len(p.File.Bytes))})
	edits := slices.Compact(append(first, rest...))
	for _, e := range edits {
		if p.File.Text(e.Span) == e.Text {
			t.Fatalf("an edit changes nothing: %q", e.Text)
		}
	}
	if got := Apply(p.File.Bytes, edits); !bytes.Equal(got, want) {
		t.Fatalf("parted at %d\n%q\n%q\n%q", cut, p.File.Bytes, got, want)
	}
}

// sameFacts compares entries by all but their places. The words of a strike
// are compared token by token, as the line that they are held against may have
// been laid out too.
var sameFacts = cmp.Options{
	cmpopts.IgnoreTypes(source.Span{}, &source.File{}),
	cmp.Comparer(func(a, b fact.Strike) bool {
		return a.Line == b.Line && a.Why.Text == b.Why.Text && slices.Equal(tokens(a.Words), tokens(b.Words))
	}),
}

func tokens(s string) []string {
	var out []string
	for _, t := range syntax.Lex([]byte(s), source.Span{End: int32(len(s))}, nil) {
		out = append(out, t.Kind.String()+" "+strings.ToLower(straightened(s[t.Span.Start:t.Span.End])))
	}
	return out
}

// lines gives for each line whether it says something. An empty last line is
// none: a file's last newline may be added.
func lines(b []byte) []string {
	out := strings.Split(string(b), "\n")
	for i, l := range out {
		if out[i] = "text"; unblanked(l) == "" {
			out[i] = ""
		}
	}
	if n := len(out) - 1; out[n] == "" {
		out = out[:n]
	}
	return out
}

// comments are the comments of the whole file, less the blanks at their ends.
func comments(b []byte) []string {
	var out []string
	syntax.Trivia(b, source.Span{End: int32(len(b))}, func(s source.Span) {
		out = append(out, strings.TrimSpace(string(b[s.Start:s.End])))
	})
	return out
}

var longDay = regexp.MustCompile(`(?m)^([0-9]{4}-[0-9]{2}-[0-9]{2}[^a-z#\n]*[a-z]{3})[a-z]*`)

// words is each line of text without blanks, with straight quotes and plain
// hyphens, in small letters and with the first letters of weekdays: all of it
// must come out as it went in.
func words(b []byte) []string {
	text := strings.ToLower(straightened(string(b)))
	text = longDay.ReplaceAllString(text, "$1")
	var out []string
	for l := range strings.Lines(text) {
		if l = unblanked(l); l != "" {
			out = append(out, l)
		}
	}
	return out
}

func straightened(s string) string {
	return strings.NewReplacer("“", `"`, "”", `"`, "„", `"`, "‟", `"`, "″", `"`,
		"‐", "-", "‑", "-", "‒", "-", "–", "-", "—", "-", "−", "-").Replace(s)
}

func unblanked(s string) string {
	return strings.Map(func(r rune) rune {
		if r <= ' ' || r == '\u200B' || r == '\u2060' || r == '\uFEFF' || strings.TrimSpace(string(r)) == "" {
			return -1
		}
		return r
	}, s)
}
