package stat

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// drawTally makes n trials of chance p.
func drawTally(random *rand.Rand, n int, p float64) Tally {
	t := Tally{N: n}
	for range n {
		if random.Float64() < p {
			t.X++
		}
	}
	return t
}

// Seasons of three methods, each worked in a few lots of 5 to 60 plants whose
// chances differ with correlation rho within a lot: of the intervals at 95 %
// that allow for the lots, 93 to 97 of 100 hold the method's own rate. Plain
// intervals fall far short.
func TestWideIntervalsCover(t *testing.T) {
	const seasons = 2000
	means := []float64{0.5, 0.7, 0.9}
	for _, c := range []struct {
		lots int
		rho  float64
	}{{4, 0.1}, {12, 0.05}, {12, 0.2}, {40, 0.1}} {
		random := rand.New(rand.NewPCG(7, uint64(c.lots)))
		plain, wide, all := 0, 0, 0
		for range seasons {
			groups := make([][]Tally, len(means))
			for g, mean := range means {
				weight := (1 - c.rho) / c.rho
				chance := distuv.Beta{Alpha: mean * weight, Beta: (1 - mean) * weight, Src: random}
				for range c.lots {
					groups[g] = append(groups[g], drawTally(random, 5+random.IntN(56), chance.Rand()))
				}
			}
			spread := BetweenLots(groups...)
			for g, mean := range means {
				pool := Pool(groups[g])
				all++
				if Wilson(pool.X, pool.N, 0.95).contains(mean) {
					plain++
				}
				if WilsonWide(pool, spread.Widening(groups[g]), 0.95).contains(mean) {
					wide++
				}
			}
		}
		covered := float64(wide) / float64(all)
		t.Logf("%d lots a method, rho %v: plain intervals cover %.1f %%, wide ones %.1f %%",
			c.lots, c.rho, 100*float64(plain)/float64(all), 100*covered)
		if covered < 0.93 || covered > 0.97 {
			t.Errorf("%d lots, rho %v: wide intervals cover %v", c.lots, c.rho, covered)
		}
	}
}

// Seasons of thirty mothers, most with few grafts and some with many: how
// often the mother at the top of the table is the one with the highest chance.
func TestDrawnInLeagueTableFindsTheBest(t *testing.T) {
	const seasons, mothers = 600, 30
	random := rand.New(rand.NewPCG(11, 13))
	chance := distuv.Beta{Alpha: 7, Beta: 3, Src: random}
	var byRaw, byDrawnIn float64
	for range seasons {
		tallies, chances := make([]Tally, mothers), make([]float64, mothers)
		for m := range tallies {
			chances[m] = chance.Rand()
			size := 2 + random.IntN(8)
			if m%3 == 0 {
				size = 20 + random.IntN(100)
			}
			tallies[m] = drawTally(random, size, chances[m])
		}
		fit := FitSpread(tallies)
		raw, drawnIn := make([]float64, mothers), make([]float64, mothers)
		for m, tally := range tallies {
			raw[m] = tally.Rate()
			drawnIn[m] = fit.DrawnIn(tally)
		}
		byRaw += shareOfTop(raw, chances)
		byDrawnIn += shareOfTop(drawnIn, chances)
	}
	t.Logf("the best mother leads the table by raw rates in %.1f %% of seasons, by those drawn in in %.1f %%",
		100*byRaw/seasons, 100*byDrawnIn/seasons)
	if byDrawnIn <= byRaw {
		t.Errorf("raw rates find the best in %v seasons, those drawn in in %v", byRaw, byDrawnIn)
	}
}

// shareOfTop is the chance that the best is named if one of those with the
// highest score is picked at random.
func shareOfTop(score, truth []float64) float64 {
	best, top := 0, 0
	for i := range score {
		if truth[i] > truth[best] {
			best = i
		}
		if score[i] > score[top] {
			top = i
		}
	}
	ties := 0
	for _, s := range score {
		if s == score[top] {
			ties++
		}
	}
	if score[best] != score[top] {
		return 0
	}
	return 1 / float64(ties)
}
