package report

import (
	"cmp"
	"slices"
	"strings"

	"github.com/budstick/budstick/grammar/fact"
	"github.com/budstick/budstick/grammar/nursery"
	"github.com/budstick/budstick/report/table"
)

// inspection is the sheet for an inspector.
func inspection(n *nursery.Nursery, o Options) *table.Doc {
	doc := calendar(n, o, "record", "Record for an inspection")
	doc.Cautions = []string{deferral}
	s := sheetOf{n, o.Period(), o.AsAt}
	doc.Body = []table.Block{premises(n)}
	for _, t := range []table.Table{s.arrivals(), s.departures(), s.moves(), s.treatments(), s.inspections(), s.losses(), s.marks(), s.standing()} {
		doc.Body = append(doc.Body, t)
	}
	doc.Notes = []string{"Every line comes from an entry of the journal. What was never written is not here."}
	return doc
}

func premises(n *nursery.Nursery) table.Facts {
	f := table.Facts{Name: "premises", Title: "The nursery"}
	if n.Farm == nil {
		return f
	}
	f.Items = []table.Fact{
		{Name: "farm", Value: table.Text(n.Farm.Name.Text)},
		{Name: "country", Value: textOrUnknown(n.Farm.Country.Text)},
		{Name: "registration", Value: textOrUnknown(n.Farm.Registration.Text)},
	}
	return f
}

// A sheetOf makes the tables of a sheet about a period.
type sheetOf struct {
	n      *nursery.Nursery
	period Period
	asAt   fact.Date
}

// tells reports whether an entry counts and is of the period.
func (s sheetOf) tells(e *fact.Entry) bool { return !s.n.Refused[e] && s.period.Contains(e.Day()) }

func column(name string, kind table.Kind, spare int) table.Column {
	return table.Column{Name: name, Kind: kind, Spare: spare}
}

// kindColumns say what plants are; kindCells are their cells.
func kindColumns() []table.Column {
	return []table.Column{column("species", table.KindText, 0), column("variety", table.KindText, 0)}
}

func kindCells(s subject) []table.Cell {
	return []table.Cell{textOrUnknown(s.identity().Species()), textOrUnknown(s.called())}
}

// tableOf makes a table with the columns of what plants are after the first few.
func tableOf(name, title string, before []table.Column, after ...table.Column) table.Table {
	return table.Table{Name: name, Title: title, Columns: slices.Concat(before, kindColumns(), after)}
}

// arrivals are what came in from outside.
func (s sheetOf) arrivals() table.Table {
	t := tableOf("arrivals", "In", []table.Column{
		column("date", table.KindDate, 0), column("from", table.KindText, 0), column("how", table.KindText, 2),
	}, column("count", table.KindCount, 0), column("noun", table.KindText, 1), column("as", table.KindText, 0))
	add := func(e *fact.Entry, how, noun string, thing nursery.Thing, from []fact.Name, count int32) {
		row := []table.Cell{dayCell(e.Day()), textOrUnknown(s.parties(from)), table.Text(how)}
		row = append(row, kindCells(of(thing))...)
		t.Add(append(row, table.Count(count), table.Text(noun), table.Text(thing.Label()))...)
	}
	for _, e := range s.n.Entries {
		if !s.tells(e) {
			continue
		}
		switch f := e.Effect.(type) {
		case *fact.Begin:
			thing, ok := s.n.Thing(f.As.Text)
			if ok && thing.Origin() == e && (f.How == fact.Bought || s.parties(f.From) != "") {
				add(e, f.How.String(), f.Noun.String(), thing, f.From, f.Count.N)
			}
		case *fact.Return:
			if thing, ok := s.n.Thing(f.As.Text); ok && thing.Origin() == e {
				add(e, "returned", "plants", thing, []fact.Name{f.From}, f.Count.N)
			}
		}
	}
	for _, tree := range s.n.Trees {
		if day := tree.Planted; tree.From.Party != nil && day.First != 0 && day.Exact() && s.period.Contains(day.First) {
			row := []table.Cell{dayCell(day.First), table.Text(tree.From.Party.Name), table.Text("planted")}
			row = append(row, kindCells(of(tree))...)
			t.Add(append(row, table.Count(1), table.Text("tree"), table.Text(tree.Name))...)
		}
	}
	return t
}

// parties are the names that are of someone outside the farm.
func (s sheetOf) parties(names []fact.Name) string {
	var out []string
	for _, name := range names {
		if _, thing := s.n.Thing(name.Text); thing {
			continue
		}
		if p, ok := s.n.Party(name.Text); ok {
			out = append(out, p.Name)
		}
	}
	return strings.Join(out, ", ")
}

