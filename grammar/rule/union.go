package rule

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"

	"github.com/budstick/budstick/grammar/fact"
	spelling "github.com/budstick/budstick/grammar/name"
	"github.com/budstick/budstick/grammar/nursery"
)

// A union is what is known of one plant grown on another.
type union struct {
	stock, scion *nursery.Variety
	outcome      outcome
	says         string // what happens, or is done, in half a sentence
	mark         string // where that comes from
	families     [2]string
}

// outcome sorts unions by what becomes of them.
type outcome string

// The outcomes. A union of two species of one genus of which nothing is written
// is taken for good, as most are.
const (
	unionGood       outcome = "good"
	unionPartial    outcome = "partial"    // grows on with some cultivars or for a time
	unionDelayed    outcome = "delayed"    // takes, and fails after years
	unionReverse    outcome = "reverse"    // is made the other way round
	unionInterstock outcome = "interstock" // needs a piece of a third plant between
	unionNone       outcome = "none"       // two genera of a family, and no success on record
	unionFamilies   outcome = "families"   // two families
	unionUnknown    outcome = "unknown"    // a plant that no table has: nothing is said
)

type unionKey struct{ stock, scion *nursery.Variety }

// union says what is known of scion grown on stock.
func (p *pass) union(stock, scion *nursery.Variety) *union {
	key := unionKey{stock, scion}
	u := p.scan.unions[key]
	if u == nil {
		u = findUnion(stock, scion)
		p.scan.unions[key] = u
	}
	return u
}

// newUnions asks about each union that a batch of grafts makes: of the top, and
// of an interstock that was set with it.
func (p *pass) newUnions(ask func(*nursery.Batch, *fact.Graft, *union)) {
	s := p.scan
	if s.joined == nil {
		p.findUnions()
	}
	s.joined = append(s.joined, ask)
}

// findUnions looks for unions, once for all rules that ask about them.
func (p *pass) findUnions() {
	s := p.scan
	p.grafts(func(b *nursery.Batch, f *fact.Graft) {
		scion := b.Top
		for _, stock := range b.Lot.Below[:min(len(b.Lot.Inter)+1, len(b.Lot.Below))] {
			if scion.Variety != nil && stock.Variety != nil && scion.Variety != stock.Variety {
				u := p.union(stock.Variety, scion.Variety)
				for _, ask := range s.joined {
					ask(b, f, u)
				}
			}
			scion = stock
		}
	})
}

// about is what a finding on a union is about, for `allow`.
func (u *union) about(b *nursery.Batch) []string {
	return []string{b.Lot.Name, u.scion.Name, u.stock.Name}
}

// findUnion reads the tables: of a cultivar first, then of a species, then of a
// genus.
func findUnion(stock, scion *nursery.Variety) *union {
	u := &union{stock: stock, scion: scion, outcome: unionUnknown}
	genus := [2]string{genusOf(stock.Species), genusOf(scion.Species)}
	u.families = [2]string{families()[genus[0]], families()[genus[1]]}
	for _, low := range unionNames(stock) {
		for _, high := range unionNames(scion) {
			if row, ok := unions()[[2]string{low, high}]; ok {
				u.outcome, u.says, u.mark = row.outcome, row.says, row.mark
				return u
			}
		}
	}
	switch {
	case genus[0] == "" || genus[1] == "":
	case genus[0] == genus[1]:
		u.outcome = unionGood
	case u.families[0] == "" || u.families[1] == "":
	case u.families[0] != u.families[1]:
		u.outcome = unionFamilies
	default:
		u.outcome = unionNone
	}
	return u
}

// unionNames are the names under which the table may have a variety, closest
// first.
func unionNames(v *nursery.Variety) []string {
	genus := genusOf(v.Species)
	return []string{genus + " '" + spelling.Fold(v.Name) + "'", botanical(v.Species), genus}
}

// genusOf is the first word of a botanical name, folded and without the sign
// of a hybrid.
func genusOf(species string) string {
	genus, _, _ := strings.Cut(botanical(species), " ")
	return strings.TrimPrefix(genus, "×")
}

// botanical folds a botanical name; a small x for a hybrid is read as the sign.
func botanical(species string) string {
	words := strings.Fields(spelling.Fold(species))
	out := words[:0]
	for i, w := range words {
		if (w == "x" || w == "×") && i+1 < len(words) {
			words[i+1] = "×" + words[i+1]
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

//go:embed unions.csv
var unionsCSV string

//go:embed families.csv
var familiesCSV string

// unions is what is known of pairs, by stock and scion. Each row has its source
// or says that it is from memory.
var unions = sync.OnceValue(func() map[[2]string]union {
	m := map[[2]string]union{}
	for _, row := range rows(unionsCSV) {
		m[[2]string{spelling.Fold(row[0]), spelling.Fold(row[1])}] = union{outcome: outcome(row[2]), says: row[3], mark: row[4]}
	}
	return m
})

// families is the botanical family of each genus of fruit that is known here:
// common knowledge (as in APG IV), from memory.
var families = sync.OnceValue(func() map[string]string {
	m := map[string]string{}
	for _, row := range rows(familiesCSV) {
		m[spelling.Fold(row[0])] = row[1]
	}
	return m
})

// rows reads a table that the tool ships, without its heading.
func rows(table string) [][]string {
	list, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		panic(err)
	}
	return list[1:]
}

// isTrial reports whether the grower calls an entry a trial.
func isTrial(e *fact.Entry) bool {
	for _, tag := range e.Tags() {
		if spelling.Fold(tag.Text) == "trial" {
			return true
		}
	}
	return false
}
