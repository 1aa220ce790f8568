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
}

var crops = []crop{
	{"Eriobotrya japonica", []string{"Amberlight", "Saltmarsh Gold", "Tern"}, "Quince BA", "Cydonia oblonga",
		[]string{"whip-and-tongue", "cleft", "bark"}, 3, "L", 19, 3.2, 0.06, 5, false, 0.80},
	{"Diospyros kaki", []string{"Lanternfall", "Old Copper"}, "Lotus 4", "Diospyros lotus",
		[]string{"whip-and-tongue", "cleft", "chip"}, 3, "K", 24, 2.8, 0.22, 10, false, 0.72},
	{"Ficus carica", []string{"Firstfig", "Nightjar"}, "", "", nil, 4, "F", 14, 4.5, 0.05, 8, true, 0.85},
	{"Punica granatum", []string{"Redwing", "Garnet Hill"}, "", "", nil, 4, "P", 12, 2.4, 0.30, 10, true, 0.78},
}

var (
	workers = []string{"Ines", "Ru", "Tamsin", "Otto"}
	skill   = map[string]float64{"Ines": 0.06, "Ru": 0.0, "Tamsin": -0.03, "Otto": -0.10}
	wages   = []string{"14.50", "13.00", "12.80", "12.00"}
	places  = []string{"shade-1", "shade-2", "shade-3", "bench", "yard"}
	buyers  = []string{"Harbour Street market", "Fennel & Daughter", "Orchard Lane School", "Quayside Gardens", "Walk-in"}
	causes  = []string{"frost", "rot", "slugs", "drought", "breakage"}
)

// mothers is the number of mother trees of each cultivar.
const mothers = 4

// mother names a mother tree.
func mother(c crop, cultivar, i int) string { return fmt.Sprintf("%s%d", c.code, cultivar*mothers+i+1) }

// declare writes the standing facts.
func (j *journal) declare() {
	j.put(`farm "Kestrel Hollow" currency EUR season from October`)
	for i, w := range workers {
		j.put(fmt.Sprintf("worker %s %s per h", w, wages[i]))
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
			for m := range mothers {
				j.put(fmt.Sprintf("tree %s variety %q planted %d at terrace-%d", mother(c, i, m), v, 1992+m, i+1))
			}
		}
	}
}
