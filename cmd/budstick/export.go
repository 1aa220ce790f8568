package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/pflag"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report"
	"github.com/budstick/budstick/report/table"
)

var exportCommand = &command{
	name:    "export",
	summary: "write all facts as tidy tables, for a database that many farms share",
	usage:   filesUsage,
	long: `Writes one file a table into the folder of --output: ` + exportNames() + `, and schema.sql with the statements in
standard SQL that make the tables. What the columns mean and the queries of the main reports stand in report/SQL.md.
With --part one table is printed.

` + aboutFiles,
	example: "--output out",
	setup:   setupExport,
}

func exportNames() string {
	var b bytes.Buffer
	for i, x := range report.Exports {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(x.Name)
	}
	return b.String()
}

// exporting is what the flags of export say.
type exporting struct {
	form, part, folder, stdinName string
	despite                       bool
}

func setupExport(flags *pflag.FlagSet) action {
	x := &exporting{form: "csv"}
	flags.Var(oneOf(&x.form, "csv", "jsonl", "sql"), "as", "write `FORM`: csv, jsonl (one JSON object a line), or sql (the tables' statements alone)")
	flags.StringVar(&x.part, "part", "", "print only `TABLE`")
	flags.StringVarP(&x.folder, "output", "o", "", "write into `FOLDER`, which is made if need be")
	flags.BoolVar(&x.despite, "despite-errors", false, "export though the journal has errors; entries with an error are left out")
	addStdinName(flags, &x.stdinName)
	return x.run
}

func (x *exporting) run(t *terminal, args []string) (status, error) {
	tables, err := x.tables()
	if err != nil {
		return statusCannot, err
	}
	if x.form == "sql" && x.folder == "" {
		return statusDone, t.data.write(func(w io.Writer) error { return writeSchema(w, tables) })
	}
	if x.folder == "" && len(tables) > 1 {
		return statusCannot, usageError{"several tables can't be printed as one; give --output FOLDER, or --part TABLE", "budstick export --help"}
	}
	j, err := load(t, args, x.stdinName)
	if err != nil {
		return statusCannot, err
	}
	n, found := j.lint(t)
	if errs := errorsIn(found); len(errs) > 0 && !x.despite {
		return refuse(t, errs)
	}
	if x.folder == "" {
		return statusDone, t.data.write(func(w io.Writer) error { return x.write(w, n, tables[0]) })
	}
	return statusDone, x.fill(n, tables)
}

// tables are those asked for.
func (x *exporting) tables() ([]*report.Export, error) {
	if x.part == "" {
		return report.Exports, nil
	}
	names := make([]string, len(report.Exports))
	for i, e := range report.Exports {
		names[i] = e.Name
	}
	i := slices.Index(names, x.part)
	if i < 0 {
		return nil, usageError{fmt.Sprintf("there is no table %s%s", x.part, orMeant(x.part, names)), "budstick export --help"}
	}
	return report.Exports[i : i+1], nil
}

// fill writes the files of a folder, each in one step.
func (x *exporting) fill(n *nursery.Nursery, tables []*report.Export) error {
	if err := os.MkdirAll(x.folder, 0o755); err != nil {
		return err
	}
	for _, e := range tables {
		if err := replaceWith(filepath.Join(x.folder, e.Name+"."+x.form), func(w io.Writer) error { return x.write(w, n, e) }); err != nil {
			return err
		}
	}
	return replaceWith(filepath.Join(x.folder, "schema.sql"), func(w io.Writer) error { return writeSchema(w, tables) })
}

func (x *exporting) write(w io.Writer, n *nursery.Nursery, e *report.Export) error {
	if x.form == "jsonl" {
		return table.WriteJSONLines(w, e.Columns(), e.Rows(n))
	}
	return table.WriteRows(w, e.Columns(), e.Rows(n))
}

func writeSchema(w io.Writer, tables []*report.Export) error {
	for _, e := range tables {
		t := table.Table{Name: e.Name, Columns: e.Columns()}
		if err := table.WriteCreateTable(w, t, append([]string{"farm"}, e.Key...)); err != nil {
			return err
		}
	}
	return nil
}
