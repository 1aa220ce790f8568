package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/entry"
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/format"
	"github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/screen"
	"github.com/budstick/budstick/grammar/source"
)

var bringCommand = &command{
	name:    "bring",
	summary: "make a journal of a spreadsheet of past records, by a mapping",
	usage:   "SHEET MAPPING " + filesUsage,
	long: `SHEET is the spreadsheet, written as CSV, with the names of its columns in the first row. MAPPING is a text that says with
which sentence each row is written, and what of the sheet goes where in it; FORMAT.md tells how, and examples/grafting-book
has one to copy. The files that follow are journals that the new one must agree with, such as the one with the standing facts.

All is brought or nothing: each row must be for a sentence or be left out by the mapping, and what comes of it must have no
error. What can't be placed is told row by row. The journal is printed, or written into the new file of --output.`,
	example: "book.csv book.map farm.bud --output season-2025.bud",
	setup: func(flags *pflag.FlagSet) action {
		into := ""
		flags.StringVarP(&into, "output", "o", "", "write into the new `FILE`")
		return func(t *terminal, args []string) (status, error) { return bring(t, args, into) }
	},
}

func bring(t *terminal, args []string, into string) (status, error) {
	if len(args) < 2 {
		return statusCannot, usageError{"bring needs a sheet and a mapping: budstick bring book.csv book.map", "budstick bring --help"}
	}
	if into != "" {
		if err := newJournal(into); err != nil {
			return statusCannot, err
		}
	}
	sheetFile, mappingFile, others, err := readForBringing(t, args)
	if err != nil {
		return statusCannot, err
	}
	m, faults := readMapping(mappingFile)
	if len(faults) > 0 {
		return tellFaults(t, mappingFile, faults, statusCannot)
	}
	s, faults := readSheet(sheetFile, m)
	if len(faults) > 0 {
		return tellFaults(t, sheetFile, faults, statusCannot)
	}
	unused, faults := m.compare(s)
	if len(faults) > 0 {
		return tellFaults(t, mappingFile, faults, statusCannot)
	}
	b := brought{sheet: sheetFile, path: cmp.Or(into, strings.TrimSuffix(sheetFile.Path, ".csv")+suffix)}
	faults = append(s.faults, b.place(m, s)...)
	if len(faults) > 0 {
		return tellFaults(t, sheetFile, faults, statusFound)
	}
	if len(unused) > 0 {
		t.say("columns that the mapping does not name: %s", strings.Join(unused, ", "))
	}
	return b.deliver(t, others, into)
}

// newJournal is an error unless a journal can be made under the name.
func newJournal(path string) error {
	if !strings.HasSuffix(path, suffix) {
		return usageError{fmt.Sprintf("a journal's name ends in %s, such as %s%s", suffix, strings.TrimSuffix(path, filepath.Ext(path)), suffix), ""}
	}
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("%s is there already, and is never written over", path)
	}
	return nil
}

// readForBringing reads the sheet, the mapping and the journals to agree with.
func readForBringing(t *terminal, args []string) (sheet, mapping *source.File, others []*entry.Page, err error) {
	two := make([]*source.File, 2)
	for i, path := range args[:2] {
		list, err := read(t, []string{path}, "standard-input")
		if err != nil {
			return nil, nil, nil, err
		}
		if len(list) != 1 || list[0].Path != path && path != stdinFile {
			return nil, nil, nil, usageError{path + " is a folder; bring takes a sheet and a mapping first", "budstick bring --help"}
		}
		two[i] = list[0]
	}
	if len(args) > 2 {
		j, err := load(t, args[2:], "standard-input")
		if err != nil {
			return nil, nil, nil, err
		}
		others = j.pages
	}
	return two[0], two[1], others, nil
}

// tellFaults tells what is wrong, line by line.
func tellFaults(t *terminal, file *source.File, faults []fault, code status) (status, error) {
	slices.SortStableFunc(faults, func(a, b fault) int { return cmp.Compare(a.line, b.line) })
	for _, f := range faults {
		t.say("%s:%d: %s", file.Path, f.line, f.message)
	}
	t.say("\n%s, so nothing is brought.", counted(len(faults), "thing is wrong", "things are wrong"))
	return code, nil
}

// compare gives the columns of a sheet that the mapping does not name, and
// faults for those that it names and the sheet has not, or twice.
func (m *mapping) compare(s sheet) (unused []string, faults []fault) {
	count := map[string]int{}
	for _, c := range s.columns {
		count[name.Fold(c)]++
	}
	named := map[string]bool{}
	m.columns(func(line int, column string) {
		key := name.Fold(column)
		switch n := count[key]; {
		case named[key]:
		case n == 0:
			faults = append(faults, fault{line, fmt.Sprintf("the sheet has no column %s%s; it has %s", column, orMeant(column, s.columns), strings.Join(s.columns, ", "))})
		case n > 1:
			faults = append(faults, fault{line, fmt.Sprintf("the sheet has %d columns %s; give one of them another name", n, column)})
		}
		named[key] = true
	})
	for _, c := range s.columns {
		if c != "" && !named[name.Fold(c)] {
			unused = append(unused, c)
		}
	}
	return unused, faults
}

// brought is a journal in the making.
type brought struct {
	sheet *source.File
	path  string
	once  []made // what stands above the first day
	made  []made
	rows  map[int]int // rows of the sheet by the lines of the journal
}

