package report

// All lists the reports in the order in which help shows them.
var All = []*Report{season, stock, take, factors, survival, chart, lineage, trace, kinship, record, label, due, diff, plan, profit, mothers, owed, accountant}
