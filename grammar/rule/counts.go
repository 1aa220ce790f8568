package rule

import "github.com/budstick/budstick/grammar/finding"

// The rules about counts, which the replay finds: plants are never made out of
// nothing.
var (
	tooMany = &Rule{
		Name: "too-many", Severity: finding.Error,
		Summary: "more is taken than there is",
		Why: "Mostly the wrong lot is named, or plants of another state are meant: living ones are taken unless a state stands before `of`. " +
			"The message shows what the lot holds on that day.",
		Bad:  bench + "2026-11-20\nsell 35 of AM26 to Bob at 19.00 each\n",
		Good: bench + "2026-11-20\nsell 25 of AM26 to Bob at 19.00 each\n",
	}
	tooManyVerdicts = &Rule{
		Name: "too-many-verdicts", Severity: finding.Error,
		Summary: "a check gives more verdicts than plants wait for one",
		Why: "A check says what is new: each plant gets its verdict once, and two checks on one day add up. A second check that tells the whole " +
			"lot again would count it twice. A top that died after its verdict is a `fail`.",
		Bad:  bench + "2026-04-20\ncheck AM26: 28 took, 2 failed\n",
		Good: bench + "2026-04-20\nfail 2 of AM26\n",
	}
	checkSum = &Rule{
		Name: "check-sum", Severity: finding.Error,
		Summary: "the outcomes of a check do not add up to the number looked at",
		Why:     "Where the number looked at is said, it must be the sum of the outcomes; the difference would be plants that nobody can account for.",
		Bad:     bench + "graft 40 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-04\ncheck 40 of AM26c: 30 took, 5 failed, 3 dead\n",
		Good:    bench + "graft 40 of QB25 with M7 by cleft as AM26c worker Ines\n2026-05-04\ncheck 40 of AM26c: 30 took, 7 failed, 3 dead\n",
	}
	scionsSum = &Rule{
		Name: "scions-sum", Severity: finding.Error,
		Summary: "the living scions do not fit the stocks that took",
		Why:     "With two scions on each stock, 36 stocks that took carry from 36 to 72 living scions.",
		Bad:     bench + "graft 20 of QB25 with M7 by cleft as AM26c scions 2 worker Ines\n2026-05-04\ncheck AM26c: 16 took with 35 scions, 4 failed\n",
		Good:    bench + "graft 20 of QB25 with M7 by cleft as AM26c scions 2 worker Ines\n2026-05-04\ncheck AM26c: 16 took with 25 scions, 4 failed\n",
	}
	severalASeed = &Rule{
		Name: "several-a-seed", Severity: finding.Error,
		Summary: "more seedlings came up than seeds were sown",
		Why:     "Only the seed of a polyembryonic variety gives several plants, and that is declared with the variety. Otherwise it is a wrong count.",
		Bad:     kestrel + "sow 30 seed of Amberlight as AS25 from M7\n2026-01-10\ncheck AS25: 32 up\n",
		Good:    kestrel + "sow 30 seed of Amberlight as AS25 from M7\n2026-01-10\ncheck AS25: 23 up, 7 dead\n",
	}
	countDiffers = &Rule{
		Name: "count-differs", Severity: finding.Error,
		Summary: "a stocktake is not what is reckoned",
		Why: "Either an entry is missing or the count is wrong; look before you accept it. If nobody knows why, the difference is accepted with " +
			"`missing` or `over`, and stays on record as unexplained.",
		Bad:  bench + "count AM26 36\n",
		Good: bench + "count AM26 37, 1 missing\n",
	}
	countSeveral = &Rule{
		Name: "count-several", Severity: finding.Error,
		Summary: "a difference is accepted for several lots that were counted together",
		Why:     "Nobody could say which lot the missing plants were of. Lots that are counted together may only agree.",
		Bad:     bench + "count AM26, QB25 97, 1 missing\n",
		Good:    bench + "count AM26, QB25 98\n",
	}
	emptyLot = &Rule{
		Name: "empty-lot", Severity: finding.Error,
		Summary: "plants are taken from a lot that has none left",
		Why:     "The lot's name is wrong, or plants left it that should not have.",
		Bad:     kestrel + "cull QB25 because \"canker\"\ncull QB25 because \"canker on the stem\"\n",
		Good:    kestrel + "cull QB25 because \"canker\"\n",
	}
	nothingFree = &Rule{
		Name: "nothing-free", Severity: finding.Error,
		Summary: "a lot is potted or moved that has no plants standing free",
		Why:     "Seed that has not come up and layers that hang on the mother are no plants yet.",
		Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\npot AL26 to 3 L\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 8 rooted\nsever 8 of AL26\npot AL26 to 3 L\n",
	}
	notFree = &Rule{
		Name: "not-free", Severity: finding.Error,
		Summary: "something is planted, sold or grafted that is no plant of its own yet",
		Why:     "What waits on the mother, or has not come up, is no plant; what rooted is severed first.",
		Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 8 rooted\nplant 1 attached of AL26 as M41 at terrace-3\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 8 rooted\nsever 8 of AL26\nplant 1 of AL26 as M41 at terrace-3\n",
	}
	severMoreThanRooted = &Rule{
		Name: "sever-more-than-rooted", Severity: finding.Error,
		Summary: "more is severed than has rooted on the mother",
		Why:     "A layer without roots dies when it is cut off. A check says which have rooted; only those are severed.",
		Bad:     kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 5 rooted, 3 failed\nsever 8 of AL26\n",
		Good:    kestrel + "layer 8 on M7 as AL26 worker Ines\n2026-01-12\ncheck AL26: 5 rooted, 3 failed\nsever 5 of AL26\n",
	}
	returnMoreThanSold = &Rule{
		Name: "return-more-than-sold", Severity: finding.Error,
		Summary: "more plants come back than were sold",
		Why:     "The plants are of another lot, or were sold from one that this lot was split from.",
		Bad:     bench + "2026-11-20\nsell 2 of AM26 to Bob at 19.00 each\nreturn 3 living of AM26 from Bob as RT26 for 57.00\n",
		Good:    bench + "2026-11-20\nsell 2 of AM26 to Bob at 19.00 each\nreturn 2 living of AM26 from Bob as RT26 for 38.00\n",
	}
	priceSum = &Rule{
		Name: "price-sum", Severity: finding.Error,
		Summary: "the price of each and the price of all do not agree",
		Why:     "One of the two is a slip, and only the grower knows which.",
		Bad:     bench + "2026-11-20\nsell 12 of AM26 to Bob at 19.00 each for 282.00\n",
		Good:    bench + "2026-11-20\nsell 12 of AM26 to Bob at 19.00 each for 228.00\n",
	}
)
