package entry

// A Group is a few kinds of entry that are explained together.
type Group struct {
	Title string
	Kinds []*Kind
}

// Groups lists the kinds of entry in the order in which FORMAT.md explains them.
var Groups = []Group{
	{"What stands", []*Kind{
		farmKind, varietyKind, treeKind, limbKind, placeKind, workerKind, partyKind, methodKind, causeKind, rateKind, limitKind,
		priceKind, shareKind,
	}},
	{"What begins", []*Kind{sowKind, stickKind, layerKind, cutKind, buyKind, graftKind}},
	{"What is seen", []*Kind{checkKind, sampleKind, failKind, reviveKind, countKind, markKind, clearKind, inspectKind, noteKind}},
	{"What is done", []*Kind{tendKind, treatKind, potKind, moveKind, splitKind, joinKind, releaseKind, severKind, plantKind}},
	{"What leaves, and comes back", []*Kind{loseKind, cullKind, sellKind, giveKind, returnKind, pickKind}},
	{"Money and hours", []*Kind{spendKind, workKind, paidKind}},
	{"The book itself", []*Kind{strikeKind, allowKind, sealKind, versionKind}},
}

// All lists every kind of entry.
var All = func() (all []*Kind) {
	for _, g := range Groups {
		all = append(all, g.Kinds...)
	}
	return all
}()
