package report

import (
	"errors"
	"fmt"
	"strings"

	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/pedigree"
	"github.com/budstick/budstick/report/table"
)

var kinship = &Report{
	Name:    "kinship",
	Summary: "how close varieties or plants are by descent, and how inbred each is",
	Long: `Reckons the coancestry of any two and the inbreeding of each, from the parents that varieties are declared with. Without
names it takes all varieties that are declared to come from others, and those. A plant stands for its variety; a seedling of a monoembryonic variety is a genotype of its
own, with an unknown pollen parent.

Coancestry is the chance that an allele drawn from one and an allele drawn from the other, at the same place, are copies of
one allele of an ancestor: 0.25 for a seedling and its parent or for full sisters, 0.125 for half sisters, if nothing is
inbred. Inbreeding is the coancestry of the parents. Unknown parents are taken as unrelated to everything. Grafts, layers,
cuttings, sports and nucellar seedlings are the same genotype as what they came from, and counted once.`,
	Example: "Amberlight Redwing Oldgate",
	Subject: SeveralThings,
	Build:   buildKinship,
}

// mostUnasked is how many varieties are compared if nobody says which.
const mostUnasked = 40

func buildKinship(n *nursery.Nursery, o Options) (*table.Doc, error) {
	subjects, err := kinshipOf(n, o.Names)
	if err != nil {
		return nil, err
	}
	individuals, names := pedigreeOf(n, subjects)
	p, err := pedigree.New(individuals)
	if err != nil {
		return nil, err
	}
	coancestry, err := p.Coancestry(names...)
	if err != nil {
		return nil, err
	}
	inbreeding, err := p.Inbreeding(names...)
	if err != nil {
		return nil, err
	}
	doc := heading(n, o, "kinship", "Kinship", table.NoBasis)
	doc.Body = []table.Block{kinshipFacts(subjects, coancestry, inbreeding), kinshipTable(subjects, inbreeding)}
	doc.Notes = kinshipNotes(subjects)
	return doc, nil
}

