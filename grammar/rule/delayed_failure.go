package rule

import "github.com/budstick/budstick/grammar/finding"

var delayedFailure = &Rule{
	Name: "delayed-failure", Severity: finding.Warning,
	Summary: "a scion is set on a stock from which it is known to part after years",
	Why:     "It takes and sells as well as any, and the buyer's tree breaks or declines at the union when it should bear. Said once for each pair of varieties.",
	Bad:     kestrel + pear + "variety Redfall species \"Malus domestica\"\n\n2026-03-02\nbuy 10 scions of Redfall as WR26 from Bob\ngraft 10 of PS25 with WR26 by cleft as RF26 worker Ines\n",
	Good:    kestrel + pear + "\n2026-03-02\ngraft 10 of PS25 with P1 by cleft as RF26 worker Ines\n",
	check:   onePair(unionDelayed, false, "%s on %s: %s (%s)"),
}
