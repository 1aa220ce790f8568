package main

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/grammar/source"
)

// limitsPage is the word that explains all limits instead of a rule.
const limitsPage = "limits"

var explainCommand = &command{
	name:    "explain",
	summary: "tell what a rule asks and why, or how an entry is written",
	usage:   "[RULE | VERB | LIMIT | " + limitsPage + "]",
	long: `Without a word it lists all rules. The rule of a finding stands in brackets at the end of its first line. Of a verb, such as
graft, it tells what the entry means and what can stand in it.

limits lists the rules of thumb that a journal can change with an entry such as: limit old-wood 21 days. Of one of them it
tells the value, for all species and methods.`,
	example: "old-wood",
	setup:   func(*pflag.FlagSet) action { return explain },
}

func explain(t *terminal, args []string) (status, error) {
	switch {
	case len(args) == 0:
		return statusDone, t.data.print(listOfRules(t.data))
	case len(args) > 1:
		return statusCannot, usageError{"explain is about one word at a time", "budstick explain"}
	case args[0] == limitsPage:
		return statusDone, t.data.print(limitsOf(t.data, limitNames()...) + aboutLimits)
	}
	word := args[0]
	if r, ok := rule.Named(word); ok {
		return statusDone, t.data.print(rulePage(t.data, r))
	}
	if k, ok := entry.Named(word); ok {
		return statusDone, t.data.print(kindPage(t.data, k))
	}
	if slices.Contains(limitNames(), word) {
		return statusDone, t.data.print(limitsOf(t.data, word) + aboutLimits)
	}
	var among []string
	for _, w := range explained() {
		among = append(among, w.word)
	}
	return statusCannot, usageError{fmt.Sprintf("there is no rule, verb or limit %s%s", word, orMeant(word, among)), "budstick explain"}
}

// explained lists all that can be explained, with what it is.
func explained() []way {
	list := waysOf(rule.All, func(r *rule.Rule) way { return way{r.Name, r.Summary} })
	list = append(list, waysOf(entry.All, func(k *entry.Kind) way { return way{k.Verb, k.Summary} })...)
	for _, name := range limitNames() {
		if _, ok := rule.Named(name); !ok {
			list = append(list, way{name, "a rule of thumb"})
		}
	}
	return append(list, way{limitsPage, "the rules of thumb"})
}

// listOfRules names every rule, the gravest first.
func listOfRules(s *stream) string {
	var b strings.Builder
	for severity := finding.Error; severity >= finding.Hint; severity-- {
		var rows [][2]string
		for _, r := range rule.All {
			if r.Severity == severity {
				rows = append(rows, [2]string{r.Name, r.Summary})
			}
		}
		if len(rows) > 0 {
			fmt.Fprintf(&b, "%s\n%s\n", s.heading(severity.String()+"s"), columns(rows, s.width))
		}
	}
	b.WriteString("budstick explain RULE tells why, with an example; of a verb, such as graft, it tells how an entry is written.\n")
	return b.String()
}

// rulePage is what there is to say of one rule.
func rulePage(s *stream, r *rule.Rule) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n", s.heading(r.Name+" ("+r.Severity.String()+")"), wrapped(r.Summary, 0, s.width))
	fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("why"), wrapped(r.Why, 0, s.width))
	if len(r.Limits) > 0 {
		fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("changed by"), wrapped("limit "+strings.Join(r.Limits, ", limit ")+"; where a journal says nothing:", 0, s.width))
		b.WriteString(limitsOf(s, r.Limits...))
	}
	if r.Silenceable() {
		fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("silenced by"), wrapped("allow "+r.Name+" on NAME because \"…\"", 0, s.width))
	}
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("found in"), example(r.Bad))
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("which says"), saidOf(s, r.Bad))
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("put right"), example(changedLines(r.Bad, r.Good)))
	return b.String()
}

// example shows a journal, indented.
func example(text string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		b.WriteString(strings.TrimRight("    "+line, " ") + "\n")
	}
	return b.String()
}

