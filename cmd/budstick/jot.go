package main

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/format"
	"github.com/budstick/budstick/grammar/source"
)

var jotCommand = &command{
	name:    "jot",
	summary: "write an entry at the end of the journal, after looking it over",
	usage:   "ENTRY " + filesUsage,
	long: `Adds an entry under today's day, or that of --day, to the file that the journal goes on in: the one whose last day is latest,
or that of --into. What contradicts the book is refused and nothing is written. An entry of an earlier day than the last
one goes under the last one, with happened and the day it was, since days never go back. Several entries can be given as one
text of several lines: all are written or none, and an indented line goes on with the entry above it.

The file is replaced in one step, and two runs at once wait for one another, so that no entry is lost.

` + aboutFiles,
	example: `"lose 2 of AM26t to frost" --day 2026-11-16`,
	setup: func(flags *pflag.FlagSet) action {
		j := &jotting{}
		flags.Var(day(&j.day), "day", "write it under `DATE`, instead of today")
		flags.StringVar(&j.into, "into", "", "write it into `FILE`")
		return j.run
	},
}

// jotting is what the flags of jot say.
type jotting struct {
	day  fact.Date
	into string
}

func (j *jotting) run(t *terminal, args []string) (status, error) {
	if len(args) == 0 || strings.TrimSpace(args[0]) == "" {
		return statusCannot, usageError{`jot what? Give the entry as one word of the command line: budstick jot "lose 2 of AM26 to frost"`, "budstick jot --help"}
	}
	if slices.Contains(args[1:], stdinFile) {
		return statusCannot, usageError{"an entry is written into a file, and standard input is none", "budstick jot --help"}
	}
	if j.day == 0 {
		j.day = today()
	}
	entries, err := entriesIn(args[0])
	if err != nil {
		return statusCannot, err
	}
	for {
		page, text, found, err := j.compose(t, entries, args[1:])
		switch {
		case err != nil:
			return statusCannot, err
		case len(errorsIn(found)) > 0:
			return refuseFor(t, errorsIn(found), "so nothing is written")
		}
		err = rewriteFile(page.Path, page.Bytes, text)
		if errors.Is(err, errChanged) {
			continue // another run was quicker, so this one looks again
		}
		if err != nil {
			return statusCannot, err
		}
		t.say("%s: written", page.Path)
		_, err = tellOf(t, found)
		return statusDone, err
	}
}

// entriesIn parts a text into entries of lines without blanks at either end: a
// line that is indented, measured by the first, goes on with the entry above it.
func entriesIn(text string) ([][]string, error) {
	var entries [][]string
	margin := -1
	for line := range strings.Lines(text) {
		words := strings.TrimSpace(line)
		if words == "" {
			continue
		}
		indent := strings.Index(line, words)
		if margin < 0 {
			margin = indent
		}
		switch {
		case indent > margin:
			last := len(entries) - 1
			entries[last] = append(entries[last], words)
		case words[0] >= '0' && words[0] <= '9':
			return nil, usageError{words + " begins like a day; give the entry alone, and its day with --day", "budstick jot --help"}
		case words[0] == '#':
			return nil, usageError{"a comment is no entry; what is to be read later is a note: note \"…\"", "budstick jot --help"}
		default:
			entries = append(entries, []string{words})
		}
	}
	return entries, nil
}

// compose reads the journal and adds the entries to it. It gives the file as it
// was, the text it should have, and what is found about that.
func (j *jotting) compose(t *terminal, entries [][]string, args []string) (was *source.File, text []byte, found []finding.Finding, err error) {
	book, err := load(t, args, "")
	if err != nil {
		return nil, nil, nil, err
	}
	i, err := j.page(book)
	if err != nil {
		return nil, nil, nil, err
	}
	was = book.pages[i].File
	fresh, added, err := j.extend(book.pages[i], entries)
	if err != nil {
		return nil, nil, nil, err
	}
	book.pages[i] = entry.Read(fresh)
	_, found = book.lint(t)
	found = about(found, fresh, added)
	return was, tidy(book.pages[i], added), found, nil
}

// page is the file that the journal goes on in.
func (j *jotting) page(book journal) (int, error) {
	if j.into != "" {
		return book.at(j.into)
	}
	last, at := fact.Date(-1), -1
	for i, p := range book.pages {
		if p.Last() >= last {
			last, at = p.Last(), i
		}
	}
	return at, nil
}

// extend puts entries behind the text of a page, under their day, and gives the
// place of what was added.
func (j *jotting) extend(p *entry.Page, entries [][]string) (*source.File, source.Span, error) {
	if p.File.NotText() >= 0 {
		return nil, source.Span{}, errors.New(p.File.Path + " is no text")
	}
	end := lineEnding(p.File.Bytes)
	var b bytes.Buffer
	b.Write(p.File.Bytes)
	if b.Len() > 0 && !bytes.HasSuffix(p.File.Bytes, []byte("\n")) {
		b.WriteString(end)
	}
	last := p.Last()
	if j.day > last {
		if b.Len() > 0 {
			b.WriteString(end)
		}
		b.WriteString(j.day.String() + end)
	}
	start := b.Len()
	for _, lines := range entries {
		if j.day < last {
			lines = append(slices.Clone(lines), "happened "+j.day.String())
		}
		b.WriteString(strings.Join(lines, end+"  ") + end)
	}
	return source.New(p.File.Path, b.Bytes()), source.Span{Start: int32(start), End: int32(b.Len())}, nil
}

// about keeps the findings of what was added, and errors that it causes
// elsewhere.
func about(found []finding.Finding, f *source.File, added source.Span) []finding.Finding {
	var list []finding.Finding
	for _, x := range found {
		if x.Severity == finding.Error || x.File == f && x.Span.Start >= added.Start {
			list = append(list, x)
		}
	}
	return list
}

// tidy lays out what was added, and nothing else.
func tidy(p *entry.Page, added source.Span) []byte {
	edits, _ := format.Edits(p, added)
	return format.Apply(p.File.Bytes, edits)
}
