package entry

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/source"
	"github.com/budstick/budstick/grammar/syntax"
)

// spans are the spans in a value, however deep.
func spans(v reflect.Value, f func(source.Span)) {
	if s, ok := v.Interface().(source.Span); ok {
		f(s)
		return
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			spans(v.Elem(), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			spans(v.Field(i), f)
		}
	case reflect.Slice:
		for i := range v.Len() {
			spans(v.Index(i), f)
		}
	}
}

// checkPage fails where a span of a page lies outside its entry, or an entry
// outside its place.
func checkPage(t interface{ Fatalf(string, ...any) }, p *Page) {
	end := int32(0)
	for _, e := range p.Entries {
		if e.Span.Start < end || e.Span.End <= e.Span.Start || int(e.Span.End) > len(p.File.Bytes) {
			t.Fatalf("entry %v stands behind %d of %d bytes", e.Span, end, len(p.File.Bytes))
		}
		end = e.Span.End
		if int(e.Line) != p.File.Line(e.Span.Start) || e.Effect == nil || byVerb[e.Verb] == nil {
			t.Fatalf("entry %+v", e)
		}
		inside := func(s source.Span) {
			if s != (source.Span{}) && (s.Start < e.Span.Start || s.End > e.Span.End || s.End < s.Start) {
				t.Fatalf("span %v of %s is outside its entry %v", s, e.Verb, e.Span)
			}
		}
		spans(reflect.ValueOf(e.Effect), inside)
		spans(reflect.ValueOf(e.Extra), inside)
	}
	for _, f := range p.Findings {
		if f.Severity == 0 || f.Rule == "" || f.Message == "" || f.Span.Start < 0 || f.Span.End < f.Span.Start || int(f.Span.End) > len(p.File.Bytes) {
			t.Fatalf("finding %+v in %d bytes", f, len(p.File.Bytes))
		}
		if m := f.Mend; m != nil && (m.Span.Start < 0 || m.Span.End < m.Span.Start || int(m.Span.End) > len(p.File.Bytes)) {
			t.Fatalf("mend %+v in %d bytes", m, len(p.File.Bytes))
		}
	}
	if broken := len(p.Broken); broken > 0 && len(p.Findings) == 0 {
		t.Fatalf("%d entries are broken, and nothing is said about them", broken)
	}
}

// FuzzRead holds that no text makes the reader panic, that every span lies
// where it should, and that nothing is dropped in silence.
func FuzzRead(f *testing.F) {
	for _, k := range All {
		for _, s := range k.Sentences() {
			f.Add([]byte("2026-03-02\n" + s + "\n"))
		}
	}
	f.Add([]byte("\ufeffgraft 48 QA25\r\n  with \"W7\r\n2026-03-02 Tue\n  sow\nnote\n\x00"))
	f.Add([]byte("2026-03-02\ncheck A: 1,2 took\nsell 1 200 of A\nworker X 3 h\nat 5\n“x”"))
	f.Fuzz(func(t *testing.T, b []byte) {
		page := Read(source.New("x.bud", b))
		checkPage(t, page)
	})
}

// TestSentencesOfTheGrammar reads sentences made up along each grammar, so that
// what the automaton allows the parser takes, and lowering stands all of it.
func TestSentencesOfTheGrammar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(All).Draw(t, "kind")
		text := sentence(t, k)
		file := source.New("x.bud", []byte("2026-03-02\n"+text))
		page := Read(file)
		checkPage(t, page)
		for _, f := range page.Findings {
			if f.Rule == "sentence" || f.Rule == "name" && f.Span.Len() > 2 {
				t.Fatalf("%s: %s", text, f.Message)
			}
		}
	})
}

// sentence draws a sentence along a kind's grammar.
func sentence(t *rapid.T, k *Kind) string {
	text := ""
	for n := 0; ; n++ {
		file := source.New("", []byte(text))
		toks := syntax.Lex(file.Bytes, source.Span{End: int32(len(text))}, nil)
		at, want := k.Grammar.Expected(file, toks)
		if at < len(toks) {
			t.Fatalf("%q stops at %d", text, at)
		}
		end := slices.Contains(want, syntax.Terminal{Kind: syntax.EOF})
		if end && (n > 25 || rapid.IntRange(0, 7).Draw(t, "end") == 0) {
			return text
		}
		want = slices.DeleteFunc(want, func(t syntax.Terminal) bool { return t.Kind == syntax.EOF || t.Not })
		if len(want) == 0 {
			return text
		}
		next := rapid.SampledFrom(want).Draw(t, "next")
		word := next.Literal
		if word == "" {
			word = rapid.SampledFrom(words[next.Kind]).Draw(t, "word")
		}
		text += " " + word
		text = strings.TrimPrefix(text, " ")
	}
}

