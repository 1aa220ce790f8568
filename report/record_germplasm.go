package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// descriptors are those of the Multi-crop Passport Descriptors, V.2.1 (Alercia,
// Diulgheroff and Mackay 2015, FAO and Bioversity International), in the order
// of the standard. Names, order and codes are written here from memory.
var descriptors = []string{
	"PUID", "INSTCODE", "ACCENUMB", "COLLNUMB", "COLLCODE", "COLLNAME", "COLLINSTADDRESS", "COLLMISSID",
	"GENUS", "SPECIES", "SPAUTHOR", "SUBTAXA", "SUBTAUTHOR", "CROPNAME", "ACCENAME", "ACQDATE", "ORIGCTY", "COLLSITE",
	"DECLATITUDE", "LATITUDE", "DECLONGITUDE", "LONGITUDE", "COORDUNCERT", "COORDDATUM", "GEOREFMETH", "ELEVATION",
	"COLLDATE", "BREDCODE", "BREDNAME", "SAMPSTAT", "ANCEST", "COLLSRC", "DONORCODE", "DONORNAME", "DONORNUMB",
	"OTHERNUMB", "DUPLSITE", "DUPLINSTNAME", "STORAGE", "MLSSTAT", "REMARKS",
}

// shownDescriptors are those that people see too, by how well they can be
// spared; the rest would be empty on most farms.
var shownDescriptors = map[string]int{
	"ACCENUMB": 0, "GENUS": 0, "SPECIES": 0, "ACCENAME": 0, "ACQDATE": 1, "SAMPSTAT": 2, "ANCEST": 3, "DONORNAME": 4, "REMARKS": 5,
}

// The codes that are used here.
const (
	advancedCultivar = "500" // SAMPSTAT: advanced or improved cultivar
	otherStatus      = "999" // SAMPSTAT: other, told in REMARKS
	orchard          = "22"  // COLLSRC: orchard, of farm or cultivated habitat
	fieldCollection  = "20"  // STORAGE: field collection
)

// germplasm lists the standing trees as accessions.
func germplasm(n *nursery.Nursery, o Options) (*table.Doc, error) {
	doc := heading(n, o, "record", "Trees as germplasm, passport data", table.NoBasis)
	doc.Cautions = []string{deferral}
	t := table.Table{Name: "accessions", Published: "MCPD V.2.1"}
	for _, name := range descriptors {
		c := table.Column{Name: strings.ToLower(name), Heading: name, Kind: table.KindText, For: table.Machines}
		if rank, shown := shownDescriptors[name]; shown {
			c.For, c.Spare = table.Everyone, rank
		}
		t.Columns = append(t.Columns, c)
	}
	for _, tree := range n.Trees {
		if !tree.Standing() || !treePasses(tree, o.Filters) || !o.Period().Contains(tree.Planted.First) {
			continue
		}
		values := accession(n, tree)
		row := make([]table.Cell, len(descriptors))
		for i, name := range descriptors {
			row[i] = textOrUnknown(values[name])
		}
		t.Rows = append(t.Rows, row)
	}
	doc.Body = []table.Block{t}
	doc.Notes = []string{
		"Descriptors, their order and their codes follow the FAO/Bioversity Multi-crop Passport Descriptors V.2.1 (2015); a cultivar that was declared is given the status 500, advanced or improved cultivar: make it 300 where it is a landrace.",
		"Empty: what the journal does not know, such as coordinates, collectors and the institute's code. A genebank gives those itself.",
	}
	if len(t.Rows) == 0 {
		return nil, fmt.Errorf("no standing tree is meant, so there is no accession")
	}
	return doc, nil
}

