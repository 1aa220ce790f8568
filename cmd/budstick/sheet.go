package main

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/source"
)

// A sheet is a spreadsheet, as CSV (RFC 4180): a row with the names of the
// columns, and below it the rows that say something.
type sheet struct {
	columns []string
	rows    []row
	faults  []fault // of rows
}

// A row is one row of a sheet and how its cells are read.
type row struct {
	line    int
	cells   map[string]string // by the folded name of the column
	mapping *mapping
}

// readSheet reads a sheet, and gives what keeps it from being read. Its cells are
// parted by commas, semicolons or tabulators: by that sign with which the first
// row has most of the columns that the mapping names.
func readSheet(file *source.File, m *mapping) (sheet, []fault) {
	if off := file.NotText(); off >= 0 {
		return sheet{}, []fault{{file.Line(int32(off)), "this is no text; write the sheet as CSV in UTF-8"}}
	}
	text := file.Bytes[file.Start():]
	var s sheet
	sign, most := rune(0), 0
	for _, comma := range ",;\t" {
		header, err := newSheetReader(text, comma).Read()
		if n := 1000*known(m, header) + len(header); err == nil && n > most {
			s.columns, sign, most = trimmed(header), comma, n
		}
	}
	if most == 0 {
		return sheet{}, []fault{{1, "the first row must hold the names of the columns"}}
	}
	if faults := s.fill(newSheetReader(text, sign), m); len(faults) > 0 {
		return sheet{}, faults
	}
	if len(s.rows) == 0 && len(s.faults) == 0 {
		return sheet{}, []fault{{1, "no row stands below the names of the columns"}}
	}
	return s, nil
}

func newSheetReader(text []byte, comma rune) *csv.Reader {
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.FieldsPerRecord = comma, -1
	return r
}

func trimmed(cells []string) []string {
	out := make([]string, len(cells))
	for i, c := range cells {
		out[i] = strings.TrimSpace(c)
	}
	return out
}

// known counts the columns of a header that the mapping names.
func known(m *mapping, header []string) int {
	n := 0
	m.columns(func(_ int, column string) {
		if slices.ContainsFunc(header, func(h string) bool { return name.Fold(strings.TrimSpace(h)) == name.Fold(column) }) {
			n++
		}
	})
	return n
}

// fill reads the rows, up to one behind which it can't be known what is a row.
func (s *sheet) fill(r *csv.Reader, m *mapping) []fault {
	for first := true; ; first = false {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if bad := (*csv.ParseError)(nil); errors.As(err, &bad) {
			return append(s.faults, fault{bad.StartLine, "the quotes in this row do not close as CSV wants it: a cell with quotes in it stands in quotes, and the quotes in it are doubled"})
		}
		if first {
			continue
		}
		line, _ := r.FieldPos(0)
		one := row{line: line, cells: map[string]string{}, mapping: m}
		for i, cell := range trimmed(cells) {
			switch {
			case i < len(s.columns):
				one.cells[name.Fold(s.columns[i])] = cell
			case cell != "":
				s.faults = append(s.faults, fault{line, fmt.Sprintf("the row has more cells than the first row has names, such as %s", cell)})
			}
		}
		if slices.ContainsFunc(cells, func(c string) bool { return strings.TrimSpace(c) != "" }) {
			s.rows = append(s.rows, one)
		}
	}
}

// cell is what a row says in a column, in the words of the journal.
func (r row) cell(column string) string {
	cell := r.cells[name.Fold(column)]
	for _, w := range r.mapping.words {
		among := slices.ContainsFunc(w.columns, func(c string) bool { return name.Fold(c) == name.Fold(column) })
		if among && name.Fold(w.said) == name.Fold(cell) {
			return w.means
		}
	}
	cell = strings.Join(strings.FieldsFunc(cell, func(c rune) bool { return c == '\n' || c == '\r' }), " ")
	if r.mapping.comma {
		cell = decimalComma.ReplaceAllString(cell, "$1.$2")
	}
	if d, ok := r.mapping.date(cell); ok {
		return d.String()
	}
	return cell
}

// decimalComma is a number with a decimal comma at the beginning of a cell.
var decimalComma = regexp.MustCompile(`^(\d+),(\d+)\b`)

var isoDate = regexp.MustCompile(`^\d{4}-\d\d-\d\d$`)

// dateSigns is three numbers that may be a date.
var dateSigns = regexp.MustCompile(`^(\d{1,4})[./-](\d{1,2})[./-](\d{1,4})$`)

// date reads a date as the sheet writes it, or by ISO 8601. A year has four
// digits.
func (m *mapping) date(cell string) (fact.Date, bool) {
	if d, ok := fact.ParseDate(cell); ok {
		return d, true
	}
	match := dateSigns.FindStringSubmatch(cell)
	if match == nil || m.order == nil {
		return 0, false
	}
	of := map[string]int{}
	for i, part := range m.order {
		of[part], _ = strconv.Atoi(match[i+1])
	}
	if of["year"] < 1000 {
		return 0, false
	}
	return fact.NewDate(of["year"], time.Month(of["month"]), of["day"])
}

// notDate says why a cell is no date.
func (m *mapping) notDate(cell string) string {
	switch {
	case isoDate.MatchString(cell):
		return "the calendar has no " + cell
	case m.order != nil && dateSigns.MatchString(cell):
		return fmt.Sprintf("%s is no day of the calendar as %s, the year with four digits", cell, strings.Join(m.order, ", "))
	case dateSigns.MatchString(cell):
		return cell + " could be one of several days; say in the mapping how the sheet writes dates, such as: dates day month year"
	}
	return cell + " is no date; one is written 2026-03-02, or as the mapping says: dates day month year"
}
