package render

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/screen"
)

// The elements of a JUnit report that build servers agree on. There is no
// standard; some show only the text within a failure and never its message, and
// some take two cases of one name for one, so the text is complete and the name
// holds the place.
type junitSuites struct {
	XMLName xml.Name     `xml:"testsuites"`
	Suites  []junitSuite `xml:"testsuite"`
}

type junitSuite struct {
	Name     string      `xml:"name,attr"`
	Tests    int         `xml:"tests,attr"`
	Failures int         `xml:"failures,attr"`
	Cases    []junitCase `xml:"testcase"`
}

type junitCase struct {
	Class   string        `xml:"classname,attr"`
	Name    string        `xml:"name,attr"`
	Failure *junitFailure `xml:"failure,omitempty"`
	Out     string        `xml:"system-out,omitempty"`
}

type junitFailure struct {
	Type    string `xml:"type,attr"`
	Message string `xml:"message,attr"`
	Text    string `xml:",chardata"`
}

// writeJUnit writes one suite with a case a finding, and a passing one for each
// file that has none. A finding fails its case where its severity fails the run.
func writeJUnit(w io.Writer, r Result, _ Options) error {
	suite := junitSuite{Name: "budstick lint"}
	found := map[string]bool{}
	for f := range r.placed() {
		found[f.File.Path] = true
		text, err := plainText(f)
		if err != nil {
			return err
		}
		c := junitCase{
			Class: screen.Visible(f.File.Path),
			Name:  fmt.Sprintf("%s %s:%d:%d", f.Rule, screen.Visible(f.File.Path), f.start.Line, f.start.Column),
		}
		if f.Severity >= r.failOn() {
			c.Failure = &junitFailure{f.Severity.String(), screen.Visible(f.Message), text}
			suite.Failures++
		} else {
			c.Out = text
		}
		suite.Cases = append(suite.Cases, c)
	}
	for _, file := range r.Files {
		if !found[file] {
			suite.Cases = append(suite.Cases, junitCase{Class: screen.Visible(file), Name: screen.Visible(file)})
		}
	}
	suite.Tests = len(suite.Cases)
	b, err := xml.MarshalIndent(junitSuites{Suites: []junitSuite{suite}}, "", "  ")
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "%s%s\n", xml.Header, b)
	return err
}

// plainText is a finding as people see it, without colours.
func plainText(f placed) (string, error) {
	var b bytes.Buffer
	err := writeText(&b, Result{Findings: []finding.Finding{f.Finding}}, Options{})
	return b.String(), err
}
