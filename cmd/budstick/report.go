package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/grammar/render"
	"github.com/budstick/budstick/grammar/rule"
	"github.com/budstick/budstick/report"
	"github.com/budstick/budstick/report/table"
)

// reportCommands makes a command of every report.
func reportCommands() []*command {
	list := make([]*command, len(report.All))
	for i, r := range report.All {
		list[i] = &command{
			name: r.Name, summary: r.Summary, usage: strings.TrimSpace(subjectUsage[r.Subject] + " " + filesUsage),
			long: r.Long + "\n\n" + aboutFiles, example: r.Example,
			setup: func(flags *pflag.FlagSet) action { return setupReport(flags, r) },
		}
	}
	return list
}

var subjectUsage = map[report.Subject]string{report.OneThing: "NAME", report.SeveralThings: "[NAME …]", report.OneSeason: "[YEAR]"}

// forms are the ways in which a report can be written.
var forms = []string{"text", "csv", "json", "html", "svg", "dot", "ics"}

// request is what the flags of a report say.
type request struct {
	report    *report.Report
	options   report.Options
	errors    []finding.Finding // that contradict the book
	asAt      fact.Date
	seasons   []int
	from, to  fact.Date
	form      string
	part      string
	file      string
	despite   bool
	stdinName string
	kind      string
	attempts  string
	step      string
	sure      int
	cut       []cutTable // tables that the page shows only in part
}

// stepWords are the words of --step, by what they mean.
var stepWords = []string{report.FitStep: "", report.Week: "week", report.Month: "month"}

// setupReport adds the flags for what the report takes.
func setupReport(flags *pflag.FlagSet, r *report.Report) action {
	q := &request{report: r, kind: nursery.GraftBatch.String(), attempts: "first"}
	q.addRows(flags)
	q.addSelection(flags)
	q.addForm(flags)
	return q.run
}

// addRows adds the flags that say what is counted, compared or planned.
func (q *request) addRows(flags *pflag.FlagSet) {
	r, o := q.report, &q.options
	if r.Takes.Has(report.Groups) {
		flags.Var(words(&o.By, r.By), "by", "part the rows by `WHAT`, several with commas: "+strings.Join(r.By, ", "))
	}
	if r.Takes.Has(report.Factors) {
		flags.Var(words(&o.By, r.By), "on", "look for the effect of `WHAT`, several with commas: "+strings.Join(r.By, ", "))
		flags.Var(twoWords(&o.Interactions, r.By), "interaction", "ask whether the effect of one hangs on the other, `TWO` of them with a comma")
		flags.Var(words(&o.Pairs, r.By), "pairs", "compare the values of `WHAT` two by two")
	}
	if r.Takes.Has(report.Kinds) {
		flags.Var(oneOf(&q.kind, "graft", "layer", "cutting", "seed"), "kind", "count attempts of this `KIND`: graft, layer, cutting or seed")
	}
	if r.Takes.Has(report.Ordinals) {
		flags.Var(oneOf(&q.attempts, "first", "again", "all"), "attempts", "count `WHICH` attempts on a stock: first, again (the later ones) or all")
	}
	if r.Takes.Has(report.Steps) {
		flags.Var(oneOf(&q.step, stepWords[report.Week:]...), "step", "a point for every `STEP`, week or month; otherwise weeks, of more than a year months")
	}
	if r.Takes.Has(report.Target) {
		flags.Var(number(&o.Want.Count, 1, 1_000_000_000), "want", "plan for `N` trees")
		flags.StringVar(&o.Want.Variety, "variety", "", "of this variety, `NAME`")
		flags.Var(day(&o.Want.By), "by", "to be ready on `DATE`")
		flags.Var(number(&q.sure, 1, 99), "sure", "as sure as `N` seasons in a hundred")
		flags.Var(supposition(&o.WhatIf), "what-if", "suppose a link of the plan to have a share, `LINK=SHARE` such as take=0.85; links are "+strings.Join(report.PlanLinks, ", "))
	}
}

