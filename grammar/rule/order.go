package rule

import "github.com/budstick/budstick/grammar/finding"

// The rules about what can follow what, which the replay finds.
var (
	checkBefore = &Rule{
		Name: "check-before", Severity: finding.Error,
		Summary: "a lot is looked at before the day on which it was made",
		Why:     "One of the two days is wrong, and with it the age of every graft in the lot.",
		Bad:     kestrel + "\n2026-03-30\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n2026-05-04\ncheck AM26: 40 took happened 2026-03-04\n",
		Good:    kestrel + "\n2026-03-30\ngraft 40 of QB25 with M7 by cleft as AM26 worker Ines\n2026-05-04\ncheck AM26: 40 took happened 2026-05-03\n",
	}
	nothingToCheck = &Rule{
		Name: "nothing-to-check", Severity: finding.Error,
		Summary: "a verdict is given on plants that wait for none",
		Why:     "Grafts, layers, cuttings and seed wait for their check. Bought plants and stocks do not; what becomes of them is said by `lose` or `cull`.",
		Bad:     kestrel + "check QB25: 96 took, 4 dead\n",
		Good:    kestrel + "lose 4 of QB25 to frost\ncause frost\n",
	}
	wrongVerdict = &Rule{
		Name: "wrong-verdict", Severity: finding.Error,
		Summary: "the word of a verdict is not one for plants of this kind",
		Why:     "Grafts took, layers and cuttings rooted, seed is up. The wrong word mostly means that the wrong lot is named.",
		Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 8 took\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 8 rooted\n",
	}
	woodNotYet = &Rule{
		Name: "wood-not-yet", Severity: finding.Error,
		Summary: "wood is used before the day on which it was cut",
		Why:     "One of the two days is wrong, and with it the age of the wood.",
		Bad:     kestrel + "\n2026-03-05\ncut 60 scions from M7 as W7 store cool\ngraft 40 of QB25 with W7 by cleft as AM26 happened 2026-03-02 worker Ines\n",
		Good:    kestrel + "\n2026-03-05\ncut 60 scions from M7 as W7 store cool happened 2026-03-01\ngraft 40 of QB25 with W7 by cleft as AM26 happened 2026-03-02 worker Ines\n",
	}
	noWood = &Rule{
		Name: "no-wood", Severity: finding.Error,
		Summary: "wood is taken from a lot that has no living top",
		Why:     "Stocks whose grafts failed have no top of the variety; wood from them would be the rootstock.",
		Bad:     bench + "split 8 failed of AM26 as AM26f\ncut 4 scions from AM26f as W26\n",
		Good:    bench + "split 8 failed of AM26 as AM26f\ncut 4 scions from AM26 as W26\n",
	}
	mixedWood = &Rule{
		Name: "mixed-wood", Severity: finding.Error,
		Summary: "wood of two varieties is put into one bundle or one lot of grafts",
		Why:     "A list of trees makes a set, of which each graft is one; of two varieties nobody could say any more which plant is which.",
		Bad:     kestrel + twoTops + "cut 20 scions from M7/east, M8 as W7 store cool\n" + secondTree,
		Good:    kestrel + "cut 20 scions from M7, M8 as W7 store cool\n" + secondTree,
	}
	treeGone = &Rule{
		Name: "tree-gone", Severity: finding.Error,
		Summary: "something is done to a tree that is no more there",
		Why:     "Wood cut from a tree after it died is of another tree, or the day of its death is wrong.",
		Bad:     kestrel + "lose M7 to \"root rot\"\ncause \"root rot\"\n2026-03-02\ncut 20 scions from M7 as W7 store cool\n",
		Good:    kestrel + "cut 20 scions from M7 as W7 store cool\nlose M7 to \"root rot\"\ncause \"root rot\"\n",
	}
	treeNotYet = &Rule{
		Name: "tree-not-yet", Severity: finding.Error,
		Summary: "something is done to a tree before it was planted",
		Why:     "Either the day is wrong, or the year in which the tree is said to have been planted.",
		Bad:     kestrel + "tree M8 variety Amberlight at terrace-3 planted 2026\nmark M8 verified\ncut 20 scions from M8 as W8 store cool\n",
		Good:    kestrel + secondTree + "cut 20 scions from M8 as W8 store cool\n",
	}
	placeDiffers = &Rule{
		Name: "place-differs", Severity: finding.Error,
		Summary: "a lot is seen at a place where it does not stand by the book",
		Why:     "A move is missing, or plants of another lot were looked at.",
		Bad:     bench + "move AM26 to shade-1\ncount AM26 38 at terrace-3\n",
		Good:    bench + "move AM26 to shade-1\ncount AM26 38 at shade-1\n",
	}
	joinOne = &Rule{
		Name: "join-one", Severity: finding.Error,
		Summary: "a lot is joined with itself",
		Why:     "Joining takes two lots or more; a name that stands twice is a slip.",
		Bad:     bench + "join AM26, AM26 as AM26t\n",
		Good:    bench + "split 10 of AM26 as AM26c\njoin AM26, AM26c as AM26t\n",
	}
	joinWaiting = &Rule{
		Name: "join-waiting", Severity: finding.Error,
		Summary: "a lot is joined while some of it waits for a verdict",
		Why:     "After joining nobody could say whose attempts a later check is about. Check first, then join.",
		Bad:     bench + "graft 20 of QB25 with M7 by cleft as AM26c worker Ines\njoin AM26, AM26c as AM26t\n",
		Good:    bench + "graft 20 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-04\ncheck AM26c: 20 took\njoin AM26, AM26c as AM26t\n",
	}
	joinSpecies = &Rule{
		Name: "join-species", Severity: finding.Error,
		Summary: "lots of different species are joined",
		Why:     "They are different plants, and no label could be true for both.",
		Bad:     bench + "join AM26, QB25 as AM26t\n",
		Good:    bench + "split 10 of AM26 as AM26c\njoin AM26, AM26c as AM26t\n",
	}
	joinVariety = &Rule{
		Name: "join-variety", Severity: finding.Error,
		Summary: "lots of different varieties are joined",
		Why:     "Once they stand together nobody can tell them apart before they fruit, and they can't be sold under a name.",
		Bad:     bench + twoTops + "graft 20 of QB25 with M7/east by cleft as EM26 worker Ines\n2026-05-04\ncheck EM26: 20 took\njoin AM26, EM26 as AM26t\n",
		Good:    bench + twoTops + "graft 20 of QB25 with M7/east by cleft as EM26 worker Ines\n2026-05-04\ncheck EM26: 20 took\n",
	}
	plantVariety = &Rule{
		Name: "plant-variety", Severity: finding.Error,
		Summary: "a grafted plant is planted as another variety",
		Why:     "A graft is the same genotype as its scion and can't become another. Only a seedling is something new that may get a name.",
		Bad:     bench + twoTops + "2026-11-20\nplant 1 of AM26 as M41 variety Emberlight at terrace-3\n",
		Good:    bench + "2026-11-20\nplant 1 of AM26 as M41 variety Amberlight at terrace-3\n",
	}
	seedVariety = &Rule{
		Name: "seed-variety", Severity: finding.Error,
		Summary: "seed is sown as of a variety that its mother is not",
		Why:     "Seed is called by the variety of the tree it was taken from.",
		Bad:     kestrel + "sow 30 seed of \"Quince BA\" as QA26 from M7\n",
		Good:    kestrel + "sow 30 seed of Amberlight as AS26 from M7\n",
	}
)
