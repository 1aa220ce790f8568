// Package cost follows money through a replayed nursery: what was paid for
// plants, what was spent on them and the hours that went into them travel with
// the plants from lot to lot, until they are sold, given away, planted out or
// lost. The replay says which plants went where; nothing is counted here.
//
// Three enterprises are kept apart. Trees are the plants of the nursery. Wood is
// scions, cuttings and seed on their way to the bench, whose cost goes into the
// lots they are used for. Fruit is the standing trees: what is spent on them is
// a cost of the fruit at once.
//
// Every flow of cost has a day, and days never go back, so whatever stretch of
// time is looked at
//
//	opening + spent = sold + given + planted + lost + unallocated + closing
//
// to the last unit, and the same is true of the hours and of the room on the
// bench, which travel in the same way. Flows go by the day that an entry is
// written under, as counts do.
//
// How costs are attributed:
//
//   - What an entry costs belongs to what it makes, else to what it is about. It
//     is shared by the plants that stand there when it is written.
//   - What names nothing is shared by all that stands in the calendar month, or
//     in each month of the time that it serves, by plant-days unless the journal
//     declares another base. A lot is charged when the month begins or when its
//     first plants arrive, so that those which leave soon carry their share.
//   - Plants that go on, leave or are planted take the average cost of their lot.
//   - Survivors bear the cost of those that died, up to the share of loss that
//     the journal declares to be normal; what dies beyond it, or with nobody left
//     to bear it, is a loss of the season (process costing with spoilage).
//   - Plants that come back are worth nothing until they are sold again: their
//     cost stays with the first sale, whose revenue is given back.
package cost
