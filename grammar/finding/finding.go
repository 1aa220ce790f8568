// Package finding is what the tool has to say about a place in a journal: how
// grave it is, by which rule, in which words, and what to write instead.
package finding

import (
	"cmp"
	"slices"

	"github.com/budstick/budstick/grammar/source"
)

// Severity says how grave a finding is. The zero value is invalid, so that a
// forgotten one shows.
type Severity uint8

// A hint is worth a look, a warning is probably a slip, an error is a
// contradiction: no report is made from a journal with errors.
const (
	Hint Severity = iota + 1
	Warning
	Error
)

var severities = [...]string{Hint: "hint", Warning: "warning", Error: "error"}

func (s Severity) String() string {
	if s < Hint || s > Error {
		return "invalid"
	}
	return severities[s]
}

// ParseSeverity reads the name of a severity.
func ParseSeverity(s string) (Severity, bool) {
	i := slices.Index(severities[:], s)
	return Severity(max(i, 0)), i > 0
}

// A Mend is text to put in place of a span of the finding's file.
type Mend struct {
	Span source.Span
	Text string
}

// A Related place helps to understand a finding.
type Related struct {
	File    *source.File
	Span    source.Span
	Message string
}

// A Finding is one thing that is wrong or doubtful at one place.
type Finding struct {
	File     *source.File
	Span     source.Span
	Severity Severity
	Rule     string
	Message  string // one sentence, no full stop; what is wrong and what to write instead
	Mend     *Mend  // nil where no text can be offered
	Related  []Related
	// About names the things (lots, trees, varieties, people) that the finding
	// is about, so that an `allow` on one of them can silence it.
	About []string
}

// Compare orders findings by file, place, gravity (worst first), rule and
// words, so that a run lists them the same way each time.
func Compare(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(a.File.Path, b.File.Path),
		cmp.Compare(a.Span.Start, b.Span.Start),
		cmp.Compare(a.Span.End, b.Span.End),
		cmp.Compare(b.Severity, a.Severity),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Message, b.Message),
	)
}

// Sort puts findings in the order of Compare and drops exact repeats.
func Sort(list []Finding) []Finding {
	slices.SortFunc(list, Compare)
	return slices.CompactFunc(list, func(a, b Finding) bool { return Compare(a, b) == 0 })
}

// Worst is the gravest severity in list, or 0 for an empty one.
func Worst(list []Finding) Severity {
	var worst Severity
	for _, f := range list {
		worst = max(worst, f.Severity)
	}
	return worst
}
