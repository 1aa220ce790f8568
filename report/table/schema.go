package table

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"iter"
	"strings"
)

// sqlTypes are the types of ISO/IEC 9075 (SQL) that hold the kinds of column.
// Money and quantities are exact decimals.
var sqlTypes = map[Kind]string{
	KindText: "VARCHAR(4000)", KindCount: "BIGINT", KindDays: "BIGINT", KindDate: "DATE",
	KindRate: "DOUBLE PRECISION", KindChange: "DOUBLE PRECISION", KindNumber: "DOUBLE PRECISION", KindPValue: "DOUBLE PRECISION",
	KindMoney: "DECIMAL(24, 9)", KindQuantity: "DECIMAL(24, 9)",
}

// WriteCreateTable writes the statement, in standard SQL, that makes a table
// for the rows of t. The columns of key tell rows apart.
func WriteCreateTable(w io.Writer, t Table, key []string) error {
	var b strings.Builder
	fmt.Fprintf(&b, "CREATE TABLE %s (\n", t.Name)
	for _, c := range t.Columns {
		fmt.Fprintf(&b, "    %s %s", c.Name, sqlTypes[c.Kind])
		for _, k := range key {
			if k == c.Name {
				b.WriteString(" NOT NULL")
			}
		}
		b.WriteString(",\n")
	}
	fmt.Fprintf(&b, "    PRIMARY KEY (%s)\n);\n", strings.Join(key, ", "))
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteJSONLines writes rows as they come as JSON lines: one object a row, with
// the same fields as in WriteJSON.
func WriteJSONLines(w io.Writer, columns []Column, rows iter.Seq[[]Cell]) error {
	out, t := bufio.NewWriter(w), Table{Columns: columns}
	var b bytes.Buffer
	for row := range rows {
		b.Reset()
		encode(&b, t.object(row), "")
		b.WriteByte('\n')
		if _, err := out.Write(b.Bytes()); err != nil {
			return err
		}
	}
	return out.Flush()
}

// WriteRows writes rows as they come for a database: CSV as RFC 4180 has it but
// for lines that end in LF, one header line, the columns of [WriteCreateTable]
// and no others, and every text as it is, with its line ends. Unknown is empty.
// What a spreadsheet could run as a formula is not guarded; [WriteCSV] does that.
func WriteRows(w io.Writer, columns []Column, rows iter.Seq[[]Cell]) error {
	out := csv.NewWriter(w)
	record := make([]string, len(columns))
	for i, c := range columns {
		record[i] = c.Name
	}
	if err := out.Write(record); err != nil {
		return err
	}
	for row := range rows {
		for i, c := range row {
			record[i] = c.Plain()
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}
