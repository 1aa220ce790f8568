package rule

import "github.com/budstick/budstick/grammar/finding"

var notHeaded = &Rule{
	Name: "headed-by", Severity: finding.Hint, Limits: []string{"headed-by"},
	Summary: "the stock's own top has not been cut back over a bud or side graft",
	Why: "A bud or a side graft pushes when the stock above it is cut back; left standing, the stock keeps the sap for itself. " +
		"Asked only of a journal that records heading back at all.",
	Bad:   sideGrafts + "2026-05-20\ntend AV26b headed\n",
	Good:  sideGrafts + "tend AV26 headed\n2026-05-20\ntend AV26b headed\n",
	check: undone("headed", "headed-by", "the stock's top above them", true),
}