// addSelection adds the flags that say of which time and which things, and what is
// particular to one report.
func (q *request) addSelection(flags *pflag.FlagSet) {
	r, o := q.report, &q.options
	if r.Takes.Has(report.Spans) {
		flags.Var(years(&q.seasons), "season", "only the season that ends in `YEAR`")
		flags.Var(day(&q.from), "from", "only from `DATE` on")
		flags.Var(day(&q.to), "to", "only up to `DATE`")
	}
	if r.Takes.Has(report.Pair) {
		flags.Var(years(&q.seasons), "season", "a season, by the `YEAR` in which it ends; give two")
	}
	if r.Takes.Has(report.Since) {
		flags.Var(day(&q.from), "since", "only what was done on `DATE` or later")
	}
	if r.Takes.Has(report.Genotype) {
		flags.BoolVar(&o.Clones, "clones", false, "only what is of the same genotype at its top")
	}
	if r.Takes.Has(report.Ages) {
		flags.Var(number(&o.Age, 1, 3660), "age", "compare attempts as they were known `N` days after")
	}
	if r.Takes.Has(report.Pricing) {
		flags.Var(number(&o.Selling, 1, 99), "selling", "take it that selling costs `N` of every hundred of a price")
		flags.Var(number(&o.Margin, 1, 99), "margin", "tell the price that leaves `N` of every hundred")
	}
	if r.Takes.Has(report.Labels) {
		flags.Var(number(&o.Copies, 1, 10_000), "copies", "make `N` labels")
	}
	if r.Takes.Has(report.Purposes) {
		flags.Var(oneOf(&o.For, r.For...), "for", "make it for `WHOM`: "+strings.Join(r.For, " or "))
	}
	if r.Takes.Has(report.Filters) {
		for _, name := range []string{"variety", "stock", "mother", "method", "worker", "place", "tag"} {
			flags.Var(filter(o, name), name, "only of this "+name+", `NAME`; several are alternatives")
		}
	}
	if r.Takes.Has(report.Deep) {
		flags.Var(number(&o.Depth, 1, 1000), "depth", "draw no more than `N` steps")
	}
	if r.Takes.Has(report.Horizon) {
		flags.Var(number(&o.Days, 1, 3660), "days", "look `N` days ahead")
	}
}

// addForm adds the flags of every report.
func (q *request) addForm(flags *pflag.FlagSet) {
	flags.Var(day(&q.asAt), "as-at", "reckon as at the end of `DATE`, instead of the last day in the journal")
	flags.Var(oneOf(&q.form, forms...), "as", "write `FORM`: "+strings.Join(forms, ", ")+" (a graph; a calendar, for dates); text unless the name of --output ends in another")
	flags.StringVar(&q.part, "part", "", "write `WHICH` table as CSV, by its name in JSON, or which drawing as SVG, by its number; otherwise the first")
	flags.StringVarP(&q.file, "output", "o", "", "write into `FILE`")
	flags.BoolVar(&q.despite, "despite-errors", false, "make the report though the journal has errors; it says so")
	addStdinName(flags, &q.stdinName)
}

// filter adds a restriction to a report's options.
func filter(o *report.Options, name string) pflag.Value {
	return value[[]table.Filter]{&o.Filters, func(s string) ([]table.Filter, error) {
		if strings.TrimSpace(s) == "" {
			return nil, errors.New("no name is given")
		}
		return append(o.Filters, table.Filter{Name: name, Value: s}), nil
	}, func([]table.Filter) string { return "" }}
}

// supposition is a share that a link of a plan is supposed to have.
func supposition(to *[]report.Supposition) pflag.Value {
	return value[[]report.Supposition]{to, func(s string) ([]report.Supposition, error) {
		link, share, ok := strings.Cut(s, "=")
		if !ok {
			return nil, fmt.Errorf("%s is no supposition; write take=0.85", s)
		}
		if err := among(link, report.PlanLinks); err != nil {
			return nil, err
		}
		x, err := strconv.ParseFloat(share, 64)
		if err != nil || !(x > 0 && x <= 1) {
			return nil, fmt.Errorf("%s is no share above 0 and up to 1, such as 0.85", share)
		}
		return append(*to, report.Supposition{Link: link, Share: x}), nil
	}, func([]report.Supposition) string { return "" }}
}

