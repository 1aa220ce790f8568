package rule

import "github.com/budstick/budstick/grammar/finding"

var interstockMissing = &Rule{
	Name: "interstock-missing", Severity: finding.Warning,
	Summary: "a pair is grafted directly that needs a third plant between",
	Why:     "The two do not hold together, but both hold with a third: with `over` it is set in the same step. Said once for each pair of varieties.",
	Bad:     kestrel + pear + "variety Bosc species \"Pyrus communis\"\n\n2026-03-02\nbuy 10 scions of Bosc as WB26 from Bob\ngraft 10 of QB25 with WB26 by cleft as BO26 worker Ines\n",
	Good: kestrel + pear + "variety Bosc species \"Pyrus communis\"\nvariety \"Old Home\" species \"Pyrus communis\"\n\n2026-03-02\nbuy 10 scions of Bosc as WB26 from Bob\n" +
		"buy 10 scions of \"Old Home\" as WO26 from Bob\ngraft 10 of QB25 with WB26 over WO26 by cleft as BO26 worker Ines\n",
	check: onePair(unionInterstock, true, "%s does not hold on %s by itself: %s (%s); graft … over its wood"),
}
