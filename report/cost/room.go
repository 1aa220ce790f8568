package cost

import (
	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
)

// roomOfPots is the room that a pot takes where pots stand edge to edge, in
// square centimetres, by the volume up to which it holds, in millilitres. It is
// the square over a round pot about as tall as wide: a rule of thumb, from
// memory.
var roomOfPots = [...]struct{ upTo, room int64 }{
	{500, 100}, {1000, 170}, {1500, 200}, {2000, 260}, {3000, 360}, {4000, 430}, {5000, 480}, {7500, 680},
	{10000, 780}, {15000, 1090}, {20000, 1300}, {30000, 1600}, {50000, 2500},
}

// smallestRoom is what a plant takes of which neither pot nor place says more,
// in square centimetres.
const smallestRoom = 100

// roomOf is the bench room of one plant, in square centimetres: by its pot, else
// by its place, where that says how large it is and how many it holds.
func roomOf(s nursery.Spot) int64 {
	if room := roomOfPot(s.Pot.Size); room > 0 {
		return room
	}
	if s.Place != nil && s.Place.Fact != nil && s.Place.Fact.Holds.N > 0 {
		per := map[fact.Unit]int64{fact.SquareM: 10_000, fact.Hectare: 100_000_000}[s.Place.Fact.Area.Unit]
		if room := whole(s.Place.Fact.Area.Value, per) / int64(s.Place.Fact.Holds.N); room > 0 {
			return room
		}
	}
	return smallestRoom
}

// volumes and widths are the units of pots, in millilitres and in millimetres;
// an inch and a gallon are rounded to them.
var (
	volumes = map[fact.Unit]int64{fact.Millilitre: 1, fact.Litre: 1000, fact.Gallon: 3785}
	widths  = map[fact.Unit]int64{fact.Millimetre: 10, fact.Centimetre: 100, fact.Inch: 254} // tenths
)

// roomOfPot is the room of a pot of a size, or 0 where there is none.
func roomOfPot(size fact.Quantity) int64 {
	if !size.Given {
		return 0
	}
	if per, ok := widths[size.Unit]; ok {
		width := whole(size.Value, per)
		return min(width, 100_000) * min(width, 100_000) / 10_000
	}
	ml := whole(size.Value, volumes[size.Unit])
	if ml <= 0 {
		return 0
	}
	largest := roomOfPots[len(roomOfPots)-1]
	for _, p := range roomOfPots {
		if ml <= p.upTo {
			return p.room
		}
	}
	return largest.room * min(ml, 10_000_000) / largest.upTo
}

// whole is d × per without what is behind the point, or 0 where that is too
// large to be true.
func whole(d fact.Decimal, per int64) int64 {
	if per <= 0 || d.Coef > (1<<62)/per {
		return 0
	}
	n := d.Coef * per
	for range d.Scale {
		n /= 10
	}
	return n
}
