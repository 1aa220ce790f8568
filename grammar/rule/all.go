package rule

// All lists the rules in the order of their pages.
var All = []*Rule{
	// how a journal allows what a rule warns of
	allowUnknown, allowNever, allowUnused,
	// wood
	oldWood,
}

// kestrel is the top of the examples: the standing facts of a small nursery,
// with stocks on hand.
const kestrel = `farm "Kestrel Hollow" currency EUR season from October
worker Ines 14.50 per h
variety Amberlight species "Eriobotrya japonica" seed monoembryonic
variety "Quince BA" species "Cydonia oblonga" use rootstock
tree M7 variety Amberlight at terrace-3 planted 2013
2024-11-04
buy 100 liners of "Quince BA" as QB24 from "Liner nursery" for 180.00
`
