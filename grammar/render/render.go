// Package render writes findings: as text for people, and in the forms that
// programs read. It decides nothing about them; it knows no rule and no entry.
//
// Every form gives lines and columns from 1, and columns count characters
// (Unicode code points), in journals with accents as in those without.
package render

import (
	"io"

	"github.com/budstick/budstick/grammar/finding"
)

// A Result is what a run of the linter has to say.
type Result struct {
	Findings []finding.Finding // sorted, as finding.Sort leaves them
	Files    []string          // every file that was read, in order
	Rules    []Rule            // every rule that there is, for forms that list them
	FailOn   finding.Severity  // the least severity that fails the run; 0 is Error
	Version  string            // of the program
}

// A Rule is what a form may tell of a rule beside its findings.
type Rule struct {
	Name     string
	Severity finding.Severity
	Summary  string
	Why      string
}

// Options say how findings are shown to people; forms for programs ignore them.
type Options struct {
	Width  int // in cells of the terminal; 0 means 80, less than 40 is taken as 40
	Colour bool
}

// A Form is one way to write findings.
type Form struct {
	Name    string // as a flag names it
	Summary string
	Write   func(io.Writer, Result, Options) error
}

// All lists the forms, the one for people first.
var All = []Form{
	{"text", "for people: each finding with its line and what to write instead", writeText},
	{"gnu", "one line a finding, as the GNU Coding Standards have it", writeGNU},
	{"json", "one object, for programs", writeJSON},
	{"sarif", "SARIF 2.1.0 (OASIS), for code hosts and editors", writeSARIF},
	{"github", "annotations of a GitHub workflow", writeGitHub},
	{"junit", "JUnit XML, for build servers", writeJUnit},
}

// Named finds a form by its name.
func Named(name string) (Form, bool) {
	for _, f := range All {
		if f.Name == name {
			return f, true
		}
	}
	return Form{}, false
}

// Names lists the names of all forms.
func Names() []string {
	names := make([]string, len(All))
	for i, f := range All {
		names[i] = f.Name
	}
	return names
}
