package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/cost"
	"github.com/budstick/budstick/report/stat"
	"github.com/budstick/budstick/report/table"
)

// planDoc writes a scheme into a report.
type planDoc struct {
	*scheme
	as   *scheme // without what is supposed; nil where nothing is
	asAt fact.Date
	days planDays
}

// A step is one row of the plan.
type step struct {
	what    string
	count   func(*scheme) int
	have    int // on hand already; -1 where nothing can be
	by      fact.Date
	restsOn []link
	stocks  bool // brings the stocks, so enough of them on hand stand for it
}

func (p *planDoc) doc(n *nursery.Nursery, o Options) *table.Doc {
	doc := heading(n, o, "plan", fmt.Sprintf("%s of %s by %s", counted(p.want.Count, "tree", "trees"), p.variety.Name, p.want.By.Long()), table.NoBasis)
	steps := p.steps()
	doc.Cautions = p.cautions(steps)
	if isProtected(p.variety, o.AsAt) {
		doc.Cautions = append(doc.Cautions, protectedCaution(p.variety))
	}
	doc.Body = []table.Block{p.stepTable(steps), p.linkTable()}
	if p.stock != nil {
		if list, short := p.mothers(); len(list) > 0 {
			doc.Body = append(doc.Body, motherTable(list))
			if short > 0 {
				doc.Cautions = append(doc.Cautions, fmt.Sprintf("The mothers that stand can't safely give %s. Ask for wood elsewhere, with its papers, or plan for fewer.",
					counted(short, "of the scions", "of the scions")))
			}
		} else {
			doc.Cautions = append(doc.Cautions, fmt.Sprintf("No tree of %s stands here that wood could be cut from.", p.variety.Name))
		}
	}
	doc.Body = append(doc.Body, p.facts(o))
	if len(p.gates) > 1 {
		doc.Body = append(doc.Body, p.tornado())
	}
	doc.Notes = p.notes()
	return doc
}

// steps are what is to be done, in order.
func (p *planDoc) steps() []step {
	var steps []step
	at := func(gate int) func(*scheme) int { return func(s *scheme) int { return s.needs[gate] } }
	take := p.takeGate()
	if p.stock != nil {
		begin := step{what: "liners of " + p.stock.Name + " to have", count: at(0), have: p.onHand(), by: p.days.start, restsOn: p.gates[0].links, stocks: true}
		if !p.bought {
			begin.what, begin.have = beginning[p.raised]+" of "+p.stock.Name+toDo[p.raised], -1
		}
		steps = append(steps, begin, step{what: "scions of " + p.variety.Name + " to cut", count: (*scheme).scions, have: -1, by: p.days.cut, restsOn: p.gates[take].links})
	}
	work := step{what: beginning[p.kind] + " of " + p.variety.Name + toDo[p.kind], count: at(take), have: -1, by: p.days.work, restsOn: p.gates[take].links}
	if p.stock != nil {
		work.what, work.have = "stocks of "+p.stock.Name+" to graft", p.onHand()
	}
	steps = append(steps, work)
	if len(p.gates[take].links) > 1 {
		steps = append(steps, step{what: "failed stocks to graft again", count: (*scheme).reworks, have: -1, by: p.days.again, restsOn: p.gates[take].links[1:]})
	}
	young := step{what: "young trees after the check", count: at(len(p.gates) - 1), have: -1,
		by: max(p.days.check, p.days.again+p.days.check-p.days.work), restsOn: p.gates[len(p.gates)-1].links}
	return append(steps, young, step{what: "trees ready", count: func(s *scheme) int { return s.want.Count }, have: -1, by: p.want.By})
}

var beginning = [...]string{nursery.GraftBatch: "stocks", nursery.LayerBatch: "layers", nursery.CuttingBatch: "cuttings", nursery.SeedBatch: "seeds"}

var toDo = [...]string{nursery.GraftBatch: " to graft", nursery.LayerBatch: " to set", nursery.CuttingBatch: " to stick", nursery.SeedBatch: " to sow"}

// scions is how many scions are cut for the first attempts and the later ones.
func (s *scheme) scions() int { return s.scionsFor(s.works(), s.failing()) }

// reworks is how many failed stocks are expected to be worked again.
func (s *scheme) reworks() int { return ceil(float64(s.works()) * s.failing() * s.workedAgain()) }

// onHand is the plain stocks that stand free.
func (p *planDoc) onHand() int {
	plants := int32(0)
	for _, l := range p.n.Lots {
		if !l.Grafted() && l.Top.Variety == p.stock && !l.Limbs {
			plants += l.Free(fact.Living)
		}
	}
	return int(plants)
}

