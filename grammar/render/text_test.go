package render

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/rivo/uniseg"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// marked makes a file and the span in it that stands between « and ».
func marked(text string) (*source.File, source.Span) {
	start := strings.Index(text, "«")
	text = strings.Replace(text, "«", "", 1)
	end := strings.Index(text, "»")
	text = strings.Replace(text, "»", "", 1)
	return source.New("shed.bud", []byte(text)), source.Span{Start: int32(start), End: int32(end)}
}

func textOf(t testing.TB, o Options, list ...finding.Finding) string {
	t.Helper()
	var b bytes.Buffer
	if err := writeText(&b, Result{Findings: list}, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTextShowsThePlace(t *testing.T) {
	tests := []struct {
		name, text string
		want       string
	}{
		{"a word", "2026-03-02\ngraft 48 of QA25 with «M8» by whip\n", `
shed.bud:2:23: error: say so [rule]
    graft 48 of QA25 with M8 by whip
                          ^^`},
		{"the last character of a file without a newline", "pot AM26 to «3»", `
shed.bud:1:13: error: say so [rule]
    pot AM26 to 3
                ^`},
		{"a line's end", "sow 12 seed of«»\r\nnext", `
shed.bud:1:15: error: say so [rule]
    sow 12 seed of
                  ^`},
		{"nothing, before a word", "sow 12 «»seed", `
shed.bud:1:8: error: say so [rule]
    sow 12 seed
           ^`},
		{"an empty file", "«»", `
shed.bud:1:1: error: say so [rule]
    
    ^`},
		{"wide characters", "variety 枇杷 species «枇»", `
shed.bud:1:20: error: say so [rule]
    variety 枇杷 species 枇
                         ^^`},
		{"an accent typed apart", "party Rene\u0301 as «friend»", `
shed.bud:1:16: error: say so [rule]
    party Rene` + "\u0301" + ` as friend
                  ^^^^^^`},
		{"tabs", "graft\t48\tof «QA25»", `
shed.bud:1:13: error: say so [rule]
    graft    48    of QA25
                      ^^^^`},
		{"an escape of a terminal", "note AM26 \"\x1b[31m\" «x»", `
shed.bud:1:19: error: say so [rule]
    note AM26 "␛[31m" x
                      ^`},
		{"no UTF-8", "note «\xff» AM26", `
shed.bud:1:6: error: say so [rule]
    note [byte FF] AM26
         ^^^^^^^^^`},
		{"several lines: the first", "graft 48 of «QA25\n  with» M7", `
shed.bud:1:13: error: say so [rule]
    graft 48 of QA25
                ^^^^`},
		{"behind a byte-order mark", "\ufeff«sow»", `
shed.bud:1:1: error: say so [rule]
    sow
    ^^^`},
	}
	for _, test := range tests {
		file, span := marked(test.text)
		got := textOf(t, Options{}, finding.Finding{File: file, Span: span, Severity: finding.Error, Rule: "rule", Message: "say so"})
		if want := test.want[1:] + "\n"; got != want {
			t.Errorf("%s:\n%s\nwant\n%s", test.name, got, want)
		}
	}
}

func TestTextTellsOfMendsAndOtherPlaces(t *testing.T) {
	file, span := marked("tree M7 variety Amberlight\n2026-03-02\ngraft 48 of QA25 with «M8»\n")
	f := finding.Finding{File: file, Span: span, Severity: finding.Warning, Rule: "unknown-name", Message: "M8 is not known"}
	f.Mend = &finding.Mend{Span: span, Text: "M7"}
	f.Related = []finding.Related{{File: file, Span: source.Span{Start: 5, End: 7}, Message: "M7 is planted here"}}
	want := `shed.bud:3:23: warning: M8 is not known [unknown-name]
    graft 48 of QA25 with M8
                          ^^
  see shed.bud:1:6: M7 is planted here
    tree M7 variety Amberlight
         ^^
  write instead:
    graft 48 of QA25 with M7
`
	if got := textOf(t, Options{}, f); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestTextOfMends(t *testing.T) {
	tests := []struct{ name, text, put, want string }{
		{"all of a line", "allow old-wood\n«count AM26 12»\n", "", "  take this line out\n"},
		{"a part", "sow 12«,» seed", "", "  write instead:\n    sow 12 seed\n"},
		{"put in", "sow 12 seed«»", ` of "Quince BA"`, "  write instead:\n    sow 12 seed of \"Quince BA\"\n"},
		{"two lines of one", "sow 12 seed« »pot AM26", "\n", "  write instead:\n    sow 12 seed\n    pot AM26\n"},
		{"one line of two", "graft 48«\n » of QA25", "", "  write instead:\n    graft 48 of QA25\n"},
	}
	for _, test := range tests {
		file, span := marked(test.text)
		got := textOf(t, Options{}, finding.Finding{
			File: file, Span: span, Severity: finding.Hint, Rule: "r", Message: "m", Mend: &finding.Mend{Span: span, Text: test.put},
		})
		if !strings.HasSuffix(got, "^\n"+test.want) {
			t.Errorf("%s:\n%s\nwant at its end\n%s", test.name, got, test.want)
		}
	}
}

func TestTextShowsAWindowOfALongLine(t *testing.T) {
	long := strings.Repeat("ab ", 4<<20)
	file, span := marked(long + "«here»" + long)
	got := textOf(t, Options{Width: 60}, finding.Finding{File: file, Span: span, Severity: finding.Error, Rule: "r", Message: "m"})
	want := "shed.bud:1:12582913: error: m [r]\n" +
		"    …ab ab ab ab ab ab hereab ab ab ab ab ab ab ab ab ab ab…\n" +
		"                       ^^^^\n"
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestMessagesAreCutAndMadeVisible(t *testing.T) {
	file, span := marked("«x»")
	got := textOf(t, Options{}, finding.Finding{
		File: file, Span: span, Severity: finding.Error, Rule: "r", Message: "\x1b]0;title\x07" + strings.Repeat("枇", 1000),
	})
	head, _, _ := strings.Cut(got, "\n")
	if !strings.HasPrefix(head, "shed.bud:1:1: error: ␛]0;title␇枇") || !strings.HasSuffix(head, "枇… [r]") || len(head) > 700 {
		t.Errorf("got %d bytes: %q", len(head), head)
	}
}

var colours = regexp.MustCompile("\x1b\\[[0-9;]*m")

func TestColourChangesNoWord(t *testing.T) {
	file, span := marked("graft 48 of «QA25»\n")
	f := finding.Finding{File: file, Span: span, Severity: finding.Error, Rule: "r", Message: "m", Mend: &finding.Mend{Span: span, Text: "QA26"}}
	f.Related = []finding.Related{{File: file, Span: span, Message: "here"}}
	// Whatever the environment of the test says, only the option counts.
	t.Setenv("NO_COLOR", "1")
	plain, coloured := textOf(t, Options{}, f), textOf(t, Options{Colour: true}, f)
	if colours.MatchString(plain) {
		t.Errorf("colours though none were asked for: %q", plain)
	}
	if n := len(colours.FindAllString(coloured, -1)); n < 8 {
		t.Errorf("%d changes of colour in %q", n, coloured)
	}
	if got := colours.ReplaceAllString(coloured, ""); got != plain {
		t.Errorf("without its colours\n%q\nwant\n%q", got, plain)
	}
}

// hostile draws text as no journal should hold it, but one may.
func hostile() *rapid.Generator[string] {
	odd := rapid.SampledFrom([]string{
		"\x1b[2J", "\u009b", "\r", "\t", "\x00", "\x7f", "\u202e", "\u2028", "\ufeff", "\xff", "\xe6\x9e", "é", "e\u0301", "\u0301",
		"枇杷", "ｱ", "👩\u200d🌾", "🏽", "क्षि", "한글", " ", "\u00a0", "graft 48 of QA25 with M7", "\u00ad", "\U000e0041",
	})
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(rapid.OneOf(odd, rapid.String()), 0, 12).Draw(t, "parts"), "")
	})
}

func TestExcerptsFitAndSteerNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := hostile().Draw(t, "text")
		start := rapid.IntRange(0, len(text)).Draw(t, "start")
		end := rapid.IntRange(start, len(text)).Draw(t, "end")
		width := rapid.IntRange(40, 100).Draw(t, "width")
		file := source.New("f", []byte(text))
		line, marks := pieceOf(file, source.Span{Start: int32(start), End: int32(end)}).show(width)
		if w := uniseg.StringWidth(line); w > width {
			t.Errorf("%q is %d wide, not %d", line, w, width)
		}
		for _, r := range line {
			if unicode.In(r, unicode.Cc, unicode.Bidi_Control) {
				t.Errorf("%q came through", r)
			}
		}
		if strings.Trim(marks, " ^") != "" || len(marks) > width {
			t.Errorf("marks %q", marks)
		}
	})
}