// accession is what is known of a tree, by descriptor.
func accession(n *nursery.Nursery, tree *nursery.Tree) map[string]string {
	id := tree.Identity()
	v := map[string]string{"ACCENUMB": oneValue(tree.Name), "STORAGE": fieldCollection, "SAMPSTAT": advancedCultivar, "ACQDATE": compactDate(tree.Planted)}
	name := taxon(id.Species())
	v["GENUS"], v["SPECIES"], v["SPAUTHOR"], v["SUBTAXA"], v["SUBTAUTHOR"] = name.genus, name.species, name.author, name.below, name.belowAuthor
	var remarks []string // each behind the descriptor that it is about, as the standard has it
	switch {
	case id.Variety == nil:
		v["SAMPSTAT"] = ""
	case id.Seedling:
		v["SAMPSTAT"] = otherStatus
		kind := "seedling of "
		if id.Nucellar() {
			kind = "most likely nucellar seedling of "
		}
		remarks = append(remarks, "SAMPSTAT:"+kind+id.Variety.Name)
	default:
		v["ACCENAME"] = oneValue(id.Variety.Name)
	}
	if id.Variety != nil {
		v["ANCEST"] = oneValue(parentage(id))
	}
	if on := standsOn(tree); on.Known() {
		remarks = append(remarks, "ACCENUMB:on "+on.Plain())
	}
	mothers, donors, sown := originsOf(n, tree)
	if len(donors) == 1 {
		v["DONORNAME"] = oneValue(donors[0])
	}
	if len(mothers) > 0 {
		v["COLLSRC"] = orchard
		remarks = append(remarks, "COLLSRC:from "+strings.Join(mothers, " or "))
	}
	if sown && n.Farm != nil {
		v["ORIGCTY"] = n.Farm.Country.Text
	}
	if tree.Place != nil {
		remarks = append(remarks, "STORAGE:at "+tree.Place.Name)
	}
	for _, m := range tree.Marks {
		if m.Cleared == nil && m.Word != "verified" {
			remarks = append(remarks, strings.TrimRight("ACCENAME:"+m.Word+" since "+m.Day.String(), " "))
		}
	}
	for i, r := range remarks {
		remarks[i] = oneValue(r)
	}
	v["REMARKS"] = strings.Join(remarks, ";")
	return v
}

// oneValue keeps a name one value: semicolons part values in the standard.
func oneValue(s string) string { return strings.ReplaceAll(s, ";", ",") }

// originsOf are the trees of this nursery, or the suppliers, that the top of a
// tree came from, and whether it was raised here from seed of such a tree.
func originsOf(n *nursery.Nursery, tree *nursery.Tree) (mothers, donors []string, sown bool) {
	seen := map[nursery.Thing]bool{tree: true}
	for queue := []nursery.Thing{tree}; len(queue) > 0; queue = queue[1:] {
		for _, l := range n.Tops(queue[0]) {
			switch from := l.From.Thing.(type) {
			case nil:
				if name := l.From.Label(); !slices.Contains(donors, name) {
					donors = append(donors, name)
				}
			case *nursery.Tree, *nursery.Limb:
				if name := from.Label(); !slices.Contains(mothers, name) {
					mothers = append(mothers, name)
				}
				sown = sown || l.Step == nursery.Seedling
			default:
				if !seen[from] {
					seen[from] = true
					queue = append(queue, from)
				}
			}
		}
	}
	return mothers, donors, sown
}

// A taxonName is a botanical name by the descriptors of its parts.
type taxonName struct{ genus, species, author, below, belowAuthor string }

// taxon parts a botanical name into genus, species and what stands below it, each
// with who described it, if that is written.
func taxon(name string) taxonName {
	words := strings.Fields(name)
	if len(words) > 1 && (words[0] == "×" || words[0] == "+") { // a hybrid genus, or one of graft-chimaeras
		words = slices.Insert(words[2:], 0, words[0]+words[1])
	}
	if len(words) > 2 && words[1] == "×" && strings.ToLower(words[2]) == words[2] { // a hybrid species
		words = slices.Insert(words[3:], 0, words[0], words[1]+words[2])
	}
	var t taxonName
	if len(words) == 0 {
		return t
	}
	t.genus, words = words[0], words[1:]
	if k := len(words) - 2; k >= 0 && words[k+1] == "Group" { // of cultivars
		t.below, words = words[k]+" Group", words[:k]
	}
	end := slices.IndexFunc(words, func(w string) bool { return slices.Contains(lowerRanks, w) })
	if end < 0 {
		end = len(words)
	}
	t.species, t.author = apart(words[:end], 1)
	if end < len(words) {
		t.below, t.belowAuthor = apart(words[end:], 2)
	}
	return t
}

var lowerRanks = []string{"subsp.", "ssp.", "var.", "f.", "convar."}

// apart cuts the author off a name that has so many words; a formula has more
// names in it, and is left whole.
func apart(words []string, of int) (name, author string) {
	if len(words) <= of || slices.ContainsFunc(words, func(w string) bool { return w == "×" || w == "x" || w == "+" }) {
		return strings.Join(words, " "), ""
	}
	return strings.Join(words[:of], " "), strings.Join(words[of:], " ")
}

// compactDate writes a date as YYYYMMDD, with hyphens for a month or day that
// is not known.
func compactDate(w fact.When) string {
	text := strings.ReplaceAll(whenText(w), "-", "")
	if text == "" {
		return ""
	}
	return text + strings.Repeat("-", 8-len(text))
}
