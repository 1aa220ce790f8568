// Package rule is the linter: every question that is asked of a journal, one
// file a rule, each with its reason in the trade, an example that fires it and
// its mend.
//
// Contradictions that make an entry impossible are found while it is read
// (package entry) or replayed (package nursery); their rules have a page here
// and no code. All other rules ask the replayed nursery, never the text.
package rule

import (
	"slices"

	"github.com/budstick/budstick/grammar/finding"
)

// A Rule is one question and its page.
type Rule struct {
	Name     string
	Severity finding.Severity
	Summary  string   // what is wrong, in a line
	Why      string   // why it matters in the trade, and where its numbers come from
	Limits   []string // the limits that move its thresholds
	Bad      string   // a journal that yields this finding and no other
	Good     string   // the same journal, put right
	// check asks the question; nil where reading or replaying answers it.
	check func(*pass)
	// binding rules can't be silenced.
	binding bool
}

// Silenceable reports whether an `allow` can silence the rule: what makes an
// entry impossible, or breaks a seal, can't be allowed.
func (r *Rule) Silenceable() bool { return r.check != nil && !r.binding }

// Named finds a rule by its name.
func Named(name string) (*Rule, bool) {
	i := slices.IndexFunc(All, func(r *Rule) bool { return r.Name == name })
	if i < 0 {
		return nil, false
	}
	return All[i], true
}

// Names lists the names of all rules.
func Names() []string {
	names := make([]string, len(All))
	for i, r := range All {
		names[i] = r.Name
	}
	return names
}
