package rule

import (
	"fmt"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

// The rules about `allow` itself, which this file raises: it is the one place
// where anything is silenced.
var (
	allowUnknown = &Rule{
		Name: "allow-unknown", Severity: finding.Error,
		Summary: "an `allow` names a rule that there is not",
		Why:     "A slip in the rule's name would leave the warning in place and the reason pointing at nothing.",
		Bad:     kestrel + "allow old-wod on M7 because \"kept at 3 degrees\"\n",
		Good:    stale + "allow stale-check on AM26 because \"all in leaf\"\n",
	}
	allowNever = &Rule{
		Name: "allow-never", Severity: finding.Error,
		Summary: "an `allow` is of a rule that can't be silenced",
		Why: "An entry that contradicts the book moves nothing, so allowing it would only hide that it does not count. " +
			"Put the record right with `strike` and a new entry.",
		Bad:  kestrel + "allow too-many on M7 because \"I know\"\n",
		Good: kestrel,
	}
	allowUnused = &Rule{
		Name: "allow-unused", Severity: finding.Hint,
		Summary: "an `allow` silences nothing",
		Why:     "Either the thing is misspelled, or the reason has gone and the line can be struck.",
		Bad:     kestrel + "allow stale-check on QB25 because \"all in leaf\"\n",
		Good:    stale + "allow stale-check on AM26 because \"all in leaf\"\n",
	}
)

// allow drops the findings that the journal allows, and adds what is wrong with
// the allowing.
func allow(n *nursery.Nursery, list []finding.Finding) []finding.Finding {
	type key struct{ rule, thing string }
	allowed := map[key]*fact.Entry{}
	used := map[*fact.Entry]bool{}
	var allows []*fact.Entry
	for _, e := range n.Entries {
		f, ok := e.Effect.(*fact.Allow)
		if !ok {
			continue
		}
		allows = append(allows, e)
		if r, ok := Named(f.Rule.Text); ok && r.Silenceable() {
			allowed[key{f.Rule.Text, spelling.Fold(f.On.Text)}] = e
		}
	}
	if len(allows) == 0 {
		return list
	}
	out := list[:0]
	for _, f := range list {
		silent := false
		for _, about := range f.About {
			if e := allowed[key{f.Rule, spelling.Fold(about)}]; e != nil {
				used[e], silent = true, true
			}
		}
		if !silent {
			out = append(out, f)
		}
	}
	for _, e := range allows {
		if f := allowance(e, used[e]); f != nil {
			out = append(out, *f)
		}
	}
	return out
}

// allowance says what is wrong with one `allow`, or nil.
func allowance(e *fact.Entry, used bool) *finding.Finding {
	f := e.Effect.(*fact.Allow)
	say := func(r *Rule, n fact.Name, message string) *finding.Finding {
		return &finding.Finding{File: e.File, Span: n.Span, Severity: r.Severity, Rule: r.Name, Message: message, About: []string{f.On.Text}}
	}
	r, known := Named(f.Rule.Text)
	switch {
	case !known:
		found := say(allowUnknown, f.Rule, f.Rule.Text+" is no rule; budstick explain lists them")
		if near, ok := spelling.Suggest(f.Rule.Text, Names()); ok {
			found.Message = fmt.Sprintf("%s is no rule; did you mean %s?", f.Rule.Text, near)
			found.Mend = &finding.Mend{Span: f.Rule.Span, Text: near}
		}
		return found
	case !r.Silenceable():
		return say(allowNever, f.Rule, fmt.Sprintf("%s can't be allowed: an entry that contradicts the book does not count; strike what is wrong and write it anew", f.Rule.Text))
	case !used:
		return say(allowUnused, f.On, fmt.Sprintf("%s has nothing to say about %s, so this allows nothing; mend the name, or strike the line", f.Rule.Text, f.On.Text))
	}
	return nil
}
