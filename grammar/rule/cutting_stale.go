package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var staleCuttings = &Rule{
	Name: "cutting-stale", Severity: finding.Warning, Limits: []string{"cutting-stale"},
	Summary: "cuttings have stood for months, and nobody has looked",
	Why:     "A cutting that has not rooted in that time lives on what it brought with it. Check what rooted, and throw out the rest.",
	Bad:     kestrel + "stick 50 cuttings of M7 as AC26 worker Ines\n2026-04-20\nnote QB25 \"in leaf\"\n",
	Good:    kestrel + "stick 50 cuttings of M7 as AC26 worker Ines\n2026-01-20\ncheck AC26: 35 rooted, 15 dead\n2026-04-20\nnote QB25 \"in leaf\"\n",
	check:   unchecked(nursery.CuttingBatch, "cutting-stale"),
}
