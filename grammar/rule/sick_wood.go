package rule

import "github.com/budstick/budstick/grammar/finding"

var sickWood = &Rule{
	Name: "sick-wood", Severity: finding.Error,
	Summary: "wood is taken from, or was cut from, a tree that is marked sick, or comes from such",
	Why: "Viruses, cankers and their like travel with the wood into every graft, and from there into other nurseries. What the law asks in such a " +
		"case your plant health authority says.",
	Bad:  kestrel + "mark M7 sick because \"canker on two limbs\"\n2026-03-02\ncut 20 scions from M7 as W7 store cool\n",
	Good: kestrel + secondTree + "mark M7 sick because \"canker on two limbs\"\n2026-03-02\ncut 20 scions from M8 as W8 store cool\n",
	check: markedWood("sick", "wood from it carries what it has: take it from another tree, or clear the mark",
		"wood from it may carry what that has: take it from another tree, or clear that mark"),
}
