package rule

import (
	"github.com/budstick/budstick/grammar/finding"
	"github.com/budstick/budstick/grammar/nursery"
)

var staleSeed = &Rule{
	Name: "seed-stale", Severity: finding.Warning, Limits: []string{"seed-stale"},
	Summary: "seed was sown long ago, and nothing says whether it came up",
	Why:     "What has not come up in that time will not; until it is checked it stands in the book as seed.",
	Bad:     kestrel + "sow 30 seed of Amberlight as AS25 from M7\n2026-04-20\nnote QB25 \"in leaf\"\n",
	Good:    kestrel + "sow 30 seed of Amberlight as AS25 from M7\n2026-01-20\ncheck AS25: 24 up, 6 dead\n2026-04-20\nnote QB25 \"in leaf\"\n",
	check:   unchecked(nursery.SeedBatch, "seed-stale"),
}
