package main

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/rule"
)

// filesUsage is how commands take journals.
const filesUsage = "[FILE | FOLDER …]"

// aboutFiles says the same in the help of each of them.
const aboutFiles = `A folder stands for all journals (` + suffix + `) in it and below; without any argument the folder at hand is read, and - is
standard input. All that is read is one journal.`

var lintCommand = &command{
	name:    "lint",
	summary: "find what contradicts itself in a journal, and what looks like a slip",
	usage:   filesUsage,
	long: `Every finding has its place, what is wrong, and where it can be said, what to write instead. An error is a contradiction; a
warning is probably a slip; a hint is worth a look. Lines and columns count from 1, and columns count characters.

` + aboutFiles,
	example: "--fail-on warning",
	setup:   setupLint,
}

func setupLint(flags *pflag.FlagSet) action {
	failOn, form, stdinName, quiet := finding.Error.String(), render.All[0].Name, "", false
	flags.Var(oneOf(&failOn, finding.Error.String(), finding.Warning.String(), finding.Hint.String()), "fail-on",
		"end with status 1 where there is a finding of this `SEVERITY` or a graver one: error, warning or hint")
	flags.Var(oneOf(&form, render.Names()...), "as", "write `FORM`: "+strings.Join(render.Names(), ", "))
	flags.BoolVarP(&quiet, "quiet", "q", false, "leave out the summary")
	addStdinName(flags, &stdinName)
	return func(t *terminal, args []string) (status, error) {
		j, err := load(t, args, stdinName)
		if err != nil {
			return statusCannot, err
		}
		severity, _ := finding.ParseSeverity(failOn)
		shape, _ := render.Named(form)
		_, list := j.lint(t)
		err = t.data.findings(shape, render.Result{
			Findings: list, Files: j.names(), Rules: pagesOfRules(), FailOn: severity, Version: version(),
		})
		if err != nil {
			return statusCannot, err
		}
		if !quiet {
			t.say("%s", summary(j, list))
		}
		if finding.Worst(list) >= severity {
			return statusFound, nil
		}
		return statusDone, nil
	}
}

// addStdinName lets a command read standard input under a name.
func addStdinName(flags *pflag.FlagSet, to *string) {
	*to = "standard-input"
	flags.StringVar(to, "stdin-name", *to, "call standard input `NAME` in messages")
}

// pagesOfRules is what forms for programs tell of the rules.
func pagesOfRules() []render.Rule {
	list := make([]render.Rule, len(rule.All))
	for i, r := range rule.All {
		list[i] = render.Rule{Name: r.Name, Severity: r.Severity, Summary: r.Summary, Why: r.Why}
	}
	return list
}

// summary says how much was read and found.
func summary(j journal, list []finding.Finding) string {
	read := fmt.Sprintf("%s in %s", counted(j.entries(), "entry", "entries"), counted(len(j.pages), "file", "files"))
	switch {
	case len(list) > 0:
		return read + ": " + tally(list)
	case j.entries() == 0:
		return read + ": the journal is empty"
	}
	return read + ": nothing to find fault with"
}

// tally counts findings by severity, the worst first.
func tally(list []finding.Finding) string {
	var of [finding.Error + 1]int
	for _, f := range list {
		of[f.Severity]++
	}
	var parts []string
	for severity := finding.Error; severity >= finding.Hint; severity-- {
		if n := of[severity]; n > 0 {
			parts = append(parts, counted(n, severity.String(), severity.String()+"s"))
		}
	}
	return strings.Join(parts, ", ")
}

// counted writes a number with the noun that it counts.
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