// kinshipOf finds what is named, or all varieties that have declared kin.
func kinshipOf(n *nursery.Nursery, names []string) ([]subject, error) {
	if len(names) == 0 {
		return allKin(n)
	}
	var out []subject
	for _, name := range names {
		s, err := kinNamed(n, name)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

func allKin(n *nursery.Nursery) ([]subject, error) {
	has := map[*nursery.Variety]bool{}
	for _, v := range n.Varieties {
		for _, p := range []*nursery.Variety{v.SeedParent, v.Pollen, v.SportOf} {
			if p != nil {
				has[v], has[p] = true, true
			}
		}
	}
	switch {
	case len(has) == 0:
		return nil, errors.New("no variety is declared to come from another, so none are kin; declare parents or a sport: variety … parents … x …")
	case len(has) > mostUnasked:
		return nil, fmt.Errorf("%d varieties are kin of one another; name those that are to be compared", len(has))
	}
	var out []subject
	for _, v := range n.Varieties {
		if has[v] {
			out = append(out, subject{nursery.Source{Variety: v}})
		}
	}
	return out, nil
}

// kinNamed finds a variety, or a plant whose variety is known; a variety goes
// before a plant of its name.
func kinNamed(n *nursery.Nursery, name string) (subject, error) {
	if v, ok := n.Variety(name); ok {
		return subject{nursery.Source{Variety: v}}, nil
	}
	s, err := subjectNamed(n, name)
	switch {
	case err != nil:
		return s, err
	case s.identity().Variety == nil:
		return s, fmt.Errorf("nothing is known of the variety of %s, so nothing of its kin", s.Label())
	}
	return s, nil
}

// pedigreeOf is the pedigree of all varieties and of the seedlings among the
// subjects, with the name of each subject in it. Varieties and seedlings can't
// be mistaken for each other there.
func pedigreeOf(n *nursery.Nursery, subjects []subject) ([]pedigree.Individual, []string) {
	varietyName := func(v *nursery.Variety) string {
		if v == nil {
			return ""
		}
		return "variety " + v.Name
	}
	list := make([]pedigree.Individual, 0, len(n.Varieties)+len(subjects))
	for _, v := range n.Varieties {
		one := pedigree.Individual{Name: varietyName(v), CloneOf: varietyName(v.SportOf)}
		if one.CloneOf == "" {
			one.SeedParent, one.PollenParent = varietyName(v.SeedParent), varietyName(v.Pollen)
		}
		list = append(list, one)
	}
	names := make([]string, len(subjects))
	seen := map[string]bool{}
	for i, s := range subjects {
		id := s.identity()
		if !id.Seedling || id.Nucellar() {
			names[i] = varietyName(id.Variety)
			continue
		}
		names[i] = "plant " + seedlingOf(n, s.Thing).Label()
		if !seen[names[i]] {
			seen[names[i]] = true
			list = append(list, pedigree.Individual{Name: names[i], SeedParent: varietyName(id.Variety)})
		}
	}
	return list, names
}

// seedlingOf is the plant, or the lot of one-off plants, that a thing of a
// seedling's genotype goes back to: as far as each step has one source, but not
// from a tree on to the lot that it was picked from.
func seedlingOf(n *nursery.Nursery, t nursery.Thing) nursery.Thing {
	for {
		if _, tree := t.(*nursery.Tree); tree {
			return t
		}
		tops := n.Tops(t)
		if len(tops) != 1 || tops[0].From.Thing == nil || tops[0].Step == nursery.Seedling {
			return t
		}
		t = tops[0].From.Thing
	}
}

func kinshipFacts(subjects []subject, coancestry [][]float64, inbreeding []float64) table.Facts {
	names := make(table.List, len(subjects))
	matrix := table.Matrix{Names: make([]string, len(subjects)), Rows: make([][]table.Cell, len(subjects))}
	for i, s := range subjects {
		names[i], matrix.Names[i] = table.Text(s.Label()), s.Label()
		for _, f := range coancestry[i] {
			matrix.Rows[i] = append(matrix.Rows[i], table.Number(f))
		}
	}
	own := make(table.List, len(inbreeding))
	for i, f := range inbreeding {
		own[i] = table.Number(f)
	}
	return table.Facts{Items: []table.Fact{
		{Name: "names", Value: names, For: table.Machines},
		{Name: "coancestry", Value: matrix, Decimals: 4},
		{Name: "inbreeding", Value: own, For: table.Machines},
	}}
}

// kinshipTable says what each is and where it comes from, beside how inbred it
// is.
func kinshipTable(subjects []subject, inbreeding []float64) table.Table {
	t := table.Table{Name: "plants", Title: "Parents and inbreeding", Columns: []table.Column{
		{Name: "name", Kind: table.KindText, Group: true},
		{Name: "is", Kind: table.KindText, Spare: 1},
		{Name: "parents", Kind: table.KindText},
		{Name: "f", Heading: "inbreeding", Kind: table.KindNumber, Decimals: 4},
	}}
	for i, s := range subjects {
		called := "variety"
		if s.Thing != nil {
			called = s.called()
		}
		t.Add(table.Text(s.Label()), table.Text(called), textOrUnknown(parentage(s.identity())), table.Number(inbreeding[i]))
	}
	return t
}

// parentage writes what a genotype was raised from, as pedigrees are written:
// seed parent × pollen parent.
func parentage(id nursery.Identity) string {
	v := id.Variety
	name := func(p *nursery.Variety) string {
		if p == nil {
			return "unknown"
		}
		return p.Name
	}
	switch {
	case id.Seedling && !id.Nucellar():
		return v.Name + " × unknown"
	case v.SportOf != nil:
		return "sport of " + v.SportOf.Name
	case v.SeedParent == nil && v.Pollen == nil:
		return ""
	}
	return name(v.SeedParent) + " × " + name(v.Pollen)
}

func kinshipNotes(subjects []subject) []string {
	var lots, nucellar []string
	for _, s := range subjects {
		id := s.identity()
		_, lot := s.Thing.(*nursery.Lot)
		switch {
		case id.Nucellar():
			nucellar = append(nucellar, s.Label())
		case id.Seedling && lot:
			lots = append(lots, s.Label())
		}
	}
	notes := []string{"Unknown parents are taken as unrelated and not inbred."}
	if len(lots) > 0 {
		notes = append(notes, fmt.Sprintf("Every plant of %s is a genotype of its own: its figures are those of one plant.", strings.Join(lots, ", ")))
	}
	if len(nucellar) > 0 {
		notes = append(notes, fmt.Sprintf("%s: taken as the clone of its mother, as most nucellar seedlings are; some are not.", strings.Join(nucellar, ", ")))
	}
	return notes
}
