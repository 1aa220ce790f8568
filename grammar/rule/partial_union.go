package rule

import "github.com/budstick/budstick/grammar/finding"

var partialUnion = &Rule{
	Name: "partial-union", Severity: finding.Warning,
	Summary: "a scion is set on a stock with which only some varieties, or only for a time, grow on",
	Why:     "Sell such trees with your eyes open, or put a third plant between. Said once for each pair of varieties.",
	Bad:     kestrel + pear + "\n2026-03-02\ngraft 10 of QB25 with P1 by cleft as PE26 worker Ines\n",
	Good:    kestrel + pear + "\n2026-03-02\ngraft 10 of PS25 with P1 by cleft as PE26 worker Ines\n",
	check:   onePair(unionPartial, false, "%s on %s: %s (%s)"),
}
