package report

import (
	"fmt"
	"strings"

	"golang.org/x/text/language"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

var label = &Report{
	Name:    "label",
	Summary: "the data lines of a plant passport and a sheet of labels for a lot or a tree",
	Long: `The four data lines that a plant passport of the European Union has (Regulation (EU) 2016/2031, Annex VII): A the
botanical name, B the country's code and the registration number, C the code by which the plants are traced, which is the
name of the lot, and D the country of origin. The farm's country and registration come from its declaration.

As SVG or HTML there are labels to print and cut apart, one for each living plant that stands free unless --copies says
how many, with the same lines as a QR code. It is no plant passport: the Union's flag, the words and the right to put
them on belong to those whom the authority has authorised.

` + deferral,
	Example: "AM26t --copies 14 --output labels.html",
	Subject: OneThing,
	Takes:   Labels,
	Build:   buildLabel,
}

// mostLabels is how many labels are made if nobody asks for more.
const mostLabels = 200

func buildLabel(n *nursery.Nursery, o Options) (*table.Doc, error) {
	s, err := subjectNamed(n, o.Name)
	if err != nil {
		return nil, err
	}
	p, err := passportOf(n, s)
	if err != nil {
		return nil, err
	}
	doc := heading(n, o, "label", "Labels for "+s.Label(), table.NoBasis)
	doc.Cautions = []string{deferral}
	if v := s.identity().Variety; isProtected(v, o.AsAt) {
		doc.Cautions = append(doc.Cautions, protectedCaution(v))
	}
	doc.Body = []table.Block{p.facts()}
	doc.Notes = p.missing
	copies := o.Copies
	if copies == 0 {
		copies = min(labelled(s), mostLabels)
	}
	if copies == 0 {
		doc.Notes = append(doc.Notes, "No living plant of "+s.Label()+" stands free, so no label is made; --copies makes some.")
	}
	sheet := table.Labels{
		Desc:    "Labels to print and cut apart, with the four data lines in words and as a QR code.",
		Heading: p.heading(), Lines: p.lines(), Code: strings.Join(p.lines(), "\n"), Foot: deferral,
	}
	sheets := (copies + table.LabelsOnASheet - 1) / table.LabelsOnASheet
	for i := range sheets {
		sheet.Count = min(copies-i*table.LabelsOnASheet, table.LabelsOnASheet)
		sheet.Title = fmt.Sprintf("Labels for %s, sheet %d of %d", s.Label(), i+1, sheets)
		doc.Body = append(doc.Body, sheet)
	}
	return doc, nil
}

// labelled is how many plants want a label.
func labelled(s subject) int {
	switch t := s.Thing.(type) {
	case *nursery.Lot:
		return int(t.Free(fact.Living))
	case *nursery.Tree, *nursery.Bundle:
		return 1
	}
	return 0
}

// A passport is the data of a label.
type passport struct {
	s          subject
	a, b, c, d string // the lines; b and d are empty where they are not known
	missing    []string
}

func passportOf(n *nursery.Nursery, s subject) (passport, error) {
	p := passport{s: s, c: s.Label()}
	if s.Thing == nil {
		return p, fmt.Errorf("a label is for a lot, a tree or a bundle of wood, and %s is a %s", s.Label(), s.kind())
	}
	if p.a = s.identity().Species(); p.a == "" {
		return p, fmt.Errorf("the species of %s is not known, and a label can't do without; declare it with the variety", s.Label())
	}
	if len(p.a)+len(p.c) > mostLetters {
		return p, fmt.Errorf("the names of %s are too long for a label", s.Label())
	}
	country, registration := "", ""
	if n.Farm != nil {
		country, registration = twoLetters(n.Farm.Country.Text), n.Farm.Registration.Text
	}
	if country == "" || registration == "" {
		p.missing = append(p.missing, `B wants the farm's country and its number: farm "…" country ESP registration "…".`)
	} else {
		p.b = country + "-" + registration
	}
	switch {
	case country == "":
	case broughtIn(n, s.Thing):
		p.missing = append(p.missing, s.Label()+" was bought in: D is the country on the supplier's paper.")
	default:
		p.d = country
	}
	return p, nil
}

// mostLetters is about what fits on a label.
const mostLetters = 120

// broughtIn reports whether plants, or some of those that a thing may be, came from
// outside and nothing was made of them here: what was only parted, joined, set out,
// taken back or released from a graft that failed was made elsewhere.
func broughtIn(n *nursery.Nursery, t nursery.Thing) bool {
	seen := map[nursery.Thing]bool{t: true}
	for queue := []nursery.Thing{t}; len(queue) > 0; queue = queue[1:] {
		if f, ok := queue[0].Origin().Effect.(*fact.Begin); ok {
			if f.How == fact.Bought {
				return true
			}
			continue // raised here, whoever the seed or the cuttings are from
		}
		for _, link := range n.Tops(queue[0]) {
			from := link.From.Thing
			switch {
			case link.Step == nursery.BoughtFrom:
				return true
			case link.Step == nursery.Kept && from != nil && !seen[from]:
				seen[from] = true
				queue = append(queue, from)
			}
		}
	}
	return false
}

// twoLetters is the two-letter code of a country (ISO 3166-1) for its three
// letters, or nothing.
func twoLetters(three string) string {
	region, err := language.ParseRegion(three)
	if err != nil || !region.IsCountry() {
		return ""
	}
	return region.String()
}

// heading is what people call the plant: its variety, and apart from that the
// trade designation, which is no name of a cultivar.
func (p passport) heading() string {
	words := p.s.called()
	if on := standsOn(p.s.Thing); on.Known() {
		words += " on " + on.Plain()
	}
	if trade := p.trade(); trade != "" {
		words += ", sold as " + trade
	}
	return words
}

// trade is the name that the variety is sold under, where that is another.
func (p passport) trade() string {
	if id := p.s.identity(); id.Variety != nil && !id.Seedling {
		return id.Variety.Fact.Trade.Text
	}
	return ""
}

// lines are the four, without those that are not known.
func (p passport) lines() []string {
	lines := []string{"A " + p.a}
	if p.b != "" {
		lines = append(lines, "B "+p.b)
	}
	lines = append(lines, "C "+p.c)
	if p.d != "" {
		lines = append(lines, "D "+p.d)
	}
	return lines
}

func (p passport) facts() table.Facts {
	f := table.Facts{Name: "data", Title: "Data lines", Items: []table.Fact{
		{Name: "a", Heading: "A  botanical name", Value: table.Text(p.a)},
		{Name: "b", Heading: "B  registration", Value: textOrUnknown(p.b)},
		{Name: "c", Heading: "C  traceability code", Value: table.Text(p.c)},
		{Name: "d", Heading: "D  country of origin", Value: textOrUnknown(p.d)},
		{Name: "variety", Value: textOrUnknown(p.s.called())},
		{Name: "trade", Heading: "sold as", Value: textOrUnknown(p.trade())},
		{Name: "on", Heading: "stands on", Value: standsOn(p.s.Thing)},
		{Name: "made", Heading: "made", Value: textOrUnknown(p.s.describe())},
	}}
	if labelled(p.s) > 0 {
		f.Items = append(f.Items, table.Fact{Name: "plants", Value: table.Count(labelled(p.s))})
	}
	return f
}
