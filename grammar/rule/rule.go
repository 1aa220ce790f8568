// Package rule is the linter: every question that is asked of a journal, one
// file a rule, each with its reason in the trade, an example that fires it and
// its mend.
//
// Contradictions that make an entry impossible are found while it is read
// (package entry) or replayed (package nursery); their rules have a page here
// and no code. All other rules ask the replayed nursery, never the text.
package rule

import (
	"fmt"
	"runtime"
	"slices"
	"sync"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/source"
)

// A Rule is one question and its page.
type Rule struct {
	Name     string
	Severity finding.Severity
	Summary  string // what is wrong, in a line
	Why      string // why it matters in the trade, and where its numbers come from
	Limit    string // the limit that moves its threshold, if there is one
	Bad      string // a journal that yields this finding and no other
	Good     string // the same journal, put right
	// check asks the question; nil where reading or replaying answers it.
	check func(*pass)
}

// Silenceable reports whether an `allow` can silence the rule: what makes an
// entry impossible can't be allowed.
func (r *Rule) Silenceable() bool { return r.check != nil }

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

// A pass is one rule asking one nursery.
type pass struct {
	*nursery.Nursery
	rule     *Rule
	index    *index
	findings []finding.Finding
}

// index sorts the entries of a journal by effect, once for all rules.
type index struct {
	leaves    []*fact.Entry // of effect *fact.Leave
	cuts      []*fact.Entry
	grafts    []*fact.Entry
	passes    []*fact.Entry
	checks    []*fact.Entry
	worked    []*fact.Entry // those that name a worker
	allows    []*fact.Entry
	ofVariety []*fact.Entry // declarations of varieties
}

func newIndex(n *nursery.Nursery) *index {
	x := &index{}
	for _, e := range n.Entries {
		switch e.Effect.(type) {
		case *fact.Leave:
			x.leaves = append(x.leaves, e)
		case *fact.Cut:
			x.cuts = append(x.cuts, e)
		case *fact.Graft:
			x.grafts = append(x.grafts, e)
		case *fact.Pass:
			x.passes = append(x.passes, e)
		case *fact.Check:
			x.checks = append(x.checks, e)
		case *fact.Allow:
			x.allows = append(x.allows, e)
		case *fact.Variety:
			x.ofVariety = append(x.ofVariety, e)
		}
		if len(e.Workers()) > 0 {
			x.worked = append(x.worked, e)
		}
	}
	return x
}

// reportf says that the rule's question has a bad answer at a place of an
// entry. About names what the finding is about, for `allow`.
func (p *pass) reportf(e *fact.Entry, at source.Span, about []string, format string, args ...any) *finding.Finding {
	p.findings = append(p.findings, finding.Finding{
		File: e.File, Span: at, Severity: p.rule.Severity, Rule: p.rule.Name,
		Message: fmt.Sprintf(format, args...), About: about,
	})
	return &p.findings[len(p.findings)-1]
}

// Check gathers all that is to be said about a journal, in order: what was found
// while it was read and replayed, and the answers to all rules, less what the
// journal allows.
func Check(n *nursery.Nursery) []finding.Finding {
	x := newIndex(n)
	results := make([][]finding.Finding, len(All))
	var next sync.Mutex
	at := 0
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for {
				next.Lock()
				i := at
				at++
				next.Unlock()
				if i >= len(All) {
					return
				}
				if All[i].check == nil {
					continue
				}
				p := &pass{Nursery: n, rule: All[i], index: x}
				All[i].check(p)
				results[i] = p.findings
			}
		})
	}
	wait.Wait()
	return finding.Sort(append(slices.Clone(n.Findings), allow(n, x, slices.Concat(results...))...))
}
