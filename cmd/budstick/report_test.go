package main

import (
	"testing"

	"github.com/budstick/budstick/report/table"
)

func TestDrawings(t *testing.T) {
	curve := table.Curve{Title: "survival"}
	bars := table.Bars{Title: "what one point is worth"}
	d := table.Doc{Name: "survival", Body: []table.Block{table.Table{}, curve, table.Facts{}, bars}}
	tests := []struct {
		number, title, fault string
	}{
		{"", "survival", ""},
		{"1", "survival", ""},
		{"2", "what one point is worth", ""},
		{"3", "", "--part 3: the report has 2 drawings; give a number from 1"},
		{"0", "", "--part 0: the report has 2 drawings; give a number from 1"},
		{"rows", "", "--part rows: the report has 2 drawings; give a number from 1"},
	}
	for _, test := range tests {
		got, err := drawing(d, test.number)
		title, fault := "", ""
		switch p := got.(type) {
		case table.Curve:
			title = p.Title
		case table.Bars:
			title = p.Title
		}
		if err != nil {
			fault = err.Error()
		}
		if title != test.title || fault != test.fault {
			t.Errorf("drawing %q is %q (%s), want %q (%s)", test.number, title, fault, test.title, test.fault)
		}
	}
}
