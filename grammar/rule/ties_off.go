package rule

import "github.com/budstick/budstick/grammar/finding"

var tiesOn = &Rule{
	Name: "ties-off", Severity: finding.Warning, Limits: []string{"ties-off"},
	Summary: "ties have not been taken off grafts",
	Why: "A tie that stays girdles the union as it swells, and the top snaps in the first wind. When it is time differs by species and by tape; " +
		"with a film that rots by itself, raise the limit. Asked only of a journal that records ties at all.",
	Bad:   bench + "tend AM26 rubbed\n2026-04-20\ngraft 20 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-20\ncheck AM26c: 20 took\ntend AM26c rubbed\n2026-06-01\ntend AM26c ties\n",
	Good:  bench + "tend AM26 rubbed\n2026-04-20\ntend AM26 ties\ngraft 20 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-20\ncheck AM26c: 20 took\ntend AM26c rubbed\n2026-06-01\ntend AM26c ties\n",
	check: undone("ties", "ties-off", "its ties on", false),
}
