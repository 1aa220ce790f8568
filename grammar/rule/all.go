package rule

// All lists the rules in the order of their pages.
var All = []*Rule{
	// how a sentence is written
	textRule, versionRule, verbRule, indentRule, sentenceRule, nameRule, quoteRule, signRule, noDay,
	clauseMissing, clauseMisplaced, clauseTwice, aboutRule, stateRule,
	// numbers, days and money
	numberRule, zeroRule, decimalComma, unitRule, currencyRule, monthRule, dateRule, weekdayRule, dayOrder, countryRule, priceRule, sealRule, sealBroken,
	// names
	unknownName, unknownVariety, ownAncestor, unknownLimit, declaredTwice, nameTaken, wrongKind, partNeedsName, treeNames, whichTop,
	// counts
	tooMany, tooManyVerdicts, checkSum, scionsSum, severalASeed, countDiffers, countSeveral, emptyLot, nothingFree, notFree,
	severMoreThanRooted, returnMoreThanSold, priceSum,
	// the order of things
	checkBefore, nothingToCheck, wrongVerdict, woodNotYet, noWood, mixedWood, treeGone, treeNotYet, placeDiffers,
	joinOne, joinWaiting, joinSpecies, joinVariety, plantVariety, seedVariety,
	// putting the record right
	strikeNothing, strikeNever, strikeTwice, strikeWords, strikeBlind, clearNothing,
	allowUnknown, allowNever, allowUnused,
	// wood
	oldWood, storeWord, woodOverused, juvenileWood, unverifiedWood, sickWood, offTypeWood, motherCut, oneMother,
	// stocks, scions and unions
	differentFamilies, noKnownUnion, partialUnion, delayedFailure, unionReversed, interstockMissing, interstockSame, sameOnSame,
	caliperRule, stockThin, caliperShrinks, caliperMismatch, stockYoung, stockOld, stockTries, scionsPerStock, scionsMost, graftedWhileWaiting,
	// hands and methods
	noWorker, noMethod, methodSynonyms, outOfSeason, graftsADay, hoursADay, graftMinutes,
	// checks, and the care of grafts
	checkEarly, checkLate, staleCheck, staleLayers, staleCuttings, staleSeed, countShort, takeOutlier, neverFails,
	tiesOn, tiesEarly, notHeaded, notRubbed,
	// layers, cuttings and seed
	severSoon, rootedEarly, hardToLayer, hormoneStrength, severedSilent, oldSeed, seedlingNamed, nucellarNamed, seedlingParents, speciesDiffers,
	// losses, and what was not written
	lossRule, lateLoss, missingPlants, foundPlants, unusedLot, dateGap, pastedTwice, returnOtherParty, placeFull,
	// names, origins and rights
	noSupplier, noMother, joinOrigins, cutAfterPrune, noLicence, licenceExceeded, epithetForm, botanicalForm, tradeName,
	undeclared, lookAlike, unitMix,
	// pots and fruit
	potShrinks, potAge, bearsYoung, fruitMass,
	// treatments and papers
	enteredEarly, certificateExpired,
	// sales and money
	soldWaiting, soldSoon, soldYoung, noPrice, noBuyer, freeReason, priceOutlier, noCurrency, noRate, noWage, paidFor, fruitShort, sharedCost,
	// offspring of what turned out bad
	recallRule, recallSold,
}
