package rule

// The tops of the examples: each is the beginning of several journals.

// kestrel is the top of the examples: the standing facts of a small nursery,
// with stocks on hand.
const kestrel = `farm "Kestrel Hollow" currency EUR season from October
worker Ines 14.50 per h
party "Valley Liners" as supplier
party Bob as customer
place shade-1
place terrace-3
variety Amberlight species "Eriobotrya japonica" seed monoembryonic
variety "Quince BA" species "Cydonia oblonga" use rootstock
tree M7 variety Amberlight at terrace-3 planted 2013
mark M7 verified because "leaf and fruit seen"
2025-11-03
buy 100 liners of "Quince BA" as QB25 from "Valley Liners" for 180.00
`

// bench is kestrel with a lot of grafts that took.
const bench = kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-03-30
check AM26: 30 took, 8 failed, 2 dead
`

// stale is kestrel with grafts that nobody looked at.
const stale = kestrel + `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 worker Ines
2026-06-01
note QB25 "in leaf"
`

// secondTree is another tree of the same variety.
const secondTree = `tree M8 variety Amberlight at terrace-3 planted 2015
mark M8 verified because "leaf and fruit seen"
`

// twoTops gives M7 a limb of another variety.
const twoTops = `variety Emberlight sport of Amberlight
limb M7/east of M7 variety Emberlight
mark M7/east verified because "leaf and fruit seen"
`

// thick is a lot of grafts on stocks of 9 mm.
const thick = `
2026-03-02
graft 40 of QB25 with M7 by cleft as AM26 caliper 9 mm worker Ines
2026-03-30
check AM26: 30 took, 8 failed, 2 dead
`

// sideGrafts are two lots of veneer grafts that took.
const sideGrafts = kestrel + `
2026-03-02
graft 40 of QB25 with M7 by veneer as AV26 worker Ines
2026-03-30
check AV26: 30 took, 8 failed, 2 dead
2026-04-15
graft 20 of QB25 with M7 by veneer as AV26b worker Ines
2026-05-15
check AV26b: 18 took, 2 failed
`

// failing is kestrel with stocks that failed three times.
const failing = kestrel + `
2026-03-02
graft 12 of QB25 with M7 by cleft as AMa worker Ines
2026-03-30
check AMa: 4 took, 8 failed
graft 8 failed of AMa with M7 by cleft as AMb worker Ines
2026-04-30
check AMb: 4 took, 4 failed
graft 4 failed of AMb with M7 by cleft as AMc worker Ines
2026-05-30
check AMc: 2 took, 2 failed
`

// manyStocks is kestrel with very many stocks.
const manyStocks = kestrel + "buy 2000 liners of \"Quince BA\" as QC25 from \"Valley Liners\" for 2000.00\nbuy 1000 scions of Amberlight as WB26 from Bob for 200.00\n"

// sownStocks are stocks that were sown and came up.
const sownStocks = `sow 60 seed of "Quince BA" as QA26 from "Valley Liners" for 8.00
2026-02-20
check QA26: 50 up, 10 dead
`

// years pass over the sown stocks.
const years = `cull QB25 because "not needed"
2027-02-20
note QA26 "in leaf"
2028-02-20
note QA26 "in leaf"
2029-02-20
note QA26 "in leaf"
`

// mango are stocks of another family.
const mango = `variety Harbourgold species "Mangifera indica"
buy 40 liners of Harbourgold as MG25 from "Valley Liners" for 80.00
`

// plum are stocks of another genus.
const plum = `variety Stonefall species "Prunus domestica" use rootstock
buy 40 liners of Stonefall as PL25 from "Valley Liners" for 80.00
`

// pear is a mother tree of pears, and stocks.
const pear = `variety Longneck species "Pyrus communis"
variety "Pear seedling" species "Pyrus communis" use rootstock
tree P1 variety Longneck at terrace-3 planted 2013
mark P1 verified because "leaf and fruit seen"
buy 40 liners of "Pear seedling" as PS25 from "Valley Liners" for 80.00
`

// lowLimb is a limb of the first tree.
const lowLimb = `limb M7/low of M7 variety Amberlight
mark M7/low verified because "leaf and fruit seen"
`

// mangoTree is a mother tree of a kind that roots badly.
const mangoTree = `variety Harbourgold species "Mangifera indica"
tree H1 variety Harbourgold at terrace-3 planted 2013
mark H1 verified because "leaf and fruit seen"
`

// severedLayers is kestrel with layers that were severed.
const severedLayers = kestrel + `layer 8 on M7 as AL26 worker Ines
2026-01-20
check AL26: 8 rooted
sever 8 of AL26
`

// seedlings is kestrel with seedlings of a variety of one embryo.
const seedlings = kestrel + `sow 30 seed of Amberlight as AS25 from M7
2026-01-20
check AS25: 24 up, 6 dead
`

// poly are seedlings of a variety of several embryos.
const poly = `variety Manyseed species "Mangifera indica" seed polyembryonic
sow 30 seed of Manyseed as HS25 from "Valley Liners"
2025-12-10
check HS25: 24 up, 6 dead
`

// protected is a variety under a right, and wood of it.
const protected = "variety Latelight species \"Eriobotrya japonica\" protected until 2041-12-31 by \"plant variety right 2021/0417\"\n" + latelightWood

// licensed is the same with a licence for 50.
const licensed = "variety Latelight species \"Eriobotrya japonica\" protected until 2041-12-31 by \"plant variety right 2021/0417\" licence \"KH-3\" for 50\n" + latelightWood

// latelightWood is wood of the protected variety.
const latelightWood = "buy 60 scions of Latelight as WE26 from Bob for 40.00\n"