// made is an entry that a row became.
type made struct {
	day  fact.Date
	row  int
	text string
}

// place makes the entries of all rows, in order of their days, and gives the
// rows that it can't place.
func (b *brought) place(m *mapping, s sheet) []fault {
	var faults []fault
	stands := map[string]bool{}
	for _, r := range s.rows {
		if slices.ContainsFunc(m.left, func(where []condition) bool { return holds(where, r) }) {
			continue
		}
		placed := false
		for _, p := range m.recipes {
			if !holds(p.where, r) {
				continue
			}
			if p.day == "" {
				for _, x := range p.standing(r) {
					if !stands[x.text] {
						stands[x.text] = true
						b.once = append(b.once, x)
					}
				}
				continue
			}
			placed = true
			list, wrong := p.entries(m, r)
			b.made, faults = append(b.made, list...), append(faults, wrong...)
		}
		if !placed {
			faults = append(faults, fault{r.line, "no sentence of the mapping is for this row" + m.asked(r)})
		}
	}
	slices.SortStableFunc(b.made, func(x, y made) int { return cmp.Compare(x.day, y.day) })
	return faults
}

// asked says what a row has in the columns by which sentences are chosen.
func (m *mapping) asked(r row) string {
	var list []string
	for _, p := range m.recipes {
		for _, c := range p.where {
			if said := fmt.Sprintf("%s is %q", c.column, r.cell(c.column)); p.day != "" && !slices.Contains(list, said) {
				list = append(list, said)
			}
		}
	}
	if list == nil {
		return ""
	}
	return ": its " + strings.Join(list, ", ")
}

// standing makes what stands once; a sentence with an empty column is left out.
func (p recipe) standing(r row) []made {
	var list []made
	for _, s := range p.sentences {
		if text, missing := s.fill(r); len(missing) == 0 {
			list = append(list, made{row: r.line, text: text})
		}
	}
	return list
}

// entries makes the entries of a row, which all stand under one day.
func (p recipe) entries(m *mapping, r row) (list []made, faults []fault) {
	cell := r.cell(p.day)
	day, ok := m.date(cell)
	switch {
	case cell == "":
		faults = append(faults, fault{r.line, p.day + " is empty, so there is no day to write it under"})
	case !ok:
		faults = append(faults, fault{r.line, m.notDate(cell)})
	}
	for _, s := range p.sentences {
		text, missing := s.fill(r)
		for _, column := range missing {
			faults = append(faults, fault{r.line, fmt.Sprintf("%s is empty, and the sentence of line %d of the mapping needs it", column, s.line)})
		}
		list = append(list, made{day, r.line, text})
	}
	return list, faults
}

// fill writes a sentence for a row, its lines indented but the first.
func (s sentence) fill(r row) (text string, missing []string) {
	var lines []string
	for _, t := range s.lines {
		line, empty := t.fill(r.cell)
		missing = append(missing, empty...)
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n  "), missing
}

// file writes the journal down.
func (b *brought) file() *source.File {
	var text bytes.Buffer
	b.rows = map[int]int{}
	line := 0
	put := func(s string, row int) {
		for l := range strings.SplitSeq(s, "\n") {
			line++
			b.rows[line] = row
			text.WriteString(l + "\n")
		}
	}
	put("# Brought from "+screen.Visible(b.sheet.Path)+".", 0)
	for _, x := range b.once {
		put(x.text, x.row)
	}
	day := fact.Date(0)
	for _, x := range b.made {
		if x.day != day {
			day = x.day
			put("\n"+day.String(), x.row)
		}
		put(x.text, x.row)
	}
	return source.New(b.path, text.Bytes())
}

// deliver looks the journal over, together with the others, and writes it.
func (b *brought) deliver(t *terminal, others []*entry.Page, into string) (status, error) {
	file := b.file()
	if tidied, _, ok := format.File(file); ok {
		file = source.New(b.path, tidied) // which has the same lines
	}
	book := journal{append(slices.Clone(others), entry.Read(file))}
	_, found := book.lint(t)
	found = about(found, file, source.Span{})
	for i, f := range found {
		if f.File == file {
			found[i].Related = append(slices.Clone(f.Related), b.from(file.Line(f.Span.Start))...)
		}
	}
	errs := errorsIn(found)
	if len(errs) > 0 {
		found = errs
	}
	if err := t.talk.findings(render.All[0], render.Result{Findings: found}); err != nil {
		return statusCannot, err
	}
	if len(errs) > 0 {
		t.say("\nThe journal would have %s, so nothing is brought.", tally(errs))
		return statusFound, nil
	}
	if into == "" {
		return statusDone, t.data.write(func(w io.Writer) error { _, err := w.Write(file.Bytes); return err })
	}
	if err := rewriteFile(into, nil, file.Bytes); err != nil {
		return statusCannot, err
	}
	t.say("%s: written, %s", into, counted(len(book.pages[len(book.pages)-1].Entries), "entry", "entries"))
	return statusDone, nil
}

// from is the row that a line of the journal was made of.
func (b *brought) from(line int) []finding.Related {
	row := b.rows[line]
	if row == 0 {
		return nil
	}
	at := b.sheet.LineSpan(row).Start
	return []finding.Related{{File: b.sheet, Span: source.Span{Start: at, End: at}, Message: "made of this row"}}
}