func TestMarksStandBelowWhatTheyMark(t *testing.T) {
	word := rapid.StringMatching(`[a-z枇杷é ]{0,40}`)
	rapid.Check(t, func(t *rapid.T) {
		before, after := word.Draw(t, "before"), word.Draw(t, "after")
		mark := rapid.StringMatching(`[A-Z林]{1,9}`).Draw(t, "marked")
		line, marks := piece{before, mark, after}.show(rapid.IntRange(40, 60).Draw(t, "width"))
		lead, _, found := strings.Cut(line, mark)
		want := strings.Repeat(" ", uniseg.StringWidth(lead)) + strings.Repeat("^", uniseg.StringWidth(mark))
		if !found || marks != want {
			t.Errorf("\n%s\n%s\nwant\n%s", line, marks, want)
		}
	})
}

func BenchmarkText(b *testing.B) {
	line := "graft 48 of QA25 with M7 by whip-and-tongue as AM26 at shade-1\n"
	file := source.New("shed.bud", []byte(strings.Repeat(line, 100_000)))
	var r Result
	for i := range 100_000 {
		start := int32(i*len(line) + 12)
		r.Findings = append(r.Findings, finding.Finding{
			File: file, Span: source.Span{Start: start, End: start + 4}, Severity: finding.Error, Rule: "unknown-name", Message: "QA25 is not known",
		})
	}
	for b.Loop() {
		if err := writeText(&bytes.Buffer{}, r, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