// run makes the report and writes it.
func (q *request) run(t *terminal, args []string) (status, error) {
	args, err := q.subject(args)
	if err != nil {
		return statusCannot, err
	}
	if err := q.understand(); err != nil {
		return statusCannot, err
	}
	n, err := q.nurseries(t, args)
	if err != nil {
		return statusCannot, err
	}
	if len(q.errors) > 0 && !q.despite {
		return refuse(t, q.errors)
	}
	q.options.AsAt = n.Last
	if q.asAt != 0 {
		q.options.AsAt = q.asAt
	}
	q.options.Periods = q.periods(n)
	made := t.doing("making the report")
	doc, err := q.report.Build(n, q.options)
	made()
	if err != nil {
		return statusCannot, err
	}
	if len(q.errors) > 0 {
		doc.Cautions = slices.Insert(doc.Cautions, 0, fmt.Sprintf(
			"The journal has %s. Entries with an error count for nothing, so no figure here can be relied on.", tally(q.errors)))
	}
	return statusDone, q.write(t, *doc)
}

// subject takes what the report is about from the front of the arguments.
func (q *request) subject(args []string) ([]string, error) {
	switch q.report.Subject {
	case report.OneThing:
		if len(args) == 0 {
			return nil, usageError{fmt.Sprintf("%s of what? Name a lot, a tree, a bundle of wood or a variety", q.report.Name), "budstick " + q.report.Name + " --help"}
		}
		q.options.Name = args[0]
		return args[1:], nil
	case report.SeveralThings:
		files := slices.IndexFunc(args, namesFile)
		if files < 0 {
			files = len(args)
		}
		q.options.Names = args[:files]
		return args[files:], nil
	case report.OneSeason:
		if len(args) == 0 {
			return args, nil
		}
		if year, ok := yearOf(args[0]); ok {
			q.seasons = append(q.seasons, year)
			return args[1:], nil
		}
	}
	return args, nil
}

// understand turns what the flags say into options, and finds what does not go
// together.
func (q *request) understand() error {
	q.options.Kind, _ = nursery.ParseBatchKind(q.kind)
	q.options.Attempts = map[string]report.Attempts{"first": report.First, "again": report.Again, "all": report.Every}[q.attempts]
	q.options.Step = report.Step(slices.Index(stepWords, q.step))
	q.options.Want.Sure = float64(q.sure) / 100
	if q.form == "" {
		q.form = formOf(q.file)
	}
	slip := func(message string) error {
		return usageError{message, "budstick " + q.report.Name + " --help"}
	}
	switch most := q.mostSeasons(); {
	case q.to != 0 && q.to < q.from:
		return slip(fmt.Sprintf("--from %s is after --to %s", q.from, q.to))
	case len(q.seasons) > 0 && (q.from != 0 || q.to != 0):
		return slip("--season and --from or --to say the same thing twice; give one of them")
	case len(q.seasons) > most:
		return slip(fmt.Sprintf("%s are given, and %s takes %s", counted(len(q.seasons), "season", "seasons"), q.report.Name, counted(most, "one", "two")))
	}
	return nil
}

func (q *request) mostSeasons() int {
	if q.report.Takes.Has(report.Pair) {
		return 2
	}
	return 1
}

// formOf is the form that a file's name asks for.
func formOf(file string) string {
	if form := strings.TrimPrefix(filepath.Ext(file), "."); slices.Contains(forms, form) {
		return form
	}
	return forms[0]
}

// nurseries replays the journal and, where two are to be compared, the other;
// the options then hold that one. What contradicts the book, in either, counts
// wherever it stands, but the report only sees what was written up to its day.
func (q *request) nurseries(t *terminal, args []string) (*nursery.Nursery, error) {
	if q.report.Takes.Has(report.Pair) && len(q.seasons) == 0 && len(args) == 2 {
		other, err := q.nursery(t, args[1:])
		if err != nil {
			return nil, err
		}
		q.options.Other = other
		args = args[:1]
	}
	return q.nursery(t, args)
}

func (q *request) nursery(t *terminal, args []string) (*nursery.Nursery, error) {
	j, err := load(t, args, q.stdinName)
	if err != nil {
		return nil, err
	}
	n := j.replay(t)
	q.errors = append(q.errors, rule.Contradictions(n)...)
	if q.report.Takes.Has(report.Found) {
		q.options.Findings = append(q.options.Findings, rule.Check(n)...)
	}
	if q.asAt != 0 {
		n = nursery.Replay(j.pages, q.asAt)
	}
	return n, nil
}

