package entry

// All lists the kinds of entry in the order in which FORMAT.md explains them.
var All = []*Kind{
	// What stands.
	farmKind, varietyKind, treeKind, limbKind, placeKind, workerKind, partyKind, methodKind, causeKind, rateKind, limitKind,
	// What begins.
	sowKind, stickKind, layerKind, cutKind, buyKind, graftKind,
	// What is seen.
	checkKind, sampleKind, failKind, reviveKind, countKind, markKind, clearKind, noteKind,
	// What is done.
	tendKind, potKind, moveKind, splitKind, joinKind, releaseKind, severKind, plantKind,
	// What leaves, and comes back.
	loseKind, cullKind, sellKind, giveKind, returnKind, pickKind,
	// Money and hours.
	spendKind, workKind,
	// The book itself.
	strikeKind, allowKind, sealKind, versionKind,
}
