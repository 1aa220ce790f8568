package rule

import (
	"runtime"
	"slices"
	"sync"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

// Check gathers all that is to be said about a journal, in order: what was found
// while it was read and replayed, and the answers to all rules, less what the
// journal allows.
func Check(n *nursery.Nursery) []finding.Finding { return check(n, All, &Memory{}) }

// Contradictions are the errors that no entry can allow: what they are about
// can't be as it says and so counts for nothing. Errors of judgement, such as
// plants on hand that come from a sick mother, are none: they leave every figure
// right.
func Contradictions(n *nursery.Nursery) []finding.Finding {
	firm := slices.DeleteFunc(slices.Clone(All), (*Rule).Silenceable)
	return slices.DeleteFunc(check(n, firm, &Memory{}), func(f finding.Finding) bool {
		r, known := Named(f.Rule)
		return f.Severity != finding.Error || known && r.Silenceable()
	})
}

func check(n *nursery.Nursery, rules []*Rule, m *Memory) []finding.Finding {
	var asking []*pass
	for _, r := range rules {
		if r.check != nil {
			asking = append(asking, &pass{Nursery: n, rule: r, memory: m})
		}
	}
	turns := limitDays(n)
	workers := min(runtime.GOMAXPROCS(0), 4)
	var wait sync.WaitGroup
	faults := make([]any, workers) // mistakes of the program's own, for the caller to see
	for w := range workers {
		wait.Go(func() {
			defer func() { faults[w] = recover() }()
			s := newScan(n, turns)
			for i := w; i < len(asking); i += workers {
				asking[i].scan = s
				asking[i].rule.check(asking[i])
			}
			s.run()
		})
	}
	wait.Wait()
	for _, fault := range faults {
		if fault != nil {
			panic(fault)
		}
	}
	lists := [][]finding.Finding{n.Findings}
	for _, p := range asking {
		lists = append(lists, p.findings)
	}
	all := slices.Concat(lists...)
	before := len(n.Findings)
	return finding.Sort(append(all[:before], allow(n, all[before:])...))
}