func (p *planDoc) stepTable(steps []step) table.Table {
	t := table.Table{Name: "steps", Title: "What is to be done", Columns: []table.Column{
		{Name: "what", Kind: table.KindText},
		{Name: "count", Heading: "at least", Kind: table.KindCount},
		{Name: "count_as_is", Heading: "as it is", Kind: table.KindCount, For: p.supposing()},
		{Name: "have", Heading: "on hand", Kind: table.KindCount, Spare: 1, For: table.Everyone},
		{Name: "lacking", Kind: table.KindCount, Spare: 1},
		{Name: "by_date", Heading: "by", Kind: table.KindDate},
		{Name: "rests_on", Kind: table.KindText, Spare: 2},
	}}
	for _, s := range steps {
		asIs, have, lacking := table.Unknown(), table.Unknown(), table.Unknown()
		if p.as != nil {
			asIs = table.Count(s.count(p.as))
		}
		if s.have >= 0 {
			have, lacking = table.Count(s.have), table.Count(max(s.count(p.scheme)-s.have, 0))
		}
		var rests []string
		for _, l := range s.restsOn {
			rests = append(rests, l.name+" "+l.restsOn())
		}
		t.Add(table.Text(s.what), table.Count(s.count(p.scheme)), asIs, have, lacking, table.Date(s.by.String()), textOrUnknown(strings.Join(rests, "; ")))
	}
	return t
}

// supposing is who sees the counts as they are: everyone, where something is
// supposed.
func (p *planDoc) supposing() table.Audience {
	if p.as == nil {
		return table.Machines
	}
	return table.Everyone
}

// linkTable shows what each link may bring next season.
func (p *planDoc) linkTable() table.Table {
	t := table.Table{Name: "links", Title: "What the next season may bring", Columns: []table.Column{
		{Name: "link", Kind: table.KindText, Group: true},
		{Name: "what", Kind: table.KindText, Spare: 5},
		{Name: "records_of", Kind: table.KindText, Spare: 2},
		{Name: "passed", Kind: table.KindCount},
		{Name: "known", Kind: table.KindCount},
		{Name: "seasons", Kind: table.KindCount},
		{Name: "share", Kind: table.KindRate, Low: "low", High: "high"},
		{Name: "low", Kind: table.KindRate, For: table.Machines},
		{Name: "high", Kind: table.KindRate, For: table.Machines},
	}}
	for _, l := range p.links() {
		if l.assumed {
			share := table.Rate(l.chance.Mean())
			t.Add(table.Text(l.name), table.Text(l.what), table.Text("supposed"), table.Unknown(), table.Unknown(), table.Unknown(), share, share, share)
			continue
		}
		pool := l.pool()
		share := table.Rate(l.chance.Mean())
		if pool.N < enoughToPlan || len(l.seasons) < 2 {
			share = share.With(table.FewData)
		}
		t.Add(table.Text(l.name), table.Text(l.what), table.Text(l.of), table.Count(pool.X), table.Count(pool.N), table.Count(len(l.seasons)),
			share, table.Rate(l.chance.Quantile(0.1)), table.Rate(l.chance.Quantile(0.9)))
	}
	t.Notes = []string{"Shares are those to be expected; eight seasons in ten they lie in the range."}
	return t
}

func (s *scheme) links() []link {
	var list []link
	for _, g := range s.gates {
		list = append(list, g.links...)
	}
	return list
}

// mothers are the plants to cut wood from, and the scions that they can't give.
func (p *planDoc) mothers() (list []giver, short int) {
	list = p.givers(p.days.cut)
	if !slices.ContainsFunc(list, func(g giver) bool { return g.unsound == "" }) {
		return nil, 0
	}
	return list, shareOut(list, p.scions())
}

func (p *planDoc) facts(o Options) table.Facts {
	f := table.Facts{Items: []table.Fact{
		{Name: "want", Heading: "trees wanted", Value: table.Count(p.want.Count)},
		{Name: "sure", Heading: "asked to be sure", Value: table.Rate(p.want.Sure)},
		{Name: "assurance", Value: table.Rate(p.rest[0].AtLeast(p.want.Count, p.needs[0]))},
		{Name: "expected", Heading: "trees to be expected", Value: table.Count(int(float64(p.needs[0])*p.rest[0].Mean() + 0.5))},
	}}
	if buds, ok := p.budsOnSticks(); ok && p.stock != nil {
		f.Items = append(f.Items, table.Fact{Name: "sticks", Heading: fmt.Sprintf("sticks of %d buds", buds),
			Value: table.Count((p.scions() + int(buds) - 1) / int(buds))})
	}
	if hours, ok := p.benchHours(); ok {
		f.Items = append(f.Items, table.Fact{Name: "bench_hours", Unit: "h", Decimals: 1, Value: table.Number(hours)})
	}
	if each, all, ok := p.tiedUp(o); ok {
		f.Items = append(f.Items, table.Fact{Name: "cost_each", Heading: "what a tree has cost here", Value: each},
			table.Fact{Name: "tied_up", Heading: "money in the trees when they are ready", Value: all})
	}
	return f
}

