package rule

import "github.com/budstick/budstick/grammar/finding"

// The rules about which thing a name means, which the replay finds.
var (
	unknownName = &Rule{
		Name: "unknown-name", Severity: finding.Error,
		Summary: "an entry names a lot, tree or bundle that is not there on its day",
		Why:     "A slip in a name would move the plants of another lot, or of none. What is used before it was sown, bought or grafted is a wrong day.",
		Bad:     kestrel + "pot QB52 to 3 L\n",
		Good:    kestrel + "pot QB25 to 3 L\n",
	}
	unknownVariety = &Rule{
		Name: "unknown-variety", Severity: finding.Error,
		Summary: "a variety is used that was never declared",
		Why:     "A variety stands for a species, and with it for what it can be grafted on and how its seed breeds. So it is declared before its first use.",
		Bad:     kestrel + "sow 30 seed of Amberligt as AS25\n",
		Good:    kestrel + "sow 30 seed of Amberlight as AS25\n",
	}
	ownAncestor = &Rule{
		Name: "own-ancestor", Severity: finding.Error,
		Summary: "a variety or a tree is declared to come from itself",
		Why:     "By way of however many others: a parent is there before its child, so one of the lines of descent is a slip. The message goes round the loop.",
		Bad:     kestrel + "variety Redwing parents Dawnglow x unknown\nvariety Dawnglow sport of Redwing\n",
		Good:    kestrel + "variety Redwing parents Amberlight x unknown\nvariety Dawnglow sport of Redwing\n",
	}
	unknownLimit = &Rule{
		Name: "unknown-limit", Severity: finding.Error,
		Summary: "a `limit` names a rule of thumb that there is not",
		Why:     "A limit that is misspelled would change nothing, and nobody would notice.",
		Bad:     "limit old-wod 21 days\n",
		Good:    "limit old-wood 21 days\n",
	}
	declaredTwice = &Rule{
		Name: "declared-twice", Severity: finding.Error,
		Summary: "a standing fact is stated a second time",
		Why:     "Two statements about one variety or place contradict each other sooner or later. A wage may be stated anew from a later day.",
		Bad:     kestrel + "place shade-1 area 60 m2\n",
		Good:    kestrel + "place shade-2 area 60 m2\n",
	}
	nameTaken = &Rule{
		Name: "name-taken", Severity: finding.Error,
		Summary: "a new lot, tree or bundle gets a name that another has",
		Why:     "A name means one thing for good, so that a label found in ten years still leads to its plants. Lots, trees, limbs and wood share their names.",
		Bad:     bench + "graft 20 of QB25 with M7 by cleft as AM26 worker Ines\n",
		Good:    bench + "graft 20 of QB25 with M7 by cleft as AM26c worker Ines\n",
	}
	wrongKind = &Rule{
		Name: "wrong-kind", Severity: finding.Error,
		Summary: "an entry names a thing of a kind that it can't be about",
		Why:     "Wood is not potted, layers are not set on a lot, and only what hangs on a mother is severed.",
		Bad:     kestrel + "layer 8 on QB25 as QL26 worker Ines\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n",
	}
	partNeedsName = &Rule{
		Name: "part-needs-name", Severity: finding.Error,
		Summary: "a part of a lot is potted or moved without a name of its own",
		Why:     "Plants of one lot are interchangeable: they stand in one place and in one size of pot. A part that differs is another lot.",
		Bad:     kestrel + "move 20 of QB25 to shade-1\n",
		Good:    kestrel + "move 20 of QB25 to shade-1 as QB25w\n",
	}
	treeNames = &Rule{
		Name: "tree-names", Severity: finding.Error,
		Summary: "the number of trees that are planted is not the number of names",
		Why:     "Each tree that is planted with a name is followed on its own. A run such as R2/1 to R2/12 names twelve.",
		Bad:     bench + "2026-11-20\nplant 3 of AM26 as R2/1 to R2/2 at terrace-3\n",
		Good:    bench + "2026-11-20\nplant 3 of AM26 as R2/1 to R2/3 at terrace-3\n",
	}
	whichTop = &Rule{
		Name: "which-top", Severity: finding.Error,
		Summary: "wood or fruit is taken from a tree of several varieties, and none is named",
		Why:     "A topworked tree carries several varieties. Wood that is only of the tree may be any of them, and the mistake shows in ten years.",
		Bad:     kestrel + twoTops + "cut 20 scions from M7 as W7 store cool\n",
		Good:    kestrel + twoTops + "cut 20 scions from M7/east as W7 store cool\n",
	}
)
