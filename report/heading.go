package report

import (
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// cohort begins a report that follows what was started in the period.
func cohort(n *nursery.Nursery, o Options, name, title string) *table.Doc {
	return heading(n, o, name, title, table.Cohort)
}

// calendar begins a report of what happened in the period.
func calendar(n *nursery.Nursery, o Options, name, title string) *table.Doc {
	return heading(n, o, name, title, table.Calendar)
}

func heading(n *nursery.Nursery, o Options, name, title string, basis table.Basis) *table.Doc {
	if n.Farm != nil {
		title = n.Farm.Name.Text + ": " + title
	}
	doc := &table.Doc{Name: name, Title: title, AsAt: o.AsAt.String(), Filters: o.Filters}
	if p := o.Period(); p != (Period{}) {
		doc.Period, doc.Basis = p.Table(), basis
	}
	return doc
}