// changedLines is what of the lines of now differs from before, with an ellipsis
// for those at both ends that don't.
func changedLines(before, now string) string {
	a, b := strings.Split(strings.TrimSpace(before), "\n"), strings.Split(strings.TrimSpace(now), "\n")
	head, tail := 0, 0
	for head < min(len(a), len(b)) && a[head] == b[head] {
		head++
	}
	for tail < min(len(a), len(b))-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	lines := b[head : len(b)-tail]
	if head > 0 {
		lines = append([]string{"…"}, lines...)
	}
	if tail > 0 {
		lines = append(slices.Clone(lines), "…")
	}
	return strings.Join(lines, "\n")
}

// saidOf is what the linter says of an example.
func saidOf(s *stream, text string) string {
	page := entry.Read(source.New("example"+suffix, []byte(text)))
	found := rule.Check(nursery.Replay([]*entry.Page{page}, 0))
	var b strings.Builder
	form := render.All[0]
	// Writing to memory does not fail.
	_ = form.Write(&b, render.Result{Findings: found}, render.Options{Width: s.width, Colour: s.colour})
	return b.String()
}

// kindPage is what there is to say of a kind of entry.
func kindPage(s *stream, k *entry.Kind) string {
	var b strings.Builder
	form := k.Grammar.Form()
	fmt.Fprintf(&b, "%s\n\n%s\n", s.heading(k.Verb), wrapped(k.Summary, 0, s.width))
	fmt.Fprintf(&b, "\n%s\n%s\n", s.heading("what it means"), wrapped(plainWords(k.Text), 0, s.width))
	fmt.Fprintf(&b, "\n%s\n    %s\n", s.heading("how it is written"), wrapped(form.Sentence, 6, s.width))
	clauses := func(title string, list []string) {
		if len(list) > 0 {
			fmt.Fprintf(&b, "\n%s\n", s.heading(title))
		}
		for _, c := range list {
			fmt.Fprintf(&b, "    %s\n", wrapped(c, 6, s.width))
		}
	}
	clauses("then, in any order", form.Clauses)
	clauses("and, as in most entries", form.Shared)
	fmt.Fprintf(&b, "\n%s\n%s", s.heading("for example"), example(strings.Join(k.Sentences(), "\n")))
	b.WriteString("\n" + wrapped("What stands in brackets may be left out, and a bar parts what there is to choose from. FORMAT.md tells of all entries.", 0, s.width) + "\n")
	return b.String()
}

// quotedCode is words of the language in a text.
var quotedCode = regexp.MustCompile("`[^`]*`")

// plainWords puts words of the language in quotes, unless they hold some.
func plainWords(text string) string {
	return quotedCode.ReplaceAllStringFunc(text, func(code string) string {
		code = strings.Trim(code, "`")
		if strings.Contains(code, `"`) {
			return code
		}
		return `"` + code + `"`
	})
}

const aboutLimits = "\nA journal changes one with an entry such as: limit old-wood 21 days for Ficus\n"

func limitNames() []string { return slices.Sorted(maps.Keys(nursery.KnownLimits())) }

// limitsOf tells the values of some limits: the general one, and below it those
// of species and methods, those that are alike together.
func limitsOf(s *stream, names ...string) string {
	type said struct {
		value, mark string
		general     bool
	}
	var rows [][2]string
	for _, name := range names {
		var all []said
		things := map[said][]string{}
		for _, d := range nursery.Defaults() {
			if d.Name != name {
				continue
			}
			one := said{d.String(), d.Mark, d.For == ""}
			if things[one] == nil {
				all = append(all, one)
			}
			things[one] = append(things[one], d.For)
		}
		title := name
		for _, one := range all {
			text := one.value
			if !one.general {
				text += " for " + strings.Join(things[one], ", ")
			}
			rows = append(rows, [2]string{title, text + " (" + one.mark + ")"})
			title = ""
		}
	}
	return columns(rows, s.width)
}