// tiedUp is what a tree of the variety has cost here, of those sold or standing,
// and what as many as are wanted then carry between them; ok is false where no
// money is written of, or it can't be added up.
func (p *planDoc) tiedUp(o Options) (each, all table.Cell, ok bool) {
	e, err := earn(p.n, Options{AsAt: o.AsAt, By: []string{"variety"}})
	if err != nil {
		return each, all, false
	}
	a := e.accounts[cost.Trees][p.variety.Name]
	if a == nil {
		return each, all, false
	}
	spent, trees := a.perTree()
	if trees <= 0 || spent.Sign() <= 0 {
		return each, all, false
	}
	return e.each(spent, trees), e.cash(spent.MulFrac(int64(p.want.Count), trees)), true
}

// benchHours is how long the work takes at the pace of this farm's timed
// entries; ok is false where none is timed.
func (p *planDoc) benchHours() (hours float64, ok bool) {
	work, timed := pace(func(yield func(*fact.Entry, int32)) {
		p.own(func(b *nursery.Batch) { yield(b.Entry, b.Made) })
	})
	if !timed {
		return 0, false
	}
	count := p.works()
	if p.stock != nil {
		count += p.reworks()
	}
	minutes := work * float64(count)
	if cut, timed := pace(func(yield func(*fact.Entry, int32)) {
		for _, b := range p.n.Bundles {
			if b.Variety == p.variety && b.Count > 0 && b.Noun == fact.Scions {
				yield(b.Made, b.Count)
			}
		}
	}); timed && p.stock != nil {
		minutes += cut * float64(p.scions())
	}
	return minutes / 60, true
}

// pace is the minutes for one of what entries made, of those that are timed.
func pace(entries func(yield func(*fact.Entry, int32))) (minutes float64, ok bool) {
	var total, made float64
	entries(func(e *fact.Entry, count int32) {
		sum := 0.0
		for _, w := range e.Workers() {
			if !w.Timed {
				return
			}
			sum += w.Minutes.Float()
		}
		if sum > 0 {
			total += sum
			made += float64(count)
		}
	})
	if made == 0 {
		return 0, false
	}
	return total / made, true
}

// late reports whether the day of a step is past, by more than a few days, and
// what is on hand does not make up for it.
func (p *planDoc) late(s step) bool {
	return s.by+patience/2 < p.asAt && !(s.stocks && p.onHand() >= p.works())
}

// cautions say what is too late.
func (p *planDoc) cautions(steps []step) []string {
	var late []string
	for _, s := range steps[:len(steps)-1] {
		if p.late(s) {
			late = append(late, fmt.Sprintf("%s (%s)", s.what, s.by))
		}
	}
	if len(late) == 0 {
		return nil
	}
	return []string{"It is late for this, by the farm's own days: " + someOf(late) + ". Plan for a later day, or for what is on hand."}
}

func (p *planDoc) notes() []string {
	notes := []string{fmt.Sprintf("Each count is the least with which, from there on, the trees are ready in %s seasons of 100.", strings.TrimSuffix(percent(p.want.Sure), "%"))}
	if l, ok := weakest(p.links()); ok {
		notes = append(notes, fmt.Sprintf("The least is known of %s: %s (records of %s). More seasons of it make the plan smaller.", l.name, l.restsOn()+" in "+counted(len(l.seasons), "season", "seasons"), l.of))
	}
	if p.stock != nil {
		note := fmt.Sprintf("Scions are cut with %d in 100 to spare (common practice, no source)", spareWood)
		if again := p.workedAgain(); again > 0 {
			note += fmt.Sprintf(", and for %s of the failed stocks to be worked again", percent(again))
		}
		notes = append(notes, note+".")
	}
	if slices.ContainsFunc(p.links(), func(l link) bool { return l.assumed }) {
		notes = append(notes, "What is supposed is taken to be certain, so the assurance holds only if it is.")
	}
	return notes
}

// tornado shows how the first count moves with each link alone.
func (p *planDoc) tornado() table.Tornado {
	t := table.Tornado{Title: "What the first count hangs on", Axis: p.steps()[0].what,
		Desc: "How many are needed if one link alone comes out as badly, or as well, as one season in ten.",
		Base: table.Count(p.needs[0])}
	for i, g := range p.gates {
		for j, l := range g.links {
			if l.assumed {
				continue
			}
			swing := table.Swing{Label: l.name}
			swing.LowAt, swing.Low = p.swing(i, j, l.chance.Quantile(0.1))
			swing.HighAt, swing.High = p.swing(i, j, l.chance.Quantile(0.9))
			t.Swings = append(t.Swings, swing)
		}
	}
	return t
}

// swing is the first count if one link has a share for certain.
func (p *planDoc) swing(gate, at int, share float64) (says string, need table.Cell) {
	rest := stat.Certain(1)
	for i := len(p.gates) - 1; i >= 0; i-- {
		chance := p.gates[i].chance
		if i == gate {
			links := slices.Clone(p.gates[i].links)
			links[at].chance = stat.Certain(share)
			chance = links[0].chance
			if len(links) > 1 {
				chance = chance.OrThen(links[1].chance)
			}
		}
		rest = chance.Then(rest)
	}
	says = percent(share)
	n, ok := rest.TrialsFor(p.want.Count, p.want.Sure)
	if !ok {
		return says, table.Unknown()
	}
	return says, table.Count(n)
}
