package invent

import "fmt"

// A crop is a kind of fruit that the invented nursery raises.
type crop struct {
	species  string
	tops     []string // its cultivars
	stock    string   // the variety that stocks are sown of
	stockOf  string   // its species
	method   []string
	month    int // in which it is grafted
	code     string
	price    float64 // of a tree
	kilo     float64 // of fruit
	fruit    float64 // mass of one, in kg
	harvest  int     // month
	layered  bool
	takeRate float64
	saleable int // days from the graft, or from severing
}

var crops = []crop{
	{"Eriobotrya japonica", []string{"Amberlight", "Saltmarsh Gold", "Tern"}, "Quince BA", "Cydonia oblonga",
		[]string{"whip-and-tongue", "cleft", "bark"}, 3, "L", 19, 3.2, 0.06, 5, false, 0.80, 185},
	{"Diospyros kaki", []string{"Lanternfall", "Old Copper"}, "Lotus 4", "Diospyros lotus",
		[]string{"whip-and-tongue", "cleft", "chip"}, 3, "K", 24, 2.8, 0.22, 10, false, 0.72, 245},
	{"Ficus carica", []string{"Firstfig", "Nightjar"}, "", "", nil, 4, "F", 14, 4.5, 0.05, 8, true, 0.85, 95},
	{"Punica granatum", []string{"Redwing", "Garnet Hill"}, "", "", nil, 4, "P", 12, 2.4, 0.30, 10, true, 0.78, 125},
}

// A hand is someone who works at the nursery, and by how much the take is
// better in that hand.
type hand struct {
	name  string
	wage  string
	skill float64
}

var hands = []hand{{"Ines", "14.50", 0.06}, {"Ru", "13.00", 0}, {"Tamsin", "12.80", -0.03}, {"Otto", "12.00", -0.10}}

var (
	places = []string{"shade-1", "shade-2", "shade-3", "bench", "yard"}
	buyers = []string{"Harbour Street market", "Fennel & Daughter", "Orchard Lane School", "Quayside Gardens", "Walk-in"}
	causes = []string{"frost", "rot", "slugs", "drought", "breakage"}
)

// staff makes the hands and mother trees of a nursery that writes so many
// entries a year: a large one has more of both, each as good as one of the
// first.
func (j *journal) staff(entriesAYear int) {
	for i := range max(len(hands), entriesAYear/100) {
		h := hands[i%len(hands)]
		if i >= len(hands) {
			h.name = fmt.Sprintf("%s-%d", h.name, i/len(hands)+1)
		}
		j.hands = append(j.hands, h)
	}
	j.mothers = max(4, entriesAYear/200)
}

// mother names a mother tree.
func (j *journal) mother(c crop, cultivar, i int) string {
	return fmt.Sprintf("%s%d", c.code, cultivar*j.mothers+i+1)
}

// declare writes the standing facts.
func (j *journal) declare() {
	j.put(`farm "Kestrel Hollow" currency EUR season from October`)
	for _, h := range j.hands {
		j.put(fmt.Sprintf("worker %s %s per h", h.name, h.wage))
	}
	for _, p := range places {
		j.put("place " + p)
	}
	for _, b := range buyers {
		j.put(fmt.Sprintf("party %q as customer", b))
	}
	j.put(`party "Seed merchant" as supplier`)
	for _, c := range causes {
		j.put("cause " + c)
	}
	for _, c := range crops {
		if c.stock != "" {
			j.put(fmt.Sprintf("variety %q species %q use rootstock", c.stock, c.stockOf))
		}
		for i, v := range c.tops {
			j.put(fmt.Sprintf("variety %q species %q seed monoembryonic", v, c.species))
			for m := range j.mothers {
				j.put(fmt.Sprintf("tree %s variety %q planted %d at terrace-%d", j.mother(c, i, m), v, 1992+m%12, i+1))
			}
		}
	}
}
