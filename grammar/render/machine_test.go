package render

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/source"
)

// sample is a result with one finding of each severity, in a line with accents
// and with all that a finding may have.
func sample() Result {
	file, span := marked("tree M7\nparty \"René\" note \"a, b: 100 %\" «枇杷»\n")
	return Result{
		Files: []string{"clean.bud", "shed.bud"},
		Rules: []Rule{
			{"look-alike", finding.Hint, "two names look alike", ""},
			{"unknown-name", finding.Error, "a name is not known", "A slip would make a lot of nothing."},
		},
		Version: "v0",
		Findings: []finding.Finding{
			{
				File: file, Span: span, Severity: finding.Error, Rule: "unknown-name", Message: "枇杷 is not known: 100 %",
				Mend:    &finding.Mend{Span: span, Text: "M7"},
				Related: []finding.Related{{File: file, Span: source.Span{Start: 5, End: 7}, Message: "M7 is here"}},
			},
			{File: file, Span: span, Severity: finding.Hint, Rule: "look-alike", Message: "looks like M7"},
		},
	}
}

func write(t testing.TB, form string, r Result) string {
	t.Helper()
	f, ok := Named(form)
	if !ok {
		t.Fatalf("no form %s", form)
	}
	var b bytes.Buffer
	if err := f.Write(&b, r, Options{Colour: true}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestJSON(t *testing.T) {
	var got any
	if err := json.Unmarshal([]byte(write(t, "json", sample())), &got); err != nil {
		t.Fatal(err)
	}
	// The columns are counted by hand: party "René" note "a, b: 100 %" is 31
	// characters, so what follows the blank begins at the 33rd.
	want := map[string]any{
		"version": 1.0,
		"findings": []any{
			map[string]any{
				"file": "shed.bud", "line": 2.0, "column": 33.0, "end_line": 2.0, "end_column": 35.0,
				"severity": "error", "rule": "unknown-name", "message": "枇杷 is not known: 100 %", "mend": "M7",
				"mend_at": map[string]any{"file": "shed.bud", "line": 2.0, "column": 33.0, "end_line": 2.0, "end_column": 35.0},
				"related": []any{map[string]any{
					"file": "shed.bud", "line": 1.0, "column": 6.0, "end_line": 1.0, "end_column": 8.0, "message": "M7 is here",
				}},
			},
			map[string]any{
				"file": "shed.bud", "line": 2.0, "column": 33.0, "end_line": 2.0, "end_column": 35.0,
				"severity": "hint", "rule": "look-alike", "message": "looks like M7", "mend": nil, "mend_at": nil, "related": []any{},
			},
		},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

func TestJSONOfNothing(t *testing.T) {
	if got, want := write(t, "json", Result{}), "{\"version\":1,\"findings\":[]}\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestGNU(t *testing.T) {
	r := sample()
	r.Findings[1].Span.End = r.Findings[1].Span.Start
	want := "shed.bud:2.33-2.34: error: 枇杷 is not known: 100 % [unknown-name]\n" +
		"shed.bud:2:33: hint: looks like M7 [look-alike]\n"
	if got := write(t, "gnu", r); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestGitHub(t *testing.T) {
	r := sample()
	r.Findings[0], r.Findings[1] = r.Findings[1], r.Findings[0]
	want := "::error file=shed.bud,line=2,endLine=2,col=33,endColumn=35,title=unknown-name::枇杷 is not known: 100 %25%0Awrite instead: M7\n" +
		"::notice file=shed.bud,line=2,endLine=2,col=33,endColumn=35,title=look-alike::looks like M7\n"
	if got := write(t, "github", r); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// The names and demands in this test are from memory of SARIF 2.1.0; the
// sections are those of the OASIS Standard of 27 March 2020.
func TestSARIF(t *testing.T) {
	r := sample()
	r.Findings = append(r.Findings, r.Findings[1])
	var log struct {
		Version string
		Runs    []struct {
			ColumnKind string
			Artifacts  []struct{ Location struct{ URI string } }
			Tool       struct {
				Driver struct {
					Name  string
					Rules []struct {
						ID                   string
						DefaultConfiguration struct{ Level string }
					}
				}
			}
			Results []struct {
				RuleID              string
				RuleIndex           int
				Level               string
				PartialFingerprints map[string]string
				Locations           []struct {
					PhysicalLocation struct {
						ArtifactLocation struct{ URI string }
						Region           struct{ StartLine, StartColumn, EndLine, EndColumn int }
					}
				}
				Fixes []struct {
					ArtifactChanges []struct {
						Replacements []struct{ InsertedContent struct{ Text string } }
					}
				}
			}
		}
	}
	if err := json.Unmarshal([]byte(write(t, "sarif", r)), &log); err != nil {
		t.Fatal(err)
	}
	if log.Version != "2.1.0" || len(log.Runs) != 1 { // 3.13.2, 3.13.4
		t.Fatalf("version %q, %d runs", log.Version, len(log.Runs))
	}
	run := log.Runs[0]
	if run.ColumnKind != "unicodeCodePoints" { // 3.14.17
		t.Errorf("columnKind %q", run.ColumnKind)
	}
	if len(run.Artifacts) != 2 || run.Artifacts[0].Location.URI != "clean.bud" {
		t.Errorf("artifacts %v", run.Artifacts)
	}
	wantLevels := []string{"error", "note", "note"} // 3.27.10
	prints := map[string]bool{}
	for i, result := range run.Results {
		if result.Level != wantLevels[i] {
			t.Errorf("result %d: level %q", i, result.Level)
		}
		if rule := run.Tool.Driver.Rules[result.RuleIndex]; rule.ID != result.RuleID { // 3.27.6
			t.Errorf("result %d: index of %q for %q", i, rule.ID, result.RuleID)
		}
		at := result.Locations[0].PhysicalLocation
		if got, want := fmt.Sprint(at.Region), "{2 33 2 35}"; got != want || at.ArtifactLocation.URI != "shed.bud" {
			t.Errorf("result %d: at %s of %s, want %s", i, got, at.ArtifactLocation.URI, want)
		}
		for _, print := range result.PartialFingerprints {
			if prints[print] {
				t.Errorf("result %d: fingerprint %s again", i, print)
			}
			prints[print] = true
		}
	}
	if len(prints) != 3 {
		t.Errorf("%d fingerprints", len(prints))
	}
	if got := run.Results[0].Fixes[0].ArtifactChanges[0].Replacements[0].InsertedContent.Text; got != "M7" {
		t.Errorf("mend %q", got)
	}
}

// A fingerprint stays when the journal is written on above the finding.
func TestFingerprintsStayWhereLinesMove(t *testing.T) {
	fingerprint := func(text string) string {
		file, span := marked(text)
		return fingerprints{}.of(placed{Finding: finding.Finding{File: file, Span: span, Rule: "r"}})
	}
	here := fingerprint("pot AM26 to «3» L")
	if moved := fingerprint("2026-03-02\n\npot  AM26 to «3» L"); moved != here {
		t.Errorf("moved: %s, not %s", moved, here)
	}
	if other := fingerprint("pot AM27 to «3» L"); other == here {
		t.Error("another line has the same fingerprint")
	}
}

func TestURIs(t *testing.T) {
	tests := []struct{ path, want string }{
		{"shed.bud", "shed.bud"},
		{"bench 2/100%.bud", "bench%202/100%25.bud"},
		{"a:b.bud", "./a:b.bud"}, // RFC 3986, 4.2: else a: would be a scheme
		{"/srv/shed.bud", "file:///srv/shed.bud"},
	}
	for _, test := range tests {
		if got := uriOf(test.path).URI; got != test.want {
			t.Errorf("uriOf(%q) = %q, want %q", test.path, got, test.want)
		}
	}
}

func TestJUnit(t *testing.T) {
	r := sample()
	var doc junitSuites
	if err := xml.Unmarshal([]byte(write(t, "junit", r)), &doc); err != nil {
		t.Fatal(err)
	}
	suite := doc.Suites[0]
	if suite.Tests != 3 || suite.Failures != 1 || len(suite.Cases) != 3 {
		t.Fatalf("%d tests, %d failures, %d cases", suite.Tests, suite.Failures, len(suite.Cases))
	}
	names := map[string]bool{}
	for _, c := range suite.Cases {
		names[c.Class+" "+c.Name] = true
	}
	if len(names) != 3 {
		t.Errorf("names are not each for one case: %v", names)
	}
	failure := suite.Cases[0].Failure
	if failure == nil || !strings.Contains(failure.Text, "shed.bud:2:33: error: 枇杷 is not known") || !strings.Contains(failure.Text, "write instead:") {
		t.Errorf("failure %+v", failure)
	}
	if c := suite.Cases[1]; c.Failure != nil || !strings.Contains(c.Out, "looks like M7") {
		t.Errorf("a hint: %+v", c)
	}
	if c := suite.Cases[2]; c.Failure != nil || c.Class != "clean.bud" {
		t.Errorf("the clean file: %+v", c)
	}
	r.FailOn = finding.Hint
	if err := xml.Unmarshal([]byte(write(t, "junit", r)), &doc); err != nil {
		t.Fatal(err)
	}
	if n := doc.Suites[len(doc.Suites)-1].Failures; n != 2 {
		t.Errorf("%d failures where a hint is one", n)
	}
}

var controls = regexp.MustCompile(`[\x00-\x09\x0b-\x1f\x7f\x{80}-\x{9f}\x{202a}-\x{202e}\x{2066}-\x{2069}]`)

// Whatever a journal or a file's name holds, no form lets it reach a terminal
// raw, and the forms for programs can be read back.
func TestNoFormSteersATerminal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := hostile().Draw(t, "text")
		file := source.New(hostile().Draw(t, "name"), []byte(text))
		end := int32(rapid.IntRange(0, len(text)).Draw(t, "end"))
		span := source.Span{Start: end / 2, End: end}
		message := hostile().Draw(t, "message")
		r := Result{Files: []string{file.Path}, Findings: []finding.Finding{{
			File: file, Span: span, Severity: finding.Warning, Rule: "r", Message: message,
			Mend:    &finding.Mend{Span: span, Text: hostile().Draw(t, "mend")},
			Related: []finding.Related{{File: file, Span: span, Message: message}},
		}}}
		for _, form := range All {
			var b bytes.Buffer
			if err := form.Write(&b, r, Options{}); err != nil {
				t.Fatalf("%s: %v", form.Name, err)
			}
			if bad := controls.FindString(b.String()); bad != "" {
				t.Errorf("%s: %q came through in %q", form.Name, bad, b.String())
			}
			switch form.Name {
			case "json", "sarif":
				if !json.Valid(b.Bytes()) {
					t.Errorf("%s: %q", form.Name, b.String())
				}
			case "junit":
				for d := xml.NewDecoder(&b); ; {
					if _, err := d.Token(); err == io.EOF {
						break
					} else if err != nil {
						t.Fatal(err)
					}
				}
			}
		}
	})
}

// A message comes back from JSON as it was, though all that steers is escaped.
func TestJSONReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		message := strings.ToValidUTF8(hostile().Draw(t, "message"), "?")
		file, span := marked("«x»")
		var b bytes.Buffer
		if err := writeJSON(&b, Result{Findings: []finding.Finding{{File: file, Span: span, Severity: finding.Error, Message: message}}}, Options{}); err != nil {
			t.Fatal(err)
		}
		var got struct{ Findings []struct{ Message string } }
		if err := json.Unmarshal(b.Bytes(), &got); err != nil {
			t.Fatal(err)
		}
		if got.Findings[0].Message != message {
			t.Errorf("%q came back as %q", message, got.Findings[0].Message)
		}
	})
}

// Positions are found going on from the last one; they must be those that the
// file gives, for every place where a character may begin.
func TestPlacesAreThoseOfTheFile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(hostile(), 1, 4).Draw(t, "lines"), "\r\n")
		file := source.New("f", []byte(text))
		var p places
		for range 20 {
			off := int32(rapid.IntRange(0, len(text)).Draw(t, "off"))
			for off > 0 && int(off) < len(text) && !utf8.RuneStart(text[off]) {
				off--
			}
			if got, want := p.at(file, off), file.Position(off); got != want {
				t.Fatalf("at %d of %q: %v, want %v", off, text, got, want)
			}
		}
	})
}