// departures are what was sold or given.
func (s sheetOf) departures() table.Table {
	t := tableOf("departures", "Out", []table.Column{
		column("date", table.KindDate, 0), column("to", table.KindText, 0), column("how", table.KindText, 2),
	}, column("on", table.KindText, 4), column("count", table.KindCount, 0), column("state", table.KindText, 3),
		column("of", table.KindText, 0), column("paper", table.KindText, 1))
	all := recall{s.n, s.period, func(nursery.Thing) bool { return true }}
	list := slices.DeleteFunc(all.handings(), func(h handing) bool { return h.how == "returned" })
	slices.SortStableFunc(list, func(a, b handing) int { return cmp.Compare(a.day, b.day) })
	for _, h := range list {
		row := []table.Cell{dayCell(h.day), textOrUnknown(h.party), table.Text(h.how), textOrUnknown(h.species), textOrUnknown(h.called)}
		count := table.Unknown()
		if h.count > 0 {
			count = table.Count(h.count)
		}
		t.Add(append(row, h.on, count, table.Text(h.state), table.Text(h.what.Label()), textOrUnknown(h.paper))...)
	}
	return t
}

// moves are changes of place within the nursery.
func (s sheetOf) moves() table.Table {
	t := tableOf("moves", "Moved within the nursery", []table.Column{
		column("date", table.KindDate, 0), column("lot", table.KindText, 0),
	}, column("from", table.KindText, 0), column("to", table.KindText, 0), column("count", table.KindCount, 1))
	type move struct {
		by       *fact.Entry
		lot      *nursery.Lot
		from, to string
	}
	var list []move
	for _, l := range s.n.Lots {
		before, known := s.placeBefore(l)
		for _, spot := range l.Spots {
			to := placeName(spot.Place)
			if known && to != before && to != "" && s.period.Contains(spot.By.Day()) {
				list = append(list, move{spot.By, l, before, to})
			}
			before, known = to, true
		}
	}
	slices.SortStableFunc(list, func(a, b move) int { return cmp.Compare(a.by.Day(), b.by.Day()) })
	plants := plantsAfter(s.n)
	for _, m := range list {
		row := append([]table.Cell{dayCell(m.by.Day()), table.Text(m.lot.Name)}, kindCells(of(m.lot))...)
		t.Add(append(row, textOrUnknown(m.from), table.Text(m.to), table.Count(plants(m.lot, m.by)))...)
	}
	return t
}

// plantsAfter makes a function that says how many plants a lot held right after
// an entry, from all moves of plants.
func plantsAfter(n *nursery.Nursery) func(*nursery.Lot, *fact.Entry) int32 {
	of := map[*nursery.Lot][]*nursery.Move{}
	for i := range n.Moves {
		m := &n.Moves[i]
		if m.To != nil {
			of[m.To] = append(of[m.To], m)
		}
		if m.From != nil && m.From != m.To {
			of[m.From] = append(of[m.From], m)
		}
	}
	inOrder := func(a, b *fact.Entry) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), strings.Compare(a.File.Path, b.File.Path), cmp.Compare(a.Line, b.Line))
	}
	return func(l *nursery.Lot, after *fact.Entry) (plants int32) {
		for _, m := range of[l] {
			switch {
			case inOrder(m.Entry, after) > 0 || m.From == m.To:
			case m.To == l:
				plants += m.N
			default:
				plants -= m.N
			}
		}
		return plants
	}
}

// placeBefore is where the plants of a lot stood when they became one; it is
// not known of what began as something else, or of several.
func (s sheetOf) placeBefore(l *nursery.Lot) (string, bool) {
	if len(l.Roots) != 1 {
		return "", false
	}
	from, ok := l.Roots[0].Thing.(*nursery.Lot)
	if !ok {
		return "", false
	}
	for i := len(from.Spots) - 1; i >= 0; i-- {
		if spot := from.Spots[i]; spot.By != l.Made && spot.By.Date <= l.Made.Date {
			return placeName(spot.Place), spot.Place != nil
		}
	}
	return "", false
}

// treatments are what was put on plants. How much of it is nobody's to read
// here: the label says that.
func (s sheetOf) treatments() table.Table {
	t := table.Table{Name: "treatments", Title: "Treatments", Columns: []table.Column{
		column("date", table.KindDate, 0), column("what", table.KindText, 0), column("product", table.KindText, 0),
		{Name: "registered", Heading: "registered as", Kind: table.KindText}, {Name: "re_entry", Heading: "re-entry", Kind: table.KindText, Spare: 1},
		column("reason", table.KindText, 2), column("place", table.KindText, 3), column("worker", table.KindText, 2),
	}}
	add := func(e *fact.Entry, of []fact.Name, product, number, reentry, why string) {
		t.Add(dayCell(e.Day()), table.Text(nameList(of)), table.Text(product), textOrUnknown(number), textOrUnknown(reentry),
			textOrUnknown(why), textOrUnknown(e.At().Text), textOrUnknown(nursery.Crew(e)))
	}
	for _, e := range s.n.Entries {
		if !s.tells(e) {
			continue
		}
		switch f := e.Effect.(type) {
		case *fact.Treat:
			reentry := ""
			if f.Reentry.Given {
				reentry = f.Reentry.Value.String() + " " + string(f.Reentry.Unit)
			}
			add(e, f.Of, f.With.Text, f.Number.Text, reentry, f.Why.Text)
		case *fact.Tend:
			if f.With.Given() {
				add(e, f.Lots, f.With.Text, "", "", f.Job.Text)
			}
		case *fact.Layer:
			if f.Hormone.Given() {
				add(e, []fact.Name{f.As}, f.Hormone.Text, "", "", "rooting hormone")
			}
		case *fact.Begin:
			if f.Hormone.Given() {
				add(e, []fact.Name{f.As}, f.Hormone.Text, "", "", "rooting hormone")
			}
		}
	}
	return t
}

