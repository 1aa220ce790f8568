package main

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/format"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/grammar/source"
)

var formatCommand = &command{
	name:    "format",
	summary: "lay a journal out in the one way that all journals are laid out",
	usage:   filesUsage,
	long: `It parts words by one blank, indents what goes on with an entry, and writes keywords, units, quotes and dashes in their plain
form. It never changes a word, a comment or the number of lines, nor a byte above a seal, and leaves a file with an error in
it as it is.

Without -w the text of one journal is printed. With it each file that is not formatted is replaced by a new one in one step.
With --lines only the entries on those lines are laid out, and an error elsewhere does no harm.

` + aboutFiles,
	example: "-w season-2026.bud",
	setup:   setupFormat,
}

func setupFormat(flags *pflag.FlagSet) action {
	write, check, stdinName := false, false, ""
	flags.BoolVarP(&write, "write", "w", false, "replace each file that is not formatted, and name it")
	flags.BoolVar(&check, "check", false, "write nothing; name each file that is not formatted and end with status 1 where there is one")
	some := lineRange{}
	flags.Var(linesOf(&some), "lines", "lay out only the entries that stand on these lines of one file: `FIRST-LAST`")
	addStdinName(flags, &stdinName)
	return func(t *terminal, args []string) (status, error) {
		if write && check {
			return statusCannot, usageError{"--write writes and --check does not; choose one", "budstick format --help"}
		}
		files, err := read(t, args, stdinName)
		if err != nil {
			return statusCannot, err
		}
		if !write && !check && len(files) > 1 {
			return statusCannot, usageError{fmt.Sprintf("the text of %d files can't be printed as one; use -w to replace them or --check to name those that are not formatted", len(files)), ""}
		}
		if some.last > 0 && len(files) > 1 {
			return statusCannot, usageError{fmt.Sprintf("--lines are those of one file, and these are %d", len(files)), "budstick format --help"}
		}
		if write && slices.Contains(args, stdinFile) {
			return statusCannot, usageError{"standard input can't be replaced; leave out -w to print it", ""}
		}
		laidOut := t.doing("laying the journal out")
		l := layAllOut(files, some)
		laidOut()
		if !write && !check && len(l.errors) == 0 {
			return statusDone, t.data.print(string(l.formatted[0]))
		}
		return l.settle(t, write)
	}
}

// A layout is files and how they are to be laid out.
type layout struct {
	files     []*source.File
	formatted [][]byte          // nil for a file with errors
	errors    []finding.Finding // of all files
	broken    int               // files with errors
}

func layAllOut(files []*source.File, some lineRange) layout {
	lay := format.File
	if some.last > 0 {
		lay = func(f *source.File) ([]byte, []finding.Finding, bool) { return format.Lines(f, some.first, some.last) }
	}
	l := layout{files: files, formatted: make([][]byte, len(files))}
	found := make([][]finding.Finding, len(files))
	each(len(files), func(i int) {
		var ok bool
		if l.formatted[i], found[i], ok = lay(files[i]); ok {
			found[i] = nil
		}
	})
	for _, list := range found {
		if len(list) > 0 {
			l.broken++
		}
		for _, f := range list {
			if f.Severity == finding.Error {
				l.errors = append(l.errors, f)
			}
		}
	}
	finding.Sort(l.errors)
	return l
}

// settle names the files that are not formatted, replaces them where it is to,
// and tells of the errors in those that are left as they are.
func (l layout) settle(t *terminal, write bool) (status, error) {
	n := 0
	for i, f := range l.files {
		if l.formatted[i] == nil || bytes.Equal(f.Bytes, l.formatted[i]) {
			continue
		}
		n++
		if write {
			if err := rewriteFile(f.Path, f.Bytes, l.formatted[i]); err != nil {
				return statusCannot, err
			}
		}
		if err := t.data.print(screen.Visible(f.Path) + "\n"); err != nil {
			return statusCannot, err
		}
	}
	if l.broken > 0 {
		if err := t.talk.findings(render.All[0], render.Result{Findings: l.errors}); err != nil {
			return statusCannot, err
		}
		return statusCannot, fmt.Errorf("%s in %s, left as it was", tally(l.errors), counted(l.broken, "file", "files"))
	}
	if n > 0 && !write {
		return statusFound, nil
	}
	return statusDone, nil
}
