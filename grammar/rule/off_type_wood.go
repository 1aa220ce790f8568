package rule

import "github.com/budstick/budstick/grammar/finding"

var offTypeWood = &Rule{
	Name: "off-type-wood", Severity: finding.Error,
	Summary: "wood is taken from, or was cut from, a tree that is not what its name says, or comes from such",
	Why: "Every plant made from it is not true either, and is sold under a wrong name. A plant that came of it and was seen to be true is marked verified, " +
		"and nothing is asked of that one.",
	Bad:  kestrel + "mark M7 off-type because \"fruit round\"\n2026-03-02\ncut 20 scions from M7 as W7 store cool\n",
	Good: kestrel + secondTree + "mark M7 off-type because \"fruit round\"\n2026-03-02\ncut 20 scions from M8 as W8 store cool\n",
	check: markedWood("off-type", "wood from it is not the variety: take it from another tree, or declare what it is",
		"take it from another tree, or, if this one was seen to be true, mark it verified"),
}