func nameList(names []fact.Name) string {
	list := make([]string, len(names))
	for i, name := range names {
		list[i] = name.Text
	}
	return strings.Join(list, ", ")
}

// inspections are those that were written, with their papers.
func (s sheetOf) inspections() table.Table {
	t := table.Table{Name: "inspections", Title: "Inspections and certificates", Columns: []table.Column{
		column("date", table.KindDate, 0), column("what", table.KindText, 0), column("by", table.KindText, 0),
		column("certificate", table.KindText, 0), column("until", table.KindDate, 0),
	}}
	for i := range s.n.Visits {
		e := s.n.Visits[i].Entry
		if f, ok := e.Effect.(*fact.Inspect); ok && s.period.Contains(e.Day()) {
			t.Add(dayCell(e.Day()), table.Text(nameList(f.Of)), textOrUnknown(f.By.Text), textOrUnknown(f.Certificate.Text), dayCell(f.Until))
		}
	}
	return t
}

// losses are plants and trees that died, were culled or were found missing.
func (s sheetOf) losses() table.Table {
	t := tableOf("losses", "Lost", []table.Column{column("date", table.KindDate, 0), column("of", table.KindText, 0)},
		column("count", table.KindCount, 0), column("how", table.KindText, 1), column("cause", table.KindText, 0))
	add := func(e *fact.Entry, thing nursery.Thing, count int32, how, cause string) {
		row := append([]table.Cell{dayCell(e.Day()), table.Text(thing.Label())}, kindCells(of(thing))...)
		t.Add(append(row, table.Count(count), table.Text(how), textOrUnknown(cause))...)
	}
	for i := range s.n.Moves {
		m := &s.n.Moves[i]
		if how, cause := lossOf(m); how != "" && !m.From.Limbs && s.period.Contains(m.Entry.Day()) {
			add(m.Entry, m.From, m.N, how, cause)
		}
	}
	for _, tree := range s.n.Trees {
		e := tree.GoneBy
		if e == nil || !s.period.Contains(e.Day()) {
			continue
		}
		if f, ok := e.Effect.(*fact.Leave); ok && (f.How == fact.Lost || f.How == fact.Culled) {
			cause := f.To.Text
			if f.How == fact.Culled {
				cause = f.Why.Text
			}
			add(e, tree, 1, f.How.String(), cause)
		}
	}
	slices.SortStableFunc(t.Rows, func(a, b []table.Cell) int { return strings.Compare(a[0].Plain(), b[0].Plain()) })
	return t
}

// marks are plants that were found sick or untrue.
func (s sheetOf) marks() table.Table {
	t := table.Table{Name: "findings", Title: "Found sick or untrue", Columns: []table.Column{
		column("date", table.KindDate, 0), column("what", table.KindText, 0), column("mark", table.KindText, 0), column("reason", table.KindText, 0),
	}}
	for _, e := range s.n.Entries {
		if f, ok := e.Effect.(*fact.Mark); ok && f.Mark.Text != "verified" && s.tells(e) {
			word := f.Mark.Text
			if f.Clear {
				word = "no longer " + word
			}
			t.Add(dayCell(e.Day()), table.Text(f.Of.Text), table.Text(word), textOrUnknown(f.Why.Text))
		}
	}
	return t
}

// standing is what stands on the day of the report, lot by lot.
func (s sheetOf) standing() table.Table {
	t := tableOf("standing", "Under production", []table.Column{column("what", table.KindText, 0)},
		column("on", table.KindText, 1), column("place", table.KindText, 0), column("count", table.KindCount, 0))
	t.Notes = []string{"As at " + s.asAt.Long() + ", whatever the stretch of time above."}
	for _, l := range standing(s.n, nil) {
		row := append([]table.Cell{table.Text(l.Name)}, kindCells(of(l))...)
		t.Add(append(row, standsOn(l), textOrUnknown(placeName(l.Place)), table.Count(l.Plants()))...)
	}
	for _, tree := range s.n.Trees {
		if tree.Standing() {
			row := append([]table.Cell{table.Text(tree.Name)}, kindCells(of(tree))...)
			t.Add(append(row, standsOn(tree), textOrUnknown(placeName(tree.Place)), table.Count(1))...)
		}
	}
	return t
}