// periods are the stretches of time asked for.
func (q *request) periods(n *nursery.Nursery) []report.Period {
	var list []report.Period
	for _, year := range q.seasons {
		s := n.Season(year)
		list = append(list, report.Period{Name: "season " + strconv.Itoa(year), First: s.First, Last: s.Last})
	}
	if q.from != 0 || q.to != 0 {
		list = append(list, report.Period{First: q.from, Last: q.to})
	}
	return list
}

// errorsIn picks the errors out of findings.
func errorsIn(found []finding.Finding) []finding.Finding {
	return slices.DeleteFunc(slices.Clone(found), func(f finding.Finding) bool { return f.Severity != finding.Error })
}

// mostShown is how many errors are told where a report was asked for.
const mostShown = 5

// refuse says that a journal with errors gives no report.
func refuse(t *terminal, errs []finding.Finding) (status, error) {
	return refuseFor(t, errs, "so there is no report. budstick lint tells of all; --despite-errors makes a report that says so")
}

// refuseFor tells of errors and of what is not done because of them.
func refuseFor(t *terminal, errs []finding.Finding, so string) (status, error) {
	shown := errs[:min(len(errs), mostShown)]
	if err := t.talk.findings(render.All[0], render.Result{Findings: shown}); err != nil {
		return statusCannot, err
	}
	t.say("\nThe journal has %s, %s.", tally(errs), so)
	return statusFound, nil
}

// write writes the report where it is wanted, in the form that is wanted.
func (q *request) write(t *terminal, d table.Doc) error {
	if q.file == "" {
		return q.render(t.data, d)
	}
	var b bytes.Buffer
	if err := q.render(t.onPaper(&b), d); err != nil {
		return err
	}
	if err := replaceFile(q.file, b.Bytes()); err != nil {
		return err
	}
	for _, c := range q.cut {
		b.Reset()
		if err := table.WriteCSV(&b, c.report, c.table.Name); err != nil {
			return err
		}
		if err := replaceFile(filepath.Join(filepath.Dir(q.file), c.file), b.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

// A cutTable is a table of which a page shows the beginning, and the file beside
// the page that holds all of it.
type cutTable struct {
	report table.Doc
	table  table.Table
	file   string
}

// beside names the file for a table that a page cuts, where the page is a file.
func (q *request) beside(d table.Doc, t table.Table) string {
	base := strings.TrimSuffix(filepath.Base(q.file), filepath.Ext(q.file)) + "-" + d.Name + "-" + t.Name
	name := base + ".csv"
	for i := 2; slices.ContainsFunc(q.cut, func(c cutTable) bool { return c.file == name }); i++ {
		name = fmt.Sprintf("%s-%d.csv", base, i)
	}
	q.cut = append(q.cut, cutTable{table.Doc{Name: d.Name, Title: d.Title, Body: []table.Block{t}}, t, name})
	return name
}

// render writes a report in its form.
func (q *request) render(s *stream, d table.Doc) error {
	return s.write(func(w io.Writer) error { return q.renderTo(w, s, d) })
}

// renderTo writes a report to w, so that people see it well on s.
func (q *request) renderTo(w io.Writer, s *stream, d table.Doc) error {
	switch q.form {
	case "csv":
		return table.WriteCSV(w, d, q.part)
	case "json":
		return table.WriteJSON(w, d)
	case "html":
		o := table.HTMLOptions{Language: s.tongue}
		if q.file != "" {
			o.Beside = q.beside
		}
		return table.WriteHTML(w, d, o)
	case "dot":
		return table.WriteDOT(w, d)
	case "ics":
		return table.WriteCalendar(w, d)
	case "svg":
		p, err := drawing(d, q.part)
		if err != nil {
			return err
		}
		return table.WriteSVG(w, p, s.tongue)
	}
	return table.WriteText(w, d, table.TextOptions{Width: s.width, Language: s.tongue, Style: s.style()})
}

// drawing is the drawing of a report by its number, as they come; no number is
// the first.
func drawing(d table.Doc, number string) (table.Plot, error) {
	var list []table.Plot
	for _, b := range d.Body {
		if p, ok := b.(table.Plot); ok {
			list = append(list, p)
		}
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("the report %s has no drawing", d.Name)
	}
	if number == "" {
		return list[0], nil
	}
	i, err := strconv.Atoi(number)
	if err != nil || i < 1 || i > len(list) {
		return nil, fmt.Errorf("--part %s: the report has %s; give a number from 1", number, counted(len(list), "drawing", "drawings"))
	}
	return list[i-1], nil
}
