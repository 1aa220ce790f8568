package rule

import "github.com/budstick/budstick/grammar/finding"

var notRubbed = &Rule{
	Name: "rubbed-by", Severity: finding.Hint, Limits: []string{"rubbed-by"},
	Summary: "shoots of the stock have not been rubbed off grafts",
	Why: "What grows below the union is the stock, and it wins if it is left. It comes off at the check and again each month (common practice, no source). " +
		"Asked only of a journal that records rubbing at all.",
	Bad:   sideGrafts + "2026-05-25\ntend AV26b rubbed\n",
	Good:  sideGrafts + "tend AV26 rubbed\n2026-05-25\ntend AV26b rubbed\n",
	check: undone("rubbed", "rubbed-by", "the stock's shoots on", false),
}
