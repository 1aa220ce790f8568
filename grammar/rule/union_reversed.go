package rule

import "github.com/budstick/budstick/grammar/finding"

var unionReversed = &Rule{
	Name: "union-reversed", Severity: finding.Warning,
	Summary: "a pair is grafted the wrong way round",
	Why:     "Some unions hold in one direction only: pear grows on quince, and quince on pear fails. Said once for each pair of varieties.",
	Bad:     kestrel + pear + "\n2026-03-02\nbuy 10 scions of \"Quince BA\" as WQ26 from Bob\ngraft 10 of PS25 with WQ26 by cleft as QP26 worker Ines\n",
	Good:    kestrel + pear + "\n2026-03-02\ngraft 10 of PS25 with P1 by cleft as RF26 worker Ines\n",
	check:   onePair(unionReverse, false, "%s on %s is the wrong way round: %s (%s)"),
}
