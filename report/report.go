// Package report makes the reports: each reads a replayed nursery and returns
// a table.Doc, the value that the writers of package table turn into text, CSV,
// JSON, HTML and SVG. One file, or one folder, holds one report; All lists
// them.
//
// A report counts nothing that the replay counts, formats nothing, reads no
// flags and never asks the clock.
package report

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// A Report is one question that can be asked of a journal.
type Report struct {
	Name    string // the command: small letters
	Summary string // one line: what it tells
	Long    string // what it counts and how, for its help; may hold paragraphs
	Example string // the arguments of a run to copy, such as "--by method --season 2026"

	Subject Subject
	Takes   Choice   // the options that make a difference to it, beside AsAt
	By      []string // what --by (or --on) may name; the first is the default
	For     []string // what --for may name; the first is the default
	// Build makes the report. Its error is one for the grower: what was asked
	// for can't be, and what can.
	Build func(*nursery.Nursery, Options) (*table.Doc, error)
}

// Named finds a report by its name.
func Named(name string) (*Report, bool) {
	for _, r := range All {
		if r.Name == name {
			return r, true
		}
	}
	return nil, false
}

// A Subject is what a report wants to be told before the files.
type Subject int

const (
	Everything    Subject = iota // nothing: it is about the whole journal
	OneThing                     // the name of a lot, tree, bundle or variety: Options.Name
	SeveralThings                // any number of such names: Options.Names
	OneSeason                    // a year, or none for the season of the last day: Options.Periods
)

// A Choice is a set of options that a report takes.
type Choice uint

const (
	Spans    Choice = 1 << iota // Periods, by season or by first and last day
	Filters                     // Filters
	Groups                      // By, as what the rows are
	Factors                     // By, as what may have made a difference
	Kinds                       // Kind
	Ordinals                    // Attempts
	Horizon                     // Days
	Target                      // Want
	Pair                        // two Periods, or Other
	Deep                        // Depth
	Steps                       // Step
	Since                       // Periods: one, from a day on
	Genotype                    // Clones
	Pricing                     // Selling and Margin
	Ages                        // Age
	Purposes                    // For
	Labels                      // Copies
	Found                       // Findings
)

// Has reports whether c holds all of others.
func (c Choice) Has(others Choice) bool { return c&others == others }

// Options are what a grower asked of a report. The zero value of each field
// asks for nothing in particular.
type Options struct {
	// AsAt is the last day that counts; the nursery has been replayed up to it.
	// It is zero only for a journal without a day.
	AsAt     fact.Date
	Periods  []Period       // none: everything; two where two are compared
	Filters  []table.Filter // in the order asked; those of one name are alternatives
	By       []string       // all of them among Report.By
	Kind     nursery.BatchKind
	Attempts Attempts
	Name     string
	Names    []string
	Days     int // how far to look ahead of AsAt; zero for the report's own choice
	Age      int // in days, at which attempts are compared; zero for the report's own choice
	Want     Want
	WhatIf   []Supposition    // of the links of a plan
	Depth    int              // how many steps to draw; zero for the report's own choice
	Clones   bool             // follow only what keeps the genotype
	For      string           // among Report.For, or empty
	Copies   int              // how many labels; zero for the report's own choice
	Other    *nursery.Nursery // a second journal to compare with, or nil
	// Interactions are pairs of By of which the effect of one may hang on the
	// other; Pairs are those of By whose values are compared two by two.
	Interactions [][2]string
	Pairs        []string
	Step         Step
	// Selling and Margin are what hundredths of a price go for selling, and are
	// wanted to be left.
	Selling, Margin int
	// Findings is what the linter has to say about the journal, for the season's
	// book to show.
	Findings []finding.Finding
}

// Period is the first that was asked for, or everything.
func (o Options) Period() Period {
	if len(o.Periods) == 0 {
		return Period{}
	}
	return o.Periods[0]
}

// A Period is a stretch of days, both ends counted. An end that is zero is
// open. Name is such as "season 2026", and empty where only days were given.
type Period struct {
	Name        string
	First, Last fact.Date
}

// Contains reports whether d falls in the period.
func (p Period) Contains(d fact.Date) bool {
	return p.First <= d && (p.Last == 0 || d <= p.Last)
}

// Table is the period as it is shown on the report.
func (p Period) Table() table.Period {
	return table.Period{Name: p.Name, From: p.First.String(), To: p.Last.String()}
}

// Attempts says which attempts on a stock a take counts.
type Attempts int

const (
	First Attempts = iota // the first on each stock
	Again                 // the second and later ones
	Every
)

// Step is how long a stretch of time one point of a chart stands for.
type Step int

const (
	FitStep Step = iota // weeks, of more than a year months
	Week                // from Monday (ISO 8601)
	Month
)

// Want is a number of trees that should be ready by a day.
type Want struct {
	Count   int
	Variety string
	By      fact.Date
	Sure    float64 // the probability asked for, as a fraction; zero for the report's own choice
}