// words are what may stand for a kind of token.
var words = map[syntax.Kind][]string{
	syntax.Word: {"AM26", "M8/east", "frost", "x", "took", "LINE", "row–2"}, syntax.Quoted: {`"Quince BA"`, `"a \" b"`, "“curly”"},
	syntax.Int: {"1", "48", "2013"}, syntax.Decimal: {"2.5", "14.00"}, syntax.Date: {"2026-03-01"}, syntax.Month: {"2013-05"},
	syntax.Unit: {"kg", "mm", "L", "h", "ppm", "days"}, syntax.Currency: {"EUR", "USD"}, syntax.Cross: {"×"}, syntax.Reserved: {"of", "at"},
}

// TestLocality holds that an entry which is broken costs only itself: whatever
// stands in its place, the facts of all others are the same.
func TestLocality(t *testing.T) {
	var all []string
	for _, k := range All {
		all = append(all, k.Sentences()...)
	}
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.SampledFrom(all), 2, 12).Draw(t, "lines")
		broken := rapid.IntRange(0, len(lines)-1).Draw(t, "broken")
		before := Read(source.New("x.bud", []byte("2026-03-02\n"+strings.Join(lines, "\n"))))

		garbage := rapid.StringOf(rapid.RuneFrom([]rune("ab AM26\"“”'.,:#-−()%€\\\u00a0\r\tgraft of 12"))).Draw(t, "garbage")
		if at := rapid.IntRange(0, 1).Draw(t, "at"); at == 1 {
			garbage = lines[broken] + garbage
		}
		lines[broken] = "z" + garbage
		after := Read(source.New("x.bud", []byte("2026-03-02\n"+strings.Join(lines, "\n"))))
		checkPage(t, after)
		if diff := cmp.Diff(meanings(before, broken+2), meanings(after, broken+2)); diff != "" {
			t.Fatalf("line %d became %q: %s", broken+2, garbage, diff)
		}
	})
}

// meanings are the entries of a page but the one on a line, without the places
// at which they stand.
func meanings(p *Page, without int) []string {
	var out []string
	for _, e := range p.Entries {
		if int(e.Line) != without {
			out = append(out, fmt.Sprintf("%d %s %s %s %s", e.Line, e.Date, e.Verb, placeless(e.Effect), placeless(e.Extra)))
		}
	}
	return out
}

// placeless shows a value without its spans.
func placeless(v any) string {
	if v == (*fact.Extra)(nil) {
		return ""
	}
	copied := reflect.New(reflect.TypeOf(v).Elem())
	copied.Elem().Set(reflect.ValueOf(v).Elem())
	clearSpans(copied.Elem())
	return fmt.Sprintf("%+v", copied.Elem().Interface())
}

// clearSpans sets every span in v to nothing.
func clearSpans(v reflect.Value) {
	if v.Type() == reflect.TypeFor[source.Span]() {
		v.SetZero()
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			clearSpans(v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			clearSpans(v.Index(i))
		}
	}
}

func TestReadIsTheSameEachTime(t *testing.T) {
	text := slices.Concat(season(6000), []byte("2031-01-01\ngraft 48 QA25\nchek A: 3 took\n"), season(6000))
	first := Read(source.New("x.bud", text))
	if len(first.Entries) != 12_000 || len(first.Broken) != 2 {
		t.Errorf("%d entries, %d broken", len(first.Entries), len(first.Broken))
	}
	again := Read(source.New("x.bud", text))
	if diff := cmp.Diff(meanings(first, 0), meanings(again, 0)); diff != "" {
		t.Error(diff)
	}
	for i := range first.Findings {
		if first.Findings[i].Message != again.Findings[i].Message {
			t.Errorf("finding %d is %q, then %q", i, first.Findings[i].Message, again.Findings[i].Message)
		}
	}
}

func TestNotText(t *testing.T) {
	for text, want := range map[string]string{
		"note \"a\xffb\"\n": "this is no UTF-8 text (byte 7 of the file); save the journal as UTF-8 text",
		"note \"a\x00b\"\n": "there is a NUL byte, so this is no text (byte 7 of the file); save the journal as UTF-8 text",
	} {
		page := Read(source.New("x.bud", []byte(text)))
		if len(page.Findings) != 1 || page.Findings[0].Message != want || len(page.Entries) != 0 {
			t.Errorf("%q: %+v", text, page.Findings)
		}
	}
}

// TestEveryWordIsShown holds that each word of the language stands in one of
// the sentences that explain it: what is not shown nobody finds.
func TestEveryWordIsShown(t *testing.T) {
	var shown strings.Builder
	for _, k := range All {
		shown.WriteString(strings.Join(k.Sentences(), " ") + " ")
	}
	found := strings.FieldsFunc(shown.String(), func(c rune) bool { return strings.ContainsRune(" \",:", c) })
	for _, k := range All {
		for _, w := range k.Grammar.Words() {
			if w != "," && w != ":" && !slices.Contains(found, w) {
				t.Errorf("no sentence shows %q, which %s knows", w, k.Verb)
			}
		}
	}
}
