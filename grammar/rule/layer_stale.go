package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var staleLayers = &Rule{
	Name: "layer-stale", Severity: finding.Warning, Limits: []string{"layer-stale"},
	Summary: "layers have hung on the mother for months, and nobody has looked",
	Why:     "By then a layer has bridged its wound, dried out or broken off; or its roots fill the wrap and die.",
	Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-07-20\nnote QB25 \"in leaf\"\n",
	Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-20\ncheck AL26: 5 rooted, 3 failed\n2026-07-20\nnote QB25 \"in leaf\"\n",
	check:   unchecked(nursery.LayerBatch, "layer-stale"),
}
